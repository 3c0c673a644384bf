/* Finds the places that name one thing.
 *
 * A name means what is declared under it in the text itself or in what it reads; where nothing of that name is declared there, whatever
 * the workspace declares: a file may be meant to be read by another, beside the one that declares it. */
#include "workspace/naming_places.h"

#include "library/entries.h"

/* ---- one name ---- */

struct picking {
    uint32_t at;
    struct mention found;
    bool any;
};

static void pick(void *context, const struct mention *mention)
{
    struct picking *picking = context;
    uint32_t quote = mention->material == NULL; /* what stands in quotes is taken with the first of them */
    bool here = mention->span.begin <= picking->at + quote && picking->at <= mention->span.end;
    bool smaller = !picking->any || mention->span.end - mention->span.begin < picking->found.span.end - picking->found.span.begin;
    if (here && smaller) {
        picking->found = *mention;
        picking->any = true;
    }
}

/* What the library has under a name, with its form written before or behind it too; NULL when it knows none. */
static const struct library_entry *entry_of(struct potash_snapshot *snapshot, struct library *library, struct text name, struct text *folded)
{
    *folded = names_fold(&snapshot->arena, name);
    const struct library_entry *entry = library_material_entry(library, *folded);
    if (entry != NULL) {
        return entry;
    }
    struct text kept = {arena_copy(library->arena, name.at, name.length), name.length};
    const struct material_reading *reading = library_material(library, names_find(library->names, kept));
    return reading == NULL ? NULL : reading->material->entry;
}

struct wanted naming_at(struct potash_snapshot *snapshot, struct workspace_text *text, size_t offset)
{
    const struct syntax_file *tree = text_tree(text->file);
    struct picking picking = {.at = tree->source->base + (uint32_t)offset};
    mentions_visit(tree, pick, &picking);
    struct wanted wanted = {.mention = picking.found, .found = picking.any, .text = text};
    if (picking.any && picking.found.material != NULL) {
        wanted.library = &snapshot_check(snapshot, text)->session->library;
        wanted.entry = entry_of(snapshot, wanted.library, picking.found.text, &wanted.folded);
    }
    return wanted;
}

static bool same_strength(const struct strength *a, const struct strength *b)
{
    return a->saturated == b->saturated && a->basis == b->basis && (a->saturated || a->percent == b->percent);
}

static bool means(struct potash_snapshot *snapshot, const struct wanted *wanted, const struct mention *mention)
{
    if (mention->kind != wanted->mention.kind) {
        return false;
    }
    if (mention->material == NULL) {
        return text_equal(mention->text, wanted->mention.text);
    }
    struct text folded;
    const struct library_entry *entry = entry_of(snapshot, wanted->library, mention->text, &folded);
    bool same = entry != NULL ? entry == wanted->entry : wanted->entry == NULL && text_equal(folded, wanted->folded);
    return same && (mention->kind != MENTION_STOCK || same_strength(mention->strength, wanted->mention.strength));
}

/* ---- what reads what ---- */

const char *naming_path_read(struct potash_snapshot *snapshot, const char *from, struct text name)
{
    const char *slash = name.length > 0 && name.at[0] == '/' ? NULL : strrchr(from, '/');
    int folder = slash == NULL ? 0 : (int)(slash + 1 - from);
    const char *path = arena_format(&snapshot->arena, "%.*s%.*s", folder, from, TEXT_ARGUMENTS(name));
    char *plain = arena_allocate(&snapshot->arena, strlen(path) + 2);
    path_normalise(path, plain);
    return plain;
}

/* Texts that were reached, and those that are to be gone on from; by their places in the snapshot. */
struct reach {
    struct potash_snapshot *snapshot;
    bool *reached;
    size_t *queue;
    size_t count;
    const struct workspace_text *from;
};

static void reach_text(struct reach *reach, const struct workspace_text *text)
{
    size_t number = (size_t)(text - reach->snapshot->texts.items);
    if (!reach->reached[number]) {
        reach->reached[number] = true;
        reach->queue[reach->count++] = number;
    }
}

static void follow(void *context, const struct mention *mention)
{
    struct reach *reach = context;
    if (mention->kind != MENTION_FILE) {
        return;
    }
    const char *path = naming_path_read(reach->snapshot, reach->from->file->path, mention->text);
    const struct text_set *texts = &reach->snapshot->texts;
    for (size_t i = 0; i < texts->count; i++) { /* a folder stands for all that is below it */
        const struct workspace_text *text = &texts->items[i];
        if (strcmp(text->file->path, path) == 0 || path_is_inside(text->file->path, path)) {
            reach_text(reach, text);
        }
    }
}

static bool *reached_from(struct potash_snapshot *snapshot, const struct workspace_text *from)
{
    size_t count = snapshot->texts.count;
    struct reach reach = {snapshot, ARENA_ARRAY(&snapshot->arena, bool, count), ARENA_ARRAY(&snapshot->arena, size_t, count), 0, from};
    reach_text(&reach, from);
    for (size_t next = 0; next < reach.count; next++) {
        reach.from = &snapshot->texts.items[reach.queue[next]];
        mentions_visit(text_tree(reach.from->file), follow, &reach);
    }
    return reach.reached;
}

bool naming_reads(struct potash_snapshot *snapshot, const struct workspace_text *from, const struct workspace_text *other)
{
    return reached_from(snapshot, from)[other - snapshot->texts.items];
}

/* ---- all places ---- */

struct gathering {
    struct potash_snapshot *snapshot;
    const struct wanted *wanted;
    const struct workspace_text *text;
    struct places_named places;
};

static void gather(void *context, const struct mention *mention)
{
    struct gathering *gathering = context;
    if (means(gathering->snapshot, gathering->wanted, mention)) {
        struct places_named *places = &gathering->places;
        *SNAPSHOT_ADD(&gathering->snapshot->arena, struct place_named, places->items, places->count, places->room) =
            (struct place_named){gathering->text, *mention};
    }
}

static struct places_named gather_all(struct potash_snapshot *snapshot, const struct wanted *wanted)
{
    struct gathering gathering = {snapshot, wanted, NULL, {0}};
    for (size_t i = 0; i < snapshot->texts.count; i++) {
        gathering.text = &snapshot->texts.items[i];
        mentions_visit(text_tree(gathering.text->file), gather, &gathering);
    }
    return gathering.places;
}

static bool is_at(const struct workspace_text *text, const bool *reached, const struct potash_snapshot *snapshot)
{
    return reached[text - snapshot->texts.items];
}

/* The declarations among `all` that a text sees, at the front of a list of their own; of all where it sees none. */
static struct places_named declarations_seen(struct potash_snapshot *snapshot, const struct places_named *all, const struct workspace_text *from,
                                             bool *own)
{
    const bool *reached = reached_from(snapshot, from);
    struct places_named seen = {0};
    for (int anywhere = 0; anywhere < 2 && seen.count == 0; anywhere++) {
        *own = anywhere == 0;
        for (size_t i = 0; i < all->count; i++) {
            if (all->items[i].mention.declares && (anywhere || is_at(all->items[i].text, reached, snapshot))) {
                *SNAPSHOT_ADD(&snapshot->arena, struct place_named, seen.items, seen.count, seen.room) = all->items[i];
            }
        }
    }
    return seen;
}

struct places_named naming_declarations(struct potash_snapshot *snapshot, const struct wanted *wanted)
{
    bool own;
    struct places_named all = gather_all(snapshot, wanted);
    return declarations_seen(snapshot, &all, wanted->text, &own);
}

static bool share_one(const struct places_named *a, const struct places_named *b)
{
    for (size_t i = 0; i < a->count; i++) {
        for (size_t k = 0; k < b->count; k++) {
            if (a->items[i].text == b->items[k].text && a->items[i].mention.span.begin == b->items[k].mention.span.begin) {
                return true;
            }
        }
    }
    return a->count == 0 && b->count == 0;
}

struct places_named naming_all(struct potash_snapshot *snapshot, const struct wanted *wanted)
{
    bool own;
    struct places_named all = gather_all(snapshot, wanted);
    struct places_named meant = declarations_seen(snapshot, &all, wanted->text, &own);
    struct places_named places = {0};
    const struct workspace_text *asked = NULL; /* they come text by text */
    bool included = false;
    for (size_t i = 0; i < all.count; i++) {
        const struct place_named *place = &all.items[i];
        if (place->text != asked) {
            asked = place->text;
            struct places_named seen = declarations_seen(snapshot, &all, asked, &own);
            included = share_one(&meant, &seen);
        }
        if (included) {
            *SNAPSHOT_ADD(&snapshot->arena, struct place_named, places.items, places.count, places.room) = *place;
        }
    }
    return places;
}

struct potash_range naming_range(const struct workspace_text *text, struct span span)
{
    return text_range_of(text->file, text_tree(text->file)->source, span);
}
