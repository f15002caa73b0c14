/* The PDF of a document: its pages, bookmarks, labels and how it wants to be shown and printed. libharu keeps the
   objects, compresses and numbers them; text and paths are written as operators by content.c, fonts by font.c. */
#include "pdf.h"

#include "pdf/archive.h"
#include "pdf/content.h"
#include "pdf/font.h"
#include "pdf/writer.h"

#include <stdlib.h>

static void *take_memory(HPDF_UINT n)
{
    return mem_alloc(n);
}

static void give_memory(void *p)
{
    free(p);
}

static void keep_first_error(HPDF_STATUS error, HPDF_STATUS detail, void *user)
{
    struct writer *w = user;
    if (!w->error) {
        w->error = error;
        w->error_detail = detail;
    }
}

static bool open_writer(struct writer *w, const struct faces *faces, struct text *problem)
{
    w->faces = faces;
    w->doc = HPDF_NewEx(keep_first_error, take_memory, give_memory, 0, w);
    if (!w->doc) {
        text_printf(problem, "libharu did not start (error 0x%04lX)", (unsigned long)w->error);
        return false;
    }
    HPDF_SetCompressionMode(w->doc, HPDF_COMP_ALL);
    return true;
}

static void close_writer(struct writer *w)
{
    for (enum face face = 0; face < FACES; face++)
        free(w->used[face].glyphs);
    HPDF_Free(w->doc);
    pool_free(&w->pool);
}

static void name_fonts(struct writer *w, HPDF_Page page, const bool used[FACES])
{
    HPDF_Dict fonts = writer_dict(w);
    for (enum face face = 0; face < FACES; face++) {
        char key[] = {'F', (char)('0' + face), '\0'};
        if (used[face])
            writer_put(fonts, key, w->used[face].dict);
    }
    writer_put(HPDF_Dict_GetItem(page, "Resources", HPDF_OCLASS_DICT), "Font", fonts);
}

static bool add_page(struct writer *w, const struct page *page, size_t number, struct text *problem)
{
    bool used[FACES] = {false};
    struct text operators = {0}, why = {0};
    bool good = content_build(w, page, used, &operators, &why);
    if (good) {
        HPDF_Page p = HPDF_AddPage(w->doc);
        HPDF_Page_SetWidth(p, (HPDF_REAL)page->width);
        HPDF_Page_SetHeight(p, (HPDF_REAL)page->height);
        name_fonts(w, p, used);
        HPDF_Stream_Write(((HPDF_PageAttr)p->attr)->stream, (HPDF_BYTE *)operators.bytes, (HPDF_UINT)operators.size);
    } else {
        text_printf(problem, "page %zu: %s", number, text_string(&why));
    }
    text_free(&operators);
    text_free(&why);
    return good;
}

static bool add_pages(struct writer *w, const struct pages *pages, struct text *problem)
{
    for (size_t i = 0; i < pages->n; i++)
        if (!add_page(w, &pages->list[i], i + 1, problem))
            return false;
    return true;
}

/* The destination is a direct array: some readers do not follow an indirect one from here. */
static void add_bookmark(struct writer *w, const struct pages *pages, const struct page_bookmark *bookmark)
{
    HPDF_Page page = HPDF_GetPageByIndex(w->doc, (HPDF_UINT)bookmark->page);
    HPDF_Array to = HPDF_Array_New(w->doc->mmgr);
    HPDF_Array_Add(to, page);
    HPDF_Array_AddName(to, "XYZ"); /* left, top, magnification: 0 leaves it as it is */
    HPDF_Array_AddNumber(to, 0);
    HPDF_Array_AddReal(to, (HPDF_REAL)pages->list[bookmark->page].height);
    HPDF_Array_AddNumber(to, 0);
    HPDF_Outline outline = HPDF_CreateOutline(w->doc, NULL, "-", NULL);
    writer_put(outline, "Title", writer_utf16(w, bookmark->title));
    writer_put(outline, "Dest", to);
}

/* PDF 1.4 8.3.1: a number tree from the page's index to its label, all of it prefix. */
static void add_labels(struct writer *w, const struct pages *pages)
{
    HPDF_Array numbers = HPDF_Array_New(w->doc->mmgr);
    for (size_t i = 0; i < pages->n; i++) {
        HPDF_Dict label = writer_dict(w);
        if (pages->list[i].label)
            writer_put(label, "P", writer_utf16(w, pages->list[i].label));
        HPDF_Array_AddNumber(numbers, (HPDF_INT32)i);
        HPDF_Array_Add(numbers, label);
    }
    HPDF_Dict tree = writer_dict(w);
    writer_put(tree, "Nums", numbers);
    writer_put(w->doc->catalog, "PageLabels", tree);
}

/* Drawings at true scale must be printed so. */
static void add_preferences(struct writer *w, const char *language)
{
    HPDF_Dict preferences = writer_dict(w);
    writer_put_name(preferences, "PrintScaling", "None");
    writer_put(preferences, "DisplayDocTitle", HPDF_Boolean_New(w->doc->mmgr, HPDF_TRUE));
    writer_put(w->doc->catalog, "ViewerPreferences", preferences);
    writer_put_ascii(w, w->doc->catalog, "Lang", language ? language : "en-GB");
}

/* Through memory: libharu's own saving to a file does not see a full disk. */
static void save(struct writer *w, struct text *bytes)
{
    HPDF_SaveToStream(w->doc);
    if (w->error)
        return;
    HPDF_UINT blocks = HPDF_MemStream_GetBufCount(w->doc->stream);
    for (HPDF_UINT i = 0; i < blocks; i++) {
        HPDF_UINT n = 0;
        const HPDF_BYTE *block = HPDF_MemStream_GetBufPtr(w->doc->stream, i, &n);
        text_add_n(bytes, (const char *)block, n);
    }
}

static bool write_document(struct writer *w, const struct pages *pages, const struct pdf_info *info, struct text *bytes,
                           struct text *problem)
{
    if (!add_pages(w, pages, problem))
        return false;
    font_finish(w);
    for (size_t i = 0; i < pages->n_bookmarks; i++)
        add_bookmark(w, pages, &pages->bookmarks[i]);
    add_labels(w, pages);
    add_preferences(w, info->language);
    archive_finish(w, info);
    save(w, bytes);
    if (w->error || HPDF_GetError(w->doc) != HPDF_OK) {
        text_printf(problem, "libharu failed (error 0x%04lX, %lu)", (unsigned long)w->error,
                    (unsigned long)w->error_detail);
        return false;
    }
    return true;
}

bool pdf_build(const struct pages *pages, const struct faces *faces, const struct pdf_info *info, struct text *bytes,
               struct text *problem)
{
    struct writer w = {0};
    if (!open_writer(&w, faces, problem))
        return false;
    bool good = write_document(&w, pages, info, bytes, problem);
    if (!good)
        text_clear(bytes);
    close_writer(&w);
    return good;
}
