/* How the parts are cut from the stock: an object for each stock that a part names. Areas in mm from the sheet's corner. */
#include "results/json.h"

static const char *const sources[] = {
    [CUT_FROM_OFFCUT] = "offcut", [CUT_FROM_RACK] = "rack", [CUT_FROM_BOUGHT] = "to-buy"};

static void add_area(cJSON *o, const struct cut_area *a)
{
    json_number(o, "x", a->x);
    json_number(o, "y", a->y);
    json_number(o, "along", a->w);
    json_number(o, "across", a->h);
}

static void add_pieces(cJSON *sheet, const struct cut_sheet *s)
{
    cJSON *list = cJSON_AddArrayToObject(sheet, "pieces");
    for (size_t i = 0; i < s->n_pieces; i++) {
        cJSON *o = cJSON_CreateObject();
        json_string(o, "part", s->pieces[i].part->letter);
        add_area(o, &s->pieces[i].at);
        cJSON_AddBoolToObject(o, "turned", s->pieces[i].turned);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_sheets(cJSON *stock, const struct cutting_stock *s)
{
    cJSON *list = cJSON_AddArrayToObject(stock, "layouts");
    for (size_t i = 0; i < s->n_sheets; i++) {
        cJSON *o = cJSON_CreateObject();
        json_string(o, "stock", s->sheets[i].stock->name);
        json_string(o, "source", sources[s->sheets[i].source]);
        json_number(o, "along", s->sheets[i].w);
        json_number(o, "across", s->sheets[i].h);
        json_number(o, "alike", (double)s->sheets[i].alike + 1);
        json_number(o, "times", (double)s->sheets[i].n_alike);
        add_pieces(o, &s->sheets[i]);
        cJSON_AddItemToArray(list, o);
    }
}

static void add_cuts(cJSON *stock, const struct cutting_stock *s)
{
    cJSON *list = cJSON_AddArrayToObject(stock, "cuts");
    for (size_t i = 0; i < s->n_cuts; i++) {
        const struct cut_line *c = &s->cuts[i];
        cJSON *o = cJSON_CreateObject();
        json_number(o, "sheet", c->sheet + 1);
        cJSON *panel = cJSON_AddObjectToObject(o, "panel");
        add_area(panel, &c->panel);
        cJSON_AddBoolToObject(o, "across_grain", c->along_y);
        json_number(o, "number", c->number);
        json_number(o, "fence", c->fence);
        struct cut_area gives = cutting_gives(c), leaves = cutting_leaves(c);
        add_area(cJSON_AddObjectToObject(o, "gives"), &gives);
        add_area(cJSON_AddObjectToObject(o, "leaves"), &leaves);
        json_number(o, "kerf_from", c->kerf_from);
        json_number(o, "kerf_to", c->kerf_to);
        cJSON_AddBoolToObject(o, "trims", c->trims);
        cJSON_AddItemToArray(list, o);
    }
}

/* Offcuts worth keeping, in the order of their numbers. */
static void add_offcuts(cJSON *stock, const struct cutting_stock *s)
{
    cJSON *list = cJSON_AddArrayToObject(stock, "offcuts");
    for (int number = 1, found = 1; found; number++) {
        found = 0;
        for (size_t i = 0; i < s->n_sheets; i++)
            for (size_t k = 0; k < s->sheets[i].n_rests; k++) {
                const struct cut_rest *r = &s->sheets[i].rests[k];
                if (r->number != number)
                    continue;
                cJSON *o = cJSON_CreateObject();
                json_number(o, "number", number);
                json_number(o, "sheet", (double)i + 1);
                add_area(o, &r->at);
                cJSON_AddItemToArray(list, o);
                found = 1;
            }
    }
}

static cJSON *stock_object(const struct cutting_stock *s)
{
    cJSON *o = cJSON_CreateObject();
    json_string(o, "stock", s->stock->name);
    cJSON_AddBoolToObject(o, "laid_out", s->laid_out);
    json_number(o, "pieces", s->n_pieces);
    json_number(o, "sheets", s->fresh);
    json_number(o, "offcuts_used", (double)s->n_sheets - s->fresh);
    json_number(o, "at_least", s->at_least);
    cJSON_AddBoolToObject(o, "proven_best", s->proven_best);
    json_number(o, "from_rack", s->fresh - s->to_buy);
    json_number(o, "to_buy", s->to_buy);
    json_number(o, "yield", s->yield);
    json_number(o, "length_needed", s->length_needed);
    json_number(o, "different_settings", s->different_settings);
    add_sheets(o, s);
    add_cuts(o, s);
    add_offcuts(o, s);
    return o;
}

/* Of whole sheets or strips: have and to_buy are as many as taken and left. */
static void add_count(cJSON *stock, const struct cutting *cutting, const struct job_stock *s)
{
    struct cutting_count n = cutting_count(cutting, s);
    json_number(stock, "to_buy", n.to_buy);
    json_number(stock, "taken", n.taken);
    json_number(stock, "left", n.left);
}

static void add_stock(cJSON *job, const struct job *given, const struct cutting *cutting)
{
    cJSON *list = cJSON_AddArrayToObject(job, "stock");
    for (size_t i = 0; i < given->n_stock; i++) {
        const struct job_stock *s = &given->stock[i];
        cJSON *o = cJSON_CreateObject();
        json_string(o, "name", s->name);
        json_string(o, "material", s->material.name);
        json_num(o, "thickness", &s->thickness);
        if (s->is_strip) {
            json_num(o, "width", &s->strip_width);
            json_num(o, "length", &s->length);
        } else {
            json_num(o, "along", &s->sheet_along);
            json_num(o, "across", &s->sheet_across);
        }
        json_num(o, "have", &s->have);
        if (cutting)
            add_count(o, cutting, s);
        cJSON_AddItemToArray(list, o);
    }
}

void json_add_cutting(cJSON *job, const struct job *given, const struct cutting *cutting)
{
    add_stock(job, given, cutting);
    cJSON *list = cJSON_AddArrayToObject(job, "cutting");
    for (size_t i = 0; cutting && i < cutting->n_stocks; i++)
        cJSON_AddItemToArray(list, stock_object(&cutting->stocks[i]));
    cJSON *findings = cJSON_AddArrayToObject(job, "cutting_findings");
    for (size_t i = 0; cutting && i < cutting->n_findings; i++) {
        cJSON *o = cJSON_CreateObject();
        json_said(o, "why", &cutting->findings[i].why);
        json_said(o, "remedy", &cutting->findings[i].remedy);
        cJSON_AddItemToArray(findings, o);
    }
    if (cutting && cutting->unnamed.length > 0) {
        cJSON *o = cJSON_AddObjectToObject(job, "strip_to_buy");
        json_number(o, "width", cutting->unnamed.width);
        json_number(o, "thickness", cutting->unnamed.thickness);
        json_number(o, "length", cutting->unnamed.length);
    }
    json_number(job, "kerf_used", cutting ? cutting->kerf : 0);
    json_number(job, "trim_used", cutting ? cutting->trim : 0);
}
