/* What to fetch before the first step: a heading, then a list for each kind. */
#include "sheet/needs.h"

enum { NEED_COLUMNS = 2 };

static const char *const kind_keys[NEED_KINDS] = {
    [NEED_TOOL] = "needs.tools",
    [NEED_HARDWARE] = "needs.hardware",
    [NEED_CONSUMABLE] = "needs.consumables",
};

static void add_kind(const struct sheet_builder *b, struct block_list *list, enum need_kind kind)
{
    const struct plan *plan = b->plan;
    const char **texts = pool_alloc(b->pool, plan->n_needs * sizeof *texts);
    size_t n = 0;

    for (size_t i = 0; i < plan->n_needs; i++)
        if (plan->needs[i].kind == kind)
            texts[n++] = print_saying(b, plan->needs[i].what);
    if (n == 0)
        return;
    block_heading(b, list, 2, SAYING_PLAIN(kind_keys[kind]));
    block_items(b, list, STYLE_BODY, texts, n, NEED_COLUMNS);
}

void needs_add(const struct sheet_builder *b, struct block_list *list)
{
    for (int kind = 0; kind < NEED_KINDS && b->plan->n_needs > 0; kind++)
        add_kind(b, list, (enum need_kind)kind);
}
