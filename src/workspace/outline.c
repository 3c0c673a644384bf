/* What texts declare, and the stretches of lines that belong together. */
#include "base/utf8.h"
#include "formula/formula.h"
#include "workspace/snapshots.h"

struct outliner {
    struct arena *arena;
    struct workspace_text *text;
    const struct syntax_file *tree;
    struct potash_symbol *items;
    size_t count;
    size_t room;
    const char *container;
};

static const enum potash_symbol_kind kinds[] = {
    [DECLARE_FORMULA] = POTASH_FORMULA, [DECLARE_VARIANT] = POTASH_VARIANT, [DECLARE_STOCK] = POTASH_STOCK,
    [DECLARE_MATERIAL] = POTASH_MATERIAL, [DECLARE_UNIT] = POTASH_UNIT, [DECLARE_ELEMENT] = POTASH_DECLARATION,
    [DECLARE_PHRASE] = POTASH_DECLARATION, [DECLARE_RULE] = POTASH_RULE, [DECLARE_REACTION] = POTASH_DECLARATION,
    [DECLARE_GROUP] = POTASH_DECLARATION, [DECLARE_EQUILIBRIUM] = POTASH_DECLARATION, [DECLARE_KIND_OF_BATH] = POTASH_DECLARATION,
    [DECLARE_SHELF] = POTASH_SHELF, [DECLARE_BATCH] = POTASH_BATCH, [DECLARE_PROCESS] = POTASH_PROCESS,
    [DECLARE_WORDING] = POTASH_DECLARATION, [DECLARE_READ] = POTASH_READ};

/* Where what runs up to `end` really ends: blank lines, and comments above what follows, are no part of it. */
static uint32_t trim_lines(const struct source_file *source, uint32_t begin, uint32_t end)
{
    const char *from = source->bytes + (begin - source->base);
    uint32_t last = source->base + source->length;
    const char *upto = source->bytes + ((end < last ? end : last) - source->base);
    for (;;) {
        while (upto > from && strchr(" \t\r\n", upto[-1]) != NULL && upto[-1] != '\0') {
            upto--;
        }
        const char *line = upto;
        while (line > from && line[-1] != '\n' && line[-1] != '\r') {
            line--;
        }
        const char *word = line + strspn(line, " \t");
        if (line == from || *word != '#') {
            return source->base + (uint32_t)(upto - source->bytes);
        }
        upto = line;
    }
}

static void add(struct outliner *outliner, enum potash_symbol_kind kind, size_t depth, struct text name, struct span whole, struct span named)
{
    const struct source_file *source = outliner->tree->source;
    uint32_t end = trim_lines(source, whole.begin, whole.end);
    end = end < named.end ? named.end : end;
    *SNAPSHOT_ADD(outliner->arena, struct potash_symbol, outliner->items, outliner->count, outliner->room) = (struct potash_symbol){
        .name = arena_copy(outliner->arena, name.at, name.length),
        .kind = kind,
        .container = depth == 0 ? NULL : outliner->container,
        .depth = depth,
        .path = outliner->text->file->path,
        .range = text_range_of(outliner->text->file, source, span_make(whole.begin, end)),
        .name_range = text_range_of(outliner->text->file, source, named),
    };
}

/* A text's own place: it is a view into the source. */
static struct span span_of(const struct outliner *outliner, struct text text)
{
    const struct source_file *source = outliner->tree->source;
    uint32_t begin = source->base + (uint32_t)(text.at - source->bytes);
    return span_make(begin, begin + (uint32_t)text.length);
}

static void add_lines(struct outliner *outliner, const struct declaration *declaration)
{
    uint32_t end = declaration_end(declaration);
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct statement *next = statement->next;
        bool section = statement->kind == SAY_PART || statement->kind == SAY_USE;
        while (section && next != NULL && next->kind != SAY_PART && next->kind != SAY_USE) {
            next = next->next;
        }
        if (section) {
            const struct word *word = ((const struct words_statement *)statement)->words;
            add(outliner, statement->kind == SAY_PART ? POTASH_PART : POTASH_USE, 1, word->name->spelling,
                span_make(statement->span.begin, next == NULL ? end : next->span.begin), word->span);
        } else if (statement->kind == SAY_HOLDS && declaration->kind == DECLARE_SHELF) {
            const struct holding_statement *holding = (const struct holding_statement *)statement;
            if (holding->lot.length > 0) {
                add(outliner, POTASH_LOT, 1, holding->lot, statement->span, span_of(outliner, holding->lot));
            }
        }
    }
}

static void add_declaration(struct outliner *outliner, const struct declaration *declaration)
{
    struct text name = declaration->title;
    struct span named = declaration->span;
    if (declaration->kind == DECLARE_STOCK && declaration->name.name != NULL) {
        named = span_join(declaration->name.span, declaration->strength.span);
        const struct source_file *source = outliner->tree->source;
        name = (struct text){source->bytes + (named.begin - source->base), named.end - named.begin};
    } else if (declaration->name.name != NULL) {
        name = declaration->name.name->spelling;
        named = declaration->name.span;
    } else if (name.length > 0) {
        named = span_of(outliner, name);
    }
    if (name.length == 0) { /* its heading is broken */
        return;
    }
    add(outliner, kinds[declaration->kind], 0, name, span_make(declaration->span.begin, declaration_end(declaration)), named);
    outliner->container = outliner->items[outliner->count - 1].name;
    add_lines(outliner, declaration);
}

static void add_text(struct outliner *outliner, struct workspace_text *text)
{
    outliner->text = text;
    outliner->tree = text_tree(text->file);
    for (const struct declaration *declaration = outliner->tree->declarations; declaration != NULL; declaration = declaration->next) {
        add_declaration(outliner, declaration);
    }
}

enum potash_status potash_snapshot_outline(struct potash_snapshot *snapshot, const char *path, struct potash_symbols *symbols)
{
    *symbols = (struct potash_symbols){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct outliner outliner = {.arena = &snapshot->arena};
    add_text(&outliner, text);
    *symbols = (struct potash_symbols){outliner.items, outliner.count};
    return POTASH_GOOD;
}

static bool has_letters(struct arena *arena, const char *name, struct text letters)
{
    struct text folded = utf8_fold_case(arena, text_from(name));
    size_t found = 0;
    for (size_t i = 0; i < folded.length && found < letters.length; i++) {
        found += folded.at[i] == letters.at[found];
    }
    return found == letters.length;
}

enum potash_status potash_snapshot_search(struct potash_snapshot *snapshot, const char *query, struct potash_symbols *symbols)
{
    *symbols = (struct potash_symbols){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    snapshot_read_folders(snapshot);
    struct text letters = utf8_fold_case(&snapshot->arena, text_from(query));
    struct outliner outliner = {.arena = &snapshot->arena};
    size_t kept = 0;
    for (size_t i = 0; i < snapshot->texts.count; i++) {
        add_text(&outliner, &snapshot->texts.items[i]);
        for (size_t k = kept; k < outliner.count; k++) {
            if (outliner.items[k].kind != POTASH_READ && has_letters(&snapshot->arena, outliner.items[k].name, letters)) {
                outliner.items[kept++] = outliner.items[k];
            }
        }
        outliner.count = kept;
    }
    *symbols = (struct potash_symbols){outliner.items, outliner.count};
    return POTASH_GOOD;
}

/* ---- folding ---- */

struct folder {
    struct arena *arena;
    struct potash_fold *items;
    size_t count;
    size_t room;
};

static void add_fold(struct folder *folder, size_t first, size_t last, bool comment)
{
    if (last > first) {
        *SNAPSHOT_ADD(folder->arena, struct potash_fold, folder->items, folder->count, folder->room) = (struct potash_fold){first, last, comment};
    }
}

/* Runs of lines that hold nothing but a comment. */
static void fold_comments(struct folder *folder, const struct text_file *file)
{
    size_t run = 0; /* lines of it so far */
    for (size_t line = 0; line <= file->line_count; line++) {
        struct text text = line < file->line_count ? text_trim(text_line(file, line)) : (struct text){0};
        if (text.length > 0 && text.at[0] == '#') {
            run++;
        } else {
            if (run > 1) {
                add_fold(folder, line - run, line - 1, true);
            }
            run = 0;
        }
    }
}

enum potash_status potash_snapshot_folds(struct potash_snapshot *snapshot, const char *path, struct potash_folds *folds)
{
    *folds = (struct potash_folds){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct outliner outliner = {.arena = &snapshot->arena};
    add_text(&outliner, text);
    struct folder folder = {.arena = &snapshot->arena};
    for (size_t i = 0; i < outliner.count; i++) {
        add_fold(&folder, outliner.items[i].range.begin.line, outliner.items[i].range.end.line, false);
    }
    fold_comments(&folder, text->file);
    *folds = (struct potash_folds){folder.items, folder.count};
    return POTASH_GOOD;
}
