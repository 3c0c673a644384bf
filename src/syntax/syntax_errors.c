/* Words for a line that cannot be read: what was expected there, in the terms of the trade. */
#include "syntax/builder.h"

#include "base/buffer.h"
#include "syntax/expected.h"
#include "syntax/reread.h"

#include <strings.h>

#include "notation.tab.h"

/* What a heading's line should hold, when the heading itself is broken. */
static bool headless(struct builder *builder, int token, struct span span)
{
    (void)token;
    if (builder->open != NULL || builder_in_heading(builder, span)) {
        return false;
    }
    /* One missing heading is one mistake, however many lines follow it. */
    if (!builder->told_of_missing_heading) {
        struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span,
                                                        "these lines belong to no formula: its heading is missing");
        diagnostics_help(builder->diagnostics, diagnostic, "start with a line such as: formula \"Print developer\"");
        struct span front = {span.begin, span.begin};
        diagnostics_fix(builder->diagnostics, diagnostic, front, "formula \"Untitled\"\n", "put a heading above this line");
        builder->told_of_missing_heading = true;
    }
    return true;
}

static bool is_thing(const char *description)
{
    return strncmp(description, "a ", 2) == 0 || strncmp(description, "an ", 3) == 0 ||
           strncmp(description, "the ", 4) == 0;
}

/* The larger things (an amount, a name) that could stand there, or the only word; false when there are but words and
 * signs, of which none says what is the matter. */
static bool list_expected(struct builder *builder, struct buffer *out, const char *const *expected, int count,
                          bool at_line_end)
{
    enum { MOST_SHOWN = 4 };
    const char *shown[MOST_SHOWN];
    int shown_count = 0;
    /* Where the line ends behind an amount, it is not more of it that is missing. */
    bool whole = at_line_end && builder->lexer.before == T_AMOUNT;
    bool amount = whole;
    for (int i = 0; i < count; i++) {
        amount = amount || strncmp(expected[i], "an amount", 9) == 0;
    }
    for (int i = 0; i < count && shown_count < MOST_SHOWN; i++) {
        /* An amount says more than a number, and a size only belongs to sheets. */
        bool said = amount && (strcmp(expected[i], "a number") == 0 || strncmp(expected[i], "a size", 6) == 0);
        said = said || (whole && strncmp(expected[i], "an amount", 9) == 0);
        if (is_thing(expected[i]) && !said) {
            shown[shown_count++] = expected[i];
        }
    }
    if (shown_count == 0 && count == 1) {
        shown[shown_count++] = arena_format(builder->arena, "\"%s\"", expected[0]);
    }
    for (int i = 0; i < shown_count; i++) {
        buffer_string(out, i == 0 ? "expected " : i == shown_count - 1 ? " or " : ", ");
        buffer_string(out, shown[i]);
    }
    return shown_count > 0;
}

/* What must stand behind a token, where that says more than the grammar's list. */
static const char *wanted_behind(int token)
{
    switch (token) {
    case T_OPEN:
        return "a form in the brackets, such as anhydrous or 28 %";
    case T_FORMULA:
    case T_VARIANT:
        return "a title in double quotes";
    case T_READ:
        return "a file's name in double quotes";
    case T_DILUTE:
        return "a dilution such as 1+3";
    case T_COOL_TO:
    case T_WARM_TO:
    case T_TEMPERATURE:
    case T_AT:
        return "a temperature such as 20 °C";
    case T_TIME:
    case T_STAND:
        return "a time such as 5 min";
    case T_KEEPS:
        return "a time such as 6 months";
    case T_MEASURES:
        return "metric, US or imperial";
    case T_TO_MAKE:
        return "a volume such as 1 L";
    case T_PER:
        return "what it goes by, such as roll or L";
    default:
        return NULL;
    }
}

/* How a line is mended that was written as books and habits have it; NULL where that cannot be told. */
static const char *repair(const struct builder *builder, struct text found)
{
    int before = builder->lexer.before;
    bool amount_before = before == T_AMOUNT || before == T_NUMBER;
    bool degrees = false;
    for (size_t i = 0; i + 1 < found.length; i++) {
        degrees = degrees || memcmp(found.at + i, "°", 2) == 0;
    }
    char first = found.length == 0 ? '\0' : found.at[0];
    bool dash = found.length >= 3 && (memcmp(found.at, "–", 3) == 0 || memcmp(found.at, "—", 3) == 0);
    if (degrees) {
        return "a temperature stands behind the amount, after `at`: water 750 mL at 45 °C";
    }
    if (dash && before == T_WORDS) {
        return "no sign stands between a name and what belongs to it";
    }
    if (amount_before && (text_is(found, "per") || (found.length > 4 && strncasecmp(found.at, "the ", 4) == 0))) {
        return "so much for each ounce or litre: multiply by those of the bath, and write the whole amount";
    }
    if (first >= '0' && first <= '9' && before == T_WORDS && builder->open != NULL && builder->open->kind == DECLARE_FORMULA) {
        return "each addition stands on a line of its own, its name before its amount";
    }
    if (first == '%' && amount_before) {
        return "some of a stock solution is written: 10 mL of 10 % stock";
    }
    if (first >= '0' && first <= '9' && before == T_AMOUNT) {
        return "one amount for each line; some of a stock solution is written: 10 mL of 10 % stock";
    }
    if (first >= '0' && first <= '9' && !amount_before && before != T_WORDS && !builder_wants_date(before)) {
        return "an addition starts with the name; the amount follows it: potassium bromide 1.5 g";
    }
    switch (first) {
    case '=':
    case ':':
        return amount_before ? "a time of two units is written: 5 min 30 s"
                             : "no sign stands between a name and what belongs to it";
    case '[':
    case '{':
        return "a form stands in round brackets: sodium sulfite (anhydrous) 30 g";
    case '(':
        return amount_before ? "one amount for each line; keep another reading of it in a comment: # or a note \"…\"" : NULL;
    default:
        return NULL;
    }
}

static bool starts_line(const struct builder *builder, struct span span)
{
    const char *at = builder->lexer.start + (span.begin - builder->lexer.base);
    while (at > builder->lexer.start && (at[-1] == ' ' || at[-1] == '\t')) {
        at--;
    }
    return at == builder->lexer.start || at[-1] == '\n' || at[-1] == '\r';
}

void builder_syntax_error(struct builder *builder, int token, struct span span, const char *const *expected, int count)
{
    if (builder->lexer.reread != NULL) { /* what was typed is told of, not what stands for it */
        builder->lexer.reread->refused = true;
        return;
    }
    if (builder->expected != NULL && span.begin == builder->expected->at) {
        builder->expected->before = builder->lexer.before;
        for (int i = 0; i < count && i < EXPECTED_MOST; i++) {
            builder->expected->names[builder->expected->count++] = expected[i];
        }
        return;
    }
    if (builder->lexer.line_told) {
        return;
    }
    builder->lexer.line_told = true;
    if (builder_told_of_slip(builder, token, span) || headless(builder, token, span)) {
        return;
    }
    struct text found = source_text(builder->diagnostics->sources, span);
    bool at_line_end = found.length == 0 || found.at[0] == '\n' || found.at[0] == '\r';
    if (!at_line_end && builder_record_error(builder, token, span, found)) {
        return;
    }
    if (at_line_end) { /* point behind the last word, not at the next line */
        span.end = span.begin;
    }
    struct buffer message;
    buffer_start(&message, builder->arena);
    if (builder->lexer.line_tokens > LINE_TOKENS_MOST) {
        struct diagnostic *endless = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span,
                                                     "this line goes on for too long; from here it is not read");
        diagnostics_help(builder->diagnostics, endless,
                         "one statement stands on a line; is the end of the line missing?");
        return;
    }
    const char *wanted = wanted_behind(builder->lexer.before);
    enum { LONGEST_FOUND = 40 };
    bool cut = found.length > LONGEST_FOUND;
    const char *quote = found.length > 0 && found.at[0] == '"' ? "" : "\"";
    const char *there = arena_format(builder->arena, "%s%.*s%s%s", quote, (int)(cut ? LONGEST_FOUND : found.length),
                                     found.at, cut ? "…" : "", quote);
    bool listed = wanted != NULL;
    if (!at_line_end && starts_line(builder, span)) {
        buffer_string(&message, "no line here starts like this");
    } else if (wanted != NULL) {
        buffer_format(&message, "expected %s", wanted);
    } else {
        listed = list_expected(builder, &message, expected, count, at_line_end);
    }
    if (listed) {
        buffer_format(&message, at_line_end ? ", but the line ends" : ", not %s", there);
    } else if (message.length == 0) {
        buffer_format(&message, at_line_end ? "the line ends too early" : "%s does not belong here", there);
    }
    struct diagnostic *diagnostic =
        diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "%s", buffer_finish(&message));
    const char *help = at_line_end ? NULL : repair(builder, found);
    if (help != NULL) {
        diagnostics_help(builder->diagnostics, diagnostic, "%s", help);
    } else {
        builder_help_line(builder, diagnostic, span, found, expected, count);
    }
}
