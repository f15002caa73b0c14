/* PDF/A-1b (ISO 19005-1, level B): the same metadata in the Info dictionary (6.7.3) and in XMP, a colour space for all
   colours of the file (6.2.2), and an identifier (6.1.3) that depends on nothing but the job. */
#include "pdf/archive.h"

#include "pdf/srgb.h"

#include <hpdf_encrypt.h>
#include <hpdf_info.h>
#include <string.h>

static const char producer[] = "libharu " HPDF_VERSION_TEXT;

/* A property in both of its forms. */
struct property {
    const char *value; /* NULL or empty: left out */
    const char *info_key;
    const char *open, *close; /* XMP around the value */
};

enum { PROPERTIES = 6 };

#define ALTERNATIVES "<rdf:Alt><rdf:li xml:lang=\"x-default\">"
static void list_properties(const struct pdf_info *info, struct property p[PROPERTIES])
{
    const struct property all[PROPERTIES] = {
        {info->title, "Title", "<dc:title>" ALTERNATIVES, "</rdf:li></rdf:Alt></dc:title>"},
        {info->author, "Author", "<dc:creator><rdf:Seq><rdf:li>", "</rdf:li></rdf:Seq></dc:creator>"},
        {info->subject, "Subject", "<dc:description>" ALTERNATIVES, "</rdf:li></rdf:Alt></dc:description>"},
        {info->keywords, "Keywords", "<pdf:Keywords>", "</pdf:Keywords>"},
        {info->creator, "Creator", "<xmp:CreatorTool>", "</xmp:CreatorTool>"},
        {producer, "Producer", "<pdf:Producer>", "</pdf:Producer>"},
    };
    memcpy(p, all, sizeof all);
}

static bool is_stated(const struct property *p)
{
    return p->value && *p->value;
}

static struct date date_or_epoch(struct date date)
{
    return date_is_set(date) ? date : (struct date){1970, 1, 1};
}

static void add_escaped(struct text *t, const char *s)
{
    for (; *s; s++) {
        if (*s == '&')
            text_add(t, "&amp;");
        else if (*s == '<')
            text_add(t, "&lt;");
        else if (*s == '>')
            text_add(t, "&gt;");
        else
            text_add_char(t, *s);
    }
}

static void add_xmp(struct text *t, const struct property *properties, struct date date)
{
    text_add(t, "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
                "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
                "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
                "<rdf:Description rdf:about=\"\" xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\" "
                "xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" "
                "xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">\n"
                "<pdfaid:part>1</pdfaid:part>\n<pdfaid:conformance>B</pdfaid:conformance>\n"
                "<dc:format>application/pdf</dc:format>\n");
    for (int i = 0; i < PROPERTIES; i++) {
        if (!is_stated(&properties[i]))
            continue;
        text_add(t, properties[i].open);
        add_escaped(t, properties[i].value);
        text_printf(t, "%s\n", properties[i].close);
    }
    char day[11];
    date_print(date, day);
    text_printf(t, "<xmp:CreateDate>%sT00:00:00+00:00</xmp:CreateDate>\n", day);
    text_printf(t, "<xmp:ModifyDate>%sT00:00:00+00:00</xmp:ModifyDate>\n", day);
    text_add(t, "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"w\"?>");
}

static void write_metadata(struct writer *w, const struct pdf_info *info)
{
    struct date date = date_or_epoch(info->date);
    HPDF_Date stamp = {.year = date.year, .month = date.month, .day = date.day, .ind = '+'};
    HPDF_SetInfoDateAttr(w->doc, HPDF_INFO_CREATION_DATE, stamp);
    HPDF_SetInfoDateAttr(w->doc, HPDF_INFO_MOD_DATE, stamp);
    struct property properties[PROPERTIES];
    list_properties(info, properties);
    for (int i = 0; i < PROPERTIES; i++)
        if (is_stated(&properties[i]))
            writer_put(w->doc->info, properties[i].info_key, writer_utf16(w, properties[i].value));
    struct text xmp = {0};
    add_xmp(&xmp, properties, date);
    HPDF_Dict stream = writer_stream(w, xmp.bytes, xmp.size, false); /* 6.7.2: not compressed */
    writer_put_name(stream, "Type", "Metadata");
    writer_put_name(stream, "Subtype", "XML");
    writer_put(w->doc->catalog, "Metadata", stream);
    text_free(&xmp);
}

static void write_output_intent(struct writer *w)
{
    unsigned char bytes[SRGB_PROFILE_ROOM];
    HPDF_Dict profile = writer_stream(w, bytes, srgb_profile(bytes), true);
    writer_put_number(profile, "N", 3);
    HPDF_Dict intent = writer_indirect_dict(w);
    writer_put_name(intent, "Type", "OutputIntent");
    writer_put_name(intent, "S", "GTS_PDFA1");
    writer_put_ascii(w, intent, "OutputConditionIdentifier", "sRGB IEC61966-2.1");
    writer_put_ascii(w, intent, "RegistryName", "http://www.color.org");
    writer_put_ascii(w, intent, "Info", "sRGB IEC61966-2.1");
    writer_put(intent, "DestOutputProfile", profile);
    HPDF_Array intents = HPDF_Array_New(w->doc->mmgr);
    HPDF_Array_Add(intents, intent);
    writer_put(w->doc->catalog, "OutputIntents", intents);
}

static void write_identifier(struct writer *w, const char *identity)
{
    HPDF_MD5_CTX md5;
    HPDF_BYTE digest[16];
    HPDF_MD5Init(&md5);
    HPDF_MD5Update(&md5, (const HPDF_BYTE *)identity, (HPDF_UINT32)strlen(identity));
    HPDF_MD5Final(digest, &md5);
    HPDF_Array id = HPDF_Array_New(w->doc->mmgr);
    for (int i = 0; i < 2; i++)
        HPDF_Array_Add(id, HPDF_Binary_New(w->doc->mmgr, digest, sizeof digest));
    writer_put(w->doc->trailer, "ID", id);
}

void archive_finish(struct writer *w, const struct pdf_info *info)
{
    write_metadata(w, info);
    write_output_intent(w);
    write_identifier(w, info->identity ? info->identity : "");
    w->doc->pdf_version = HPDF_VER_14; /* what PDF/A-1 is made of */
}
