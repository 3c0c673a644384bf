/* Mistakes in the lines of shelves and batches, as habit and labels have them: what is meant, and how it is written. */
#include "syntax/builder.h"
#include "syntax/date_words.h"

#include "notation.tab.h"

bool builder_wants_date(int before)
{
    return before == T_MIXED || before == T_DISCARDED || before == T_ON || before == T_OPENED || before == T_COUNTED ||
           before == T_BEST_BEFORE || before == T_TRIAL;
}

static struct diagnostic *say(struct builder *builder, struct span span, const char *message)
{
    return diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "%s", message);
}

/* A day in the order of another habit: what it may be in this one. */
static bool told_of_date(struct builder *builder, struct span span, const char *at)
{
    struct date_words words = date_words_read(builder->arena, at);
    if (words.length == 0) {
        return false;
    }
    span.end = span.begin + (uint32_t)words.length;
    struct diagnostic *diagnostic = say(builder, span, "a day is written as year, month, day");
    for (int i = 0; i < 2 && words.readings[i] != NULL; i++) {
        diagnostics_fix_writing(builder->diagnostics, diagnostic, span, "%s", words.readings[i]);
    }
    return true;
}

/* "06/2027": what is best before a month may be used until it ends (common practice, no source); no other day can be told. */
static bool told_of_month(struct builder *builder, struct span span, const char *at)
{
    struct date_words words = date_words_read_month(builder->arena, at);
    if (words.length == 0) {
        return false;
    }
    span.end = span.begin + (uint32_t)words.length;
    if (builder->lexer.before != T_BEST_BEFORE) {
        diagnostics_help(builder->diagnostics, say(builder, span, "the day of the month is missing"),
                         "a day is written as year, month, day: 2026-03-04");
        return true;
    }
    struct diagnostic *diagnostic = say(builder, span, "the day of the month is missing: it may be used until the last one");
    diagnostics_fix_writing(builder->diagnostics, diagnostic, span, "%s", words.readings[0]);
    return true;
}

static bool is_date(struct text text)
{
    return text.length == 10 && text.at[4] == '-' && text.at[7] == '-';
}

/* `mixed on 2026-02-16` has a word too many. */
static bool told_of_no_on(struct builder *builder, struct span span, struct text found)
{
    size_t gap = found.length + strspn(found.at + found.length, " \t");
    if (!text_is(found, "on") || strspn(found.at + gap, "0123456789-") != 10 || builder->lexer.before == T_ON) {
        return false;
    }
    struct diagnostic *diagnostic = say(builder, span, "the day stands here by itself");
    struct span word = {span.begin, span.begin + (uint32_t)gap};
    diagnostics_fix(builder->diagnostics, diagnostic, word, "", "leave out \"on\"");
    return true;
}

/* `used 250 mL 2026-02-16` lacks one. */
static bool told_of_on(struct builder *builder, struct span span, struct text found)
{
    if (!is_date(found) || builder->open->kind != DECLARE_BATCH || builder->lexer.before != T_AMOUNT) {
        return false;
    }
    struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "the day stands behind on: on %.*s",
                                                    TEXT_ARGUMENTS(found));
    struct span front = {span.begin, span.begin};
    diagnostics_fix(builder->diagnostics, diagnostic, front, "on ", "write on %.*s", TEXT_ARGUMENTS(found));
    return true;
}

static bool begins_with_money(struct text found)
{
    static const char *const signs[] = {"£", "€", "$", "¥"};
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        size_t length = strlen(signs[i]);
        if (found.length >= length && memcmp(found.at, signs[i], length) == 0) {
            return true;
        }
    }
    return false;
}

static bool told_of_shelf(struct builder *builder, int token, struct span span, struct text found)
{
    if (builder->lexer.before == T_FOR && begins_with_money(found)) {
        diagnostics_help(builder->diagnostics, say(builder, span, "the currency is a code of three letters, and not a sign"),
                         "the shelf has it once, as in: currency GBP; a price is a bare number, or has its own code: for 18.50 EUR");
        return true;
    }
    if (token == T_SIZE && builder->lexer.before == T_WORDS) {
        diagnostics_help(builder->diagnostics, say(builder, span, "each pack has a line of its own"),
                         "write the line twice, each with what is left of that pack");
        return true;
    }
    return false;
}

static bool told_of_batch(struct builder *builder, struct span span, struct text found)
{
    bool of = text_is(found, "of") && builder->lexer.before == T_AMOUNT;
    bool and_more = builder->lexer.before == T_WORDS && found.length > 0 && found.at[0] >= '0' && found.at[0] <= '9';
    if (!of && !and_more) {
        return false;
    }
    diagnostics_help(builder->diagnostics, say(builder, span, "what is in the bottle is said once, by the line made"),
                     "a bottle of one part is a batch of its own: made 500 mL of A; used 50 mL on 2026-02-03");
    return true;
}

bool builder_record_error(struct builder *builder, int token, struct span span, struct text found)
{
    if (builder->open == NULL || (builder->open->kind != DECLARE_SHELF && builder->open->kind != DECLARE_BATCH)) {
        return false;
    }
    if (builder_wants_date(builder->lexer.before)) {
        return told_of_date(builder, span, found.at) || told_of_month(builder, span, found.at) || told_of_no_on(builder, span, found);
    }
    return told_of_on(builder, span, found) || (builder->open->kind == DECLARE_SHELF ? told_of_shelf(builder, token, span, found)
                                                                                    : told_of_batch(builder, span, found));
}
