/* What may be typed at a place.  The grammar says which kinds of word can stand there; what there is of each kind is gathered here. */
#include "syntax/expected.h"
#include "workspace/offers.h"
#include "workspace/text_tokens.h"

#include <strings.h>

#include "notation.tab.h"

/* The tokens of the line so far. */
struct line_tokens {
    struct text_token *items;
    size_t count;
    size_t room;
    struct arena *arena;
};

static bool keep_token(void *context, const struct text_token *token)
{
    struct line_tokens *tokens = context;
    if (token->kind != T_NEWLINE) {
        *SNAPSHOT_ADD(tokens->arena, struct text_token, tokens->items, tokens->count, tokens->room) = *token;
    }
    return true;
}

static bool is_thing(const char *name)
{
    return strncmp(name, "a ", 2) == 0 || strncmp(name, "an ", 3) == 0 || strncmp(name, "the ", 4) == 0;
}

static bool lets(const struct syntax_expected *expected, const char *thing)
{
    for (int i = 0; i < expected->count; i++) {
        if (strncmp(expected->names[i], thing, strlen(thing)) == 0) {
            return true;
        }
    }
    return false;
}

static void offer_keywords(struct offers *offers, const struct syntax_expected *expected)
{
    for (int i = 0; i < expected->count; i++) {
        unsigned char first = (unsigned char)expected->names[i][0];
        if (!is_thing(expected->names[i]) && (first | 0x20) >= 'a' && (first | 0x20) <= 'z') {
            offer_keyword(offers, expected->names[i]);
        }
    }
}

/* Which units an amount behind that token is counted in. */
static unsigned dimensions_behind(int token)
{
    switch (token) {
    case T_AT:
    case T_TEMPERATURE:
    case T_COOL_TO:
    case T_WARM_TO:
        return DIMENSION_BIT(DIMENSION_TEMPERATURE);
    case T_TIME:
    case T_STAND:
    case T_KEEPS:
    case T_DRAIN:
    case T_WASH:
        return DIMENSION_BIT(DIMENSION_TIME);
    case T_TO_MAKE:
    case T_NEEDS:
    case T_REPLENISH:
    case T_TANK:
    case T_GRADUATE:
        return DIMENSION_BIT(DIMENSION_VOLUME);
    case T_CAPACITY:
    case T_REPLACE_AFTER:
        return DIMENSION_BIT(DIMENSION_COUNT);
    default:
        return DIMENSION_BIT(DIMENSION_MASS) | DIMENSION_BIT(DIMENSION_VOLUME);
    }
}

/* The words that can stand behind one token and no other: those of the library, or a few of the notation's own. */
static void offer_words(struct offers *offers, int before, const struct syntax_expected *expected)
{
    switch (before) {
    case T_KIND:
        offer_kinds(offers);
        break;
    case T_MEASURES:
        offer_list(offers, "metric, US, imperial");
        break;
    case T_SILENCE:
        offer_ids(offers);
        break;
    case T_FOR:
    case T_USE_FOR:
        offer_list(offers, "film, paper, plates");
        break;
    case T_OPEN:
        offer_forms(offers);
        break;
    case T_DILUTE:
    case T_FORMULA:
    case T_PART:
    case T_CURRENCY:
        break;
    case T_PER:
        offer_list(offers, "roll, sheet 8x10 in, L");
        break;
    default:
        if (offers->at.declaration != NULL || lets(expected, "an amount")) {
            offer_materials(offers);
        }
        break;
    }
}

static void offer_texts(struct offers *offers, int before)
{
    if (before == T_READ) {
        offer_files(offers);
    } else if (before == T_LOT) {
        offer_mentions(offers, MENTION_LOT, POTASH_COMPLETE_LOT);
    } else if (before == T_OF || before == T_SOLUTION || before == T_BATH || before == T_MIX || before == T_PLUS) {
        offer_mentions(offers, MENTION_TITLE, POTASH_COMPLETE_TITLE);
        if (before == T_OF && offers->at.declaration != NULL && offers->at.declaration->kind == DECLARE_BATCH) {
            offer_mentions(offers, MENTION_BATCH, POTASH_COMPLETE_TITLE);
        }
    }
}

/* Where an unfinished word begins, and what stands before it. */
static size_t begin_of_word(struct offers *offers, const struct line_tokens *tokens, uint32_t base, size_t offset, struct text *in_quotes)
{
    const struct text_token *last = tokens->count == 0 ? NULL : &tokens->items[tokens->count - 1];
    const char *bytes = offers->text->file->text.at;
    if (last == NULL) {
        return offset;
    }
    size_t begin = last->span.begin - base;
    size_t end = last->span.end - base;
    bool touches = end >= offset;
    if (last->kind == T_STRING && touches && (offset - begin < 2 || bytes[offset - 1] != '"')) {
        *in_quotes = (struct text){bytes + begin + 1, offset - begin - 1};
        return begin + 1;
    }
    if (last->kind == T_WORDS && (touches || !is_known_name(offers, (struct text){bytes + begin, end - begin}))) {
        return begin;
    }
    unsigned char first = (unsigned char)bytes[begin];
    bool word = (first | 0x20) >= 'a' && (first | 0x20) <= 'z';
    return touches && word ? begin : offset;
}

/* The words that have been typed behind a number become a unit: "30 gr". */
static bool offer_unit_of(struct offers *offers, const struct line_tokens *tokens, uint32_t base, size_t offset, size_t *begin)
{
    const struct text_token *last = tokens->count == 0 ? NULL : &tokens->items[tokens->count - 1];
    if (last == NULL || (last->kind != T_AMOUNT && last->kind != T_NUMBER)) {
        return false;
    }
    const char *bytes = offers->text->file->text.at;
    *begin = offset;
    if (last->kind == T_AMOUNT && last->span.end - base >= offset) {
        *begin = last->quantity->number_end - base;
        *begin += strspn(bytes + *begin, " \t");
    }
    int before = T_WORDS;
    for (size_t i = 0; i + 1 < tokens->count; i++) { /* the keyword nearest before the number */
        int kind = tokens->items[i].kind;
        before = kind == T_WORDS || kind == T_AMOUNT || kind == T_NUMBER || kind == T_OPEN || kind == T_CLOSE ? before : kind;
    }
    if (last->kind == T_NUMBER || *begin < offset) {
        offer_units(offers, dimensions_behind(before));
    }
    return *begin < offset;
}

/* A comment, or a closed text: nothing is typed there that the notation knows. */
static bool is_free_text(const struct line_tokens *tokens, uint32_t base, size_t offset)
{
    const struct text_token *last = tokens->count == 0 ? NULL : &tokens->items[tokens->count - 1];
    return last != NULL && last->kind == TEXT_COMMENT && last->span.begin - base < offset;
}

static void gather(struct offers *offers, size_t offset, size_t *begin)
{
    struct arena *arena = offers->arena;
    const struct text_file *file = offers->text->file;
    struct potash_place place = text_place(file, offset);
    size_t line_begin = offset - place.column;
    /* The text up to the place, as if it ended there. */
    struct source_set *sources = ARENA_NEW(arena, struct source_set);
    source_start(sources, arena);
    struct source_file *source = source_add(sources, "", arena_copy(arena, file->text.at, offset), offset, false);
    struct line_tokens tokens = {.arena = arena};
    text_tokens(arena, source, (uint32_t)line_begin, keep_token, &tokens);
    *begin = offset;
    if (is_free_text(&tokens, source->base, offset)) {
        return;
    }
    struct text in_quotes = {0};
    if (offer_unit_of(offers, &tokens, source->base, offset, begin)) {
        return;
    }
    *begin = begin_of_word(offers, &tokens, source->base, offset, &in_quotes);
    const struct syntax_file *tree = text_tree(offers->text->file);
    const struct declaration *declaration = tree_declaration_at(tree, line_begin == 0 ? 0 : line_begin - 1);
    size_t from = declaration == NULL ? line_begin : declaration->span.begin - tree->source->base;
    from = from > *begin ? line_begin : from;
    size_t upto = in_quotes.at != NULL ? *begin - 1 : *begin;
    struct syntax_expected expected = syntax_expect(arena, (struct text){file->text.at + from, upto - from});
    int before = upto == line_begin + strspn(file->text.at + line_begin, " \t") ? T_NEWLINE : expected.before;
    offers->material = material_before(offers, source, tokens.items, tokens.count, *begin);
    if (lets(&expected, "a text in double quotes")) {
        offers->quoted = in_quotes.at == NULL;
        offer_texts(offers, before);
    }
    if (in_quotes.at != NULL) {
        return;
    }
    offer_keywords(offers, &expected);
    if (lets(&expected, "a name")) {
        offer_words(offers, before, &expected);
    }
    if (lets(&expected, "an amount")) {
        offer_amounts(offers);
    }
}

enum potash_status potash_snapshot_complete(struct potash_snapshot *snapshot, const char *path, size_t offset,
                                            struct potash_completions *completions)
{
    *completions = (struct potash_completions){.items = NULL};
    if (WORKSPACE_GUARD(snapshot->workspace)) {
        return workspace_out_of_memory(snapshot->workspace);
    }
    snapshot_read_folders(snapshot);
    struct workspace_text *text = snapshot_begin(snapshot, path);
    if (text == NULL) {
        return POTASH_UNUSABLE;
    }
    struct offers offers = {.snapshot = snapshot, .arena = &snapshot->arena, .text = text, .checked = snapshot_check(snapshot, text)};
    size_t at = offset < text->file->text.length ? offset : text->file->text.length;
    offers.at = line_find(offers.checked, at);
    size_t begin;
    gather(&offers, at, &begin);
    *completions = (struct potash_completions){text_range(text->file, begin, at), offers.items, offers.count};
    return POTASH_GOOD;
}
