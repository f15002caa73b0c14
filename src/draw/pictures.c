/* Which method draws which pictures. */
#include "draw/pictures.h"

static bool (*const draw_picture[METHODS])(const struct picture *, struct drawing *) = {
#define METHOD(id, prefix, name) [METHOD_##id] = draw_##prefix##_picture,
#include "job/methods.inc"
#undef METHOD
};

bool draw_test_picture(const struct plan *plan, const struct proof *proof, enum method method, int step,
                       enum units units, struct pool *pool, struct drawing *out)
{
    const struct picture p = {
        .plan = plan, .proof = proof, .test = proof_latest(proof, method), .step = step, .units = units, .pool = pool};
    return draw_picture[method](&p, out);
}
