/* A file that holds nothing but formulas, read a few of them at a time: their trees need not be kept until the last is checked. */
#include "syntax/pieces.h"

#include <strings.h>

enum { LEAST_PIECE = 8 * 1024 /* bytes; so much of the text has a tree that stays in the processor's caches */ };

/* ---- which files are taken so ---- */

/* What begins a line that opens something else than a formula, or that may name another formula by its title; by first letter. */
static const char *const asking[26][4] = {
    ['b' - 'a'] = {"batch"},           ['e' - 'a'] = {"element", "equilibrium"},   ['g' - 'a'] = {"group"},
    ['m' - 'a'] = {"material", "mix"}, ['p' - 'a'] = {"phrase", "process"},        ['r' - 'a'] = {"read", "rule", "reaction"},
    ['u' - 'a'] = {"unit"},            ['s' - 'a'] = {"stock", "shelf", "solution"}, ['v' - 'a'] = {"variant"},
    ['w' - 'a'] = {"wording"},
};

static bool asks_for_more(struct text line)
{
    if (line.length > 0 && line.at[0] == '<') { /* a merge conflict, which may hold headings */
        return true;
    }
    unsigned char first = line.length < 2 ? 0 : (unsigned char)(line.at[0] | 0x20);
    if (first < 'a' || first > 'z') {
        return false;
    }
    for (const char *const *word = asking[first - 'a']; *word != NULL; word++) {
        bool begins = (*word)[1] == (line.at[1] | 0x20); /* as hardly ever */
        size_t length = begins ? strlen(*word) : 0;
        if (begins && length <= line.length && strncasecmp(*word, line.at, length) == 0) {
            bool names = text_is((struct text){*word, length}, "solution") || text_is((struct text){*word, length}, "mix");
            return !names || memchr(line.at, '"', line.length) != NULL;
        }
    }
    return false;
}

bool syntax_looks_plain(const struct source_file *source)
{
    const char *end = source->bytes + source->length;
    for (const char *at = source->bytes; at < end;) {
        const char *newline = memchr(at, '\n', (size_t)(end - at));
        const char *upto = newline == NULL ? end : newline;
        if (asks_for_more(text_trim((struct text){at, (size_t)(upto - at)}))) {
            return false;
        }
        at = upto + 1;
    }
    return true;
}

/* ---- one piece after the other ---- */

void syntax_begin_pieces(struct syntax_pieces *pieces, struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                         struct source_file *source)
{
    *pieces = (struct syntax_pieces){0};
    pieces->next = syntax_begin(&pieces->builder, arena, names, diagnostics, source);
}

/* Where the first formula at or behind `from` begins; the end of the text when there is none. */
static uint32_t next_formula(const struct source_file *source, uint32_t from)
{
    static const char heading[] = "\nformula ";
    while (from < source->length) {
        const char *newline = memchr(source->bytes + from, '\n', source->length - from);
        if (newline == NULL) {
            break;
        }
        from = (uint32_t)(newline + 1 - source->bytes);
        if (source->length - from >= sizeof heading && memcmp(newline, heading, sizeof heading - 1) == 0) {
            return from;
        }
    }
    return source->length;
}

struct declaration *syntax_next_piece(struct syntax_pieces *pieces, struct arena *arena, bool *plain)
{
    struct builder *builder = &pieces->builder;
    const struct source_file *source = builder->file->source;
    *plain = true;
    while (pieces->next < source->length) {
        uint32_t begin = pieces->next;
        bool first = !pieces->begun;
        pieces->begun = true;
        pieces->next = source->length - begin <= LEAST_PIECE ? source->length : next_formula(source, begin + LEAST_PIECE);
        builder->arena = arena;
        builder->spare_count = builder->spare_next = 0;
        builder->open = builder->file->declarations = builder->file->last = NULL;
        syntax_parse_to(builder, begin, pieces->next);
        struct declaration *declaration = builder->file->declarations;
        bool begins_here = first || (declaration != NULL && declaration->span.begin == source->base + begin);
        *plain = begins_here && (builder->file->kinds & ~(1u << DECLARE_FORMULA)) == 0 && !builder->file->draws_on_formulas;
        if (!*plain) {
            return NULL;
        }
        if (declaration != NULL) { /* the last one ends where the piece does */
            pieces->end = (struct declaration){.kind = DECLARE_READ, .span = {source->base + pieces->next, source->base + pieces->next}};
            builder->file->last->next = pieces->next < source->length ? &pieces->end : NULL;
            return declaration;
        }
    }
    return NULL;
}
