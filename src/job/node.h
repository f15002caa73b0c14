/* node.h: a YAML text as a small tree of nodes, each with its place. Owns: the limits and the subset of YAML that a job
   file may use. node.c alone knows libyaml. May be included by src/job only. */
#ifndef FETTLE_JOB_NODE_H
#define FETTLE_JOB_NODE_H

#include "base/diag.h"

enum {
    FILE_LIMIT = 1024 * 1024, /* bytes */
    DEPTH_LIMIT = 16,         /* collections inside each other */
    NODE_LIMIT = 20000,       /* after aliases are expanded */
    ANCHOR_LIMIT = 1000,
    TEXT_LIMIT = 200 /* characters of one scalar or key */
};

enum node_kind { NODE_SCALAR, NODE_LIST, NODE_MAP };

/* Entries of a list or mapping are a chain from `first` along `next`, in the order of the file. */
struct node {
    enum node_kind kind;
    struct mark mark;     /* of a collection that has a key: the key's place */
    const char *text;     /* of a scalar, as one line: a blank for all blanks, tabs and line breaks in a row */
    bool is_nothing;      /* a scalar that stands for no value: left empty, ~ or null */
    bool is_reported;     /* wrong in itself, and said so: nothing more is to be said of it */
    bool is_flow;         /* written in brackets or braces */
    const char *key;      /* in a mapping: its key; in a list NULL */
    struct mark key_mark;
    struct node *first, *next;
    size_t n;             /* entries */
    size_t total;         /* nodes in all, itself and its keys included */
    int height;           /* collections inside each other from here down; 0 for a scalar */
};

/* Parses one source text. NULL if there is nothing to read. After a syntax error or a passed limit the tree holds what
   stood before it and *complete is false. Everything lives in the pool. */
const struct node *node_read(const char *text, size_t size, int file, struct pool *, struct diags *, bool *complete);
const struct node *node_find(const struct node *map, const char *key); /* NULL if it is not there; map may be NULL */
const char *node_kind_name(const struct node *); /* "a list" */

#endif
