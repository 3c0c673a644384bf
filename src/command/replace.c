/* Putting a new text in a file's place in one step: there is never half of it, whatever happens meanwhile, and the new file is to
 * others what the old one was.  For reports with -o, and `tidy --in-place`. */
#define _GNU_SOURCE

#include "command/command.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/xattr.h>
#endif

static int cannot_write(const char *path)
{
    command_say("potash: %s: %s", path, strerror(errno));
    return POTASH_UNUSABLE;
}

static bool write_all(void *context, const char *bytes, size_t length)
{
    int descriptor = *(const int *)context;
    while (length > 0) {
        ssize_t wrote = write(descriptor, bytes, length);
        if (wrote < 0 && errno == EINTR) {
            continue;
        }
        if (wrote < 0) {
            return false;
        }
        bytes += wrote;
        length -= (size_t)wrote;
    }
    return true;
}

/* A printer, a pipe or another device is written to as it is; putting a file in its place would take it away. */
static int write_device(const char *path, const struct command_writer *writer)
{
    int descriptor = open(path, O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) {
        return cannot_write(path);
    }
    int status = writer->write(writer->context, &(struct potash_sink){write_all, &descriptor});
    status = status == POTASH_FAULTY ? cannot_write(path) : status;
    if (close(descriptor) != 0 && status == POTASH_GOOD) {
        status = cannot_write(path);
    }
    return status;
}

/* The path at the end of symbolic links, whether or not something is there; NULL with errno.  The caller frees it. */
static char *follow_links(const char *path)
{
    enum { MOST_LINKS = 40 }; /* as many as Linux follows, path_resolution(7) */
    char *here = strdup(path);
    char target[PATH_MAX];
    struct stat status;
    for (int links = 0; here != NULL && lstat(here, &status) == 0 && S_ISLNK(status.st_mode); links++) {
        ssize_t length = readlink(here, target, sizeof target);
        const char *slash = length > 0 && target[0] == '/' ? NULL : strrchr(here, '/');
        char *next = NULL;
        if (links == MOST_LINKS || length < 0) {
            errno = length < 0 ? errno : ELOOP;
        } else if (asprintf(&next, "%.*s%.*s", slash == NULL ? 0 : (int)(slash + 1 - here), here, (int)length, target) < 0) {
            next = NULL;
            errno = ENOMEM;
        }
        free(here);
        here = next;
    }
    return here;
}

#ifdef __linux__
/* Extended attributes, lists of access rights among them (acl(5)).  Those that may not be set, or not here, are left. */
static bool copy_attributes(const char *from, int to)
{
    enum { LARGEST = 65536 }; /* XATTR_SIZE_MAX and XATTR_LIST_MAX, xattr(7) */
    char *names = malloc(2 * LARGEST);
    ssize_t size = names == NULL ? -1 : listxattr(from, names, LARGEST);
    bool good = names != NULL;
    for (ssize_t at = 0; good && at < size; at += (ssize_t)strlen(names + at) + 1) {
        char *value = names + LARGEST;
        ssize_t length = getxattr(from, names + at, value, LARGEST);
        good = length < 0 || fsetxattr(to, names + at, value, (size_t)length, 0) == 0 || errno == EPERM || errno == EACCES ||
               errno == ENOTSUP;
    }
    free(names);
    return good;
}
#else
static bool copy_attributes(const char *from, int to)
{
    (void)from;
    (void)to;
    return true;
}
#endif

/* Owner, permissions and attributes of the file that stands there; of a new one, what is usual. */
static bool take_after(int descriptor, const char *path, const struct stat *before)
{
    if (before == NULL) {
        mode_t mask = umask(0);
        umask(mask);
        return fchmod(descriptor, 0666 & ~mask) == 0;
    }
    mode_t mode = before->st_mode & 0777;
    /* Only root can give a file away.  A group that cannot be kept may do no more with the file than anybody. */
    if (fchown(descriptor, before->st_uid, before->st_gid) != 0 && fchown(descriptor, (uid_t)-1, before->st_gid) != 0) {
        mode &= (mode & 07) << 3 | 0707;
    }
    return fchmod(descriptor, mode) == 0 && copy_attributes(path, descriptor);
}

bool command_sync_folder(const char *path)
{
    const char *slash = strrchr(path, '/');
    char *folder = slash == NULL ? strdup(".") : strndup(path, slash == path ? 1 : (size_t)(slash - path));
    int descriptor = folder == NULL ? -1 : open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    /* A folder that may not be read cannot be asked, and some file systems have no answer. */
    bool good = descriptor >= 0 ? fsync(descriptor) == 0 || errno == EINVAL : errno == EACCES;
    int reason = errno;
    if (descriptor >= 0) {
        close(descriptor);
    }
    free(folder);
    errno = reason;
    return good;
}

/* Writes beside the file at `path`, and puts the new one in its place.  POTASH_FAULTY, with errno, when it cannot be written. */
static int replace(const char *path, const struct stat *before, const struct command_writer *writer)
{
    char *beside = NULL;
    if (asprintf(&beside, "%s.XXXXXX", path) < 0) {
        errno = ENOMEM;
        return POTASH_FAULTY;
    }
    int descriptor = mkstemp(beside);
    if (descriptor < 0) {
        free(beside);
        return POTASH_FAULTY;
    }
    int written = writer->write(writer->context, &(struct potash_sink){write_all, &descriptor});
    bool good = written == POTASH_GOOD && take_after(descriptor, path, before) && fsync(descriptor) == 0;
    int reason = errno;
    if (close(descriptor) != 0 && good) {
        good = false;
        reason = errno;
    }
    if (good && rename(beside, path) != 0) {
        good = false;
        reason = errno;
    }
    if (!good) {
        unlink(beside);
        errno = reason;
    }
    free(beside);
    good = good && command_sync_folder(path);
    return good ? POTASH_GOOD : written == POTASH_UNUSABLE ? POTASH_UNUSABLE : POTASH_FAULTY;
}

int command_replace_file(const char *path, const struct command_writer *writer)
{
    struct stat before;
    struct stat named;
    bool there = stat(path, &before) == 0;
    if (there && !S_ISREG(before.st_mode) && !S_ISDIR(before.st_mode)) {
        return write_device(path, writer);
    }
    char *target = follow_links(path);
    int status = POTASH_GOOD;
    if (target == NULL) {
        status = cannot_write(path);
    } else if (there && (lstat(target, &named) != 0 || named.st_dev != before.st_dev || named.st_ino != before.st_ino)) {
        status = write_device(path, writer); /* /dev/stdout and its like lead to an open file, not to a name */
    } else if (there && S_ISREG(before.st_mode) && before.st_nlink > 1) {
        command_say("potash: %s: the file has %lu names (hard links); it is left as it is, since the others would keep the old text", path,
                    (unsigned long)before.st_nlink);
        status = POTASH_UNUSABLE;
    } else {
        status = replace(target, there ? &before : NULL, writer);
        status = status == POTASH_FAULTY ? cannot_write(path) : status;
    }
    free(target);
    return status;
}
