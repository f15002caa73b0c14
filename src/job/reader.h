/* reader.h: tables that say what may stand in a mapping, and the one function that reads a mapping by its table.
   The JSON Schema is printed from the same tables. May be included by src/job only. */
#ifndef FETTLE_JOB_READER_H
#define FETTLE_JOB_READER_H

#include "job.h"
#include "job/guess.h"
#include "job/node.h"

enum { USE_MOST = 16, LIST_MOST = 100, TESTS_MOST = 400, PARTS_MOST = 1000 };

enum value_kind {
    VALUE_ELSEWHERE,  /* a key that another function reads: known here, no more */
    VALUE_GIVEN,      /* no key: bool, whether the mapping itself stands in the job */
    VALUE_MARK,       /* no key: struct mark, the mapping's own place */
    VALUE_QUANTITY,   /* struct num */
    VALUE_DOUBLE,     /* double: a quantity that must stand there */
    VALUE_PAIR,       /* list of two quantities: struct num at `at` and `more_at` */
    VALUE_SPAN,       /* one quantity or a list of readings: the least at `at`, the greatest at `more_at` */
    VALUE_NUMBERS,    /* one quantity or a list: const double * at `at`, size_t at `more_at` */
    VALUE_PAIRS,      /* list of [number, number]: const struct job_pair * at `at`, size_t at `more_at` */
    VALUE_LAYERS,     /* a count, or a list of heights: struct job_layers */
    VALUE_TEXT,       /* struct str */
    VALUE_NAME,       /* const char * */
    VALUE_WORD,       /* an enum: the word's place in `words` */
    VALUE_WORDS,      /* list of words: bool at each word's place */
    VALUE_ENDS,       /* list of methods: bool at each method's place; left out: all */
    VALUE_FLAG,       /* bool */
    VALUE_DATE,       /* struct date */
    VALUE_STOCK,      /* const struct job_stock *, by its name */
    VALUE_INSTRUMENT, /* const struct job_instrument *, by its name */
    VALUE_MAP,        /* a mapping read by `table`, whose offsets count from `at` */
    VALUE_VARIANT,    /* a mapping whose table is chosen by one of its own words */
    VALUE_LIST,       /* list of mappings: array at `at`, size_t at `more_at`; by `table` or `variants` */
    VALUE_NAMED       /* mapping of mappings: the same, the key being the element's first member, const char * */
};

struct words {
    const char *const *name; /* at its enum's number; NULL: no word for it */
    size_t n;
};
#define WORDS(array) {(array), sizeof(array) / sizeof *(array)}

struct variants;

/* One key. All numbers as in struct job: mm, rad, Celsius, per cent, kg. */
struct field {
    const char *key;
    enum value_kind kind;
    bool required;              /* where its mapping stands */
    bool whole;                 /* a whole number */
    bool sorted;                /* numbers are put in ascending order */
    enum quantity quantity;
    double low, high;           /* accepted; of a text: `high` characters; 0 and 0: anything */
    double usual_low, usual_high; /* outside: a caution; 0 and 0: none */
    double fallback;            /* the program's default where the value is left out; 0: NAN */
    size_t most;                /* entries of a list; 0: LIST_MOST */
    size_t at, more_at;
    size_t given_at, mark_at;   /* bool and struct mark to set beside the value; 0: none */
    size_t size;                /* of an element of a list */
    const struct words *words;
    const struct table *table;
    const struct variants *variants;
    enum diag_code out_of_range; /* 0: DIAG_OUT_OF_RANGE */
    const char *hint;           /* added to a message about its range */
    const char *about;          /* one line for the schema */
};

struct reader;
struct table {
    const char *name;            /* for the schema: "blade" */
    const struct field *fields;
    size_t n;
    const struct table *extends; /* its fields may stand in the same mapping */
    /* Rules between the values of one mapping, after they were read. NULL: none. */
    void (*check)(struct reader *, const struct node *map, void *out);
    const char *about;
};
#define FIELDS(array) .fields = (array), .n = sizeof(array) / sizeof *(array)

/* Kinds of jig, methods of test. Enum numbers are places in `list`; a row without table is a word of the format that
   this version cannot do. */
struct variant {
    const char *name;
    const struct table *table;
    void (*check)(struct reader *); /* what it needs of the rest of the job, once all is read; NULL: nothing */
};
struct variants {
    const char *key;  /* "kind", "method" */
    const char *what; /* "which kind of jig it is" */
    size_t at;        /* the enum's place in the element */
    const struct variant *list;
    size_t n;
};

/* Rows of a field table. AT names the member that is read. */
#define AT(type, member) .at = offsetof(type, member)
#define MORE(type, member) .more_at = offsetof(type, member)
#define RANGE(lowest, highest) .kind = VALUE_QUANTITY, .low = (lowest), .high = (highest)
#define LENGTH(lowest, highest) RANGE(lowest, highest), .quantity = QUANTITY_LENGTH
#define NUMBER(lowest, highest) RANGE(lowest, highest), .quantity = QUANTITY_NUMBER
#define PERCENT(lowest, highest) RANGE(lowest, highest), .quantity = QUANTITY_PERCENT
#define TEXT(longest) .kind = VALUE_TEXT, .high = (longest)
#define WORD(list) .kind = VALUE_WORD, .words = &(list)
#define MAP(table_of_it) .kind = VALUE_MAP, .table = &(table_of_it)
#define GIVEN(type, member) {.kind = VALUE_GIVEN, .at = offsetof(type, member)}
#define PLACE(type, member) {.kind = VALUE_MARK, .at = offsetof(type, member)}

/* What a reading carries along. */
struct reader {
    struct job *job;
    struct diags *diags;
    struct text path;     /* of the value being read */
    bool excuse_absent;   /* a value that is not there may stand in a part that could not be read: no error */
    int first_file;       /* index of the job's own text in diags */
    enum units units_of[1 + USE_MOST]; /* how bare numbers of each file are read */
    struct date newest;   /* of the job's own file */
};

/* Reads one mapping. map NULL: all its values are "not given", their place being `home`. */
void read_table(struct reader *, const struct table *, const struct node *map, struct mark home, void *out);
const char *reader_path(const struct reader *); /* of the value being read; valid until the next step */
/* The path and one key more; lives as long as the diagnostics. */
const char *reader_key(const struct reader *, const char *key);
size_t reader_push(struct reader *, const char *key); /* gives what reader_pop wants */
size_t reader_push_index(struct reader *, size_t index);
void reader_pop(struct reader *, size_t before);
enum units reader_units(const struct reader *, struct mark);
const char *reader_show(struct reader *, const struct node *); /* "\"18 mn\"", at most 40 characters of it */
/* A length as the user would write it, "18.5 mm" or "0.7283 in". Lives as long as the diagnostics. */
const char *reader_length(struct reader *, struct mark, double mm);
const char *reader_num(struct reader *, const struct num *); /* the same of a length of the job */
/* Reports a required value at `path` of the whole job; does nothing where it may stand in an unread part. */
void reader_miss(struct reader *, struct mark home, const char *path, const char *what);
/* Reports a word that is none of those accepted, with the nearest. */
void reader_report_word(struct reader *, const struct node *, const struct guess *, const char *accepted);
/* "list, name"; lives as long as the diagnostics. */
const char *reader_join(struct reader *, const char *list, const char *name);
/* Reports a node of another kind; `wanted` says what stands here. */
bool reader_is_kind(struct reader *, const struct node *, enum node_kind, const char *wanted);
const struct field *table_find(const struct table *, const char *key); /* NULL: no such key */

#endif
