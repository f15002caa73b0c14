/* sentences.h: which sentence of the table of words a printed text is, and whether each number in it is one of the
   results. What a number must be is said in number_rules.inc. */
#ifndef FETTLE_TESTS_SENTENCES_H
#define FETTLE_TESTS_SENTENCES_H

#include "whole/printed.h"
#include "whole/results_path.h"

#include "base/text.h"

/* One job's results and the place being read. */
struct reading {
    const cJSON *job;
    enum units units;
    struct place place;
    struct sentence_table *table;
    long tries;                /* at this text: after too many it counts as unexplained */
    struct said_list said;     /* all sayings of the results */
    struct candidates *texts;  /* what the job calls things */
    struct text *fault; /* what the candidate with the most fixed text failed for */
    size_t fault_fixed; /* bytes of that text; 0: no fault yet */
};
struct sentence_table; /* the words, without bold marks */
struct sentence_table *sentences_begin(void);
void sentences_end(struct sentence_table *);

/* A rule of number_rules.inc. */
struct number_rule {
    const char *where; /* words key, "*" at its end stands for any rest */
    const char *slot;  /* {slot} of the sentence, or the column of a table's cell as a digit, or "dim", "label", "number" */
    int kind;
    const char *path;  /* see results_path.h; alternatives may begin with a kind letter; " ; " between numbers that follow each
                          other; NULL: the saying's own number in the results */
};
const struct number_rule *rule_find(const char *where, const char *slot); /* NULL: none */
/* Are all numbers of the text what the rule says? */
bool rule_holds(struct reading *, const struct number_rule *, const char *text, size_t n);

/* Lists sayings and texts of r->job; reading_end frees them. */
void reading_begin(struct reading *);
void reading_end(struct reading *);
/* Is the text a sentence, a text of the job, or a row of such, each number of which is one of the results? */
bool sentence_explained(struct reading *, const char *text, size_t n);
/* The same of sentences without a word of their own, "{stock}: {take}", which could be almost any text. */
bool vague_explained(struct reading *, const char *text, size_t n);
void sentences_forget(struct sentence_table *); /* before another text is read that may lie at the same address */
/* The words key, beginning with `prefix`, whose sentence this is, whatever its numbers; NULL: none. The longest fixed text wins. */
const char *sentence_key(const struct sentence_table *, const char *prefix, const char *text);
/* Is the text of n bytes the pattern with something in place of each {slot}? */
bool title_fits(const char *pattern, const char *title, size_t n);
void strip_bold(const char *marked, struct text *plain);

#endif
