/* Whole files: reading with a limit, writing so that a file is either complete or untouched. Owns nothing.
   May be included by every stage. */
#ifndef FETTLE_BASE_FILE_H
#define FETTLE_BASE_FILE_H

#include "base/text.h"

#include <stdbool.h>

enum file_read_result { FILE_READ, FILE_NOT_READABLE, FILE_NOT_PLAIN, FILE_TOO_LARGE };
/* Reads a plain file of at most `limit` bytes into out (NUL added). errno tells why a file is not readable. */
enum file_read_result file_read(const char *path, size_t limit, struct text *out);
/* Writes to a temporary name in the same folder, checks every step, then renames: after a failure the old file stands
   untouched and false is returned with errno set. A link stays: what it leads to is replaced. What is no plain file, and
   all that stands under /dev or /proc, is written through. */
bool file_write_whole(const char *path, const void *bytes, size_t size);
bool file_make_folder(const char *path); /* with its parents; true if it is there afterwards */
bool file_is_same(const char *a, const char *b); /* both are there, and are one file or folder */

#endif
