/* Results as JSON. Lengths mm, angles rad, full precision, whatever the job's units. */
#include "results.h"

#include "results/words_of.h"
#include "words.h"

#include <cjson/cJSON.h>
#include <math.h>
#include <stdlib.h>

static void add_number(cJSON *object, const char *key, double v)
{
    if (isfinite(v))
        cJSON_AddNumberToObject(object, key, v);
    else
        cJSON_AddNullToObject(object, key);
}

static void add_string(cJSON *object, const char *key, const char *s)
{
    if (s)
        cJSON_AddStringToObject(object, key, s);
    else
        cJSON_AddNullToObject(object, key);
}

static void add_date(cJSON *object, const char *key, struct date d)
{
    char s[11];
    add_string(object, key, date_is_set(d) ? spell_date(d, s) : NULL);
}

static void add_saying(cJSON *object, const char *key, const struct saying *s, enum units units)
{
    struct text t = {0};
    if (s->key)
        words_put_plain(&t, s, units);
    add_string(object, key, s->key ? text_string(&t) : NULL);
    text_free(&t);
}

static void add_numbers(cJSON *object, const char *key, const double *v, int n)
{
    cJSON *array = cJSON_AddArrayToObject(object, key);
    for (int i = 0; i < n; i++)
        cJSON_AddItemToArray(array, cJSON_CreateNumber(v[i]));
}

static cJSON *part_object(const struct plan_part *p)
{
    static const struct {
        unsigned bit;
        const char *name;
    } derived[] = {{DERIVED_LENGTH, "length"}, {DERIVED_WIDTH, "width"}, {DERIVED_THICKNESS, "thickness"}};
    cJSON *o = cJSON_CreateObject();
    char letter[2] = {p->letter, '\0'};
    add_string(o, "id", letter);
    add_string(o, "name", p->name ? p->name : words_get(plan_part_key(p->kind)));
    add_number(o, "quantity", p->quantity);
    add_number(o, "length", p->length);
    add_number(o, "width", p->width);
    add_number(o, "thickness", p->thickness);
    add_string(o, "stock", p->stock ? p->stock->name : NULL);
    cJSON *list = cJSON_AddArrayToObject(o, "derived");
    for (size_t i = 0; i < sizeof derived / sizeof *derived; i++)
        if (p->derived & derived[i].bit)
            cJSON_AddItemToArray(list, cJSON_CreateString(derived[i].name));
    add_number(o, "mass", p->mass);
    return o;
}

static cJSON *check_object(const struct plan_check *c, enum units units)
{
    cJSON *o = cJSON_CreateObject();
    add_string(o, "id", plan_check_name(c->id));
    add_number(o, "value", c->value);
    add_number(o, "low", c->low);
    add_number(o, "high", c->high);
    add_string(o, "unit", spell_check_unit(c->unit));
    add_string(o, "verdict", spell_verdict(c->verdict));
    add_saying(o, "why", &c->why, units);
    add_saying(o, "remedy", &c->remedy, units);
    return o;
}

static void add_move(cJSON *test, const struct move *m)
{
    cJSON *o = cJSON_AddObjectToObject(test, "move");
    add_string(o, "advice", spell_advice(m->advice));
    add_string(o, "end", spell_side(m->end));
    add_string(o, "toward", spell_toward(m->toward));
    add_number(o, "distance", m->distance);
    add_number(o, "uncertainty", m->uncertainty);
    add_numbers(o, "leaves", m->leaves, m->n_leaves);
    add_number(o, "expected_error", m->expected_error);
}

static void add_error_over(cJSON *test, const struct proof_test *t)
{
    cJSON *over = cJSON_AddObjectToObject(test, "error_over");
    add_number(over, "length", t->over_length);
    add_number(over, "error", t->error_over);
}

static cJSON *test_object(const struct proof_test *t)
{
    cJSON *o = cJSON_CreateObject();
    add_string(o, "method", job_method_name(t->method));
    add_date(o, "date", t->job->date);
    add_number(o, "error", t->error);
    add_string(o, "unit", t->unit);
    add_error_over(o, t);
    add_number(o, "strips", t->strips);
    add_number(o, "standard_uncertainty", t->standard_uncertainty);
    add_number(o, "dof", t->dof);
    add_number(o, "coverage_factor", t->coverage_factor);
    add_number(o, "expanded_uncertainty", t->expanded_uncertainty);
    add_number(o, "tolerance", t->tolerance);
    add_number(o, "conformance_probability", t->conformance_probability);
    add_string(o, "verdict", spell_finding(t->finding));
    cJSON_AddBoolToObject(o, "counts", t->counts);
    cJSON_AddBoolToObject(o, "stale", t->stale);
    if (t->has_move)
        add_move(o, &t->move);
    if (t->further_strips >= 0)
        add_number(o, "further_strips", t->further_strips);
    cJSON_AddBoolToObject(o, "moved_the_wrong_way", t->wrong_way);
    return o;
}

static void add_errors(cJSON *o, const struct diags *d)
{
    cJSON *list = cJSON_AddArrayToObject(o, "errors");
    for (size_t i = 0; i < d->count; i++) {
        const struct diag *one = &d->list[i];
        if (diag_level_of(one->code) != DIAG_ERROR)
            continue;
        cJSON *e = cJSON_CreateObject();
        struct text message = {0};
        diag_message(one, &message);
        add_string(e, "code", diag_id(one->code));
        add_string(e, "file", (size_t)one->mark.file < d->n_sources ? d->sources[one->mark.file].name : NULL);
        add_number(e, "line", one->mark.line);
        add_number(e, "column", one->mark.column);
        add_string(e, "path", one->path);
        add_string(e, "message", text_string(&message));
        cJSON_AddItemToArray(list, e);
        text_free(&message);
    }
}

static void add_plan(cJSON *o, const struct plan *plan, enum units units)
{
    cJSON *parts = cJSON_AddArrayToObject(o, "parts");
    for (size_t i = 0; i < plan->n_parts; i++)
        cJSON_AddItemToArray(parts, part_object(&plan->parts[i]));
    cJSON *checks = cJSON_AddArrayToObject(o, "checks");
    for (size_t i = 0; i < plan->n_checks; i++)
        cJSON_AddItemToArray(checks, check_object(&plan->checks[i], units));
}

static void add_sheet(cJSON *o, const struct result_job *r)
{
    cJSON *sheets = cJSON_AddArrayToObject(o, "sheets");
    if (!r->sheet_file)
        return;
    cJSON *s = cJSON_CreateObject();
    add_string(s, "file", r->sheet_file);
    add_number(s, "pages", r->pages);
    cJSON_AddItemToArray(sheets, s);
}

static cJSON *job_object(const struct result_job *r, struct date today)
{
    cJSON *o = cJSON_CreateObject();
    add_string(o, "file", r->file);
    if (!r->outcome) {
        add_errors(o, r->diags);
        return o;
    }
    enum state state = outcome_state_on(r->outcome, today);
    add_string(o, "number", r->job->number.s);
    add_string(o, "title", r->job->title.s);
    add_string(o, "fingerprint", r->job->fingerprint);
    add_string(o, "state", outcome_state_id(state));
    cJSON_AddBoolToObject(o, "fit_for_use", state == STATE_FIT);
    add_date(o, "due", r->outcome->due);
    cJSON_AddBoolToObject(o, "overdue", outcome_is_overdue(r->outcome, today));
    add_plan(o, r->plan, r->job->units);
    cJSON *tests = cJSON_AddArrayToObject(o, "tests");
    for (size_t i = 0; i < r->proof->n_tests; i++)
        cJSON_AddItemToArray(tests, test_object(&r->proof->tests[i]));
    add_sheet(o, r);
    return o;
}

void results_json(const struct result_job *jobs, size_t n, struct date today, struct text *out)
{
    cJSON *root = cJSON_CreateObject();
    cJSON_AddNumberToObject(root, "fettle", 1);
    cJSON_AddStringToObject(root, "program", FETTLE_VERSION);
    cJSON *list = cJSON_AddArrayToObject(root, "jobs");
    for (size_t i = 0; i < n; i++)
        cJSON_AddItemToArray(list, job_object(&jobs[i], today));
    char *s = cJSON_Print(root);
    if (s) {
        text_add(out, s);
        text_add_char(out, '\n');
    }
    free(s);
    cJSON_Delete(root);
}
