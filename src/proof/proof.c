/* The stage: every test is proven by the functions of its method, oldest first, since a later one may lean on the
   spread of earlier ones; then each method's history is judged, and the reckoner made. */
#include "proof.h"

#include "proof/history.h"
#include "proof/methods.h"
#include "proof/reading_table.h"
#include "proof/reckoner.h"

#include <string.h>

static const struct method_row *const rows[METHODS] = {
#define METHOD(id, prefix, name) [METHOD_##id] = &prefix##_method,
#include "job/methods.inc"
#undef METHOD
};

const struct method_row *method_row(enum method m)
{
    return rows[m];
}

bool methods_share_a_move(enum method a, enum method b)
{
    return a == b || (rows[a]->is_of_fence && rows[b]->is_of_fence);
}

bool proof_is_angle(const struct proof_test *t)
{
    return strcmp(t->unit, "rad") == 0;
}

bool proof_has_sign(const struct proof_test *t)
{
    return !rows[t->method]->error_is_a_size && !t->is_spread;
}

const struct proof_test *proof_latest(const struct proof *p, enum method m)
{
    for (size_t i = p->n_tests; i-- > 0;)
        if (p->tests[i].method == m && !p->tests[i].job->practice)
            return &p->tests[i];
    return NULL;
}

void proof_judge(const struct job *job, const struct setting *setting, struct proof *out)
{
    *out = (struct proof){.n_tests = job->n_tests};
    out->tests = pool_alloc(&out->pool, job->n_tests * sizeof *out->tests);
    for (size_t i = 0; i < job->n_tests; i++) {
        struct proving p = {.job = job, .setting = setting, .earlier = out->tests, .n_earlier = i, .pool = &out->pool};
        out->tests[i] = (struct proof_test){
            .job = &job->tests[i], .method = job->tests[i].method, .unit = "rad", .further_strips = -1};
        rows[job->tests[i].method]->prove(&p, &job->tests[i], &out->tests[i]);
    }
    for (int m = 0; m < METHODS; m++)
        history_build(job, (enum method)m, out);
    reckoner_build(job, setting, out, &out->reckoner);
}

/* Nothing that a reader lets through can fail here; the diagnostics are taken so that all stages have one shape. */
bool proof_build(const struct job *job, const struct setting *setting, struct diags *diags, struct proof *out)
{
    (void)diags;
    proof_judge(job, setting, out);
    reading_tables_build(job, setting, out);
    return true;
}

void proof_free(struct proof *p)
{
    if (p)
        pool_free(&p->pool);
}
