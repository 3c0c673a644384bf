/* `read "file"`: the files that files ask for.
 *
 * A read stays inside the folder of the file or folder that was named on the command line, unless the caller allows more: a
 * formula that came from somebody else must not be able to look into other people's files. */
#include "session.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <sys/stat.h>

bool session_know_file(struct potash *potash, const struct stat *status, struct known_file **known)
{
    for (struct known_file *file = potash->known_files; file != NULL; file = file->next) {
        if (file->device == status->st_dev && file->inode == status->st_ino) {
            *known = file;
            return true;
        }
    }
    struct known_file *file = ARENA_NEW(&potash->arena, struct known_file);
    *file = (struct known_file){.device = status->st_dev, .inode = status->st_ino, .open = true, .next = potash->known_files};
    potash->known_files = file;
    *known = file;
    return false;
}

/* The folder of a path, with its links resolved; NULL when it cannot be found. */
static const char *folder_of(struct potash *potash, const char *path)
{
    struct stat status;
    char resolved[PATH_MAX];
    if (realpath(path, resolved) == NULL) {
        return NULL;
    }
    char *slash = stat(resolved, &status) == 0 && S_ISDIR(status.st_mode) ? NULL : strrchr(resolved, '/');
    if (slash != NULL) {
        slash[slash == resolved ? 1 : 0] = '\0';
    }
    return arena_copy(&potash->arena, resolved, strlen(resolved));
}

void session_set_root(struct potash *potash, const char *path)
{
    potash->root = folder_of(potash, strcmp(path, "-") == 0 ? "." : path);
}

static bool inside(const char *root, const char *path)
{
    size_t length = root == NULL ? 0 : strlen(root);
    if (length == 0 || strncmp(root, path, length) != 0) {
        return false;
    }
    return root[length - 1] == '/' || path[length] == '/' || path[length] == '\0';
}

static void say_outside(struct potash *potash, const struct declaration *declaration)
{
    struct diagnostic *diagnostic =
        diagnostics_add(&potash->diagnostics, DIAG_SYNTAX, declaration->title_span,
                        "\"%.*s\" lies outside the folder of the file that was named", TEXT_ARGUMENTS(declaration->title));
    diagnostics_help(&potash->diagnostics, diagnostic, "name it on the command line, or allow it with --allow-reads");
    potash->read_refused = true;
}

static enum potash_status read_one(struct potash *potash, const char *from, const struct declaration *declaration)
{
    struct text name = declaration->title;
    if (name.length == 0 || name.length >= PATH_MAX / 2) {
        return POTASH_GOOD; /* a broken line has been reported */
    }
    const char *slash = strrchr(from, '/');
    bool absolute = name.at[0] == '/' || slash == NULL || from[0] == '<';
    const char *path = absolute ? arena_copy(&potash->arena, name.at, name.length)
                                : arena_format(&potash->arena, "%.*s/%.*s", (int)(slash - from), from, TEXT_ARGUMENTS(name));
    char resolved[PATH_MAX];
    struct stat status;
    if (realpath(path, resolved) == NULL || stat(resolved, &status) != 0) {
        struct place place = source_place(&potash->sources, declaration->title_span.begin);
        return session_unusable(potash, "%s:%u:%u: cannot read \"%.*s\": %s", from, place.line, place.column,
                                TEXT_ARGUMENTS(name), strerror(errno));
    }
    if (!potash->options.allow_reads && !inside(potash->root, resolved) && !inside(potash->library_root, resolved)) {
        say_outside(potash, declaration);
        return POTASH_GOOD;
    }
    struct known_file *known;
    if (S_ISREG(status.st_mode) && session_know_file(potash, &status, &known)) {
        if (known->open) {
            struct diagnostic *diagnostic =
                diagnostics_add(&potash->diagnostics, DIAG_READS_ITSELF, declaration->title_span,
                                "\"%.*s\" is being read already: it would read itself", TEXT_ARGUMENTS(name));
            diagnostics_help(&potash->diagnostics, diagnostic, "take this line out, or the one that reads this file");
        }
        return POTASH_GOOD; /* what two files read is read once */
    }
    return session_read_path(potash, path, READ_FOR_FILE);
}

enum potash_status session_follow_reads(struct potash *potash, const struct syntax_file *file)
{
    enum potash_status status = POTASH_GOOD;
    if (potash->options.no_reads) {
        return status;
    }
    const struct declaration *declaration = syntax_declarations(file, 1u << DECLARE_READ);
    for (; declaration != NULL && status == POTASH_GOOD; declaration = declaration->next) {
        if (declaration->kind == DECLARE_READ) {
            status = read_one(potash, file->source->name, declaration);
        }
    }
    return status;
}
