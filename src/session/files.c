/* Files into a session: what is named, what folders hold, and what `read` lines ask for.
 *
 * All that is still to be read stands in one queue.  What a file asks for goes to the front of it, so that files come in the order
 * in which they would be read if each `read` line were replaced by its file; nothing here calls itself, however long the chain. */
#include "session/session.h"

#include "syntax/pieces.h"

#include <errno.h>

struct request {
    struct request *next;
    const char *path;
    enum reading_for purpose;
    bool listed;                        /* found in a folder, not asked for by its name */
    const struct declaration *asked_by; /* the `read` line; NULL for what was named, or found in a folder that was */
    struct known_file *done;            /* in place of all these: the reads of this file are done */
};

/* Returns where the next one goes that is to stand behind it. */
static struct request **add_request(struct potash *potash, struct request **place, struct request request)
{
    struct request *added = ARENA_NEW(&potash->arena, struct request);
    *added = request;
    added->next = *place;
    *place = added;
    return &added->next;
}

/* ---- what cannot be read ---- */

/* It is said at the line that asks for the file; of what was named or found in a folder, at the start of the file itself. */
static void say(struct potash *potash, const struct request *request, enum diagnostic_id id, const char *message, const char *help)
{
    if (request->purpose == READ_FOR_LIBRARY) {
        session_unusable(potash, "%s", message);
        return;
    }
    potash->unread++;
    struct span span;
    if (request->asked_by != NULL) {
        span = request->asked_by->title_span;
    } else {
        struct source_file *nothing = source_add(&potash->sources, request->path, arena_copy(&potash->arena, "", 0), 0, false);
        if (nothing == NULL) {
            session_unusable(potash, "%s", message);
            return;
        }
        span = span_make(nothing->base, nothing->base);
        potash->named_unread = request->listed ? potash->named_unread : message;
    }
    diagnostics_help(&potash->diagnostics, diagnostics_add(&potash->diagnostics, id, span, "%s", message), "%s", help);
}

static void say_missing(struct potash *potash, const struct request *request, const char *name, bool link)
{
    const char *help = link                        ? "mend the link, or take it away"
                       : request->asked_by != NULL ? "check the name; it is looked for from the folder of the file that reads it"
                                                   : "check the name";
    say(potash, request, DIAG_FILE_MISSING,
        link ? arena_format(&potash->arena, "\"%s\" is a link to a file that is not there", name)
             : arena_format(&potash->arena, "there is no file \"%s\"", name),
        help);
}

static void say_refused(struct potash *potash, const struct request *request, const char *name, const char *reason, const char *help)
{
    say(potash, request, DIAG_FILE_REFUSED, arena_format(&potash->arena, "\"%s\" %s", name, reason), help);
}

static void say_unread(struct potash *potash, const struct request *request, enum opened_as as, bool link, int fault)
{
    const char *name = source_show_path(&potash->arena, request->path);
    switch (as) {
    case OPENED_NOTHING:
        say_missing(potash, request, name, link);
        break;
    case OPENED_OUTSIDE:
        say_refused(potash, request, name, link ? "is a link that leads outside the folder that was named" : "lies outside the folder of the file that was named",
                    "name it on the command line, or allow it with --allow-reads");
        break;
    case OPENED_DEVICE:
        say_refused(potash, request, name, "is a pipe or a device, not a file", "what a pipe gives can be read from standard input, as -");
        break;
    case OPENED_NO_TEXT:
        say_refused(potash, request, name, "is not a text file", "leave it out, or save it as UTF-8 text");
        break;
    case OPENED_LARGE:
        say_refused(potash, request, name, "is too large: a file may hold 1 GB, all together 4 GB", "divide it, and read less at a time");
        break;
    default:
        say_refused(potash, request, name,
                    fault == EBADF ? "is closed" : arena_format(&potash->arena, "cannot be read: %s", strerror(fault)),
                    "see that you may read it, or leave it out");
        break;
    }
}

/* ---- taking in ---- */

/* What a file asks for goes before all else that waits, in its own order. */
static void queue_reads(struct potash *potash, const struct syntax_file *file, struct known_file *known)
{
    const struct declaration *declaration = potash->options.no_reads ? NULL : syntax_declarations(file, 1u << DECLARE_READ);
    if (declaration == NULL) {
        return;
    }
    file->source->only_reads = file->kinds == 1u << DECLARE_READ;
    const char *from = file->source->path;
    const char *slash = strrchr(from, '/');
    struct request **place = &potash->queue;
    for (; declaration != NULL; declaration = declaration->next) {
        struct text name = declaration->title;
        if (declaration->kind != DECLARE_READ || name.at == NULL) { /* a broken line has been reported */
            continue;
        }
        int folder = name.length == 0 || name.at[0] == '/' || slash == NULL ? 0 : (int)(slash + 1 - from);
        const char *path = arena_format(&potash->arena, "%.*s%.*s", folder, from, TEXT_ARGUMENTS(name));
        place = add_request(potash, place,
                            (struct request){.path = opener_shorten(&potash->opener, path), .purpose = READ_FOR_FILE, .asked_by = declaration});
    }
    if (known != NULL) {
        known->open = true;
        add_request(potash, place, (struct request){.done = known});
    }
}

/* How often something of the text could not be understood as lines of the notation. */
static size_t count_faults(const struct diagnostics *diagnostics, size_t since)
{
    size_t faults = 0;
    for (size_t i = since; i < diagnostics->count; i++) {
        const unsigned char id = diagnostics->items[i]->id;
        faults += id == DIAG_SYNTAX || id == DIAG_TEXT_ENCODING || id == DIAG_MERGE_CONFLICT;
    }
    return faults;
}

static void parse_file(struct potash *potash, struct syntax_list *item, struct source_file *source)
{
    size_t before = potash->diagnostics.count;
    item->file = syntax_parse(&potash->arena, &potash->names, &potash->diagnostics, source, false);
    source->faults = count_faults(&potash->diagnostics, before);
    item->waits = false;
}

/* Where only diagnostics are asked for, a file of nothing but formulas need not be in memory as a tree. */
static bool may_wait(const struct potash *potash, const struct source_file *source)
{
    const struct potash_options *options = &potash->options;
    return options->diagnostics_only && options->library == NULL && options->title == NULL && options->make == NULL && !potash->whole &&
           syntax_looks_plain(source);
}

/* Returns how it could be taken in. */
static enum opened_as take_text(struct potash *potash, const struct request *request, char *bytes, size_t length, struct known_file *known)
{
    if (!source_is_text(bytes, length)) {
        return OPENED_NO_TEXT;
    }
    bool of_library = request->purpose == READ_FOR_LIBRARY;
    struct source_file *source = source_add(&potash->sources, request->path, bytes, length, of_library);
    if (source == NULL) {
        return OPENED_LARGE;
    }
    if (known != NULL) {
        known->source = source;
    }
    source->named = request->purpose == READ_FOR_USER;
    struct syntax_list *item = ARENA_NEW(&potash->arena, struct syntax_list);
    if (of_library) {
        parse_file(potash, item, source);
        library_add_file(&potash->library, item->file);
        return OPENED_FILE;
    }
    if (may_wait(potash, source)) {
        item->file = ARENA_NEW(&potash->arena, struct syntax_file);
        item->file->source = source;
        item->waits = true;
    } else {
        potash->whole = true;
        parse_file(potash, item, source);
    }
    item->root = potash->opener.root;
    *(potash->last_file == NULL ? &potash->files : &potash->last_file->next) = item;
    potash->last_file = item;
    queue_reads(potash, item->file, known);
    return OPENED_FILE;
}

bool session_take_library(struct potash *potash, const struct library_text *file)
{
    struct request request = {.path = arena_copy(&potash->arena, file->path, strlen(file->path)), .purpose = READ_FOR_LIBRARY};
    session_allow(potash, file->text.length);
    char *bytes = arena_copy(&potash->arena, file->text.at, file->text.length);
    return take_text(potash, &request, bytes, file->text.length, NULL) == OPENED_FILE;
}

enum { MEMORY_FOR_INPUT = 4 << 20 /* bytes that standard input is taken for, whose length is not known before: the memory goes by it */ };

static void take_file(struct potash *potash, const struct request *request, const struct opened *opened)
{
    struct known_file *known = opener_know(&potash->opener, opened->identity);
    if (known->as == OPENED_FILE && known->source == NULL) {
        char *bytes;
        size_t length;
        session_allow(potash, opened->identity.inode != 0 ? (size_t)opened->size : MEMORY_FOR_INPUT);
        if (opened->size > SOURCE_LONGEST) {
            known->as = OPENED_LARGE;
        } else if (opener_read(&potash->opener, opened, &bytes, &length)) {
            known->as = take_text(potash, request, bytes, length, known);
            if (known->source != NULL) { /* standard input has no place on the disk that could be named */
                known->source->on_disk = request->path[0] != '<';
            }
        } else {
            known->fault = errno;
            known->as = errno == EFBIG ? OPENED_LARGE : OPENED_NOT;
        }
    } else if (known->source != NULL && request->purpose == READ_FOR_USER) {
        known->source->named = true; /* it had been read for the sake of another */
    } else if (known->open && request->asked_by != NULL && !request->listed) {
        struct text name = request->asked_by->title;
        struct diagnostic *diagnostic = diagnostics_add(&potash->diagnostics, DIAG_READS_ITSELF, request->asked_by->title_span,
                                                        "\"%.*s\" is being read already: it would read itself", TEXT_ARGUMENTS(name));
        diagnostics_help(&potash->diagnostics, diagnostic, "take this line out, or the one that reads this file");
    }
    if (known->as != OPENED_FILE) {
        say_unread(potash, request, known->as, false, known->fault);
    } else if (request->asked_by != NULL && request->asked_by->file->only_reads) {
        struct source_read *read = ARENA_NEW(&potash->arena, struct source_read);
        *read = (struct source_read){known->source, request->asked_by->file->reads};
        request->asked_by->file->reads = read;
    }
}

static void take_folder(struct potash *potash, const struct request *request, const struct opened *opened)
{
    struct known_file *known = opener_know(&potash->opener, opened->identity);
    bool again = request->purpose != READ_FOR_FILE;
    struct file_list list = {0};
    if (again || !known->listed) {
        opener_list(&potash->opener, opened, request->path, again, &list);
    }
    const char *name = source_show_path(&potash->arena, request->path);
    if (list.fault != 0) {
        say_unread(potash, request, OPENED_NOT, false, list.fault);
    } else if (!known->holds && !request->listed) {
        say(potash, request, DIAG_FILE_MISSING, arena_format(&potash->arena, "there is no .bath file in the folder \"%s\"", name),
            "name a folder with formulas in it");
    }
    struct request **place = &potash->queue;
    for (size_t i = 0; i < list.count; i++) {
        struct request found = {.path = list.paths[i], .purpose = request->purpose, .listed = true, .asked_by = request->asked_by};
        place = add_request(potash, place, found);
    }
}

static void take_opened(struct potash *potash, const struct request *request, const struct opened *opened)
{
    if (opened->as == OPENED_FILE) {
        take_file(potash, request, opened);
    } else if (opened->as == OPENED_FOLDER) {
        take_folder(potash, request, opened);
    } else {
        say_unread(potash, request, opened->as, opened->link, opened->fault);
    }
}

/* ---- the queue ---- */

static enum potash_status read_queue(struct potash *potash)
{
    while (potash->queue != NULL && potash->message == NULL) {
        struct request *request = potash->queue;
        potash->queue = request->next;
        if (request->done != NULL) {
            request->done->open = false;
        } else {
            struct opened opened = opener_open_inside(&potash->opener, request->path);
            take_opened(potash, request, &opened);
        }
    }
    opener_close(&potash->opener);
    potash->named_item = NULL;
    return potash->message != NULL || potash->named_unread != NULL ? POTASH_UNUSABLE : POTASH_GOOD;
}

void session_name_reads(struct potash *potash)
{
    struct source_file **named = ARENA_ARRAY(&potash->arena, struct source_file *, potash->sources.count);
    size_t count = 0;
    for (const struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        if (item->file->source->named) {
            named[count++] = item->file->source;
        }
    }
    while (count > 0) { /* each comes in once: when it is named */
        for (const struct source_read *read = named[--count]->reads; read != NULL; read = read->next) {
            if (!read->file->named) {
                read->file->named = true;
                named[count++] = read->file;
            }
        }
    }
}

enum potash_status session_parse_waiting(struct potash *potash)
{
    potash->whole = true;
    for (struct syntax_list *item = potash->files; item != NULL; item = item->next) {
        if (item->waits) {
            parse_file(potash, item, item->file->source);
            opener_set_root(&potash->opener, item->root);
            queue_reads(potash, item->file, NULL); /* a misspelt `read` */
            if (potash->queue != NULL && read_queue(potash) != POTASH_GOOD) {
                return POTASH_UNUSABLE;
            }
        }
    }
    return POTASH_GOOD;
}

enum potash_status session_read_named(struct potash *potash, const char *path, const char *known_as, enum reading_for purpose)
{
    bool input = strcmp(path, "-") == 0;
    struct request request = {.path = input ? "<standard input>" : arena_copy(&potash->arena, path, strlen(path)), .purpose = purpose};
    struct opened opened = input ? opener_open_input(&potash->opener) : opener_open_named(&potash->opener, request.path);
    if (opened.as == OPENED_FILE && known_as != NULL) {
        request.path = arena_copy(&potash->arena, known_as, strlen(known_as));
    }
    potash->named_unread = NULL;
    opener_set_root(&potash->opener, opened.as == OPENED_FOLDER ? opened.identity : opener_folder_of(&potash->opener, request.path));
    take_opened(potash, &request, &opened);
    return read_queue(potash);
}

enum potash_status session_read_text(struct potash *potash, const char *name, struct text text, const struct file_identity *root)
{
    struct request request = {.path = arena_copy(&potash->arena, name, strlen(name)), .purpose = READ_FOR_USER};
    potash->named_unread = NULL;
    opener_set_root(&potash->opener, root != NULL ? *root : opener_folder_of(&potash->opener, name));
    session_allow(potash, text.length);
    enum opened_as as = take_text(potash, &request, arena_copy(&potash->arena, text.at, text.length), text.length,
                                  opener_know_path(&potash->opener, name));
    if (as != OPENED_FILE) {
        say_unread(potash, &request, as, false, 0);
    }
    return read_queue(potash);
}
