/* libpotash for editors: texts that change while somebody types, and plain answers about places in them.
 *
 * A workspace holds texts: those that an editor has open, and the `.bath` files of its folders.  A snapshot holds them still, and answers.
 * Each file is checked as `potash check FILE` would check it, with what it reads; open texts stand in for files on disk.
 *
 * Nothing here prints, exits, or knows of a protocol.  A library is immutable, and may serve many workspaces in many threads; a workspace
 * and its snapshots belong to one thread at a time.
 *
 * A path names a text.  "." and ".." in it are taken out by its words alone; `read "NAME"` is looked for from the folder of the text that
 * says so.  What a snapshot returns belongs to it and lives until it is released.
 *
 * Every call that returns a status can be POTASH_UNUSABLE because memory ran out, or because the snapshot has no text of that path;
 * potash_workspace_message has the reason.  What else makes a call fail stands beside it.  After a failure the workspace can be used
 * further. */
#ifndef POTASH_WORKSPACE_H
#define POTASH_WORKSPACE_H

#include "potash.h"

/* ---- the library ---- */

struct potash_library;

/* Reads the library of a folder once; NULL: the one that is built in.  NULL when it cannot be read, or there is no memory; the reason
 * goes to `why`, unless that is NULL or its room is 0. */
struct potash_library *potash_library_open(const char *folder, char *why, size_t room);
void potash_library_close(struct potash_library *library);

/* ---- a workspace ---- */

/* All zero is right for a start; what is pointed to lives as long as the workspace. */
struct potash_workspace_options {
    const struct potash_library *library; /* NULL: the one that is built in */
    /* Gives the text of a file that is not open, which is copied; false: there is none.  NULL: files are read from disk. */
    bool (*read)(void *context, const char *path, struct potash_output *text);
    void *read_context;
    bool allow_reads;              /* `read` may leave the folder of the workspace, or of the text where it lies in none */
    const char *const *silence;    /* ids of warnings, and names of rules, that are turned off; may be NULL */
    const char *balance;           /* as in struct potash_options; so graduate */
    const char *graduate;
    long fail_after;               /* tests: allocations fail from that one on; 0 or less: never */
};

struct potash_workspace;

/* NULL when there is no memory. */
struct potash_workspace *potash_workspace_open(const struct potash_workspace_options *options);

/* Its snapshots are to be released before. */
void potash_workspace_close(struct potash_workspace *workspace);

/* Why the last call of the workspace, or of a snapshot of it, was not POTASH_GOOD; "" when it was. */
const char *potash_workspace_message(const struct potash_workspace *workspace);

/* Folders whose `.bath` files belong to the workspace: names are looked for in them.  They are listed on disk when somebody asks.
 * POTASH_FAULTY when a folder that is to be taken out is none of the workspace. */
enum potash_status potash_workspace_add_folder(struct potash_workspace *workspace, const char *path);
enum potash_status potash_workspace_remove_folder(struct potash_workspace *workspace, const char *path);

/* A text that an editor has opened, or replaced as a whole; it is copied.  POTASH_FAULTY when it is no text: then it is left as it was. */
enum potash_status potash_workspace_set(struct potash_workspace *workspace, const char *path, const char *text, size_t length);

/* Puts `text` in the place of the bytes from `begin` to `end`.  POTASH_FAULTY when the text is not open, or has no such place. */
enum potash_status potash_workspace_edit(struct potash_workspace *workspace, const char *path, size_t begin, size_t end, const char *text,
                                         size_t length);

/* The editor has closed it: what is on disk counts again.  POTASH_FAULTY when it was not open. */
enum potash_status potash_workspace_forget(struct potash_workspace *workspace, const char *path);

/* A file that is not open was written, made or deleted, or any: NULL. */
enum potash_status potash_workspace_refresh(struct potash_workspace *workspace, const char *path);

/* ---- snapshots ---- */

struct potash_snapshot;

/* The texts as they stand.  It is cheap, and what was found out about a text that has not changed since is found at hand.  NULL when there
 * is no memory. */
struct potash_snapshot *potash_snapshot_take(struct potash_workspace *workspace);
void potash_snapshot_release(struct potash_snapshot *snapshot);

/* Whether what is said of `path` may be another than when `before` was taken: it, or what it reads, was changed. */
bool potash_snapshot_differs(struct potash_snapshot *snapshot, struct potash_snapshot *before, const char *path);

/* Whether a text is there, and its bytes. */
bool potash_snapshot_text(struct potash_snapshot *snapshot, const char *path, struct potash_output *text);

/* ---- places ---- */

/* A place in a text.  Lines end with \n, \r\n or \r, and count from 0. */
struct potash_place {
    size_t offset;      /* bytes from the start of the text */
    size_t line;
    size_t column;      /* bytes from the start of the line */
    size_t column_16;   /* the same in units of UTF-16 */
};

struct potash_range {
    struct potash_place begin;
    struct potash_place end;
};

/* The offset of a place that is given by line and column; `utf16`: the column counts units of UTF-16.  A column behind the end of its
 * line is that end, a line behind the last the end of the text.  POTASH_UNUSABLE only as said at the top. */
enum potash_status potash_snapshot_offset(struct potash_snapshot *snapshot, const char *path, size_t line, size_t column, bool utf16,
                                          size_t *offset);

struct potash_location {
    const char *path;
    struct potash_range range;
};

struct potash_locations {
    const struct potash_location *items;
    size_t count;
};

struct potash_edit {
    const char *path;
    struct potash_range range;
    const char *text;
};

/* Several edits of one text do not overlap, and stand in its order. */
struct potash_edits {
    const struct potash_edit *items;
    size_t count;
};

/* ---- diagnostics ---- */

struct potash_repair {
    const char *title;
    struct potash_edits edits;
};

struct potash_remark {
    struct potash_location at;
    const char *message;
};

struct potash_finding {
    struct potash_range range;
    bool error;                    /* else a warning */
    const char *id;                /* "ratio-with-colon" */
    const char *message;
    const char *help;              /* or NULL */
    const struct potash_repair *repairs;
    size_t repair_count;
    const struct potash_remark *remarks; /* other places that have to do with it */
    size_t remark_count;
};

struct potash_findings {
    const struct potash_finding *items;
    size_t count;
};

/* What is wrong with one text, in its order: what `potash check` says of this file when it is checked alone with what it reads. */
enum potash_status potash_snapshot_findings(struct potash_snapshot *snapshot, const char *path, struct potash_findings *findings);

/* ---- names ---- */

enum potash_symbol_kind {
    POTASH_FORMULA, POTASH_VARIANT, POTASH_STOCK, POTASH_MATERIAL, POTASH_UNIT, POTASH_RULE, POTASH_SHELF, POTASH_BATCH, POTASH_PROCESS,
    POTASH_READ, POTASH_PART, POTASH_USE, POTASH_LOT, POTASH_DECLARATION /* of any other kind */
};

struct potash_symbol {
    const char *name;
    enum potash_symbol_kind kind;
    const char *container;          /* what it stands in, or NULL */
    size_t depth;                   /* 0, or 1 for what stands in the last one of depth 0 */
    const char *path;
    struct potash_range range;      /* all of it */
    struct potash_range name_range; /* its name */
};

struct potash_symbols {
    const struct potash_symbol *items;
    size_t count;
};

/* What a text declares, in its order. */
enum potash_status potash_snapshot_outline(struct potash_snapshot *snapshot, const char *path, struct potash_symbols *symbols);

/* What is declared anywhere in the workspace and has the letters of `query` in its name in that order, capitals aside; all for "". */
enum potash_status potash_snapshot_search(struct potash_snapshot *snapshot, const char *query, struct potash_symbols *symbols);

/* Where the title, material, stock, lot or batch at an offset is declared; nothing where no name stands, and for what the built-in
 * library declares. */
enum potash_status potash_snapshot_definition(struct potash_snapshot *snapshot, const char *path, size_t offset,
                                              struct potash_locations *locations);

/* Everywhere that it is named, the place itself among them; the places that declare it only where `declarations` says so. */
enum potash_status potash_snapshot_references(struct potash_snapshot *snapshot, const char *path, size_t offset, bool declarations,
                                              struct potash_locations *locations);

/* The name at an offset that can be given another name; POTASH_FAULTY, with the reason, where there is none. */
enum potash_status potash_snapshot_renamable(struct potash_snapshot *snapshot, const char *path, size_t offset, struct potash_range *range,
                                             const char **name);

/* The edits that give it that name everywhere.  POTASH_FAULTY, with the reason, where it cannot have it: nothing stands there that can be
 * renamed, the name is empty, holds a quote or the end of a line, or is another's already. */
enum potash_status potash_snapshot_rename(struct potash_snapshot *snapshot, const char *path, size_t offset, const char *name,
                                          struct potash_edits *edits);

/* ---- what is known of a place ---- */

/* Facts about what stands at an offset, as CommonMark; `text` is NULL where there is nothing to say. */
struct potash_hover {
    struct potash_range range;
    const char *text;
};

enum potash_status potash_snapshot_hover(struct potash_snapshot *snapshot, const char *path, size_t offset, struct potash_hover *hover);

enum potash_completion_kind {
    POTASH_COMPLETE_KEYWORD, POTASH_COMPLETE_MATERIAL, POTASH_COMPLETE_FORM, POTASH_COMPLETE_UNIT, POTASH_COMPLETE_TITLE,
    POTASH_COMPLETE_LOT, POTASH_COMPLETE_AMOUNT, POTASH_COMPLETE_FILE, POTASH_COMPLETE_VALUE
};

struct potash_completion {
    const char *label;
    enum potash_completion_kind kind;
    const char *detail;             /* a few words beside it, or NULL */
    const char *text;               /* what is written in the place of `range` */
};

struct potash_completions {
    struct potash_range range;      /* what has been typed of the word so far */
    const struct potash_completion *items;
    size_t count;
};

/* What may be typed at an offset.  What has been typed already is not held against it: an editor does that. */
enum potash_status potash_snapshot_complete(struct potash_snapshot *snapshot, const char *path, size_t offset,
                                            struct potash_completions *completions);

/* ---- how a text looks ---- */

enum potash_highlight_kind {
    POTASH_HIGHLIGHT_KEYWORD, POTASH_HIGHLIGHT_TITLE, POTASH_HIGHLIGHT_MATERIAL, POTASH_HIGHLIGHT_FORM, POTASH_HIGHLIGHT_NUMBER,
    POTASH_HIGHLIGHT_UNIT, POTASH_HIGHLIGHT_TEXT, POTASH_HIGHLIGHT_COMMENT, POTASH_HIGHLIGHT_SIGN, POTASH_HIGHLIGHT_WORD
};

enum { POTASH_HIGHLIGHT_KINDS = POTASH_HIGHLIGHT_WORD + 1 };

struct potash_highlight {
    struct potash_range range;      /* within one line */
    enum potash_highlight_kind kind;
    bool declares;                  /* it is declared here */
};

struct potash_highlights {
    const struct potash_highlight *items;
    size_t count;
};

enum potash_status potash_snapshot_highlights(struct potash_snapshot *snapshot, const char *path, struct potash_highlights *highlights);

/* Stretches of lines that can be folded away: declarations, parts, uses, runs of comments. */
struct potash_fold {
    size_t first_line;
    size_t last_line;
    bool comment;
};

struct potash_folds {
    const struct potash_fold *items;
    size_t count;
};

enum potash_status potash_snapshot_folds(struct potash_snapshot *snapshot, const char *path, struct potash_folds *folds);

/* Words that an editor shows in a line without their being in the text: grams in a litre, the form that is assumed, a ratio in its usual
 * shape. */
struct potash_inlay {
    struct potash_place at;
    const char *text;
};

struct potash_inlays {
    const struct potash_inlay *items;
    size_t count;
};

/* Those from one offset to another. */
enum potash_status potash_snapshot_inlays(struct potash_snapshot *snapshot, const char *path, size_t begin, size_t end,
                                          struct potash_inlays *inlays);

/* The edits that bring the lines from `first_line` to `last_line` into canonical layout (SIZE_MAX: to the end).  POTASH_FAULTY when the
 * text has errors of syntax or encoding: it is laid out when those are mended. */
enum potash_status potash_snapshot_layout(struct potash_snapshot *snapshot, const char *path, size_t first_line, size_t last_line,
                                          struct potash_edits *edits);

/* ---- what can be done at a place ---- */

enum potash_action_kind { POTASH_ACTION_REPAIR, POTASH_ACTION_REWRITE, POTASH_ACTION_EXTRACT };

struct potash_action {
    const char *title;
    enum potash_action_kind kind;
    const struct potash_finding *repairs; /* the finding that it repairs, or NULL */
    struct potash_edits edits;
};

struct potash_actions {
    const struct potash_action *items;
    size_t count;
};

/* Every repair of what was found between two offsets; and what else can be done with the line there: its weight in another form, in
 * grams, the formula at another size, a stock or a variant of it.  `date`, ISO 8601, lets a batch of it be recorded; or NULL. */
enum potash_status potash_snapshot_actions(struct potash_snapshot *snapshot, const char *path, size_t begin, size_t end, const char *date,
                                           struct potash_actions *actions);

#endif
