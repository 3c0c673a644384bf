/* Files and folders into a session. */
#include "session.h"

#include "syntax/parse.h"

#include <errno.h>
#include <fcntl.h>
#include <fts.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

static enum potash_status take_text(struct potash *potash, const char *name, char *bytes, size_t length, enum reading_for purpose)
{
    bool of_library = purpose == READ_FOR_LIBRARY;
    struct source_file *source = source_add(&potash->sources, name, bytes, length, of_library);
    struct known_file *known = potash->taking;
    potash->taking = NULL;
    if (source == NULL) {
        return session_unusable(potash, "%s: too large; a file may hold 1 GB, all together 4 GB", name);
    }
    source->named = purpose == READ_FOR_USER;
    if (known != NULL) {
        known->source = source;
    }
    struct syntax_file *file =
        syntax_parse(&potash->arena, &potash->names, &potash->diagnostics, source, false);
    if (file->not_text) {
        return session_unusable(potash, "%s: this is not a text file", name);
    }
    if (of_library) {
        library_add_file(&potash->library, file);
        return POTASH_GOOD;
    }
    struct syntax_list *item = ARENA_NEW(&potash->arena, struct syntax_list);
    item->file = file;
    if (potash->last_file == NULL) {
        potash->files = item;
    } else {
        potash->last_file->next = item;
    }
    potash->last_file = item;
    return session_follow_reads(potash, file);
}

enum potash_status potash_read_text(struct potash *potash, const char *name, const char *text, size_t length)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    if (potash->root == NULL) { /* text without a file reads from where the program runs, as standard input does */
        session_set_root(potash, "-");
    }
    return take_text(potash, arena_copy(&potash->arena, name, strlen(name)), arena_copy(&potash->arena, text, length),
                     length, READ_FOR_USER);
}

/* Reads to the end of `descriptor`; `expected` bytes are a guess.  False on an error of the system, in errno. */
static bool read_all(struct potash *potash, int descriptor, size_t expected, char **bytes, size_t *length)
{
    size_t capacity = expected + 1;
    *bytes = arena_allocate(&potash->arena, capacity + 1);
    *length = 0;
    for (;;) {
        if (*length == capacity) {
            char *larger = arena_allocate(&potash->arena, capacity * 2 + 1);
            memcpy(larger, *bytes, *length);
            *bytes = larger;
            capacity *= 2;
        }
        ssize_t got = read(descriptor, *bytes + *length, capacity - *length);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got <= 0) {
            (*bytes)[*length] = '\0';
            return got == 0;
        }
        *length += (size_t)got;
        if (*length > SOURCE_LONGEST) { /* a device, or a pipe that does not end */
            errno = EFBIG;
            return false;
        }
    }
}

static enum potash_status read_descriptor(struct potash *potash, const char *name, int descriptor, size_t expected,
                                          enum reading_for purpose)
{
    char *bytes;
    size_t length;
    /* A failing allocation must not leave the file open. */
    jmp_buf *outer = potash->arena.on_failure;
    jmp_buf here;
    if (setjmp(here) != 0) {
        potash->arena.on_failure = outer;
        if (descriptor != STDIN_FILENO) {
            close(descriptor);
        }
        longjmp(*outer, 1);
    }
    potash->arena.on_failure = &here;
    bool good = read_all(potash, descriptor, expected, &bytes, &length);
    int fault = errno;
    potash->arena.on_failure = outer;
    if (descriptor != STDIN_FILENO) {
        close(descriptor);
    }
    return good ? take_text(potash, name, bytes, length, purpose)
                : session_unusable(potash, "%s: %s", name, strerror(fault));
}

static enum potash_status read_file(struct potash *potash, const char *path, enum reading_for purpose)
{
    int descriptor = open(path, O_RDONLY | O_CLOEXEC);
    struct stat status;
    if (descriptor < 0) {
        return session_unusable(potash, "%s: %s", path, strerror(errno));
    }
    size_t expected = 0;
    struct known_file *known = NULL;
    if (fstat(descriptor, &status) == 0 && S_ISREG(status.st_mode)) {
        if (status.st_size > SOURCE_LONGEST) {
            close(descriptor);
            return session_unusable(potash, "%s: too large; a file may hold 1 GB", path);
        }
        expected = (size_t)status.st_size;
        /* A file that another one reads may be named as well, or stand in the folder that is named. */
        if (session_know_file(potash, &status, &known) && purpose != READ_FOR_FILE) {
            close(descriptor);
            if (known->source != NULL && purpose == READ_FOR_USER) {
                known->source->named = true;
            }
            return POTASH_GOOD;
        }
    }
    potash->taking = known;
    enum potash_status done =
        read_descriptor(potash, arena_copy(&potash->arena, path, strlen(path)), descriptor, expected, purpose);
    if (known != NULL) {
        known->open = false;
    }
    return done;
}

static bool is_formula_file(const char *name)
{
    size_t length = strlen(name);
    return length > 5 && strcmp(name + length - 5, ".bath") == 0;
}

static int compare_paths(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

struct path_list {
    const char **paths;
    size_t count;
    size_t capacity;
};

static void add_path(struct arena *arena, struct path_list *list, const char *path)
{
    if (list->count == list->capacity) {
        size_t capacity = list->capacity == 0 ? 32 : list->capacity * 2;
        const char **paths = ARENA_ARRAY(arena, const char *, capacity);
        if (list->count > 0) {
            memcpy(paths, list->paths, list->count * sizeof *paths);
        }
        list->paths = paths;
        list->capacity = capacity;
    }
    list->paths[list->count++] = arena_copy(arena, path, strlen(path));
}

/* All `.bath` files below a folder, by name; folders that start with a dot are not looked into. */
static enum potash_status list_folder(struct potash *potash, const char *path, struct path_list *list)
{
    char *roots[] = {arena_copy(&potash->arena, path, strlen(path)), NULL};
    FTS *walk = fts_open(roots, FTS_PHYSICAL | FTS_NOCHDIR, NULL);
    if (walk == NULL) {
        return session_unusable(potash, "%s: %s", path, strerror(errno));
    }
    enum potash_status status = POTASH_GOOD;
    jmp_buf *outer = potash->arena.on_failure;
    jmp_buf here;
    if (setjmp(here) != 0) {
        potash->arena.on_failure = outer;
        fts_close(walk);
        longjmp(*outer, 1);
    }
    potash->arena.on_failure = &here;
    for (FTSENT *entry; (entry = fts_read(walk)) != NULL;) {
        if (entry->fts_info == FTS_D && entry->fts_level > 0 && entry->fts_name[0] == '.') {
            fts_set(walk, entry, FTS_SKIP);
        } else if (entry->fts_info == FTS_DNR || entry->fts_info == FTS_ERR) {
            status = session_unusable(potash, "%s: %s", entry->fts_path, strerror(entry->fts_errno));
            break;
        } else if ((entry->fts_info == FTS_F || entry->fts_info == FTS_SL) && is_formula_file(entry->fts_name)) {
            add_path(&potash->arena, list, entry->fts_path);
        }
    }
    potash->arena.on_failure = outer;
    fts_close(walk);
    return status;
}

enum potash_status session_read_path(struct potash *potash, const char *path, enum reading_for purpose)
{
    if (strcmp(path, "-") == 0) {
        return read_descriptor(potash, "<standard input>", STDIN_FILENO, 65536, purpose);
    }
    struct stat status;
    if (stat(path, &status) != 0) {
        return session_unusable(potash, "%s: %s", path, strerror(errno));
    }
    if (!S_ISDIR(status.st_mode)) {
        return read_file(potash, path, purpose);
    }
    struct path_list list = {0};
    enum potash_status done = list_folder(potash, path, &list);
    if (done != POTASH_GOOD) {
        return done;
    }
    if (list.count == 0) {
        return session_unusable(potash, "%s: no .bath file in this folder", path);
    }
    qsort(list.paths, list.count, sizeof *list.paths, compare_paths);
    for (size_t i = 0; i < list.count && done == POTASH_GOOD; i++) {
        done = read_file(potash, list.paths[i], purpose);
    }
    return done;
}
