/* Words for a line that cannot be read: what was expected there, in the terms of the trade. */
#include "syntax/builder.h"

#include "base/buffer.h"

#include "notation.tab.h"

/* What a heading's line should hold, when the heading itself is broken. */
static bool headless(struct builder *builder, int token, struct span span)
{
    (void)token;
    bool in_heading = builder->lexer.before == T_FORMULA || builder->lexer.before == T_VARIANT;
    if (builder->open != NULL || in_heading) {
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

/* The larger things first (an amount, a name); single words and signs only where there is nothing larger. */
static void list_expected(struct builder *builder, struct buffer *out, const char *const *expected, int count)
{
    enum { MOST_SHOWN = 4 };
    const char *shown[MOST_SHOWN];
    int shown_count = 0;
    bool amount = false;
    for (int i = 0; i < count; i++) {
        amount = amount || strncmp(expected[i], "an amount", 9) == 0;
    }
    for (int i = 0; i < count && shown_count < MOST_SHOWN; i++) {
        /* An amount says more than a number, and a size only belongs to sheets. */
        bool said = amount && (strcmp(expected[i], "a number") == 0 || strncmp(expected[i], "a size", 6) == 0);
        if (is_thing(expected[i]) && !said) {
            shown[shown_count++] = expected[i];
        }
    }
    bool only_line_end = shown_count == 1 && strcmp(shown[0], "the end of the line") == 0;
    for (int i = 0; i < count && (shown_count == 0 || only_line_end) && shown_count < MOST_SHOWN; i++) {
        if (!is_thing(expected[i])) {
            shown[shown_count++] = arena_format(builder->arena, "\"%s\"", expected[i]);
        }
    }
    for (int i = 0; i < shown_count; i++) {
        buffer_string(out, i == 0 ? "" : i == shown_count - 1 ? " or " : ", ");
        buffer_string(out, shown[i]);
    }
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

void builder_syntax_error(struct builder *builder, int token, struct span span, const char *const *expected, int count)
{
    if (builder->lexer.line_told) {
        return;
    }
    builder->lexer.line_told = true;
    if (headless(builder, token, span)) {
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
        diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "this line goes on for too long; from here it is not read");
        return;
    }
    const char *wanted = wanted_behind(builder->lexer.before);
    bool no_such_line = wanted == NULL && !at_line_end && (count == 0 || count > 24);
    if (no_such_line) {
        buffer_string(&message, "no line here starts like this");
    } else if (wanted != NULL) {
        buffer_format(&message, "expected %s", wanted);
    } else if (count == 0 || count > 24) {
        buffer_string(&message, "expected a line of the kind that belongs here");
    } else {
        buffer_string(&message, "expected ");
        list_expected(builder, &message, expected, count);
    }
    if (at_line_end) {
        buffer_string(&message, ", but the line ends");
    } else if (!no_such_line) {
        enum { LONGEST_FOUND = 40 };
        bool cut = found.length > LONGEST_FOUND;
        const char *quote = found.at[0] == '"' ? "" : "\"";
        buffer_format(&message, ", not %s%.*s%s%s", quote, (int)(cut ? LONGEST_FOUND : found.length), found.at, cut ? "…" : "", quote);
    }
    struct diagnostic *diagnostic =
        diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "%s", buffer_finish(&message));
    if (syntax_mend_sentence(builder, diagnostic, span)) {
        return;
    }
    const char *help = at_line_end ? NULL : repair(builder, found);
    if (help != NULL) {
        diagnostics_help(builder->diagnostics, diagnostic, "%s", help);
    }
}
