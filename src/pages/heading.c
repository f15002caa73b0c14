/* Headings: three levels by size and rule; the aside stands after the text, lighter. */
#include "pages/blocks.h"

#include "words.h"

#include <assert.h>

static const struct level {
    double size, above, below; /* [pt] */
    bool ruled;                /* a rule above it, across the width */
} levels[] = {
    {15.0, 20, 1.5, true},  /* page part */
    {12.0, 13, 0.5, false}, /* section */
    {10.0, 9, 0.0, false},  /* run-in */
};

static const char *with_aside(struct pool *pool, const char *text, const char *aside)
{
    if (!aside || !*aside)
        return pool_printf(pool, "%c%s%c", TEXT_BOLD_ON, text, TEXT_BOLD_OFF);
    return pool_printf(pool, "%c%s%c" NBSP NBSP " %s", TEXT_BOLD_ON, text, TEXT_BOLD_OFF, aside);
}

void set_heading(const struct setter *setter, const struct block *b, double width, struct slabs *out)
{
    int number = b->as.heading.level;
    assert(number >= 1 && number <= 3 && "headings have levels 1 to 3");
    const struct level *level = &levels[number - 1];
    double scale = setter->scale;
    struct rich rich = rich_of(STYLE_BODY, scale);
    rich.bold_size = level->size * scale;
    rich.size = (level->size > 12 ? 12 : level->size) * scale;
    rich.leading = level->size * 1.22 * scale;
    struct slab *slab = slabs_add(out);
    slab->above = level->above * scale;
    slab->rule = level->ruled ? width : 0;
    const char *text = with_aside(setter->pool, b->as.heading.text, b->as.heading.aside);
    slab->height = put_text(setter, &rich, text, 0, 0, width, &slab->inks) + level->below * scale;
    slab->keep_with_next = true;
}
