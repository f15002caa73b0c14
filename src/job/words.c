/* Words that more than one table uses. */
#include "job/tables.h"

static const char *const sides[] = {[SIDE_LEFT] = "left", [SIDE_RIGHT] = "right"};
static const char *const fence_sides[] = {[FENCE_NEAR] = "near", [FENCE_FAR] = "far"};
static const char *const towards[] = {[TOWARD_OPERATOR] = "operator", [TOWARD_AWAY] = "away"};

const struct words side_words = WORDS(sides);
const struct words fence_side_words = WORDS(fence_sides);
const struct words toward_words = WORDS(towards);
