/* The bench sheet: the tests of this jig for someone who does them for the first time. What a test consists of is its
   method's; here stands only who may do it and who signs. */
#include "sheet/findings.h"
#include "sheet/kinds.h"
#include "sheet/methods.h"

static void add_who_may(const struct sheet_builder *b, struct block_list *list)
{
    struct block cautions = cautions_begin(STYLE_LEAD);
    if (checks_failed(b) > 0)
        cautions_add(b, &cautions, SIGNAL_DANGER, print_word(b, "bench.hold"));
    cautions_add(b, &cautions, SIGNAL_WARNING, print_word(b, "bench.who_may"));
    block_append(b, list, cautions);
}

static void add_signatures(const struct sheet_builder *b, struct block_list *list)
{
    static const char *const keys[] = {"bench.sign.name", "bench.sign.supervisor", "bench.sign.date"};
    const char *labels[COUNT_OF(keys)];
    struct block block = {.kind = BLOCK_SIGNATURES};
    for (int i = 0; i < COUNT_OF(keys); i++)
        labels[i] = print_word(b, keys[i]);
    block.as.signatures.labels = pool_copy(b->pool, labels, sizeof labels);
    block.as.signatures.n = COUNT_OF(keys);
    block_keep_with_next(list);
    block_append(b, list, block);
}

static void add_under_18(const struct sheet_builder *b, struct block_list *list)
{
    struct block steps = steps_begin();
    steps_add(b, &steps,
              (struct step_item){
                  .number = "", .what = print_word(b, "bench.under_18"), .aside = "", .tick = true, .caution = ""});
    block_append(b, list, steps);
}

void bench_fill(const struct sheet_builder *b, struct block_list *list)
{
    add_who_may(b, list);
    add_under_18(b, list);
    for (int m = 0; m < METHODS; m++)
        if (sheet_method((enum method)m)->has_bench(b))
            sheet_method((enum method)m)->add_bench(b, list);
    add_signatures(b, list);
}
