/* A file of a snapshot, checked with what it reads: a session that takes open texts in place of files. */
#include "workspace/snapshots.h"

#include <stdlib.h>

struct checked *checked_hold(struct checked *checked)
{
    if (checked != NULL) {
        checked->uses++;
    }
    return checked;
}

void checked_let_go(struct checked *checked)
{
    if (checked == NULL || --checked->uses > 0) {
        return;
    }
    for (size_t i = 0; i < checked->dependency_count; i++) {
        free(checked->dependencies[i].path);
        text_let_go(checked->dependencies[i].text);
    }
    free(checked->dependencies);
    potash_close(checked->session);
    free(checked);
}

/* What a path stands for in an editor: files that are not open are the disk's, or the reader's. */
static struct text_file *open_text(const struct text_set *texts, const char *path)
{
    const struct workspace_text *found = texts_find(texts, path);
    return found != NULL && found->open ? found->file : NULL;
}

bool checked_holds(const struct checked *checked, const struct text_set *texts, uint64_t generation)
{
    if (checked == NULL || (checked->from_elsewhere && checked->generation != generation)) {
        return false;
    }
    for (size_t i = 0; i < checked->dependency_count; i++) {
        if (open_text(texts, checked->dependencies[i].path) != checked->dependencies[i].text) {
            return false;
        }
    }
    return true;
}

/* ---- what is at hand ---- */

struct reading {
    struct potash_snapshot *snapshot;
    struct checked *checked;
    const struct text_file *root;   /* the file that is checked */
    const char *folder;             /* that its reads stay inside */
    bool failed;
};

/* The number of a path among those that were asked for, from 1; 0 when there is no memory. */
static size_t note_dependency(struct checked *checked, const char *path, struct text_file *text)
{
    for (size_t i = 0; i < checked->dependency_count; i++) {
        if (strcmp(checked->dependencies[i].path, path) == 0) {
            return i + 1;
        }
    }
    if (checked->dependency_count == checked->dependency_room) {
        size_t room = checked->dependency_room == 0 ? 8 : checked->dependency_room * 2;
        struct dependency *grown = realloc(checked->dependencies, room * sizeof *grown);
        if (grown == NULL) {
            return 0;
        }
        checked->dependencies = grown;
        checked->dependency_room = room;
    }
    char *copy = strdup(path);
    if (copy == NULL) {
        return 0;
    }
    struct dependency *added = &checked->dependencies[checked->dependency_count++];
    *added = (struct dependency){copy, text == NULL ? NULL : text_hold(text)};
    return checked->dependency_count;
}

static bool open_at_hand(void *context, const char *path, struct opened *opened)
{
    struct reading *reading = context;
    const struct potash_workspace_options *options = &reading->snapshot->workspace->options;
    char *plain = malloc(strlen(path) + 2);
    if (plain == NULL) {
        reading->failed = true;
        return false;
    }
    path_normalise(path, plain);
    bool is_root = strcmp(plain, reading->root->path) == 0;
    struct text_file *text = open_text(&reading->snapshot->texts, plain);
    size_t number = is_root ? SIZE_MAX : note_dependency(reading->checked, plain, text);
    reading->failed = reading->failed || number == 0;
    struct text bytes = is_root ? reading->root->text : text != NULL ? text->text : (struct text){0};
    bool inside = is_root || options->allow_reads || path_is_inside(plain, reading->folder);
    struct potash_output read = {0};
    if (bytes.at == NULL && options->read != NULL) {
        reading->checked->from_elsewhere = true;
        bool there = inside && options->read(options->read_context, plain, &read);
        bytes = there ? (struct text){read.bytes == NULL ? "" : read.bytes, read.length} : bytes;
    }
    free(plain);
    if (bytes.at == NULL && options->read == NULL) {
        reading->checked->from_elsewhere = true;
        return false;
    }
    opened->as = !inside ? OPENED_OUTSIDE : bytes.at == NULL ? OPENED_NOTHING : OPENED_FILE;
    opened->identity = (struct file_identity){UINT64_MAX, number};
    opened->bytes = bytes.at;
    opened->size = bytes.length;
    return true;
}

/* ---- checking ---- */

static enum potash_status read_root(struct potash *session, const struct text_file *file, const struct file_identity *root)
{
    if (SESSION_GUARD(session)) {
        return session_out_of_memory(session);
    }
    return session_read_text(session, file->path, file->text, root);
}

/* False when there is no memory. */
static bool run(struct reading *reading, const char *folder)
{
    const struct potash_workspace *workspace = reading->snapshot->workspace;
    struct checked *checked = reading->checked;
    const struct potash_options options = {
        .allow_reads = workspace->options.allow_reads,
        .silence = workspace->options.silence,
        .balance = workspace->options.balance,
        .graduate = workspace->options.graduate,
        .fail_after = workspace->options.fail_after,
    };
    const struct potash_library *library = workspace->options.library;
    struct session_texts texts = {.at_hand = {open_at_hand, reading}};
    if (library != NULL && library->texts != NULL) {
        texts.library = library->texts;
        texts.library_count = library->count;
    }
    struct potash *session = session_open(&options, &texts);
    checked->session = session;
    if (session == NULL || session->message != NULL) {
        return false;
    }
    struct file_identity root = {0};
    if (folder != NULL) {
        struct opened opened = opener_open_named(&session->opener, folder);
        root = opened.identity;
        opener_close(&session->opener);
    }
    if (read_root(session, reading->root, folder == NULL ? NULL : &root) == POTASH_UNUSABLE && session->message != NULL) {
        return false;
    }
    checked->source = session->files == NULL ? NULL : session->files->file->source;
    if (potash_check(session) == POTASH_UNUSABLE || reading->failed || checked->source == NULL) {
        return false;
    }
    /* From here on it is asked by calls of the workspace, and nothing stands for its files any more. */
    session->opener.at_hand = (struct texts_at_hand){0};
    jmp_buf *failure = &reading->snapshot->workspace->failure;
    session->arena.on_failure = session->forms.on_failure = session->trees.on_failure = session->aside.on_failure = failure;
    return true;
}

struct checked *snapshot_check(struct potash_snapshot *snapshot, struct workspace_text *text)
{
    struct potash_workspace *workspace = snapshot->workspace;
    if (text->checked != NULL) {
        return text->checked;
    }
    struct checked *checked = calloc(1, sizeof *checked);
    if (checked == NULL) {
        longjmp(workspace->failure, 1);
    }
    checked->uses = 1;
    checked->generation = workspace->generation;
    const char *folder = workspace_folder_of(workspace, text->file->path);
    const char *name = strrchr(text->file->path, '/');
    size_t above = name == NULL ? 0 : name == text->file->path ? 1 : (size_t)(name - text->file->path);
    char *own = strndup(text->file->path, above);
    struct reading reading = {.snapshot = snapshot, .checked = checked, .root = text->file, .folder = folder != NULL ? folder : own};
    bool good = own != NULL && run(&reading, folder);
    free(own);
    if (!good) {
        const char *why = checked->session == NULL ? NULL : checked->session->message;
        workspace_refuse(workspace, POTASH_UNUSABLE, "%s", why == NULL ? "out of memory" : why);
        checked_let_go(checked);
        longjmp(workspace->failure, 2);
    }
    text->checked = checked;
    struct workspace_text *now = texts_find(&workspace->texts, text->file->path);
    if (now != NULL && now->file == text->file && now->checked == NULL) { /* the next snapshot has it */
        now->checked = checked_hold(checked);
    }
    return checked;
}
