/* How one token is spelt in a tidy line, and what stands between two. */
#include "syntax/builder.h"
#include "syntax/tidy_lines.h"

#include "notation.tab.h"

/* Length of the character at `at` when it may be part of a gap: a blank, a dot, a leader; else 0. */
static size_t gap_character(struct text text, size_t at)
{
    if (at >= text.length) {
        return 0;
    }
    unsigned char c = (unsigned char)text.at[at];
    if (c == ' ' || c == '\t' || c == '.') {
        return 1;
    }
    if (c == 0xC2 && at + 1 < text.length && (unsigned char)text.at[at + 1] == 0xA0) { /* no-break space */
        return 2;
    }
    bool ellipsis = c == 0xE2 && at + 2 < text.length && (unsigned char)text.at[at + 1] == 0x80 &&
                    (unsigned char)text.at[at + 2] == 0xA6;
    return ellipsis ? 3 : 0;
}

static bool is_leader(struct text text, size_t at)
{
    return at < text.length && (text.at[at] == '.' || gap_character(text, at) == 3);
}

/* Whether a lone dot with blanks on both sides stands in [from, upto). */
static bool spaced_leader(struct text text, size_t from, size_t upto)
{
    for (size_t at = from; at < upto; at += gap_character(text, at)) {
        bool lone =
            text.at[at] == '.' && at > from && !is_leader(text, at - 1) && at + 1 < upto && !is_leader(text, at + 1);
        if (lone) {
            return true;
        }
    }
    return false;
}

/* What is left of the gap [from, upto) of `text`: the point of an abbreviation or of a decimal, and one space when
 * something follows in the token. */
static void put_gap(struct text text, size_t from, size_t upto, bool ends, char *out, size_t *length)
{
    bool single = upto == from + 1 && text.at[from] == '.';
    bool abbreviation = text.at[from] == '.' && !is_leader(text, from + 1) && !spaced_leader(text, from + 1, upto);
    if (single || abbreviation) {
        out[(*length)++] = '.';
    }
    if (ends || single) {
        return;
    }
    out[(*length)++] = ' ';
    bool point = upto - from > 1 && text.at[upto - 1] == '.' && !is_leader(text, upto - 2);
    if (point) {
        out[(*length)++] = '.';
    }
}

/* Gaps inside the token become single spaces, leader dots go. */
static struct text collapse(struct arena *arena, struct text source, struct text rest)
{
    char *out = arena_allocate(arena, source.length + 2);
    size_t length = 0;
    for (size_t at = 0; at < source.length;) {
        size_t size = gap_character(rest, at);
        if (size == 0) {
            out[length++] = source.at[at++];
            continue;
        }
        size_t upto = at + size;
        while ((size = gap_character(rest, upto)) > 0) {
            upto += size;
        }
        put_gap(rest, at, upto, upto >= source.length, out, &length);
        at = upto;
    }
    return (struct text){out, length};
}

/* Length of the character at `at` when it is part of a number: a figure, a sign, a fraction, a blank; else 0. */
static size_t number_character(struct text text, size_t at)
{
    unsigned char c = (unsigned char)text.at[at];
    unsigned char second = at + 1 < text.length ? (unsigned char)text.at[at + 1] : 0;
    unsigned char third = at + 2 < text.length ? (unsigned char)text.at[at + 2] : 0;
    if ((c >= '0' && c <= '9') || strchr(" .,/-", c) != NULL) {
        return c == '\0' ? 0 : 1;
    }
    if (c == 0xC2 && ((second >= 0xBC && second <= 0xBE) || second == 0xB7 || second == 0xA0)) {
        return 2; /* the vulgar fractions of Latin-1, a raised point, a no-break space */
    }
    bool fraction = c == 0xE2 && ((second == 0x85 && third >= 0x90 && third <= 0x9E) || (second == 0x81 && third == 0x84));
    bool minus = c == 0xE2 && second == 0x88 && third == 0x92;
    bool space = c == 0xE2 && second == 0x80 && ((third >= 0x80 && third <= 0x8A) || third == 0xAF); /* of another width */
    return fraction || minus || space ? 3 : 0;
}

/* "25g" becomes "25 g", "20°C" becomes "20 °C"; the print's "125° F" stays, its degree sign belongs to the figure. */
static struct text part_unit(struct arena *arena, struct text amount)
{
    size_t at = 0;
    for (size_t size; at < amount.length && (size = number_character(amount, at)) > 0;) {
        at += size;
    }
    bool degree =
        at + 2 < amount.length && (unsigned char)amount.at[at] == 0xC2 && (unsigned char)amount.at[at + 1] == 0xB0;
    bool degree_apart = degree && amount.at[at + 2] == ' ';
    if (at == 0 || at >= amount.length || amount.at[at - 1] == ' ' || degree_apart) {
        return amount;
    }
    return text_from(arena_format(arena, "%.*s %.*s", (int)at, amount.at, (int)(amount.length - at), amount.at + at));
}

/* Typographic quotes become straight ones, unless the text between them holds one. */
static struct text straighten(struct arena *arena, struct text source)
{
    bool curly = source.length >= 6 && (unsigned char)source.at[0] == 0xE2;
    if (!curly || memchr(source.at, '"', source.length) != NULL) {
        return source;
    }
    char *out = arena_copy(arena, source.at + 2, source.length - 4);
    out[0] = out[source.length - 5] = '"';
    return (struct text){out, source.length - 4};
}

struct text tidy_token_text(struct arena *arena, int kind, struct text source, struct text rest)
{
    if (kind == T_STRING) {
        return straighten(arena, source);
    }
    struct text text = text_trim(collapse(arena, source, rest));
    switch (kind) {
    case T_AMOUNT:
        return part_unit(arena, text);
    case T_MEANING:
    case T_WORDS:
    case T_NUMBER:
    case T_PERCENT:
    case T_SIZE:
    case T_DATE:
    case T_CAS_NUMBER:
    case T_CHEMICAL:
    case T_UNKNOWN:
        return text;
    default: { /* a keyword or a sign */
        char *lower = arena_copy(arena, text.at, text.length);
        for (size_t i = 0; i < text.length; i++) {
            lower[i] = lower[i] >= 'A' && lower[i] <= 'Z' ? (char)(lower[i] + ('a' - 'A')) : lower[i];
        }
        return (struct text){lower, text.length};
    }
    }
}

static bool is_number(const struct tidy_token *token)
{
    return token->kind == T_NUMBER || token->kind == T_AMOUNT;
}

/* The "to" of a range that is written as a dash. */
static bool is_dash(const struct tidy_token *token)
{
    return token->kind == T_TO && token->text.at[0] != 't';
}

bool tidy_joined(int keyword, const struct tidy_token *tokens, size_t after, size_t count)
{
    const struct tidy_token *token = &tokens[after];
    const struct tidy_token *before = &tokens[after - 1];
    bool as_typed = is_dash(token) || is_dash(before) || token->kind == T_COLON || before->kind == T_COLON ||
                    token->kind == T_UNKNOWN || before->kind == T_UNKNOWN;
    if (before->kind == T_OPEN || token->kind == T_CLOSE || token->kind == T_COMMA) {
        return true;
    }
    if (token->kind == T_PLUS || before->kind == T_PLUS) { /* a ratio, 1+29; a mixture by names is written out, A 1 + B 1 */
        if (keyword == T_PHRASE) { /* P305+P351+P338 */
            return true;
        }
        size_t plus = token->kind == T_PLUS ? after : after - 1;
        bool written_out = keyword == T_MIX && tokens[1].kind != T_NUMBER;
        return !written_out && plus > 0 && plus + 1 < count && is_number(&tokens[plus - 1]) &&
               is_number(&tokens[plus + 1]);
    }
    return as_typed && !token->apart;
}
