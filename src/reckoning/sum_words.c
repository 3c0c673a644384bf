/* The words of a sum: the notation's own tokens, with the few words that only sums have cut out of the runs. */
#include "reckoning/sums.h"

#include "base/utf8.h"
#include "syntax/tokens.h"

#include <strings.h>

enum { LONGEST_SUM = 1000 /* bytes */ };

struct sum_word {
    const char *text;
    int kind;
    bool first_only; /* means something only at the start of the sum */
};

static const struct sum_word sum_words[] = {
    {"as", WORD_AS, false},
    {"into", T_IN, false},
    {"each", WORD_EACH, false},
    {"apiece", WORD_EACH, false},
    {"coefficient", WORD_COEFFICIENT, false},
    {"how many", WORD_HOW_MANY, true},
    {"dissolve", WORD_DISSOLVE, true},
    {"ph of", WORD_PH_OF, true},
    {"make", WORD_DO, true},
    {"dilute", WORD_DO, true},
    {"mix", WORD_DO, true},
    {"what is", WORD_DO, true},
    {"convert", WORD_DO, true},
    {"reckon", WORD_DO, true},
};

static bool ends_word(struct text text, size_t at)
{
    return at >= text.length || text.at[at] == ' ' || text.at[at] == '\t';
}

/* The first of the words above in `run`, from *at on; NULL when there is none. */
static const struct sum_word *find_word(struct text run, bool at_start, size_t *at)
{
    for (size_t i = 0; i < run.length; i++) {
        if (i > 0 && !ends_word(run, i - 1)) {
            continue;
        }
        for (size_t w = 0; w < sizeof sum_words / sizeof *sum_words; w++) {
            size_t length = strlen(sum_words[w].text);
            bool here = run.length - i >= length && strncasecmp(run.at + i, sum_words[w].text, length) == 0 &&
                        ends_word(run, i + length);
            if (here && (!sum_words[w].first_only || (at_start && i == 0))) {
                *at = i;
                return &sum_words[w];
            }
        }
    }
    return NULL;
}

/* Lets the lexer go on at `offset` bytes into the run that ends the last token. */
static void go_back(struct reckoner *reckoner, struct sum_token *token, struct text run, size_t offset)
{
    struct lexer *lexer = &reckoner->builder.lexer;
    token->span.end -= (uint32_t)(run.length - offset);
    lexer->cursor = lexer->start + (token->span.end - lexer->base);
    lexer->mode = LEX_REST;
}

static size_t trimmed(struct text run, size_t length)
{
    return text_trim((struct text){run.at, length}).length;
}

/* Cuts a run of words before the first word of sums in it. */
static void cut(struct reckoner *reckoner, struct sum_token *token, bool at_start)
{
    const struct lexer *lexer = &reckoner->builder.lexer;
    bool amount = token->kind == T_AMOUNT;
    struct text written = amount ? token->value.quantity->unit->spelling : token->value.name->spelling;
    /* The same words may have been met before elsewhere: they are looked at where this token stands. */
    struct text run = {lexer->start + (token->span.end - lexer->base) - written.length, written.length};
    size_t at;
    const struct sum_word *word = find_word(run, at_start && !amount, &at);
    if (word == NULL) {
        return;
    }
    if (at == 0 && !amount) {
        token->kind = word->kind;
        go_back(reckoner, token, run, strlen(word->text));
        return;
    }
    size_t length = trimmed(run, at);
    go_back(reckoner, token, run, at);
    if (at == 0) {
        token->kind = T_NUMBER;
        token->value.number = token->value.quantity->value;
        return;
    }
    token->span.end -= (uint32_t)(at - length);
    struct name *name = names_find(reckoner->builder.names, (struct text){run.at, length});
    if (amount) {
        quantity_cut_unit(token->value.quantity, name);
    } else {
        token->value.name = name;
    }
}

static bool check_text(struct reckoner *reckoner, const struct source_file *source)
{
    size_t fault = utf8_first_fault(source->bytes, source->length, 0);
    if (fault < source->length) {
        struct span at = {source->base + (uint32_t)fault, source->base + (uint32_t)fault + 1};
        return sum_refuse(reckoner, DIAG_TEXT_ENCODING, at, "type it again as UTF-8", "byte 0x%02X is not valid UTF-8",
                          (unsigned)(unsigned char)source->bytes[fault]);
    }
    if (source->length > LONGEST_SUM) {
        struct span at = {source->base, source->base + 1};
        return sum_refuse(reckoner, DIAG_SYNTAX, at, "reckon it in steps", "this is too long for one sum");
    }
    return true;
}

bool sum_read_words(struct reckoner *reckoner, struct source_file *source)
{
    if (!check_text(reckoner, source)) {
        return false;
    }
    struct lexer *lexer = &reckoner->builder.lexer;
    lexer->start = lexer->cursor = source->bytes;
    lexer->limit = source->bytes + source->length;
    lexer->base = source->base;
    lexer->mode = LEX_REST;
    /* Each token takes a byte at least, and the end of the line is one more. */
    reckoner->tokens = ARENA_ARRAY(reckoner->arena, struct sum_token, source->length + 2);
    const size_t errors = reckoner->builder.diagnostics->errors;
    size_t count = 0;
    for (;;) {
        struct sum_token *token = &reckoner->tokens[count];
        token->kind = notation_lex(&token->value, &token->span, &reckoner->builder);
        if (token->kind == T_WORDS || token->kind == T_AMOUNT) {
            cut(reckoner, token, count == 0);
        }
        if (token->kind == T_NEWLINE || token->kind == T_END) {
            token->kind = T_NEWLINE;
            break;
        }
        bool done = token->kind == WORD_DO && count == 0;
        count += !done;
    }
    if (reckoner->builder.diagnostics->errors > errors) { /* a decimal comma, an open quote */
        return false;
    }
    struct text rest = {lexer->cursor, (size_t)(lexer->limit - lexer->cursor)};
    for (size_t i = 0; i < rest.length; i++) {
        if (strchr(" \t\r\n", rest.at[i]) == NULL) {
            struct span at = {lexer->base + (uint32_t)(rest.at + i - lexer->start), 0};
            at.end = at.begin + 1;
            return sum_refuse(reckoner, DIAG_SYNTAX, at, "give the next one in a call of its own",
                              "a second line stands behind the sum");
        }
    }
    return true;
}
