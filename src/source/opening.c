/* Opening files, inside a root or as a person named them, and listing folders. */
#define _GNU_SOURCE /* O_PATH */

#include "source/opening.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#pragma GCC diagnostic ignored "-Wconversion" /* uthash's macros */

/* A folder that is only gone through need not be readable. */
#if defined O_PATH
enum { GO_THROUGH = O_PATH | O_DIRECTORY | O_CLOEXEC };
#elif defined O_SEARCH
enum { GO_THROUGH = O_SEARCH | O_DIRECTORY | O_CLOEXEC };
#else
enum { GO_THROUGH = O_RDONLY | O_DIRECTORY | O_CLOEXEC };
#endif

enum {
    TO_READ = O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC, /* a pipe that nobody writes to must not be waited for */
    MOST_LINKS = 40,                                        /* links that lead to links; Linux has the same bound */
    MOST_LEVELS = PATH_MAX / 3 - 1                          /* "../" as often as a path can hold it */
};

void opener_start(struct opener *opener, struct arena *arena)
{
    *opener = (struct opener){.arena = arena, .file = -1, .folder = -1};
}

static void close_file(struct opener *opener)
{
    if (opener->listing != NULL) {
        closedir(opener->listing);
        opener->listing = NULL;
    }
    if (opener->file >= 0) {
        close(opener->file);
        opener->file = -1;
    }
}

static void close_folder(struct opener *opener)
{
    if (opener->folder >= 0) {
        close(opener->folder);
        opener->folder = -1;
    }
}

void opener_close(struct opener *opener)
{
    close_file(opener);
    close_folder(opener);
}

/* ---- who is who ---- */

static struct file_identity identity_of(const struct stat *status)
{
    return (struct file_identity){(uint64_t)status->st_dev, (uint64_t)status->st_ino};
}

static bool same(struct file_identity a, struct file_identity b)
{
    return a.device == b.device && a.inode == b.inode;
}

struct known_file *opener_know(struct opener *opener, struct file_identity identity)
{
    struct arena *table_arena = opener->arena;
    struct known_file *known = NULL;
    HASH_FIND(hh, opener->known, &identity, sizeof identity, known);
    if (known == NULL) {
        known = ARENA_NEW(opener->arena, struct known_file);
        known->identity = identity;
        HASH_ADD(hh, opener->known, identity, sizeof identity, known);
    }
    return known;
}

static bool is_at_hand(const struct opener *opener, const char *path, struct opened *opened)
{
    *opened = (struct opened){.descriptor = -1};
    return opener->at_hand.open != NULL && opener->at_hand.open(opener->at_hand.context, path, opened);
}

struct known_file *opener_know_path(struct opener *opener, const char *path)
{
    struct opened opened;
    if (is_at_hand(opener, path, &opened)) {
        return opened.as == OPENED_FILE ? opener_know(opener, opened.identity) : NULL;
    }
    struct stat status;
    bool there = stat(path, &status) == 0 && S_ISREG(status.st_mode);
    return there ? opener_know(opener, identity_of(&status)) : NULL;
}

/* ---- paths ---- */

/* Takes a path apart into the folder and the name in it; "." in place of either that is not there. */
static void split(struct text path, struct text *folder, struct text *name)
{
    while (path.length > 1 && path.at[path.length - 1] == '/') {
        path.length--;
    }
    size_t start = path.length;
    while (start > 0 && path.at[start - 1] != '/') {
        start--;
    }
    *name = (struct text){path.at + start, path.length - start};
    if (name->length == 0 || text_is(*name, ".") || text_is(*name, "..")) {
        *folder = path;
        *name = TEXT(".");
        return;
    }
    *folder = start == 0 ? TEXT(".") : (struct text){path.at, start == 1 ? 1 : start - 1};
}

static const char *copy(const struct opener *opener, struct text text)
{
    return arena_copy(opener->arena, text.at, text.length);
}

static const char *join(const struct opener *opener, const char *folder, const char *name)
{
    size_t length = strlen(folder);
    return arena_format(opener->arena, length > 0 && folder[length - 1] == '/' ? "%s%s" : "%s/%s", folder, name);
}

static bool is_folder(const char *path)
{
    struct stat status;
    return lstat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

const char *opener_shorten(struct opener *opener, const char *path)
{
    if (strstr(path, "/.") == NULL && strstr(path, "//") == NULL) {
        return path;
    }
    char *out = arena_allocate(opener->arena, strlen(path) + 2);
    size_t length = path[0] == '/';
    size_t fixed = length; /* nothing before it is taken back */
    memcpy(out, "/", length);
    for (const char *at = path; *at != '\0';) {
        size_t part = strcspn(at, "/");
        bool dot = part == 1 && at[0] == '.';
        bool up = part == 2 && at[0] == '.' && at[1] == '.';
        bool back = false;
        if (up && length > fixed) {
            out[length - 1] = '\0'; /* seen with a slash behind it a link is what it leads to */
            back = is_folder(out);
            out[length - 1] = '/';
        }
        if (back) {
            do {
                length--;
            } while (length > fixed && out[length - 1] != '/');
        } else if (part > 0 && (!dot || at == path)) {
            memcpy(out + length, at, part);
            length += part;
            out[length++] = '/';
            fixed = up || dot ? length : fixed;
        }
        at += part + (at[part] == '/');
    }
    out[length > 1 ? length - 1 : length] = '\0';
    return out;
}

/* ---- the root ---- */

void opener_set_root(struct opener *opener, struct file_identity root)
{
    opener->root = root;
    close_folder(opener);
}

struct file_identity opener_folder_of(const struct opener *opener, const char *path)
{
    struct text folder;
    struct text name;
    struct stat status;
    split(text_from(path), &folder, &name);
    bool there = stat(copy(opener, folder), &status) == 0 && S_ISDIR(status.st_mode);
    return there ? identity_of(&status) : (struct file_identity){0};
}

/* Whether the folder that is open lies in the root: upward from it, by what the system itself says is above it. */
static bool climbs_to_root(const struct opener *opener, struct file_identity at)
{
    char up[3 * MOST_LEVELS + 1] = "";
    for (size_t level = 0; level < MOST_LEVELS; level++) {
        if (same(at, opener->root) || same(at, opener->library)) {
            return true;
        }
        memcpy(up + 3 * level, "../", 4);
        struct stat above;
        if (fstatat(opener->folder, up, &above, 0) != 0 || same(identity_of(&above), at)) {
            return false;
        }
        at = identity_of(&above);
    }
    return false;
}

/* Opens the folder that something is to be opened in; the one that is open already serves again.  Its errno, or 0. */
static int go_to_folder(struct opener *opener, struct text path)
{
    if (opener->folder >= 0 && text_is(path, opener->folder_path)) {
        return 0;
    }
    close_folder(opener);
    opener->folder_path = copy(opener, path);
    opener->folder = open(opener->folder_path, GO_THROUGH);
    struct stat status;
    if (opener->folder < 0 || fstat(opener->folder, &status) != 0) {
        return errno;
    }
    struct known_file *known = opener_know(opener, identity_of(&status));
    opener->folder_known = known;
    opener->folder_inside = opener->anywhere || same(known->inside, opener->root) || climbs_to_root(opener, known->identity);
    if (opener->folder_inside) {
        known->inside = opener->root;
    }
    return 0;
}

/* ---- opening ---- */

static struct opened not_opened(int fault, bool link)
{
    enum opened_as as = fault == ENOENT || fault == ENOTDIR ? OPENED_NOTHING : fault == ENXIO || fault == ENODEV ? OPENED_DEVICE : OPENED_NOT;
    return (struct opened){.as = as, .link = link, .descriptor = -1, .fault = fault};
}

/* What the descriptor that was opened turns out to be. */
static struct opened look_at(struct opener *opener, bool link)
{
    struct stat status;
    if (opener->file < 0 || fstat(opener->file, &status) != 0) {
        return not_opened(errno, link);
    }
    struct opened opened = {.link = link, .descriptor = opener->file, .identity = identity_of(&status)};
    opened.as = S_ISREG(status.st_mode) ? OPENED_FILE : S_ISDIR(status.st_mode) ? OPENED_FOLDER : OPENED_DEVICE;
    opened.size = opened.as == OPENED_FILE ? (uint64_t)status.st_size : 0;
    return opened;
}

struct opened opener_open_named(struct opener *opener, const char *path)
{
    close_file(opener);
    opener->file = open(path, TO_READ);
    struct opened opened = look_at(opener, false);
    struct stat status;
    opened.link = opened.as == OPENED_NOTHING && lstat(path, &status) == 0;
    if (opened.as == OPENED_DEVICE && strcmp(path, "/dev/null") == 0) { /* which stands for a file that is not there, to git and others */
        opened.as = OPENED_FILE;
    }
    return opened;
}

struct opened opener_open_input(struct opener *opener)
{
    close_file(opener);
    return (struct opened){.as = OPENED_FILE, .descriptor = STDIN_FILENO};
}

struct opened opener_open_inside(struct opener *opener, const char *path)
{
    close_file(opener);
    struct opened opened;
    if (is_at_hand(opener, path, &opened)) {
        return opened;
    }
    bool link = false;
    for (int links = 0; links < MOST_LINKS; links++) {
        struct text folder;
        struct text last;
        split(text_from(path), &folder, &last);
        int fault = go_to_folder(opener, folder);
        if (fault != 0) {
            return not_opened(fault, link);
        }
        if (!opener->folder_inside && go_to_folder(opener, text_from(path)) == 0) { /* it may be the root itself */
            last = TEXT(".");
        }
        if (!opener->folder_inside) {
            return (struct opened){.as = OPENED_OUTSIDE, .link = link, .descriptor = -1};
        }
        const char *name = copy(opener, last);
        opener->file = openat(opener->folder, name, TO_READ | O_NOFOLLOW);
        fault = errno;
        char target[PATH_MAX];
        ssize_t length = opener->file < 0 && fault != ENOENT ? readlinkat(opener->folder, name, target, sizeof target - 1) : -1;
        if (length < 0) {
            errno = fault;
            return look_at(opener, link);
        }
        target[length] = '\0';
        link = true;
        path = target[0] == '/' ? arena_copy(opener->arena, target, (size_t)length) : join(opener, opener->folder_path, target);
    }
    return not_opened(ELOOP, true);
}

bool opener_read(struct opener *opener, const struct opened *opened, char **bytes, size_t *length)
{
    if (opened->bytes != NULL) {
        *bytes = arena_copy(opener->arena, opened->bytes, (size_t)opened->size);
        *length = (size_t)opened->size;
        return true;
    }
    bool whole = opened->identity.inode != 0; /* a file, whose length is known */
    size_t capacity = whole ? (size_t)opened->size + 1 : 65536;
    *bytes = arena_allocate(opener->arena, capacity + 1);
    *length = 0;
    for (;;) {
        if (*length == capacity) {
            char *larger = arena_allocate(opener->arena, capacity * 2 + 1);
            memcpy(larger, *bytes, *length);
            *bytes = larger;
            capacity *= 2;
        }
        ssize_t got = read(opened->descriptor, *bytes + *length, capacity - *length);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0) {
            return false;
        }
        *length += (size_t)got;
        if (got == 0 || (whole && *length == opened->size)) { /* it was asked for more, and there is none */
            (*bytes)[*length] = '\0';
            close_file(opener);
            return true;
        }
        if (*length > SOURCE_LONGEST) {
            errno = EFBIG;
            return false;
        }
    }
}

/* ---- folders ---- */

static void add_path(struct opener *opener, struct file_list *list, const char *path)
{
    if (list->count == list->capacity) {
        size_t capacity = list->capacity == 0 ? 32 : list->capacity * 2;
        const char **paths = ARENA_ARRAY(opener->arena, const char *, capacity);
        if (list->count > 0) {
            memcpy(paths, list->paths, list->count * sizeof *paths);
        }
        list->paths = paths;
        list->capacity = capacity;
    }
    list->paths[list->count++] = path;
}

static bool is_formula_file(const char *name)
{
    size_t length = strlen(name);
    return length > 5 && strcmp(name + length - 5, ".bath") == 0;
}

static void holds_files(struct known_file *folder)
{
    for (; folder != NULL && !folder->holds; folder = folder->above) {
        folder->holds = true;
    }
}

/* What is in the folder that is open; folders in it go to `folders`. */
static void list_one(struct opener *opener, struct known_file *known, const char *path, struct file_list *list, struct file_list *folders)
{
    known->listed = true;
    opener->listing = fdopendir(opener->file);
    if (opener->listing == NULL) {
        list->fault = errno;
        return;
    }
    opener->file = -1; /* it is the listing's now */
    for (;;) {
        errno = 0;
        const struct dirent *entry = readdir(opener->listing);
        if (entry == NULL) {
            list->fault = errno != 0 ? errno : list->fault;
            return;
        }
        struct stat status;
        if (entry->d_name[0] == '.') {
            continue;
        }
        if (is_formula_file(entry->d_name)) {
            holds_files(known);
            add_path(opener, list, join(opener, path, entry->d_name));
        } else if (fstatat(dirfd(opener->listing), entry->d_name, &status, AT_SYMLINK_NOFOLLOW) == 0 && S_ISDIR(status.st_mode)) {
            add_path(opener, folders, join(opener, path, entry->d_name));
        }
    }
}

static int compare_paths(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

void opener_list(struct opener *opener, const struct opened *folder, const char *path, bool again, struct file_list *list)
{
    struct file_list folders = {0};
    list_one(opener, opener_know(opener, folder->identity), path, list, &folders);
    for (size_t i = 0; i < folders.count; i++) {
        struct opened opened = opener_open_inside(opener, folders.paths[i]);
        struct known_file *above = opener->folder_known;
        if (opened.as != OPENED_FOLDER) {
            holds_files(above);
            add_path(opener, list, folders.paths[i]); /* whoever opens it next finds out why */
            continue;
        }
        struct known_file *known = opener_know(opener, opened.identity);
        known->above = above;
        if (known->holds) {
            holds_files(above);
        }
        if (!known->listed || again) {
            list_one(opener, known, folders.paths[i], list, &folders);
        }
    }
    close_file(opener);
    if (list->count > 1) {
        qsort(list->paths, list->count, sizeof *list->paths, compare_paths);
    }
}
