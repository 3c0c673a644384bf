/* Workspaces: the texts that an editor has open, and the files of its folders. */
#include "workspace/snapshots.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

/* ---- the library ---- */

static void say_why(char *why, size_t room, const char *message)
{
    if (why != NULL && room > 0) {
        snprintf(why, room, "%s", message);
    }
}

struct potash_library *potash_library_open(const char *folder, char *why, size_t room)
{
    struct potash_library *library = calloc(1, sizeof *library);
    say_why(why, room, "out of memory");
    if (library == NULL || folder == NULL) {
        return library;
    }
    struct potash_options options = {.library = folder};
    library->reader = potash_open(&options);
    const struct source_set *sources = library->reader == NULL ? NULL : &library->reader->sources;
    library->texts = sources == NULL ? NULL : calloc(sources->count + 1, sizeof *library->texts);
    if (library->texts == NULL || potash_message(library->reader)[0] != '\0') {
        say_why(why, room, library->texts == NULL ? "out of memory" : potash_message(library->reader));
        potash_library_close(library);
        return NULL;
    }
    for (size_t i = 0; i < sources->count; i++) {
        const struct source_file *file = sources->files[i];
        if (file->of_library) {
            library->texts[library->count++] = (struct library_text){file->path, {file->bytes, file->length}};
        }
    }
    return library;
}

void potash_library_close(struct potash_library *library)
{
    if (library != NULL) {
        potash_close(library->reader);
        free(library->texts);
        free(library);
    }
}

/* ---- failures ---- */

enum potash_status workspace_refuse(struct potash_workspace *workspace, enum potash_status status, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(workspace->message, sizeof workspace->message, format, arguments);
    va_end(arguments);
    return status;
}

/* What was found out so far may be unfinished: it is forgotten. */
enum potash_status workspace_out_of_memory(struct potash_workspace *workspace)
{
    for (size_t i = 0; i < workspace->texts.count; i++) {
        checked_let_go(workspace->texts.items[i].checked);
        workspace->texts.items[i].checked = NULL;
    }
    return workspace->message[0] != '\0' ? POTASH_UNUSABLE : workspace_refuse(workspace, POTASH_UNUSABLE, "out of memory");
}

void *workspace_allocate(struct potash_workspace *workspace, void *old, size_t size)
{
    void *memory = realloc(old, size);
    if (memory == NULL) {
        longjmp(workspace->failure, 1);
    }
    return memory;
}

const char *potash_workspace_message(const struct potash_workspace *workspace)
{
    return workspace->message;
}

/* ---- texts by their paths ---- */

/* Where the path is, or would stand. */
static size_t place_in(const struct text_set *set, const char *path, bool *found)
{
    size_t low = 0;
    size_t high = set->count;
    *found = false;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = strcmp(set->items[middle].file->path, path);
        if (order == 0) {
            *found = true;
            return middle;
        }
        if (order < 0) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

struct workspace_text *texts_find(const struct text_set *set, const char *path)
{
    bool found;
    size_t place = place_in(set, path, &found);
    return found ? &set->items[place] : NULL;
}

static void let_go(struct workspace_text *text)
{
    checked_let_go(text->checked);
    text_let_go(text->file);
}

bool texts_put(struct text_set *set, struct text_file *file, bool open)
{
    bool found;
    size_t place = place_in(set, file->path, &found);
    if (!found && set->count == set->room) {
        size_t room = set->room == 0 ? 16 : set->room * 2;
        struct workspace_text *items = realloc(set->items, room * sizeof *items);
        if (items == NULL) {
            text_let_go(file);
            return false;
        }
        set->items = items;
        set->room = room;
    }
    struct workspace_text *item = &set->items[place];
    if (found) {
        let_go(item);
    } else {
        memmove(item + 1, item, (set->count - place) * sizeof *item);
        set->count++;
    }
    *item = (struct workspace_text){.file = file, .open = open};
    return true;
}

void texts_take_out(struct text_set *set, struct workspace_text *text)
{
    let_go(text);
    set->count--;
    memmove(text, text + 1, (size_t)(set->items + set->count - text) * sizeof *text);
}

void texts_release(struct text_set *set)
{
    for (size_t i = 0; i < set->count; i++) {
        let_go(&set->items[i]);
    }
    free(set->items);
    *set = (struct text_set){0};
}

/* ---- opening and closing ---- */

struct potash_workspace *potash_workspace_open(const struct potash_workspace_options *options)
{
    struct potash_workspace *workspace = calloc(1, sizeof *workspace);
    if (workspace != NULL && options != NULL) {
        workspace->options = *options;
    }
    return workspace;
}

void potash_workspace_close(struct potash_workspace *workspace)
{
    if (workspace != NULL) {
        texts_release(&workspace->texts);
        for (size_t i = 0; i < workspace->folder_count; i++) {
            free(workspace->folders[i]);
        }
        free(workspace->folders);
        free(workspace);
    }
}

/* ---- folders ---- */

static char *normalised(struct potash_workspace *workspace, const char *path)
{
    char *copy = workspace_allocate(workspace, NULL, strlen(path) + 2);
    path_normalise(path, copy);
    return copy;
}

static size_t find_folder(const struct potash_workspace *workspace, const char *folder)
{
    size_t at = 0;
    while (at < workspace->folder_count && strcmp(workspace->folders[at], folder) != 0) {
        at++;
    }
    return at;
}

/* The files of folders are to be looked for again; what was checked with files that are not open does not count any more. */
static void forget_files(struct potash_workspace *workspace)
{
    workspace->generation++;
    workspace->folders_read = false;
}

enum potash_status potash_workspace_add_folder(struct potash_workspace *workspace, const char *path)
{
    if (WORKSPACE_GUARD(workspace)) {
        return workspace_out_of_memory(workspace);
    }
    workspace->folders = workspace_allocate(workspace, workspace->folders, (workspace->folder_count + 1) * sizeof *workspace->folders);
    char *folder = normalised(workspace, path);
    if (find_folder(workspace, folder) < workspace->folder_count) {
        free(folder);
        return POTASH_GOOD;
    }
    workspace->folders[workspace->folder_count++] = folder;
    forget_files(workspace);
    return POTASH_GOOD;
}

enum potash_status potash_workspace_remove_folder(struct potash_workspace *workspace, const char *path)
{
    if (WORKSPACE_GUARD(workspace)) {
        return workspace_out_of_memory(workspace);
    }
    char *folder = normalised(workspace, path);
    size_t at = find_folder(workspace, folder);
    free(folder);
    if (at == workspace->folder_count) {
        return workspace_refuse(workspace, POTASH_FAULTY, "%s is no folder of the workspace", path);
    }
    free(workspace->folders[at]);
    workspace->folders[at] = workspace->folders[--workspace->folder_count];
    forget_files(workspace);
    return POTASH_GOOD;
}

const char *workspace_folder_of(const struct potash_workspace *workspace, const char *path)
{
    const char *innermost = NULL;
    for (size_t i = 0; i < workspace->folder_count; i++) {
        const char *folder = workspace->folders[i];
        bool inner = path_is_inside(path, folder) && (innermost == NULL || strlen(folder) > strlen(innermost));
        innermost = inner ? folder : innermost;
    }
    return innermost;
}

/* Takes in a file of a folder; one that cannot be read, or is no text, is left out: who reads it is told so. */
static void take_file(struct potash_workspace *workspace, struct opener *opener, const char *path)
{
    char *bytes;
    size_t length;
    struct opened opened = opener_open_inside(opener, path);
    char *plain = arena_allocate(opener->arena, strlen(path) + 2);
    path_normalise(path, plain);
    const struct workspace_text *known = texts_find(&workspace->texts, plain);
    if (known != NULL || opened.as != OPENED_FILE || opened.size > SOURCE_LONGEST || !opener_read(opener, &opened, &bytes, &length) ||
        !source_is_text(bytes, length)) {
        return;
    }
    struct text_file *file = text_make(plain, (struct text){bytes, length}, -1, &workspace->failure);
    if (file == NULL || !texts_put(&workspace->texts, file, false)) {
        longjmp(*opener->arena->on_failure, 1);
    }
}

static void read_folder(struct potash_workspace *workspace, const char *folder)
{
    struct arena arena;
    struct opener opener;
    jmp_buf failed;
    arena_start(&arena);
    arena.on_failure = &failed;
    opener_start(&opener, &arena);
    if (setjmp(failed) != 0) {
        opener_close(&opener);
        arena_release(&arena);
        longjmp(workspace->failure, 1);
    }
    struct file_list list = {0};
    struct opened opened = opener_open_named(&opener, folder);
    if (opened.as == OPENED_FOLDER) {
        opener_set_root(&opener, opened.identity);
        opener_list(&opener, &opened, folder, true, &list);
    }
    for (size_t i = 0; i < list.count; i++) {
        take_file(workspace, &opener, list.paths[i]);
    }
    opener_close(&opener);
    arena_release(&arena);
}

void workspace_read_folders(struct potash_workspace *workspace)
{
    if (workspace->folders_read) {
        return;
    }
    for (size_t i = workspace->texts.count; i > 0; i--) {
        if (!workspace->texts.items[i - 1].open) {
            texts_take_out(&workspace->texts, &workspace->texts.items[i - 1]);
        }
    }
    for (size_t i = 0; i < workspace->folder_count && workspace->options.read == NULL; i++) {
        read_folder(workspace, workspace->folders[i]);
    }
    workspace->folders_read = true;
}

/* ---- texts that change ---- */

static enum potash_status put_text(struct potash_workspace *workspace, const char *path, struct text text)
{
    if (text.length > SOURCE_LONGEST || !source_is_text(text.at, text.length)) {
        return workspace_refuse(workspace, POTASH_FAULTY, "%s is not a text file", path);
    }
    struct text_file *file = text_make(path, text, workspace->options.fail_after - 1, &workspace->failure);
    if (file == NULL || !texts_put(&workspace->texts, file, true)) {
        return workspace_out_of_memory(workspace);
    }
    return POTASH_GOOD;
}

enum potash_status potash_workspace_set(struct potash_workspace *workspace, const char *path, const char *text, size_t length)
{
    if (WORKSPACE_GUARD(workspace)) {
        return workspace_out_of_memory(workspace);
    }
    char *plain = normalised(workspace, path);
    enum potash_status status = put_text(workspace, plain, (struct text){text, length});
    free(plain);
    return status;
}

/* The text of a path that an editor has open. */
static struct workspace_text *find_open(struct potash_workspace *workspace, const char *path)
{
    char *plain = normalised(workspace, path);
    struct workspace_text *found = texts_find(&workspace->texts, plain);
    free(plain);
    return found != NULL && found->open ? found : NULL;
}

enum potash_status potash_workspace_edit(struct potash_workspace *workspace, const char *path, size_t begin, size_t end, const char *text,
                                         size_t length)
{
    if (WORKSPACE_GUARD(workspace)) {
        return workspace_out_of_memory(workspace);
    }
    const struct workspace_text *open = find_open(workspace, path);
    if (open == NULL) {
        return workspace_refuse(workspace, POTASH_FAULTY, "%s is not open", path);
    }
    struct text before = open->file->text;
    if (begin > end || end > before.length || length > SOURCE_LONGEST) {
        return workspace_refuse(workspace, POTASH_FAULTY, "%s has no such place", path);
    }
    size_t whole = before.length - (end - begin) + length;
    char *bytes = workspace_allocate(workspace, NULL, whole + 1);
    memcpy(bytes, before.at, begin);
    memcpy(bytes + begin, text, length);
    memcpy(bytes + begin + length, before.at + end, before.length - end);
    enum potash_status status = put_text(workspace, open->file->path, (struct text){bytes, whole});
    free(bytes);
    return status;
}

enum potash_status potash_workspace_forget(struct potash_workspace *workspace, const char *path)
{
    if (WORKSPACE_GUARD(workspace)) {
        return workspace_out_of_memory(workspace);
    }
    struct workspace_text *open = find_open(workspace, path);
    if (open == NULL) {
        return workspace_refuse(workspace, POTASH_FAULTY, "%s is not open", path);
    }
    texts_take_out(&workspace->texts, open);
    forget_files(workspace);
    return POTASH_GOOD;
}

enum potash_status potash_workspace_refresh(struct potash_workspace *workspace, const char *path)
{
    if (WORKSPACE_GUARD(workspace)) {
        return workspace_out_of_memory(workspace);
    }
    if (path == NULL || find_open(workspace, path) == NULL) {
        forget_files(workspace);
    }
    return POTASH_GOOD;
}
