/* An ICC profile (ICC.1:2001-04, version 2.1): header of 128 bytes, table of tags, and their data, big-endian. Display
   device, RGB to XYZ, with the primaries of IEC 61966-2-1 adapted to D50 and its curve in 256 steps. */
#include "pdf/srgb.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { HEADER = 128, TAGS = 9, CURVE_STEPS = 256, TABLE = 4 + 12 * TAGS };

struct profile {
    unsigned char *bytes;
    size_t size; /* so far, a multiple of four */
    size_t tags;
};

static const char name[] = "sRGB";
static const char right[] = "No rights reserved";

static void put_16(unsigned char *p, unsigned v)
{
    p[0] = (unsigned char)(v >> 8);
    p[1] = (unsigned char)v;
}

static void put_32(unsigned char *p, size_t v)
{
    put_16(p, (unsigned)(v >> 16));
    put_16(p + 2, (unsigned)(v & 0xFFFF));
}

/* Enters the tag in the table and gives the place of its data, of which the type is written. */
static unsigned char *start_tag(struct profile *p, const char *signature, const char *type, size_t size)
{
    unsigned char *row = p->bytes + HEADER + 4 + 12 * p->tags++, *data = p->bytes + p->size;
    memcpy(row, signature, 4);
    put_32(row + 4, p->size);
    put_32(row + 8, size);
    memcpy(data, type, 4);
    p->size += (size + 3) / 4 * 4;
    return data;
}

/* The same data under another signature. */
static void repeat_tag(struct profile *p, const char *signature)
{
    unsigned char *row = p->bytes + HEADER + 4 + 12 * p->tags++;
    memcpy(row, row - 12, 12);
    memcpy(row, signature, 4);
}

static void add_xyz(struct profile *p, const char *signature, double x, double y, double z)
{
    unsigned char *data = start_tag(p, signature, "XYZ ", 20);
    put_32(data + 8, (size_t)lround(x * 65536));
    put_32(data + 12, (size_t)lround(y * 65536));
    put_32(data + 16, (size_t)lround(z * 65536));
}

/* IEC 61966-2-1: from the signal to light, both 0 to 1. */
static double light(double signal)
{
    return signal <= 0.04045 ? signal / 12.92 : pow((signal + 0.055) / 1.055, 2.4);
}

static void add_curve(struct profile *p)
{
    unsigned char *data = start_tag(p, "rTRC", "curv", 12 + 2 * CURVE_STEPS);
    put_32(data + 8, CURVE_STEPS);
    for (int i = 0; i < CURVE_STEPS; i++)
        put_16(data + 12 + 2 * i, (unsigned)lround(65535 * light(i / (CURVE_STEPS - 1.0))));
    repeat_tag(p, "gTRC");
    repeat_tag(p, "bTRC");
}

static void write_header(struct profile *p)
{
    unsigned char *b = p->bytes;
    put_32(b, p->size);
    put_32(b + 8, 0x02100000);
    memcpy(b + 12, "mntrRGB XYZ ", 12);
    put_16(b + 24, 2024), put_16(b + 26, 1), put_16(b + 28, 1); /* a fixed date: the same bytes every time */
    memcpy(b + 36, "acsp", 4);
    put_32(b + 68, 0xF6D6), put_32(b + 72, 0x10000), put_32(b + 76, 0xD32D); /* D50, as the standard has it */
    put_32(b + HEADER, TAGS);
}

size_t srgb_profile(unsigned char bytes[SRGB_PROFILE_ROOM])
{
    memset(bytes, 0, SRGB_PROFILE_ROOM);
    struct profile p = {.bytes = bytes, .size = HEADER + TABLE};
    unsigned char *description = start_tag(&p, "desc", "desc", 90 + sizeof name);
    put_32(description + 8, sizeof name);
    memcpy(description + 12, name, sizeof name);
    memcpy(start_tag(&p, "cprt", "text", 8 + sizeof right) + 8, right, sizeof right);
    add_xyz(&p, "wtpt", 0.9642, 1, 0.8249);
    add_xyz(&p, "rXYZ", 0.43607, 0.22249, 0.01392);
    add_xyz(&p, "gXYZ", 0.38515, 0.71687, 0.09708);
    add_xyz(&p, "bXYZ", 0.14307, 0.06061, 0.71410);
    add_curve(&p);
    write_header(&p);
    return p.size;
}
