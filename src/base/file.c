/* Whole files, POSIX. */
#define _XOPEN_SOURCE 700 /* realpath */
#include "base/file.h"

#include "base/mem.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static enum file_read_result read_open_file(int fd, size_t limit, struct text *out)
{
    struct stat st;
    if (fstat(fd, &st) != 0)
        return FILE_NOT_READABLE;
    if (!S_ISREG(st.st_mode))
        return FILE_NOT_PLAIN;
    for (;;) {
        char buffer[65536];
        ssize_t n = read(fd, buffer, sizeof buffer);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return FILE_NOT_READABLE;
        if (n == 0)
            break;
        text_add_n(out, buffer, (size_t)n);
        if (out->size > limit)
            return FILE_TOO_LARGE;
    }
    text_add_n(out, "", 0); /* an empty file still gives a string */
    return FILE_READ;
}

enum file_read_result file_read(const char *path, size_t limit, struct text *out)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK); /* a named pipe must not make us wait */
    if (fd < 0)
        return FILE_NOT_READABLE;
    enum file_read_result result = read_open_file(fd, limit, out);
    int kept = errno;
    close(fd);
    errno = kept;
    return result;
}

static bool write_all(int fd, const char *p, size_t n)
{
    while (n > 0) {
        ssize_t w = write(fd, p, n);
        if (w < 0 && errno == EINTR)
            continue;
        if (w <= 0)
            return false;
        p += w;
        n -= (size_t)w;
    }
    return true;
}

/* Opens a new file beside path, under a name that nobody has. mkstemp would do, but for its mode of 0600. */
static int open_beside(const char *path, struct text *name)
{
    for (int i = 0; i < 1000; i++) {
        text_clear(name);
        text_printf(name, "%s.%ld-%d.part", path, (long)getpid(), i);
        int fd = open(name->bytes, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (fd >= 0 || errno != EEXIST)
            return fd;
    }
    return -1;
}

/* A device or pipe cannot be replaced; and /dev/stdout may be a link to a plain file, which is open. */
static bool is_written_through(const char *path)
{
    struct stat st;
    return strncmp(path, "/dev/", 5) == 0 || strncmp(path, "/proc/", 6) == 0 || (stat(path, &st) == 0 && !S_ISREG(st.st_mode));
}

static bool write_through(const char *path, const void *bytes, size_t size)
{
    int fd = open(path, O_WRONLY | O_APPEND | O_CLOEXEC); /* what stands there stays */
    bool ok = fd >= 0 && write_all(fd, bytes, size);
    return fd >= 0 && close(fd) == 0 && ok;
}

static bool replace_file(const char *path, const void *bytes, size_t size)
{
    struct text name = {0};
    int fd = open_beside(path, &name);
    bool ok = fd >= 0;
    if (ok) {
        ok = write_all(fd, bytes, size) && fsync(fd) == 0;
        int kept = errno;
        ok = close(fd) == 0 && ok;
        errno = ok ? errno : kept;
        ok = ok && rename(name.bytes, path) == 0;
        kept = errno;
        if (!ok)
            unlink(name.bytes);
        errno = kept;
    }
    text_free(&name);
    return ok;
}

bool file_write_whole(const char *path, const void *bytes, size_t size)
{
    if (is_written_through(path))
        return write_through(path, bytes, size);
    char *real = realpath(path, NULL); /* NULL: not there yet */
    bool ok = replace_file(real ? real : path, bytes, size);
    int kept = errno;
    free(real);
    errno = kept;
    return ok;
}

bool file_is_same(const char *a, const char *b)
{
    struct stat x, y;
    return stat(a, &x) == 0 && stat(b, &y) == 0 && x.st_dev == y.st_dev && x.st_ino == y.st_ino;
}

static bool make_one_folder(const char *path)
{
    struct stat st;
    if (mkdir(path, 0777) == 0)
        return true;
    return errno == EEXIST && stat(path, &st) == 0 && S_ISDIR(st.st_mode);
}

bool file_make_folder(const char *path)
{
    char *copy = mem_copy_string(path);
    bool ok = true;
    for (char *p = copy + 1; *copy && *p && ok; p++) {
        if (*p != '/')
            continue;
        *p = '\0';
        ok = make_one_folder(copy);
        *p = '/';
    }
    ok = ok && make_one_folder(copy);
    free(copy);
    return ok;
}
