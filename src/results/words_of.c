/* Enumerators as results spell them. */
#include "results/words_of.h"

const char *spell_side(enum side s)
{
    return s == SIDE_LEFT ? "left" : "right";
}

const char *spell_toward(enum toward t)
{
    return t == TOWARD_OPERATOR ? "operator" : "away";
}

const char *spell_verdict(enum verdict v)
{
    static const char *const names[] = {[VERDICT_PASS] = "pass", [VERDICT_CAUTION] = "caution", [VERDICT_FAIL] = "fail"};
    return names[v];
}

const char *spell_finding(enum finding f)
{
    static const char *const names[] = {
        [FINDING_WITHIN] = "within", [FINDING_OUTSIDE] = "outside", [FINDING_UNDECIDED] = "undecided"};
    return names[f];
}

const char *spell_advice(enum advice a)
{
    static const char *const names[] = {
        [ADVICE_LEAVE] = "leave", [ADVICE_MOVE] = "move", [ADVICE_MEASURE_MORE] = "measure-more"};
    return names[a];
}

const char *spell_check_unit(enum check_unit u)
{
    static const char *const names[] = {[CHECK_MM] = "mm", [CHECK_RAD] = "rad", [CHECK_SHARE] = "1", [CHECK_NEWTON] = "N", [CHECK_COUNT] = "1"};
    return names[u];
}

const char *spell_state(const struct result_job *r, struct date today)
{
    return r->outcome ? outcome_state_id(outcome_state_on(r->outcome, today)) : "unreadable";
}

const char *spell_date(struct date d, char out[11])
{
    out[0] = '\0';
    if (date_is_set(d))
        date_print(d, out);
    return out;
}
