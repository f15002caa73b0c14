/* Results as JSON. Lengths mm, angles rad, full precision, whatever the job's units. */
#include "results/json.h"

#include "results/words_of.h"

#include <stdlib.h>

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
        json_string(e, "code", diag_id(one->code));
        json_string(e, "file", (size_t)one->mark.file < d->n_sources ? d->sources[one->mark.file].name : NULL);
        json_number(e, "line", one->mark.line);
        json_number(e, "column", one->mark.column);
        json_string(e, "path", one->path);
        json_string(e, "message", text_string(&message));
        cJSON_AddItemToArray(list, e);
        text_free(&message);
    }
}

static void add_sheet(cJSON *o, const struct result_job *r)
{
    cJSON *sheets = cJSON_AddArrayToObject(o, "sheets");
    if (!r->sheet_file)
        return;
    cJSON *s = cJSON_CreateObject();
    json_string(s, "file", r->sheet_file);
    json_number(s, "pages", r->pages);
    cJSON_AddItemToArray(sheets, s);
}

static cJSON *job_object(const struct result_job *r, struct date today)
{
    cJSON *o = cJSON_CreateObject();
    json_string(o, "file", r->file);
    if (!r->outcome) {
        add_errors(o, r->diags);
        return o;
    }
    enum state state = outcome_state_on(r->outcome, today);
    json_string(o, "number", r->job->number.s);
    json_string(o, "title", r->job->title.s);
    json_string(o, "fingerprint", r->job->fingerprint);
    json_string(o, "state", outcome_state_id(state));
    cJSON_AddBoolToObject(o, "fit_for_use", state == STATE_FIT);
    json_string(o, "units", r->job->units == UNITS_IN ? "in" : "mm"); /* of the sheets, not of these numbers */
    json_string(o, "shop", r->job->shop.s);
    json_string(o, "made_by", r->job->made_by.s);
    json_date(o, "date", r->job->date);
    json_date(o, "due", r->outcome->due);
    cJSON_AddBoolToObject(o, "overdue", outcome_is_overdue(r->outcome, today));
    json_add_plan(o, r->job, r->plan, r->outcome);
    json_add_cutting(o, r->job, r->cutting);
    json_add_proof(o, r->proof);
    json_add_given(o, r->job);
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
