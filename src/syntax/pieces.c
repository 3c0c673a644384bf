/* A file that holds nothing but formulas, read a few of them at a time: their trees need not be kept until the last is checked. */
#include "syntax/pieces.h"

#include <strings.h>

enum { LEAST_PIECE = 8 * 1024 /* bytes; so much of the text has a tree that stays in the processor's caches */ };

/* ---- which files are taken so ---- */

static bool is_one_of(struct text word, const char *const *words)
{
    for (; *words != NULL; words++) {
        bool begins = **words == (word.at[0] | 0x20); /* as hardly ever */
        if (begins && strlen(*words) == word.length && strncasecmp(*words, word.at, word.length) == 0) {
            return true;
        }
    }
    return false;
}

/* Whether a line that begins so may open something else than a formula, or name another formula by its title. */
static bool asks_for_more(struct text line)
{
    static const char *const openers[] = {"read",     "variant", "stock", "material",    "unit",  "element", "phrase", "rule",
                                          "reaction", "group",   "shelf", "equilibrium", "batch", "process", NULL};
    static const char *const namers[] = {"solution", "mix", NULL};
    enum { SHORTEST = 3, LONGEST = 11 }; /* of these words */
    size_t length = 0;
    while (length < line.length && ((line.at[length] | 0x20) >= 'a' && (line.at[length] | 0x20) <= 'z')) {
        length++;
    }
    if (length < SHORTEST || length > LONGEST) {
        return false;
    }
    struct text word = {line.at, length};
    return is_one_of(word, openers) || (is_one_of(word, namers) && memchr(line.at, '"', line.length) != NULL);
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

const struct declaration *syntax_next_piece(struct syntax_pieces *pieces, struct arena *arena, bool *plain)
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
        const struct declaration *declaration = builder->file->declarations;
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
