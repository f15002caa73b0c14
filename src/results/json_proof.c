/* The proof: tests with their sums and budgets, history, reckoner. */
#include "results/json.h"

#include "results/words_of.h"

#include <math.h>

/* ---- a test ---- */

static void add_moved(cJSON *test, const struct job_moved *m)
{
    if (!m->given)
        return;
    cJSON *o = cJSON_AddObjectToObject(test, "moved");
    json_string(o, "end", spell_side(m->end));
    json_string(o, "toward", spell_toward(m->toward));
    json_num(o, "distance", &m->distance);
}

static void add_air(cJSON *test, const struct job_climate *c)
{
    if (!c->given)
        return;
    cJSON *o = cJSON_AddObjectToObject(test, "air");
    json_num(o, "temperature", &c->temperature);
    json_num(o, "humidity", &c->humidity);
}

static void add_move(cJSON *test, const struct move *m)
{
    cJSON *o = cJSON_AddObjectToObject(test, "move");
    json_string(o, "advice", spell_advice(m->advice));
    json_string(o, "end", m->what.key ? NULL : spell_side(m->end));
    json_string(o, "toward", m->what.key ? NULL : spell_toward(m->toward));
    json_said(o, "what", &m->what);
    json_number(o, "distance", m->distance);
    json_number(o, "uncertainty", m->uncertainty);
    json_numbers(o, "leaves", m->leaves, (size_t)m->n_leaves);
    if (m->n_leaves > 0)
        json_number(o, "leaves_sum", m->distance - m->left_over);
    json_number(o, "expected_error", m->expected_error);
    json_said(o, "reason", &m->reason);
}

static void add_budget(cJSON *test, const struct proof_test *t)
{
    cJSON *list = cJSON_AddArrayToObject(test, "budget");
    for (int i = 0; i < t->n_lines; i++) {
        cJSON *o = cJSON_CreateObject();
        json_said(o, "source", &t->lines[i].source);
        json_number(o, "u", t->lines[i].u);
        json_number(o, "size", t->lines[i].shape == BUDGET_OWN ? NAN : t->lines[i].size);
        json_number(o, "sensitivity", t->lines[i].shape == BUDGET_OWN ? NAN : t->lines[i].sensitivity);
        json_number(o, "count", t->lines[i].shape == BUDGET_MEAN ? (double)t->lines[i].count : NAN);
        json_number(o, "dof", t->lines[i].dof);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_figures(cJSON *test, const struct proof_test *t)
{
    cJSON *list = t->n_figures > 0 ? cJSON_AddArrayToObject(test, "figures") : NULL;
    for (int i = 0; i < t->n_figures; i++) {
        const struct proof_figure *f = &t->figures[i];
        cJSON *o = cJSON_CreateObject();
        json_string(o, "id", f->id);
        json_said(o, "what", &f->what);
        json_number(o, "value", f->value);
        json_string(o, "unit", f->unit);
        json_number(o, "expanded_uncertainty", f->expanded_uncertainty);
        json_number(o, "limit", f->limit);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_sayings(cJSON *test, const struct proof_test *t)
{
    json_said(test, "stale_reason", &t->stale_reason);
    json_said(test, "decide", &t->decide);
    json_said(test, "largest_line", &t->largest_line);
    json_said(test, "wrong_way_caution", &t->wrong_way_caution);
    cJSON *remarks = t->remarks[0].key ? cJSON_AddArrayToObject(test, "remarks") : NULL;
    for (size_t i = 0; i < sizeof t->remarks / sizeof *t->remarks && t->remarks[i].key; i++) {
        cJSON *o = cJSON_CreateObject();
        json_said(o, "remark", &t->remarks[i]);
        cJSON_AddItemToArray(remarks, o);
    }
}

static void add_given(cJSON *test, const struct job_test *t)
{
    json_string(test, "by", t->by.s);
    json_string(test, "note", t->note.s);
    json_string(test, "instrument", t->instrument ? t->instrument->name : NULL);
    cJSON_AddBoolToObject(test, "practice", t->practice);
    add_moved(test, &t->moved);
    add_air(test, &t->air);
}

static void add_result(cJSON *o, const struct proof_test *t)
{
    json_number(o, "error", t->error);
    json_string(o, "unit", t->unit);
    if (proof_is_angle(t)) {
        cJSON *over = cJSON_AddObjectToObject(o, "error_over");
        json_number(over, "length", t->over_length);
        json_number(over, "error", t->error_over);
    }
    if (t->strips > 0)
        json_number(o, "strips", t->strips);
    json_number(o, "standard_uncertainty", t->standard_uncertainty);
    json_number(o, "dof", t->dof);
    json_number(o, "coverage_factor", t->coverage_factor);
    json_number(o, "expanded_uncertainty", t->expanded_uncertainty);
    json_number(o, "tolerance", t->tolerance);
    json_number(o, "conformance_probability", t->conformance_probability);
    json_string(o, "verdict", spell_finding(t->finding));
    cJSON_AddBoolToObject(o, "counts", t->counts);
    cJSON_AddBoolToObject(o, "stale", t->stale);
}

static cJSON *test_object(const struct proof_test *t)
{
    cJSON *o = cJSON_CreateObject();
    json_string(o, "method", job_method_name(t->method));
    json_date(o, "date", t->job->date);
    add_result(o, t);
    if (t->has_move)
        add_move(o, &t->move);
    if (t->further_strips >= 0)
        json_number(o, "further_strips", t->further_strips);
    cJSON_AddBoolToObject(o, "moved_the_wrong_way", t->wrong_way);
    json_number(o, "error_expected", t->expected_error);
    json_date(o, "due", t->due);
    add_given(o, t->job);
    add_budget(o, t);
    add_figures(o, t);
    add_sayings(o, t);
    json_add_method(o, t);
    return o;
}

/* ---- history and reckoner ---- */

static void add_history(cJSON *job, const struct proof *proof)
{
    cJSON *list = cJSON_AddArrayToObject(job, "history");
    for (int m = 0; m < METHODS; m++) {
        const struct history *h = &proof->history[m];
        if (!h->has_drift)
            continue;
        cJSON *o = cJSON_CreateObject();
        json_string(o, "method", job_method_name((enum method)m));
        json_number(o, "drift_per_day", h->drift_per_day);
        json_number(o, "drift_uncertainty", h->drift_u);
        json_date(o, "drift_due", h->drift_due);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_reckoner(cJSON *job, const struct reckoner *r)
{
    if (!r->has)
        return;
    cJSON *o = cJSON_AddObjectToObject(job, "reckoner");
    json_number(o, "length", r->length);
    json_number(o, "pivot_to_moving", r->pivot_to_moving);
    json_number(o, "factor", r->factor);
    json_number(o, "leave_below", r->leave_below);
    json_number(o, "leave_strips", r->leave_strips);
    json_number(o, "out_above", r->out_above);
    json_string(o, "moving_end", spell_side(r->moving_end));
    json_string(o, "offcut", spell_side(r->offcut));
    json_string(o, "fence_end_wider", spell_toward(r->fence_end_wider));
    json_string(o, "far_end_wider", spell_toward(r->far_end_wider));
    cJSON *rows = cJSON_AddArrayToObject(o, "rows");
    for (int i = 0; i < r->n_rows; i++) {
        cJSON *row = cJSON_CreateObject();
        json_number(row, "differ", r->rows[i].differ);
        json_number(row, "move", r->rows[i].move);
        json_numbers(row, "leaves", r->rows[i].leaves, (size_t)r->rows[i].n_leaves);
        cJSON_AddItemToArray(rows, row);
    }
}

static void add_reading_table(cJSON *list, enum method m, const struct reading_table *t)
{
    cJSON *o = cJSON_CreateObject();
    json_string(o, "method", job_method_name(m));
    cJSON_AddBoolToObject(o, "by_leaf", t->by_leaf);
    json_number(o, "at", t->at);
    json_number(o, "over", t->over);
    json_number(o, "per", t->per);
    json_number(o, "factor", t->factor);
    cJSON *rows = cJSON_AddArrayToObject(o, "rows");
    for (int i = 0; i < t->n_rows; i++) {
        cJSON *row = cJSON_CreateObject();
        json_number(row, "read", t->rows[i].read);
        json_number(row, "taken", t->rows[i].taken);
        json_number(row, "move", t->rows[i].move);
        json_number(row, "error", t->rows[i].error);
        cJSON_AddItemToArray(rows, row);
    }
    cJSON_AddItemToArray(list, o);
}

static void add_zones(cJSON *list, enum method m, const struct zones *z)
{
    cJSON *o = cJSON_CreateObject();
    json_string(o, "method", job_method_name(m));
    json_number(o, "leave_to", z->leave_to);
    json_number(o, "move_from", z->move_from);
    json_number(o, "out_from", z->out_from);
    json_number(o, "least_at", z->least_at);
    cJSON_AddItemToArray(list, o);
}

void json_add_proof(cJSON *job, const struct proof *proof)
{
    cJSON *tests = cJSON_AddArrayToObject(job, "tests");
    for (size_t i = 0; i < proof->n_tests; i++)
        cJSON_AddItemToArray(tests, test_object(&proof->tests[i]));
    add_history(job, proof);
    add_reckoner(job, &proof->reckoner);
    cJSON *tables = cJSON_AddArrayToObject(job, "reading_tables");
    for (int m = 0; m < METHODS; m++)
        if (proof->table[m].has)
            add_reading_table(tables, (enum method)m, &proof->table[m]);
    cJSON *zones = cJSON_AddArrayToObject(job, "zones");
    for (int m = 0; m < METHODS; m++)
        if (proof->zones[m].has)
            add_zones(zones, (enum method)m, &proof->zones[m]);
}
