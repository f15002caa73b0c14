/* The plan: parts and where they sit, checks, settings, screws, steps, cautions, what was assumed. */
#include "results/json.h"

#include "results/words_of.h"
#include "words.h"

#include <math.h>

/* ---- parts and checks ---- */

static void add_derived(cJSON *part, unsigned bits)
{
    static const struct {
        unsigned bit;
        const char *name;
    } derived[] = {{DERIVED_LENGTH, "length"}, {DERIVED_WIDTH, "width"}, {DERIVED_THICKNESS, "thickness"}};
    cJSON *list = cJSON_AddArrayToObject(part, "derived");
    for (size_t i = 0; i < sizeof derived / sizeof *derived; i++)
        if (bits & derived[i].bit)
            cJSON_AddItemToArray(list, cJSON_CreateString(derived[i].name));
}

static void add_bodies(cJSON *part, const struct plan_part *p)
{
    cJSON *list = cJSON_AddArrayToObject(part, "bodies");
    for (size_t i = 0; i < p->n_bodies; i++) {
        const struct body *y = &p->bodies[i];
        cJSON *o = cJSON_CreateObject();
        json_number(o, "left", y->x0);
        json_number(o, "right", y->x1);
        json_number(o, "near", y->v0);
        json_number(o, "far", y->v1);
        json_number(o, "bottom", y->z0);
        json_number(o, "top", y->z1);
        cJSON_AddItemToArray(list, o);
    }
}

static cJSON *part_object(const struct plan_part *p)
{
    cJSON *o = cJSON_CreateObject();
    json_string(o, "id", p->letter);
    json_string(o, "name", p->name ? p->name : words_get(plan_part_key(p->kind)));
    json_number(o, "quantity", p->quantity);
    json_number(o, "length", p->length);
    json_number(o, "width", p->width);
    json_number(o, "thickness", p->thickness);
    json_number(o, "sawn_length", p->sawn_length);
    json_number(o, "final_length", p->final_length);
    json_number(o, "cut_step", p->cut_step ? (double)p->cut_step : NAN);
    json_string(o, "stock", p->stock ? p->stock->name : NULL);
    add_derived(o, p->derived);
    json_number(o, "mass", p->mass);
    add_bodies(o, p);
    return o;
}

/* What the one who keeps the job file writes into it, as it stands there. */
static void add_job_change(cJSON *check, const struct plan_check *c, enum units units)
{
    struct text change = {0};
    bool any = words_put_job_change(&change, &c->remedy, units);
    json_string(check, "job_change", any ? text_string(&change) : NULL);
    text_free(&change);
}

static cJSON *check_object(const struct plan_check *c, enum units units, enum units file_units)
{
    cJSON *o = cJSON_CreateObject();
    json_string(o, "id", plan_check_name(c->id));
    json_number(o, "value", c->value);
    json_number(o, "low", c->low);
    json_number(o, "high", c->high);
    json_number(o, "fail_low", c->fail_low);
    json_number(o, "fail_high", c->fail_high);
    json_string(o, "unit", spell_check_unit(c->unit));
    json_string(o, "verdict", spell_verdict(c->verdict));
    json_sentence(o, "why", &c->why, units);
    json_sentence(o, "what", &c->what, units);
    json_sentence(o, "remedy", &c->remedy, units);
    add_job_change(o, c, file_units);
    json_said(o, "what_said", &c->what);
    json_said(o, "why_said", &c->why);
    json_said(o, "remedy_said", &c->remedy);
    return o;
}

/* ---- settings ---- */

static void add_fence(cJSON *settings, const char *key, const struct plan_sled *s, const struct plan_fence *f)
{
    cJSON *o = cJSON_AddObjectToObject(settings, key);
    json_number(o, "outer_face", f->v_outer);
    json_number(o, "inner_face", f->v_face);
    json_number(o, "from_near_edge", fmin(f->v_outer, f->v_face));
    json_number(o, "from_far_edge", s->base_depth - fmax(f->v_outer, f->v_face));
    json_number(o, "thickness", f->thickness);
    json_number(o, "height", f->height);
    json_number(o, "length", f->length);
    json_number(o, "left_end", f->x0);
    json_number(o, "layers", f->layers);
    json_number(o, "bridge", f->bridge);
}

static void add_runners(cJSON *settings, const struct plan_sled *s)
{
    static const char *const keys[] = {[SIDE_LEFT] = "left_runner", [SIDE_RIGHT] = "right_runner"};
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++) {
        const struct plan_runner *r = &s->runner[side];
        if (!r->present)
            continue;
        cJSON *o = cJSON_AddObjectToObject(settings, keys[side]);
        json_number(settings, r->is_guide ? "guide_width" : "free_width", r->width);
        cJSON_AddBoolToObject(o, "is_guide", r->is_guide);
        json_number(o, "slot", r->slot_x);
        json_number(o, "width", r->width);
        json_number(o, "thickness", r->thickness);
        json_number(o, "length", r->length);
        json_number(o, "near_end", r->v0);
    }
}

static void add_guard(cJSON *settings, const struct plan_sled *s)
{
    cJSON *o = cJSON_AddObjectToObject(settings, "guard");
    json_number(o, "depth", s->guard_depth);
    json_number(o, "width", s->guard_width);
    json_number(o, "height", s->guard_height);
    json_number(o, "layers", s->guard_layers);
    json_number(o, "near", s->guard_v0);
    json_number(o, "far", s->guard_v1);
    json_number(o, "needed", s->travel.guard_needed);
    json_number(o, "behind_teeth", s->guard_depth - s->travel.guard_needed);
    if (s->cover_screw_x > 0)
        json_number(o, "cover_screws_from_blade", s->cover_screw_x);
}

static void add_flip_stop(cJSON *settings, const struct plan_flip *f)
{
    if (!f->present)
        return;
    cJSON *o = cJSON_AddObjectToObject(settings, "flip_stop");
    json_string(o, "side", spell_side(f->side));
    json_number(o, "track_from", f->track_from);
    json_number(o, "track_to", f->track_from + f->track_length);
    json_number(o, "track_length", f->track_length);
    json_number(o, "track_height", f->track_height);
    json_number(o, "tape_zero", f->tape_zero);
    json_number(o, "body_length", f->body_length);
    json_number(o, "body_width", f->body_width);
    json_number(o, "shortest", f->shortest);
    json_number(o, "longest", f->longest);
    json_number(o, "bolt_along", f->bolt_along);
    json_number(o, "bolt_across", f->bolt_across);
    json_number(o, "bolt_hole", f->bolt_hole);
    json_number(o, "rebate_height", f->rebate_height);
    json_number(o, "rebate_width", f->rebate_width);
    json_number(o, "gap", f->gap);
}

/* How the saw's slots are routed and lined. */
static void add_routing(cJSON *settings, const struct plan_routing *r)
{
    if (r->across == 0)
        return;
    cJSON *o = cJSON_AddObjectToObject(settings, "slots_to_make");
    json_number(o, "passes_across", r->across);
    json_number(o, "guide_first", r->guide_most);
    json_number(o, "guide_last", r->guide_least);
    json_number(o, "guide_step", r->apart);
    json_number(o, "passes_deep", r->deep);
    json_number(o, "depth_each", r->each);
    json_number(o, "lining_below_table", r->sunk);
}

/* Positions on the saw, from the table's near edge. */
static void add_travel(cJSON *settings, const struct plan_sled *s)
{
    const struct plan_travel *t = &s->travel;
    json_number(settings, "blade_radius", t->blade_radius);
    json_number(settings, "blade_axis", t->blade_axis_y);
    json_number(settings, "highest", t->highest);
    json_number(settings, "y_stop", t->y_stop);
    json_number(settings, "near_face", t->y_near_face);
    json_number(settings, "stop_block", s->stop_y);
    json_number(settings, "stop_length", s->stop_length);
    json_number(settings, "edge_start", t->edge_start);
    json_number(settings, "edge_stop", t->edge_stop);
    json_number(settings, "edge_parked", t->edge_parked);
    json_number(settings, "bare_start", t->bare_start);
    json_number(settings, "bare_stop", t->bare_stop);
    json_number(settings, "setting_above_table", t->setting_above_table);
}

static void add_settings(cJSON *job, const struct plan *plan)
{
    const struct plan_sled *s = &plan->sled;
    cJSON *o = cJSON_AddObjectToObject(job, "settings");
    json_number(o, "capacity_width", s->capacity_width);
    json_number(o, "capacity_thickness", s->capacity_thickness);
    json_number(o, "blade_above_work", s->blade_above_work);
    json_number(o, "blade_above_work_and_base", s->base_thickness + s->blade_above_work);
    json_number(o, "base_width", s->base_width);
    json_number(o, "base_depth", s->base_depth);
    json_number(o, "base_thickness", s->base_thickness);
    json_number(o, "base_left_edge", s->base_x0);
    json_number(o, "pivot", s->pivot_x);
    json_number(o, "moving", s->moving_x);
    json_number(o, "pivot_to_moving", plan->setting.pivot_to_moving);
    json_number(o, "proof_length", plan->setting.proof_length);
    json_number(o, "plane_to", s->plane_to);
    json_number(o, "plane_low", s->plane_low);
    json_number(o, "plane_high", s->plane_high);
    json_number(o, "chamfer", s->chamfer);
    json_number(o, "keep_out", s->keep_out);
    json_number(o, "screw_free", s->screw_free);
    json_number(o, "room", fabs(s->other.v_face - s->reference.v_face)); /* between the fences */
    json_number(o, "mass", s->mass);
    json_number(o, "centre_x", s->centre_x);
    json_number(o, "centre_v", s->centre_v);
    json_number(o, "moisture_fitting", s->mc_fitting);
    json_number(o, "moisture_driest", s->mc_driest);
    json_number(o, "moisture_dampest", s->mc_dampest);
    add_travel(o, s);
    add_guard(o, s);
    add_routing(o, &s->routing);
    add_flip_stop(o, &s->flip);
    add_fence(o, "reference_fence", s, &s->reference);
    add_fence(o, "other_fence", s, &s->other);
    add_runners(o, s);
}

/* ---- lists ---- */

static void add_holes(cJSON *job, const struct plan *plan)
{
    cJSON *list = cJSON_AddArrayToObject(job, "holes");
    for (size_t i = 0; i < plan->n_holes; i++) {
        const struct plan_hole *h = &plan->holes[i];
        cJSON *o = cJSON_CreateObject();
        json_string(o, "part", h->part);
        json_number(o, "x", h->x);
        json_number(o, "v", h->v);
        json_string(o, "screw", h->screw);
        json_string(o, "pilot_drill", h->pilot_drill);
        json_string(o, "clearance_drill", h->clearance_drill);
        json_number(o, "screw_diameter", h->screw_diameter);
        json_number(o, "screw_length", h->screw_length);
        json_number(o, "pilot", h->diameter);
        json_number(o, "tip", h->tip);
        json_said(o, "what", &h->what);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_steps(cJSON *job, const struct plan *plan)
{
    cJSON *list = cJSON_AddArrayToObject(job, "steps");
    for (size_t i = 0; i < plan->n_steps; i++) {
        const struct plan_step *s = &plan->steps[i];
        cJSON *o = cJSON_CreateObject();
        json_string(o, "parts", s->parts);
        json_said(o, "what", &s->what);
        json_said(o, "know", &s->know);
        json_said(o, "why", &s->why);
        json_said(o, "caution", &s->caution);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_cautions(cJSON *job, const struct plan *plan)
{
    cJSON *list = cJSON_AddArrayToObject(job, "cautions");
    for (size_t i = 0; i < plan->n_cautions; i++) {
        cJSON *o = cJSON_CreateObject();
        json_said(o, "text", &plan->cautions[i].text);
        json_said(o, "title", &plan->cautions[i].title);
        cJSON_AddItemToArray(list, o);
    }
}

/* Tools, hardware and what is used up, in the order of use. */
static void add_needs(cJSON *job, const struct plan *plan)
{
    cJSON *list = cJSON_AddArrayToObject(job, "needs");
    for (size_t i = 0; i < plan->n_needs; i++) {
        cJSON *o = cJSON_CreateObject();
        json_said(o, "what", &plan->needs[i].what);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_assumed(cJSON *job, const struct plan *plan, enum units units)
{
    cJSON *list = cJSON_AddArrayToObject(job, "assumed");
    for (size_t i = 0; i < plan->n_assumed; i++) {
        cJSON *o = cJSON_CreateObject();
        json_sentence(o, "text", &plan->assumed[i].what, units);
        json_said(o, "what", &plan->assumed[i].what);
        cJSON_AddItemToArray(list, o);
    }
}

void json_add_plan(cJSON *job, const struct job *given, const struct plan *plan, const struct outcome *outcome)
{
    cJSON *parts = cJSON_AddArrayToObject(job, "parts");
    for (size_t i = 0; i < plan->n_parts; i++)
        cJSON_AddItemToArray(parts, part_object(&plan->parts[i]));
    cJSON *checks = cJSON_AddArrayToObject(job, "checks");
    for (size_t i = 0; i < outcome->n_checks; i++)
        cJSON_AddItemToArray(checks, check_object(&outcome->checks[i], given->units, given->file_units));
    if (plan->has_sled)
        add_settings(job, plan);
    add_holes(job, plan);
    add_steps(job, plan);
    add_cautions(job, plan);
    add_needs(job, plan);
    add_assumed(job, plan, given->units);
}
