/* Where diagnostics stand: an index by stretches of text while they come, line order at the end. */
#include "source/diagnostics.h"

enum {
    STRETCH_BITS = 8,      /* a stretch is 256 bytes: a few lines */
    FIRST_STRETCHES = 64,
    SHARED_BY = 4,         /* diagnostics to one place of the table */
    DIGIT_BITS = 8,        /* of a sort by digits */
    DIGITS = 1 << DIGIT_BITS
};

static uint32_t *place_in_table(const struct diagnostics *diagnostics, uint32_t stretch)
{
    return &diagnostics->stretches[(stretch * 2654435761u >> 7) & (diagnostics->stretch_count - 1)]; /* Knuth's multiplicative hash */
}

static void chain(struct diagnostics *diagnostics, size_t index)
{
    struct diagnostic *diagnostic = diagnostics->items[index];
    uint32_t *newest = place_in_table(diagnostics, diagnostic->span.begin >> STRETCH_BITS);
    diagnostic->near = *newest;
    *newest = (uint32_t)index + 1;
}

void diagnostics_know_place(struct diagnostics *diagnostics)
{
    if (diagnostics->count > diagnostics->stretch_count * SHARED_BY || diagnostics->stretch_count == 0) {
        diagnostics->stretch_count = diagnostics->stretch_count == 0 ? FIRST_STRETCHES : diagnostics->stretch_count * 2;
        diagnostics->stretches = ARENA_ARRAY(diagnostics->arena, uint32_t, diagnostics->stretch_count);
        for (size_t i = 0; i + 1 < diagnostics->count; i++) {
            chain(diagnostics, i);
        }
    }
    chain(diagnostics, diagnostics->count - 1);
}

void diagnostics_go_back(struct diagnostics *diagnostics, size_t count)
{
    while (diagnostics->count > count) {
        diagnostics_count_out(diagnostics, diagnostics->items[--diagnostics->count]);
    }
    for (size_t i = 0; i < diagnostics->stretch_count; i++) {
        diagnostics->stretches[i] = 0;
    }
    for (size_t i = 0; i < count; i++) {
        chain(diagnostics, i);
    }
}

static bool begins_in(const struct diagnostic *diagnostic, struct span span)
{
    return diagnostic->span.begin >= span.begin && diagnostic->span.begin < span.end;
}

bool diagnostics_any(const struct diagnostics *diagnostics, enum diagnostic_id id, struct span span, size_t since)
{
    if (diagnostics->count <= since || span.end <= span.begin) {
        return false;
    }
    uint32_t last = (span.end - 1) >> STRETCH_BITS;
    for (uint32_t stretch = span.begin >> STRETCH_BITS; stretch <= last; stretch++) {
        const struct diagnostic *item;
        for (uint32_t at = *place_in_table(diagnostics, stretch); at > since; at = item->near) { /* the newest come first */
            item = diagnostics->items[at - 1];
            if (item->id == id && !item->withdrawn && begins_in(item, span)) {
                return true;
            }
        }
    }
    return false;
}

void diagnostics_withdraw(struct diagnostics *diagnostics, struct span line)
{
    uint32_t last = (line.end - 1) >> STRETCH_BITS;
    for (uint32_t stretch = line.begin >> STRETCH_BITS; stretch <= last && diagnostics->stretch_count > 0; stretch++) {
        struct diagnostic *item;
        for (uint32_t at = *place_in_table(diagnostics, stretch); at > 0; at = item->near) {
            item = diagnostics->items[at - 1];
            bool of_form = item->id == DIAG_SYNTAX || item->id == DIAG_DECIMAL_COMMA || item->id == DIAG_RATIO_WITH_COLON;
            if (of_form && !item->withdrawn && begins_in(item, line)) {
                item->withdrawn = true;
                diagnostics_count_out(diagnostics, item);
                struct source_file *file = source_file_at(diagnostics->sources, line.begin);
                file->faults -= item->id == DIAG_SYNTAX && file->faults > 0;
            }
        }
    }
}

size_t diagnostics_from(const struct diagnostics *diagnostics, uint32_t begin)
{
    size_t low = 0;
    size_t high = diagnostics->count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (diagnostics->items[middle]->span.begin < begin) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

/* ---- the end of a run ---- */

void diagnostics_count_strictly(struct diagnostics *diagnostics)
{
    for (size_t i = 0; i < diagnostics->count; i++) {
        diagnostics->items[i]->severity = SEVERITY_ERROR;
    }
    diagnostics->errors += diagnostics->warnings;
    diagnostics->warnings = 0;
}

void diagnostics_count_out(struct diagnostics *diagnostics, const struct diagnostic *item)
{
    if (item->severity == SEVERITY_ERROR) {
        diagnostics->errors--;
    } else {
        diagnostics->warnings--;
    }
}

void diagnostics_leave_out_unknown_names(struct diagnostics *diagnostics)
{
    size_t kept = 0;
    for (size_t i = 0; i < diagnostics->count; i++) {
        struct diagnostic *item = diagnostics->items[i];
        switch (item->id) {
        case DIAG_MATERIAL_UNKNOWN:
        case DIAG_FORM_UNKNOWN:
        case DIAG_UNIT_UNKNOWN:
        case DIAG_FORMULA_UNKNOWN:
            diagnostics_count_out(diagnostics, item);
            break;
        default:
            diagnostics->items[kept++] = item;
            break;
        }
    }
    diagnostics->count = kept;
}

/* Where the line of a place begins, and where the next one does. */
static struct span line_around(const struct diagnostics *diagnostics, uint32_t offset)
{
    struct place place = source_place(diagnostics->sources, offset);
    struct text line = source_line(diagnostics->sources, place);
    uint32_t begin = place.file->base + (place.line == 1 ? 0 : place.line_begin);
    uint32_t end = place.file->base + place.line_begin + place.line_length;
    return (struct span){begin, end + (line.at[line.length] == '\r' ? 2 : 1)};
}

/* A byte that is no text breaks its word, and with it whatever would be said of that word. */
static void keep_encoding_faults_alone(struct diagnostics *diagnostics)
{
    size_t kept = 0;
    struct span line = {0, 0};
    for (size_t i = 0; i < diagnostics->count; i++) {
        struct diagnostic *item = diagnostics->items[i];
        bool fault = item->id == DIAG_TEXT_ENCODING;
        bool on_line = item->span.begin < line.end;
        if (!fault && on_line) {
            diagnostics_count_out(diagnostics, item);
            continue;
        }
        if (fault && !on_line) {
            line = line_around(diagnostics, item->span.begin);
            while (kept > 0 && diagnostics->items[kept - 1]->span.begin >= line.begin) {
                diagnostics_count_out(diagnostics, diagnostics->items[--kept]);
            }
        }
        diagnostics->items[kept++] = item;
    }
    diagnostics->count = kept;
}

static bool are_in_order(const struct diagnostics *diagnostics)
{
    for (size_t i = 1; i < diagnostics->count; i++) {
        if (diagnostics->items[i]->span.begin < diagnostics->items[i - 1]->span.begin) {
            return false;
        }
    }
    return true;
}

/* By their places, digit by digit, the least first (radix sort: D. Knuth, The Art of Computer Programming 3, 5.2.5): linear, and those of
 * one place stay as they came. */
static void put_in_order(struct diagnostics *diagnostics)
{
    struct arena_mark mark = arena_mark(diagnostics->arena);
    struct diagnostic **from = diagnostics->items;
    struct diagnostic **to = ARENA_ARRAY(diagnostics->arena, struct diagnostic *, diagnostics->count);
    for (unsigned shift = 0; shift < 32; shift += DIGIT_BITS) {
        size_t places[DIGITS + 1] = {0};
        for (size_t i = 0; i < diagnostics->count; i++) {
            places[(from[i]->span.begin >> shift & (DIGITS - 1)) + 1]++;
        }
        for (size_t digit = 1; digit < DIGITS; digit++) {
            places[digit] += places[digit - 1];
        }
        for (size_t i = 0; i < diagnostics->count; i++) {
            to[places[from[i]->span.begin >> shift & (DIGITS - 1)]++] = from[i];
        }
        struct diagnostic **other = from;
        from = to;
        to = other;
    }
    arena_go_back(diagnostics->arena, mark); /* after an even number of passes they stand where they stood */
}

/* Between the lines of an unfinished merge nothing holds but that there is one. */
static void keep_conflicts_alone(struct diagnostics *diagnostics)
{
    size_t kept = 0;
    uint32_t end = 0;
    for (size_t i = 0; i < diagnostics->count; i++) {
        struct diagnostic *item = diagnostics->items[i];
        bool conflict = item->id == DIAG_MERGE_CONFLICT;
        if (!conflict && item->span.begin < end) {
            diagnostics_count_out(diagnostics, item);
            continue;
        }
        end = conflict && item->related != NULL ? item->related->span.end : end;
        diagnostics->items[kept++] = item;
    }
    diagnostics->count = kept;
}

static void leave_out_withdrawn(struct diagnostics *diagnostics)
{
    size_t kept = 0;
    for (size_t i = 0; i < diagnostics->count; i++) {
        diagnostics->items[kept] = diagnostics->items[i];
        kept += !diagnostics->items[i]->withdrawn;
    }
    diagnostics->count = kept;
}

void diagnostics_finish(struct diagnostics *diagnostics)
{
    leave_out_withdrawn(diagnostics);
    if (!are_in_order(diagnostics)) {
        put_in_order(diagnostics);
    }
    keep_conflicts_alone(diagnostics);
    keep_encoding_faults_alone(diagnostics);
    for (size_t i = 0; i < diagnostics->stretch_count; i++) { /* they have moved */
        diagnostics->stretches[i] = 0;
    }
    for (size_t i = 0; i < diagnostics->count; i++) {
        chain(diagnostics, i);
    }
}
