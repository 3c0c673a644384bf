/* What a workspace and its snapshots hold, and what their files ask of each other. */
#ifndef POTASH_WORKSPACE_SNAPSHOTS_H
#define POTASH_WORKSPACE_SNAPSHOTS_H

#include "session/session.h"
#include "workspace/texts.h"

struct potash_library {
    struct library_text *texts; /* NULL: the one that is built in */
    size_t count;
    struct potash *reader;      /* the session that read them, and holds their bytes */
};

/* A text that a check took in, or looked for in vain. */
struct dependency {
    char *path;
    struct text_file *text;     /* NULL: it was not open */
};

/* A file, checked with what it reads: a session that nobody asks for more but for what it knows. */
struct checked {
    size_t uses;
    struct potash *session;
    const struct source_file *source; /* of the file itself */
    struct dependency *dependencies;
    size_t dependency_count;
    size_t dependency_room;
    bool from_elsewhere;        /* it took in what is not open, as it was … */
    uint64_t generation;        /* … in that generation */
};

struct workspace_text {
    struct text_file *file;
    struct checked *checked;    /* NULL until somebody asks */
    bool open;                  /* by the editor; else a file of a folder */
};

/* In the order of their paths. */
struct text_set {
    struct workspace_text *items;
    size_t count;
    size_t room;
};

struct potash_workspace {
    struct potash_workspace_options options;
    struct text_set texts;
    char **folders;
    size_t folder_count;
    bool folders_read;          /* their files are among the texts */
    uint64_t generation;        /* counts what happened to files that are not open */
    jmp_buf failure;            /* where a failing allocation goes while a call works */
    char message[300];
};

struct potash_snapshot {
    struct potash_workspace *workspace;
    struct arena arena;         /* for what is returned */
    struct text_set texts;
};

/* Runs what follows with a way back for failing allocations:
 *     if (WORKSPACE_GUARD(workspace)) { return workspace_out_of_memory(workspace); } */
#define WORKSPACE_GUARD(workspace) (setjmp(workspace_begin(workspace)->failure) != 0)

/* Nothing has gone wrong yet. */
static inline struct potash_workspace *workspace_begin(struct potash_workspace *workspace)
{
    workspace->message[0] = '\0';
    return workspace;
}

/* What comes of a jump there: POTASH_UNUSABLE, for the reason that was given, or for want of memory. */
enum potash_status workspace_out_of_memory(struct potash_workspace *workspace);

/* With the reason, cut to what there is room for. */
enum potash_status workspace_refuse(struct potash_workspace *workspace, enum potash_status status, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Memory that the caller frees; a failure goes to workspace->failure. */
void *workspace_allocate(struct potash_workspace *workspace, void *old, size_t size);

/* The text of a path, normalised; NULL when there is none. */
struct workspace_text *texts_find(const struct text_set *set, const char *path);

/* Puts the text under its path, in the place of what stood there; it is the set's from now on.  False when there is no memory. */
bool texts_put(struct text_set *set, struct text_file *file, bool open);
void texts_take_out(struct text_set *set, struct workspace_text *text);
void texts_release(struct text_set *set);

/* Takes the files of the folders in, unless that is done. */
void workspace_read_folders(struct potash_workspace *workspace);

/* The same, and what is not open into the snapshot: before names are looked for. */
void snapshot_read_folders(struct potash_snapshot *snapshot);

/* The folder of the workspace that a path lies in, the innermost; NULL when it lies in none. */
const char *workspace_folder_of(const struct potash_workspace *workspace, const char *path);

/* ---- for the calls of a snapshot ---- */

/* Begins a call about a text: the text, or NULL where the snapshot has none of that path, which is the call's answer. */
struct workspace_text *snapshot_begin(struct potash_snapshot *snapshot, const char *path);

/* The file, checked. */
struct checked *snapshot_check(struct potash_snapshot *snapshot, struct workspace_text *text);
struct checked *checked_hold(struct checked *checked);
void checked_let_go(struct checked *checked);

/* Whether it would come out the same with the texts of that set. */
bool checked_holds(const struct checked *checked, const struct text_set *texts, uint64_t generation);

/* A list that grows in the snapshot's arena: SNAPSHOT_ADD(snapshot, list, room) gives its next item. */
void *snapshot_grow(struct arena *arena, const void *items, size_t count, size_t *room, size_t size);

#define SNAPSHOT_ADD(arena, type, items, count, room)                                                                  \
    ((items) = (count) < (room) ? (items) : snapshot_grow((arena), (items), (count), &(room), sizeof(type)),              \
     &((type *)(items))[(count)++])

/* The text of a file that a session took in; NULL where it is none of the snapshot's. */
struct workspace_text *snapshot_text_of(const struct potash_snapshot *snapshot, const struct source_file *source);

/* ---- what stands at a place ---- */

/* The declaration of a tree that an offset of its text lies in; NULL: before the first. */
const struct declaration *tree_declaration_at(const struct syntax_file *tree, size_t offset);

/* The statement on whose line it lies; NULL: on none. */
const struct statement *tree_statement_at(const struct syntax_file *tree, const struct declaration *declaration, size_t offset);

#endif
