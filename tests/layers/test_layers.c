/* The rules of the house that the compiler does not keep: which stage may include which, where each library's header may
   stand, that a formula file names no job. Reads the #include lines of src/ and include/. */
#define _POSIX_C_SOURCE 200809L
#include "base/file.h"
#include "base/mem.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "close.h"

/* folder, public headers that are its own, stages whose headers it may include, system headers only it may include */
static const struct layer {
    const char *folder, *own, *may, *library;
} layers[] = {
    {"base", "", "", ""},
    {"words", "words.h", "base", ""},
    {"type", "type.h ink.h", "base fonts", "hb.h hb-ot.h hb-subset.h"},
    {"job", "job.h", "base", "yaml.h sha256.h sha2.h"},
    {"plan", "plan.h setting.h", "base job", ""},
    {"proof", "proof.h", "base job setting.h", ""},
    {"stock", "cutting.h", "base job plan", ""},
    {"outcome", "outcome.h", "base job plan proof stock", ""},
    {"draw", "draw.h", "base words type job plan proof stock", ""},
    {"sheet", "sheet.h", "base words job plan proof stock outcome draw", ""},
    {"pages", "pages.h", "base words type draw sheet", ""},
    {"pdf", "pdf.h", "base type pages", "hpdf.h hpdf_pdfa.h hpdf_encrypt.h"},
    {"results", "results.h", "base words job plan proof stock outcome", ""},
    {"run", "run.h", "base words type job plan proof stock outcome draw sheet pages pdf results", "pthread.h"},
};
enum { LAYERS = sizeof layers / sizeof *layers };

static bool list_has(const char *list, const char *word, size_t n)
{
    for (const char *p = list; *p;) {
        size_t len = strcspn(p, " ");
        if (len == n && strncmp(p, word, n) == 0)
            return true;
        p += len + strspn(p + len, " ");
    }
    return false;
}

/* The stage a quoted include belongs to: its folder, or the stage that owns the public header. */
static const char *stage_of(const char *include, size_t n, char *buffer, size_t size)
{
    const char *slash = memchr(include, '/', n);
    if (slash) {
        snprintf(buffer, size, "%.*s", (int)(slash - include), include);
        return buffer;
    }
    for (int i = 0; i < LAYERS; i++)
        if (list_has(layers[i].own, include, n))
            return layers[i].folder;
    return "fonts";
}

/* Problems found in one file, printed; gives their number. */
static int check_file(const char *path, const struct layer *layer)
{
    struct text t = {0};
    int problems = 0;
    assert_int_equal(file_read(path, 1 << 20, &t), FILE_READ);
    for (const char *p = text_string(&t); (p = strstr(p, "#include ")) != NULL; p++) {
        bool quoted = p[9] == '"';
        const char *name = p + 10;
        size_t n = strcspn(name, "\">\n");
        char buffer[64];
        bool ok = true;
        if (quoted) {
            const char *stage = stage_of(name, n, buffer, sizeof buffer);
            ok = strcmp(stage, layer->folder) == 0 || list_has(layer->may, stage, strlen(stage)) || list_has(layer->may, name, n);
        } else {
            for (int i = 0; i < LAYERS; i++)
                if (list_has(layers[i].library, name, n) && &layers[i] != layer)
                    ok = false;
        }
        if (!ok)
            print_error("%s: %s may not include %.*s\n", path, layer->folder, (int)n, name);
        problems += !ok;
    }
    text_free(&t);
    return problems;
}

static int check_folder(const char *folder, const struct layer *layer, int *files)
{
    int problems = 0;
    DIR *dir = opendir(folder);
    assert_non_null(dir);
    for (struct dirent *e; (e = readdir(dir)) != NULL;) {
        size_t n = strlen(e->d_name);
        if (n < 3 || e->d_name[n - 2] != '.' || !strchr("ch", e->d_name[n - 1]))
            continue;
        char path[2048];
        snprintf(path, sizeof path, "%s/%s", folder, e->d_name);
        problems += check_file(path, layer);
        ++*files;
    }
    closedir(dir);
    return problems;
}

static void test_layers_includes_follow_the_table(void **state)
{
    (void)state;
    int problems = 0, files = 0;
    for (int i = 0; i < LAYERS; i++) {
        char folder[1024];
        snprintf(folder, sizeof folder, "%s/src/%s", SOURCE_FOLDER, layers[i].folder);
        DIR *there = opendir(folder);
        if (!there && strcmp(layers[i].folder, "stock") == 0) /* not written yet */
            continue;
        assert_non_null(there);
        closedir(there);
        problems += check_folder(folder, &layers[i], &files);
    }
    assert_true(files > 40);
    assert_int_equal(problems, 0);
}

/* A switch on the kind of jig or the method outside the tables would make a new one more than one file in each stage. */
static void test_layers_no_switch_on_kind_or_method(void **state)
{
    (void)state;
    char command[1200];
    snprintf(command, sizeof command, "grep -rnE 'switch \\([^)]*(kind|method)\\)' --include=*.c %s/src | grep -E 'case (JIG|METHOD)_|jig\\.kind|->method' ", SOURCE_FOLDER);
    assert_int_not_equal(system(command), 0); /* grep finds nothing: exit status 1 */
}

/* No mutable global state: the object files have no writable data of ours (nm: B, b, D, d, C). */
static void test_layers_no_file_scope_variable_that_is_not_const(void **state)
{
    (void)state;
    char command[1200];
    snprintf(command, sizeof command, "grep -rnE '^(static )?(int|bool|double|char|size_t|struct [a-z_]+) \\**[a-z_]+( = .*)?;$' --include=*.c %s/src | grep -v const", SOURCE_FOLDER);
    assert_int_not_equal(system(command), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_layers_includes_follow_the_table),
        cmocka_unit_test(test_layers_no_switch_on_kind_or_method),
        cmocka_unit_test(test_layers_no_file_scope_variable_that_is_not_const),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
