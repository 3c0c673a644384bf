/* Names, and the folding of their spellings. */
#include "base/names.h"

#include "base/buffer.h"
#include "base/shown.h"
#include "base/utf8.h"

void names_start(struct names *names, struct arena *arena)
{
    static struct name_slot nothing; /* one free place, so that a search needs no test for a table without any */
    *names = (struct names){.arena = arena, .slots = &nothing};
}

/* The eight, or four, bytes at two places differ. */
static inline bool differ_8(const char *a, const char *b)
{
    uint64_t left;
    uint64_t right;
    memcpy(&left, a, sizeof left);
    memcpy(&right, b, sizeof right);
    return left != right;
}

static inline bool differ_4(const char *a, const char *b)
{
    uint32_t left;
    uint32_t right;
    memcpy(&left, a, sizeof left);
    memcpy(&right, b, sizeof right);
    return left != right;
}

/* memcmp without a call, since names are a few words long at most; the last piece may overlap the one before it. */
static inline bool same_bytes(const char *a, const char *b, size_t length)
{
    if (length >= 8) {
        for (size_t i = 0; i + 8 < length; i += 8) {
            if (differ_8(a + i, b + i)) {
                return false;
            }
        }
        return !differ_8(a + length - 8, b + length - 8);
    }
    if (length >= 4) {
        return !differ_4(a, b) && !differ_4(a + length - 4, b + length - 4);
    }
    return length == 0 || (a[0] == b[0] && a[length / 2] == b[length / 2] && a[length - 1] == b[length - 1]);
}

/* Twice the places, with every name put in anew. */
static void grow(struct names *names)
{
    enum { FEWEST_PLACES = 1024 };
    size_t old = (size_t)names->mask + 1;
    size_t places = 2 * old < FEWEST_PLACES ? FEWEST_PLACES : 2 * old;
    struct name_slot *slots = ARENA_ARRAY(names->arena, struct name_slot, places);
    uint32_t mask = (uint32_t)(places - 1);
    for (size_t i = 0; i < old; i++) {
        if (names->slots[i].name != NULL) {
            uint32_t at = names->slots[i].hash & mask;
            while (slots[at].name != NULL) {
                at = (at + 1) & mask;
            }
            slots[at] = names->slots[i];
        }
    }
    names->slots = slots;
    names->mask = mask;
}

/* Kept apart from the search, which then has nothing to keep for it and is half as long. */
static __attribute__((noinline)) struct name *add_name(struct names *names, struct text spelling, uint32_t hash)
{
    if (names->count * 2 >= names->mask) { /* at most half of the places are taken, so that a search is short */
        grow(names);
    }
    uint32_t at = hash & names->mask;
    while (names->slots[at].name != NULL) {
        at = (at + 1) & names->mask;
    }
    struct name *name = ARENA_NEW(names->arena, struct name);
    name->spelling = spelling;
    names->slots[at] = (struct name_slot){hash, name};
    names->count++;
    return name;
}

void names_forget_meanings(struct names *names)
{
    for (uint32_t i = 0; i <= names->mask; i++) {
        if (names->slots[i].name != NULL) {
            names->slots[i].name->looked_up = 0;
        }
    }
}

struct name *names_find(struct names *names, struct text spelling)
{
    uint32_t hash = table_hash(spelling.at, spelling.length);
    for (uint32_t at = hash & names->mask; names->slots[at].name != NULL; at = (at + 1) & names->mask) {
        struct name *name = names->slots[at].name;
        if (names->slots[at].hash == hash && name->spelling.length == spelling.length &&
            same_bytes(name->spelling.at, spelling.at, spelling.length)) {
            return name;
        }
    }
    return add_name(names, spelling, hash);
}

/* Spellings of one word on both sides of the ocean and in old books, and abbreviations; `from` is folded to `to` anywhere in
 * a word, at its start, or as a whole word.  Common practice, no source. */
enum spelling_place { ANYWHERE, WORD_START, WHOLE_WORD };

struct spelling_pair {
    const char *from;
    const char *to;
    enum spelling_place place;
};

#define LETTER(c) (UINT32_C(1) << ((c) - 'a'))

/* By first letter, with the letters that may stand behind it: most places of a word are done with after a look at those. */
static const struct {
    uint32_t seconds;
    struct spelling_pair pairs[5];
} spelling_pairs[26] = {
    ['a' - 'a'] = {LETTER('l') | LETTER('m'), {{"aluminium", "aluminum", WORD_START}, {"ammon", "ammonium", WHOLE_WORD}}},
    ['b' - 'a'] = {LETTER('i'), {{"bicarb", "bicarbonate", WHOLE_WORD}}},
    ['c' - 'a'] = {LETTER('a') | LETTER('r') | LETTER('o'),
                   {{"caesium", "cesium", WORD_START},
                    {"crystallis", "crystalliz", ANYWHERE},
                    {"colour", "color", ANYWHERE},
                    {"carb", "carbonate", WHOLE_WORD}}},
    ['d' - 'a'] = {LETTER('e'), {{"deionis", "deioniz", ANYWHERE}}},
    ['f' - 'a'] = {LETTER('e'), {{"ferrid", "ferri", WORD_START}}},
    ['g' - 'a'] = {LETTER('r'), {{"gramme", "gram", ANYWHERE}}},
    ['h' - 'a'] = {LETTER('y'), {{"hydrochlor", "hydrochloric", WHOLE_WORD}}},
    ['l' - 'a'] = {LETTER('i'), {{"litre", "liter", ANYWHERE}}},
    ['m' - 'a'] = {LETTER('e'), {{"metre", "meter", ANYWHERE}}},
    ['o' - 'a'] = {LETTER('x'), {{"oxidis", "oxidiz", ANYWHERE}}},
    ['p' - 'a'] = {LETTER('o'), {{"potass", "potassium", WHOLE_WORD}, {"pot", "potassium", WHOLE_WORD}}},
    ['s' - 'a'] = {LETTER('u') | LETTER('e') | LETTER('t') | LETTER('o'),
                   {{"sulph", "sulf", ANYWHERE},
                    {"sensitis", "sensitiz", ANYWHERE},
                    {"stabilis", "stabiliz", ANYWHERE},
                    {"sod", "sodium", WHOLE_WORD}}},
};

static bool is_small_letter(char c)
{
    return c >= 'a' && c <= 'z';
}

static bool pair_stands(const struct spelling_pair *pair, size_t length, struct text word, size_t at)
{
    if (at + length > word.length || memcmp(word.at + at, pair->from, length) != 0) {
        return false;
    }
    bool starts = at == 0 || word.at[at - 1] == ' ';
    bool ends = at + length == word.length || word.at[at + length] == ' ';
    return pair->place == ANYWHERE || (starts && (pair->place == WORD_START || ends));
}

static struct text fold_spellings(struct arena *arena, struct text word)
{
    struct buffer out;
    buffer_start(&out, arena);
    size_t copied = 0; /* bytes of the word that are in `out` */
    for (size_t at = 0; at + 1 < word.length; at++) {
        char c = word.at[at];
        char next = word.at[at + 1];
        if (!is_small_letter(c) || !is_small_letter(next) || (spelling_pairs[c - 'a'].seconds & LETTER(next)) == 0) {
            continue;
        }
        for (const struct spelling_pair *pair = spelling_pairs[c - 'a'].pairs; pair->from != NULL; pair++) {
            size_t length = strlen(pair->from);
            if (pair_stands(pair, length, word, at)) {
                buffer_add(&out, word.at + copied, at - copied);
                buffer_string(&out, pair->to);
                copied = at + length;
                at = copied - 1;
                break;
            }
        }
    }
    if (copied == 0) {
        return word;
    }
    buffer_add(&out, word.at + copied, word.length - copied);
    return (struct text){out.bytes, out.length};
}

size_t names_wide_blank_length(struct text text, size_t at)
{
    unsigned char c = (unsigned char)text.at[at];
    unsigned char second = at + 1 < text.length ? (unsigned char)text.at[at + 1] : 0;
    unsigned char third = at + 2 < text.length ? (unsigned char)text.at[at + 2] : 0;
    if (c == ' ' || c == '\t' || c == '-' || c == '_') {
        return 1;
    }
    if (c == '.') {
        bool leader = second == '.' || (at > 0 && text.at[at - 1] == '.');
        return leader ? 1 : 0;
    }
    if (c == 0xC2 && second == 0xA0) { /* no-break space */
        return 2;
    }
    bool spaces = (c == 0xE2 && second == 0x80 && ((third >= 0x80 && third <= 0x8A) || third == 0xAF)) ||
                  (c == 0xE2 && second == 0x81 && third == 0x9F) || (c == 0xE3 && second == 0x80 && third == 0x80);
    bool dashes = c == 0xE2 && second == 0x80 && ((third >= 0x90 && third <= 0x93) || third == 0xA6); /* and the ellipsis */
    return spaces || dashes ? 3 : 0;
}

static bool is_letter_or_digit(unsigned char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c >= 0x80;
}

/* Small letters, figures and single spaces between them: what folding by character leaves as it is.  Most names of the
 * library are so, and need no copy.  `*pairs`: two letters stand in it that a spelling may begin with. */
static bool is_plain(struct text spelling, bool *pairs)
{
    uint32_t seconds = 0; /* the letters behind which the one in hand would be such a pair */
    bool blank = true;    /* also before the first character */
    *pairs = false;
    for (size_t i = 0; i < spelling.length; i++) {
        char c = spelling.at[i];
        if (is_small_letter(c)) {
            *pairs = *pairs || (seconds & LETTER(c)) != 0;
            seconds = spelling_pairs[c - 'a'].seconds;
            blank = false;
            continue;
        }
        if ((c == ' ' && blank) || (c != ' ' && !(c >= '0' && c <= '9'))) {
            return false;
        }
        blank = c == ' ';
        seconds = 0;
    }
    return !blank;
}

struct text names_fold(struct arena *arena, struct text spelling)
{
    bool pairs;
    if (is_plain(spelling, &pairs)) {
        return pairs ? fold_spellings(arena, spelling) : spelling;
    }
    struct text lower = utf8_fold_case(arena, spelling);
    char *out = arena_allocate(arena, lower.length + 1);
    size_t length = 0;
    for (size_t i = 0; i < lower.length;) {
        if (is_small_letter(lower.at[i])) { /* as nearly always */
            out[length++] = lower.at[i++];
            continue;
        }
        size_t blank = names_wide_blank_length(lower, i);
        if (blank > 0) {
            if (length > 0 && out[length - 1] != ' ') {
                out[length++] = ' ';
            }
            i += blank;
            continue;
        }
        size_t unseen = (unsigned char)lower.at[i] < 0x80 ? 0 : shown_unseen_length(lower, i);
        if (unseen > 0) { /* a name that looks the same is the same */
            i += unseen;
            continue;
        }
        if (i + 2 < lower.length && memcmp(lower.at + i, "’", 3) == 0) { /* the apostrophe of print */
            out[length++] = '\'';
            i += 3;
            continue;
        }
        /* The point of an abbreviation goes ("cryst."), the one inside a word or before a figure stays ("c.c", ".880"). */
        bool abbreviation =
            lower.at[i] == '.' && !(i + 1 < lower.length && is_letter_or_digit((unsigned char)lower.at[i + 1]));
        if (!abbreviation) {
            out[length++] = lower.at[i];
        }
        i++;
    }
    while (length > 0 && out[length - 1] == ' ') {
        length--;
    }
    return fold_spellings(arena, (struct text){out, length});
}

struct name *names_make_single(struct names *names, struct name *name)
{
    struct text spelling = name->spelling;
    char *out = NULL;
    size_t length = 0;
    for (size_t i = 0; i < spelling.length;) {
        char c = spelling.at[i];
        size_t blank = c == '-' || c == '_' ? 0 : names_blank_length(spelling, i);
        size_t run = blank;
        for (size_t more = blank; more > 0 && i + run < spelling.length;) {
            char next = spelling.at[i + run];
            more = next == '-' || next == '_' ? 0 : names_blank_length(spelling, i + run);
            run += more;
        }
        if (run > 1 && out == NULL) { /* only now is a copy needed */
            out = arena_copy(names->arena, spelling.at, spelling.length);
            length = i;
        }
        if (out != NULL) {
            out[length++] = run > 0 ? ' ' : c;
        }
        i += run > 0 ? run : 1;
    }
    name->single = out == NULL ? name : names_find(names, (struct text){out, length});
    name->single->single = name->single;
    return name->single;
}

struct name *names_folded(struct names *names, struct name *name)
{
    if (name->folded == NULL) {
        name->folded = names_find(names, names_fold(names->arena, name->spelling));
        name->folded->folded = name->folded;
    }
    return name->folded;
}
