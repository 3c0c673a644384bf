/* Holds a line against the compiled wordings, and puts together what it means. */
#include "library/wording_parts.h"

#include "base/number.h"

#include <math.h>

enum { MOST_BINDINGS = 16, MOST_NESTED = 8 /* ends of one capture that are followed */ };

struct binding {
    const struct name *name;
    const struct candidate *candidate;
};

/* A way through the graph. */
struct walk {
    struct matching *matching;
    struct binding bindings[MOST_BINDINGS];
    size_t bound;
    void (*reached)(struct walk *walk, const struct wording *wording, size_t end); /* a pattern has been gone through */
    bool whole;                     /* only at the line's end */
    bool memory;                    /* what leads nowhere is remembered */
    size_t found;
    /* what comes of it */
    struct candidate *nested;
    struct wording_reading *readings;
    unsigned texts[WORDING_READINGS];
};

static size_t pass_soft(const struct matching *matching, size_t at)
{
    while (at < matching->count && matching->items[at].kind == ITEM_SOFT) {
        at++;
    }
    return at;
}

/* Whether any reading was reached from here. */
static bool walk_from(struct walk *walk, const struct wording_node *node, size_t at)
{
    struct matching *matching = walk->matching;
    size_t next = pass_soft(matching, at);
    size_t bit = node->number * (matching->count + 1) + at;
    if (walk->memory && (matching->lost[bit / 8] >> bit % 8 & 1) != 0) {
        return false;
    }
    bool reached = false;
    if (node->ends != NULL && (!walk->whole || next == matching->count)) {
        for (const struct wording *wording = node->ends; wording != NULL; wording = wording->next) {
            walk->reached(walk, wording, at);
        }
        reached = true;
    }
    for (const struct wording_edge *edge = node->edges; edge != NULL; edge = edge->next) {
        if (edge->word != NULL) {
            for (size_t i = at; i <= next && i < matching->count; i++) { /* a sign may be asked for that otherwise stands anywhere */
                if (matching->items[i].word == edge->word) {
                    reached = walk_from(walk, edge->to, i + 1) || reached;
                }
            }
        } else if (edge->capture.name == NULL) {
            reached = walk_from(walk, edge->to, at) || reached;
        } else if (walk->bound < MOST_BINDINGS) {
            const struct candidate *candidate = wording_captured(matching, edge->capture.kind, next);
            for (; candidate != NULL; candidate = candidate->next) {
                walk->bindings[walk->bound++] = (struct binding){edge->capture.name, candidate};
                reached = walk_from(walk, edge->to, candidate->end) || reached;
                walk->bound--;
            }
        }
    }
    if (walk->memory && !reached) {
        matching->lost[bit / 8] |= (unsigned char)(1u << bit % 8);
    }
    return reached;
}

/* ---- what it means ---- */

struct writing {
    struct walk *walk;
    struct reread_piece *pieces;
    size_t count;
    size_t capacity;
    bool lacks;                     /* a capture was not typed */
};

static void put(struct writing *writing, struct reread_piece piece)
{
    if (writing->count == writing->capacity) {
        size_t capacity = writing->capacity == 0 ? 16 : writing->capacity * 2;
        struct reread_piece *pieces = ARENA_ARRAY(writing->walk->matching->library->arena, struct reread_piece, capacity);
        if (writing->count > 0) {
            memcpy(pieces, writing->pieces, writing->count * sizeof *pieces);
        }
        writing->pieces = pieces;
        writing->capacity = capacity;
    }
    writing->pieces[writing->count++] = piece;
}

static const struct candidate *bound(const struct walk *walk, const struct name *name)
{
    for (size_t i = walk->bound; i-- > 0;) {
        if (walk->bindings[i].name == name) {
            return walk->bindings[i].candidate;
        }
    }
    return NULL;
}

/* A text that will stand in quotes holds none itself. */
static struct reread_piece quotable(struct writing *writing, struct reread_piece piece)
{
    bool quoted = piece.text.length > 2 && piece.text.at[0] == '"' && piece.text.at[piece.text.length - 1] == '"';
    piece.text.at += quoted;
    piece.text.length -= quoted ? 2 : 0;
    piece.typed = (struct span){piece.typed.begin + quoted, piece.typed.end - quoted};
    if (memchr(piece.text.at, '"', piece.text.length) != NULL) {
        char *copy = arena_copy(writing->walk->matching->library->arena, piece.text.at, piece.text.length);
        for (char *at = copy; *at != '\0'; at++) {
            *at = *at == '"' ? '\'' : *at;
        }
        piece.text.at = copy;
    }
    return piece;
}

static void write_pieces(struct writing *writing, const struct meaning *piece)
{
    const struct matching *matching = writing->walk->matching;
    for (; piece != NULL; piece = piece->next) {
        if (piece->within != NULL) {
            size_t before = writing->count;
            bool lacked = writing->lacks;
            writing->lacks = false;
            write_pieces(writing, piece->within);
            writing->count = writing->lacks ? before : writing->count;
            writing->lacks = lacked;
        } else if (piece->capture.name == NULL) {
            put(writing, (struct reread_piece){.text = piece->text});
        } else if (piece->capture.kind == CAPTURE_LINE) {
            put(writing, quotable(writing, wording_typed(matching, 0, matching->count)));
        } else {
            const struct candidate *candidate = bound(writing->walk, piece->capture.name);
            const struct wording_place *place = matching->place;
            bool own = candidate == NULL && piece->capture.kind == CAPTURE_PURPOSE && place->purpose.length > 0 && !place->in_use;
            writing->lacks = writing->lacks || (candidate == NULL && !own);
            if (own) {
                put(writing, (struct reread_piece){.text = place->purpose});
            }
            for (size_t i = 0; candidate != NULL && i < candidate->count; i++) {
                bool text = piece->capture.kind == CAPTURE_TEXT || piece->capture.kind == CAPTURE_WORDS;
                put(writing, text ? quotable(writing, candidate->pieces[i]) : candidate->pieces[i]);
            }
        }
    }
}

/* The lines that a wording means, without those that hold what was not typed. */
static struct writing write_lines(struct walk *walk, const struct wording *wording)
{
    struct writing writing = {.walk = walk};
    for (const struct meaning_line *line = wording->lines; line != NULL; line = line->next) {
        size_t before = writing.count;
        writing.lacks = false;
        if (before > 0) {
            put(&writing, (struct reread_piece){.text = TEXT("\n")});
        }
        write_pieces(&writing, line->pieces);
        writing.count = writing.lacks ? before : writing.count;
    }
    return writing;
}

/* ---- captures that wordings read ---- */

static void reached_in_capture(struct walk *walk, const struct wording *wording, size_t end)
{
    struct writing writing = write_lines(walk, wording);
    if (writing.count == 0 || walk->found == MOST_NESTED) {
        return;
    }
    struct candidate *candidate = ARENA_NEW(walk->matching->library->arena, struct candidate);
    *candidate = (struct candidate){.end = end, .pieces = writing.pieces, .count = writing.count, .next = walk->nested};
    walk->nested = candidate;
    walk->found++;
}

struct candidate *wording_nested(struct matching *matching, enum capture_kind kind, size_t at)
{
    const struct wording_node *root = matching->set->roots[kind];
    if (root == NULL) {
        return NULL;
    }
    struct walk walk = {.matching = matching, .reached = reached_in_capture};
    walk_from(&walk, root, at);
    return walk.nested;
}

/* ---- whole lines ---- */

static bool holds_here(const struct matching *matching, const struct wording *wording)
{
    const struct wording_place *place = matching->place;
    unsigned here = place->kind == DECLARE_STOCK     ? PLACE_STOCK
                    : place->kind == DECLARE_VARIANT ? PLACE_VARIANT
                    : place->in_use                  ? PLACE_USE
                                                     : PLACE_FORMULA | PLACE_PART;
    return wording->places == 0 || (wording->places & here) != 0;
}

/* Whether the form that was typed is one of the material's, where both were. */
static bool forms_fit(const struct walk *walk)
{
    struct library *library = walk->matching->library;
    const struct material *material = NULL;
    for (size_t i = 0; i < walk->bound; i++) {
        struct text name = walk->bindings[i].name->spelling;
        const struct candidate *candidate = walk->bindings[i].candidate;
        if (candidate->count != 1) {
            continue;
        }
        struct name *typed = names_find(library->names, candidate->pieces[0].text);
        if (name.length >= 8 && memcmp(name.at, "material", 8) == 0) {
            const struct material_reading *reading = library_material(library, typed);
            material = reading == NULL ? NULL : reading->material;
        } else if (name.length >= 4 && memcmp(name.at, "form", 4) == 0 && material != NULL && !material->is_water) {
            bool figure = text_is_digit(typed->spelling.at[0]) || typed->spelling.at[0] == '.';
            bool percent = memchr(typed->spelling.at, '%', typed->spelling.length) != NULL;
            const struct form_words words = {.words = figure ? NULL : typed,
                                             .number = figure ? number_read((struct text){typed->spelling.at, strspn(typed->spelling.at, "0123456789.")}) : NAN,
                                             .percent = percent};
            bool quality = library_is_quality(names_folded(library->names, typed)->spelling);
            const struct material_reading *other = library_material(library, typed);
            bool same = other != NULL && other->material == material;
            if (!quality && !same && !percent && library_form(library, material, &words) == NULL) {
                return false;
            }
        }
    }
    return true;
}

/* How much of a line is left to texts that nobody looks into: of two readings the one with less says more. */
static unsigned left_open(const struct walk *walk, const struct wording *wording)
{
    enum { TEXT = 10000 };
    struct library *library = walk->matching->library;
    unsigned open = wording->texts * TEXT;
    for (size_t i = 0; i < walk->bound; i++) {
        const struct candidate *candidate = walk->bindings[i].candidate;
        bool material = strncmp(walk->bindings[i].name->spelling.at, "material", 8) == 0;
        if (material && candidate->count == 1 && library_material(library, names_find(library->names, candidate->pieces[0].text)) == NULL) {
            open += (unsigned)candidate->pieces[0].text.length;
        }
        open += candidate->unit != NULL && candidate->unit->unclear != NULL ? TEXT / 2 : 0;
    }
    return open;
}

static void reached_line(struct walk *walk, const struct wording *wording, size_t end)
{
    (void)end;
    struct matching *matching = walk->matching;
    if (!holds_here(matching, wording) || !forms_fit(walk)) {
        return;
    }
    struct writing writing = write_lines(walk, wording);
    const char *text = reread_text(matching->library->arena, writing.pieces, writing.count);
    for (size_t i = 0; i < walk->found; i++) {
        if (strcmp(walk->readings[i].text, text) == 0) {
            walk->readings[i].offered = walk->readings[i].offered && wording->offers;
            return;
        }
    }
    if (writing.count > 0 && walk->found < WORDING_READINGS) {
        walk->texts[walk->found] = left_open(walk, wording);
        walk->readings[walk->found++] = (struct wording_reading){writing.pieces, writing.count, text, wording->offers};
    }
}

/* Of the readings those that leave the least to a text that nobody looks into; what is offered only where nothing is meant. */
static size_t keep_closest(struct walk *walk)
{
    unsigned least = ~0u;
    for (size_t i = 0; i < walk->found; i++) {
        unsigned rank = walk->texts[i] + (walk->readings[i].offered ? 1u << 20 : 0);
        least = rank < least ? rank : least;
    }
    size_t kept = 0;
    for (size_t i = 0; i < walk->found; i++) {
        if (walk->texts[i] + (walk->readings[i].offered ? 1u << 20 : 0) == least) {
            walk->readings[kept++] = walk->readings[i];
        }
    }
    return kept;
}

static size_t read_line(struct matching matching, bool unknown_materials, struct wording_reading readings[WORDING_READINGS])
{
    matching.unknown_materials = unknown_materials;
    matching.lost = ARENA_ARRAY(matching.library->arena, unsigned char, matching.set->nodes * (matching.count + 1) / 8 + 1);
    struct walk walk = {.matching = &matching, .reached = reached_line, .whole = true, .memory = true, .readings = readings};
    walk_from(&walk, matching.set->roots[WHOLE_LINE], 0);
    return keep_closest(&walk);
}

size_t wordings_read(struct library *library, const struct wording_place *place, struct text line, uint32_t begin,
                     struct wording_reading readings[WORDING_READINGS])
{
    struct matching matching = {.library = library, .set = wordings_compiled(library), .place = place, .line = line, .begin = begin};
    if (line.length > WORDING_LONGEST_LINE || matching.set->roots[WHOLE_LINE] == NULL) {
        return 0;
    }
    matching.count = wording_items(library, line, &matching.items);
    return read_line(matching, !place->known_materials, readings);
}
