/* What the job states and the sheets repeat: saw, air, instruments, changes. */
#include "results/json.h"

#include "results/words_of.h"

static void add_saw(cJSON *job, const struct job_saw *saw)
{
    if (!saw->given)
        return;
    cJSON *o = cJSON_AddObjectToObject(job, "saw");
    json_string(o, "name", saw->name.s);
    json_num(o, "blade_diameter", &saw->blade.diameter);
    json_num(o, "kerf", &saw->blade.kerf);
    json_num(o, "plate", &saw->blade.plate);
    json_num(o, "highest", &saw->blade.highest);
    json_num(o, "front_edge", &saw->table.front_edge);
    json_num(o, "table_depth", &saw->table.depth);
    json_num(o, "knife", &saw->knife.thickness);
    json_num(o, "slot_width", &saw->slots.width);
    json_num(o, "slot_width_widest", &saw->slots.width_widest);
    json_num(o, "slot_depth", &saw->slots.depth);
    json_num(o, "slot_left", &saw->slots.left);
    json_num(o, "slot_right", &saw->slots.right);
}

static void add_climate(cJSON *air, const char *key, const struct job_climate *c)
{
    if (!c->given)
        return;
    cJSON *o = cJSON_AddObjectToObject(air, key);
    json_num(o, "temperature", &c->temperature);
    json_num(o, "humidity", &c->humidity);
}

static void add_air(cJSON *job, const struct job_air *air)
{
    if (!air->given)
        return;
    cJSON *o = cJSON_AddObjectToObject(job, "air");
    add_climate(o, "at_fitting", &air->at_fitting);
    add_climate(o, "driest", &air->driest);
    add_climate(o, "dampest", &air->dampest);
}

static void add_limit(cJSON *tolerances, const char *key, const struct job_limit *limit)
{
    cJSON *o = cJSON_AddObjectToObject(tolerances, key);
    json_number(o, "error", limit->error.v);
    json_number(o, "over", limit->over.v);
}

/* Given, or the program's default. */
static void add_tolerances(cJSON *job, const struct job_tolerances *t)
{
    cJSON *all = cJSON_AddObjectToObject(job, "tolerances");
    add_limit(all, "squareness", &t->squareness);
    add_limit(all, "blade_tilt", &t->blade_tilt);
    add_limit(all, "slot", &t->slot);
    add_limit(all, "mitre", &t->mitre);
    json_number(cJSON_AddObjectToObject(all, "straightness"), "bow", t->bow.v);
    json_number(cJSON_AddObjectToObject(all, "box_pitch"), "error", t->box_pitch.v);
    cJSON *stop = cJSON_AddObjectToObject(all, "stop"), *play = cJSON_AddObjectToObject(all, "side_play");
    json_number(stop, "error", t->stop_error.v);
    json_number(stop, "spread", t->stop_spread.v);
    json_number(play, "low", t->side_play_low.v);
    json_number(play, "high", t->side_play_high.v);
}

static void add_instruments(cJSON *job, const struct job *given)
{
    cJSON *list = cJSON_AddArrayToObject(job, "instruments");
    for (size_t i = 0; i < given->n_instruments; i++) {
        const struct job_instrument *t = &given->instruments[i];
        cJSON *o = cJSON_CreateObject();
        json_string(o, "name", t->name);
        json_num(o, "resolution", &t->resolution);
        json_num(o, "error_limit", &t->error_limit);
        json_date(o, "checked", t->checked);
        json_string(o, "certificate", t->certificate.s);
        json_numbers(o, "leaves", t->leaves, t->n_leaves);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_changes(cJSON *job, const struct job *given)
{
    cJSON *list = cJSON_AddArrayToObject(job, "changes");
    for (size_t i = 0; i < given->n_changes; i++) {
        cJSON *o = cJSON_CreateObject();
        json_date(o, "date", given->changes[i].date);
        json_string(o, "what", given->changes[i].what.s);
        cJSON_AddItemToArray(list, o);
    }
}

void json_add_given(cJSON *job, const struct job *given)
{
    add_saw(job, &given->saw);
    add_air(job, &given->air);
    add_tolerances(job, &given->tolerances);
    add_instruments(job, given);
    add_changes(job, given);
}
