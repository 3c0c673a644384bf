/* Misspelt words of the notation, and what a line looks like that could not be read. */
#include "syntax/builder.h"

#include "base/slips.h"
#include "syntax/keywords.h"

#include "notation.tab.h"

static unsigned lines_here(const struct builder *builder)
{
    return builder->open == NULL ? 0 : 1u << builder->open->kind;
}

/* A word for a heading is taken for one only where the rest of the line is that of a heading. */
static bool fits_behind(const struct keyword *keyword, struct text line, struct text slip)
{
    size_t length = (size_t)(slip.at + slip.length - line.at);
    struct text rest = text_trim((struct text){line.at + length, line.length - length});
    bool titled = keyword->token == T_FORMULA || keyword->token == T_VARIANT || keyword->token == T_SHELF ||
                  keyword->token == T_BATCH || keyword->token == T_PROCESS || keyword->token == T_READ;
    bool quoted = rest.length > 0 && (rest.at[0] == '"' || (rest.length >= 3 && memcmp(rest.at, "\u201C", 3) == 0));
    return (keyword->belongs_to & KEYWORD_OPENS) == 0 || quoted == titled;
}

bool builder_told_of_slip(struct builder *builder, int token, struct span span)
{
    struct lexer *lexer = &builder->lexer;
    struct text line = syntax_line_of(builder, span);
    if (lexer->line_tokens > LINE_TOKENS_MOST || syntax_keyword(line, ~0u, NULL) != NULL) {
        return false; /* the word itself is right */
    }
    struct text slip;
    const struct keyword *meant = syntax_keyword(line, lines_here(builder) | KEYWORD_OPENS, &slip);
    if (meant == NULL || !fits_behind(meant, line, slip)) {
        return false;
    }
    struct span slip_span = syntax_span_of(builder, slip);
    struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, slip_span, "no line here begins with \"%.*s\"",
                                                    TEXT_ARGUMENTS(slip));
    diagnostics_help(builder->diagnostics, diagnostic, "did you mean %s?", meant->words);
    diagnostics_fix_writing(builder->diagnostics, diagnostic, slip_span, "%s", meant->words);
    lexer->meant = meant;
    lexer->meant_slip = slip;
    lexer->mode = token == T_NEWLINE ? LEX_MEANT : LEX_BROKEN;
    return true;
}

bool builder_in_heading(const struct builder *builder, struct span span)
{
    return syntax_keyword(syntax_line_of(builder, span), KEYWORD_OPENS, NULL) != NULL;
}

/* A word that is a slip away from one of those that could stand there: "optonal", "stok". */
static bool mend_word(struct builder *builder, struct diagnostic *diagnostic, struct span span, struct text found,
                      const char *const *expected, int count)
{
    struct text word = {found.at, strcspn(found.at, " \t\r\n\"#")};
    word.length = word.length < found.length ? word.length : found.length;
    if (word.length < 3 || word.length > SLIPS_LONGEST) {
        return false;
    }
    for (int i = 0; i < count; i++) {
        struct text known = text_from(expected[i]);
        int limit = known.length >= 6 ? 4 : 2;
        if (known.length >= 4 && known.length <= SLIPS_LONGEST && text_slips(word, known, limit) <= limit) {
            struct span word_span = {span.begin, span.begin + (uint32_t)word.length};
            diagnostics_help(builder->diagnostics, diagnostic, "did you mean %s?", expected[i]);
            diagnostics_fix_writing(builder->diagnostics, diagnostic, word_span, "%s", expected[i]);
            return true;
        }
    }
    return false;
}

/* `agitate gently`: a text without its quotes. */
static bool mend_quotes(struct builder *builder, struct diagnostic *diagnostic, struct span span, const char *const *expected, int count)
{
    static const int of_one_text[] = {T_NOTE, T_AGITATE, T_DO, T_AFTER, T_CAUTION, T_STOP, T_STORE, T_WARN, T_ADVISE, T_SOURCE,
                                      T_FORMULA, T_VARIANT, T_SHELF, T_PROCESS, T_READ};
    bool one_text = false;
    for (size_t i = 0; i < sizeof of_one_text / sizeof *of_one_text; i++) {
        one_text = one_text || builder->lexer.before == of_one_text[i];
    }
    if (!one_text || count != 1 || strcmp(expected[0], "a text in double quotes") != 0) {
        return false;
    }
    struct text line = syntax_line_of(builder, span);
    const char *from = builder->lexer.start + (span.begin - builder->lexer.base);
    struct text rest = {from, from < line.at + line.length ? (size_t)(line.at + line.length - from) : 0};
    if (rest.length == 0 || memchr(rest.at, '"', rest.length) != NULL) {
        return false;
    }
    diagnostics_help(builder->diagnostics, diagnostic, "texts stand in quotes: \"%.*s\"", TEXT_ARGUMENTS(rest));
    diagnostics_fix_writing(builder->diagnostics, diagnostic, syntax_span_of(builder, rest), "\"%.*s\"", TEXT_ARGUMENTS(rest));
    return true;
}

void builder_help_line(struct builder *builder, struct diagnostic *diagnostic, struct span span, struct text found,
                       const char *const *expected, int count)
{
    if (mend_word(builder, diagnostic, span, found, expected, count) || mend_quotes(builder, diagnostic, span, expected, count)) {
        return;
    }
    unsigned here = lines_here(builder);
    const struct keyword *keyword = syntax_keyword(syntax_line_of(builder, span), here | KEYWORD_OPENS, NULL);
    if (keyword != NULL) {
        diagnostics_help(builder->diagnostics, diagnostic, "write it as in: %s", keyword->example);
        return;
    }
    for (int i = 0; i < count; i++) {
        if (strcmp(expected[i], "the end of the line") == 0) {
            diagnostics_help(builder->diagnostics, diagnostic, "a remark stands in a comment, # …, or in quotes: note \"…\"");
            return;
        }
    }
    if ((here & (1u << DECLARE_FORMULA)) != 0) {
        diagnostics_help(builder->diagnostics, diagnostic, "an addition is a name and an amount: potassium bromide 1.5 g");
        return;
    }
    struct buffer list;
    buffer_start(&list, builder->arena);
    size_t all;
    const struct keyword *keywords = syntax_keywords(&all);
    for (size_t i = 0; i < all; i++) {
        if ((keywords[i].belongs_to & here) != 0) {
            buffer_format(&list, "%s%s", list.length == 0 ? "" : ", ", keywords[i].words);
        }
    }
    if (list.length > 0) {
        diagnostics_help(builder->diagnostics, diagnostic, "the lines here begin with: %s", buffer_finish(&list));
    } else {
        diagnostics_help(builder->diagnostics, diagnostic, "a heading begins what follows, such as: formula \"Print developer\"");
    }
}
