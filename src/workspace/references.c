/* Definition and references of what stands at a place, and giving it another name. */
#include "base/utf8.h"
#include "workspace/naming_places.h"

/* Sorted: the mentions of a line come in any order. */
static struct potash_locations locations_of(struct potash_snapshot *snapshot, const struct places_named *places, bool declarations, bool others)
{
    struct potash_location *items = ARENA_ARRAY(&snapshot->arena, struct potash_location, places->count);
    size_t count = 0;
    for (size_t i = 0; i < places->count; i++) {
        const struct place_named *place = &places->items[i];
        if (!(place->mention.declares ? declarations : others)) {
            continue;
        }
        struct potash_location location = {place->text->file->path, naming_range(place->text, place->mention.span)};
        size_t at = count++;
        while (at > 0 && items[at - 1].path == location.path && items[at - 1].range.begin.offset > location.range.begin.offset) {
            items[at] = items[at - 1];
            at--;
        }
        items[at] = location;
    }
    return (struct potash_locations){items, count};
}

/* The start of the file that a `read` line leads to, where it could be read. */
static void locate_file(struct potash_snapshot *snapshot, struct workspace_text *text, struct text name, struct potash_locations *locations)
{
    const char *path = naming_path_read(snapshot, text->file->path, name);
    const struct source_set *sources = &snapshot_check(snapshot, text)->session->sources;
    bool there = texts_find(&snapshot->texts, path) != NULL;
    for (size_t i = 0; i < sources->count && !there; i++) {
        char *plain = arena_allocate(&snapshot->arena, strlen(sources->files[i]->path) + 2);
        path_normalise(sources->files[i]->path, plain);
        there = sources->files[i]->length > 0 && strcmp(plain, path) == 0;
    }
    if (there) {
        struct potash_location *location = ARENA_NEW(&snapshot->arena, struct potash_location);
        location->path = path;
        *locations = (struct potash_locations){location, 1};
    }
}

enum potash_status potash_snapshot_definition(struct potash_snapshot *snapshot, const char *path, size_t offset,
                                              struct potash_locations *locations)
{
    *locations = (struct potash_locations){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    snapshot_read_folders(snapshot);
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct wanted wanted = naming_at(snapshot, text, offset);
    if (wanted.found && wanted.mention.kind == MENTION_FILE) {
        locate_file(snapshot, text, wanted.mention.text, locations);
    } else if (wanted.found) {
        struct places_named places = naming_declarations(snapshot, &wanted);
        *locations = locations_of(snapshot, &places, true, false);
    }
    return POTASH_GOOD;
}

enum potash_status potash_snapshot_references(struct potash_snapshot *snapshot, const char *path, size_t offset, bool declarations,
                                              struct potash_locations *locations)
{
    *locations = (struct potash_locations){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    snapshot_read_folders(snapshot);
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct wanted wanted = naming_at(snapshot, text, offset);
    if (wanted.found) {
        struct places_named places = naming_all(snapshot, &wanted);
        *locations = locations_of(snapshot, &places, declarations, true);
    }
    return POTASH_GOOD;
}

/* ---- another name ---- */

/* Whether the place asked about can have another name; else the reason is said. */
static bool may_rename(struct potash_snapshot *snapshot, const struct wanted *wanted)
{
    struct potash_workspace *workspace = snapshot->workspace;
    if (!wanted->found) {
        workspace_refuse(workspace, POTASH_FAULTY, "no name stands here");
        return false;
    }
    switch (wanted->mention.kind) {
    case MENTION_FILE:
        workspace_refuse(workspace, POTASH_FAULTY, "a file is renamed on disk");
        return false;
    case MENTION_STOCK:
        workspace_refuse(workspace, POTASH_FAULTY, "a stock is called by its material and its strength");
        return false;
    case MENTION_MATERIAL:
        if (naming_declarations(snapshot, wanted).count == 0) {
            workspace_refuse(workspace, POTASH_FAULTY, "the library calls it so");
            return false;
        }
        return true;
    default:
        return true;
    }
}

/* Whether lines of a formula can begin with that name and mean a material by it. */
static bool is_material_name(struct potash_snapshot *snapshot, struct text name)
{
    struct arena *arena = &snapshot->arena;
    const char *line = arena_format(arena, "formula \"-\"\n%.*s 1 g\n", TEXT_ARGUMENTS(name));
    struct source_set *sources = ARENA_NEW(arena, struct source_set);
    struct diagnostics *aside = ARENA_NEW(arena, struct diagnostics);
    struct names *names = ARENA_NEW(arena, struct names);
    source_start(sources, arena);
    diagnostics_start(aside, arena, sources);
    names_start(names, arena);
    struct source_file *source = source_add(sources, "", arena_copy(arena, line, strlen(line)), strlen(line), false);
    const struct syntax_file *tree = syntax_parse(arena, names, aside, source, false);
    const struct statement *statement = tree->declarations == NULL ? NULL : tree->declarations->statements;
    if (aside->count > 0 || statement == NULL || statement->next != NULL || statement->kind != SAY_ADDITION) {
        return false;
    }
    const struct addition_statement *addition = (const struct addition_statement *)statement;
    return addition->material->form == NULL && text_equal(addition->material->name->spelling, name);
}

static bool is_good_name(struct potash_snapshot *snapshot, const struct wanted *wanted, struct text name)
{
    bool sound = name.length > 0 && utf8_first_fault(name.at, name.length, 0) == name.length;
    for (size_t i = 0; i < name.length && sound; i++) {
        sound = name.at[i] != '"' && (unsigned char)name.at[i] >= ' ';
    }
    if (!sound) {
        workspace_refuse(snapshot->workspace, POTASH_FAULTY, "a name is one line of text without quotes");
    } else if (wanted->mention.kind == MENTION_MATERIAL && !is_material_name(snapshot, name)) {
        workspace_refuse(snapshot->workspace, POTASH_FAULTY, "no material can be called \"%.*s\": its lines would be read as something else",
                         TEXT_ARGUMENTS(name));
        sound = false;
    }
    return sound;
}

/* Whether one of the texts that name it sees something else of the new name. */
static bool is_taken(struct potash_snapshot *snapshot, const struct wanted *wanted, const struct places_named *places, struct text name)
{
    struct wanted other = *wanted;
    other.mention.text = name;
    if (wanted->mention.kind == MENTION_MATERIAL) {
        other.folded = names_fold(&snapshot->arena, name);
        other.entry = library_material_entry(wanted->library, other.folded);
        if (other.entry != NULL && other.entry != wanted->entry) {
            return true;
        }
    }
    if (wanted->mention.kind == MENTION_MATERIAL && other.entry == wanted->entry) { /* another spelling, or another of its names */
        return false;
    }
    struct places_named taken = naming_all(snapshot, &other);
    for (size_t i = 0; i < taken.count; i++) {
        for (size_t k = 0; k < places->count && taken.items[i].mention.declares; k++) {
            if (naming_reads(snapshot, places->items[k].text, taken.items[i].text)) {
                return true;
            }
        }
    }
    return false;
}

enum potash_status potash_snapshot_renamable(struct potash_snapshot *snapshot, const char *path, size_t offset, struct potash_range *range,
                                             const char **name)
{
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    snapshot_read_folders(snapshot);
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct wanted wanted = naming_at(snapshot, text, offset);
    if (!may_rename(snapshot, &wanted)) {
        return POTASH_FAULTY;
    }
    *range = naming_range(text, wanted.mention.span);
    *name = arena_copy(&snapshot->arena, wanted.mention.text.at, wanted.mention.text.length);
    return POTASH_GOOD;
}

enum potash_status potash_snapshot_rename(struct potash_snapshot *snapshot, const char *path, size_t offset, const char *name,
                                          struct potash_edits *edits)
{
    *edits = (struct potash_edits){0};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    snapshot_read_folders(snapshot);
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct wanted wanted = naming_at(snapshot, text, offset);
    struct text plain = text_trim(text_from(name));
    if (!may_rename(snapshot, &wanted) || !is_good_name(snapshot, &wanted, plain)) {
        return POTASH_FAULTY;
    }
    struct places_named places = naming_all(snapshot, &wanted);
    if (wanted.mention.kind == MENTION_MATERIAL) { /* its other names stay */
        size_t kept = 0;
        for (size_t i = 0; i < places.count; i++) {
            if (text_equal(names_fold(&snapshot->arena, places.items[i].mention.text), wanted.folded)) {
                places.items[kept++] = places.items[i];
            }
        }
        places.count = kept;
    }
    if (!text_equal(plain, wanted.mention.text) && is_taken(snapshot, &wanted, &places, plain)) {
        return workspace_refuse(snapshot->workspace, POTASH_FAULTY, "\"%.*s\" is the name of something else", TEXT_ARGUMENTS(plain));
    }
    struct potash_locations locations = locations_of(snapshot, &places, true, true);
    struct potash_edit *items = ARENA_ARRAY(&snapshot->arena, struct potash_edit, locations.count);
    const char *written = arena_copy(&snapshot->arena, plain.at, plain.length);
    for (size_t i = 0; i < locations.count; i++) {
        items[i] = (struct potash_edit){locations.items[i].path, locations.items[i].range, written};
    }
    *edits = (struct potash_edits){items, locations.count};
    return POTASH_GOOD;
}
