/* Stands in for src/syntax/lexing.h when the bench compiles grammar/notation.re by itself: the same tokens of the same lexer, and
 * nothing done with them; no names are kept, no numbers read, nothing is reported. */
#ifndef POTASH_SYNTAX_LEXING_H
#define POTASH_SYNTAX_LEXING_H

#include "syntax/lexing_marks.h"

#include "notation.tab.h"

enum { LEXING_GO_ON = -1 };

static inline int lexing_token(struct builder *builder, int token, const unsigned char *from, const unsigned char *upto)
{
    struct lexer *lexer = &builder->lexer;
    lexer->cursor = (const char *)upto;
    lexer->token = span_make(lexer->base + (uint32_t)((const char *)from - lexer->start),
                             lexer->base + (uint32_t)((const char *)upto - lexer->start));
    return token;
}

static inline bool lexing_past_limit(const struct lexer *lexer)
{
    return lexer->start + (lexer->token.begin - lexer->base) >= lexer->limit;
}

static inline int lexing_keyword(struct builder *builder, int token, const unsigned char *from, const unsigned char *upto)
{
    bool names = token == T_ALSO || token == T_MISTAKEN_FOR || token == T_MATERIAL;
    bool declared = token == T_UNIT || token == T_ELEMENT;
    builder->lexer.mode = names ? LEX_NAMES : declared ? LEX_DECLARED : token == T_FORM || token == T_IONS ? LEX_FORM : LEX_REST;
    return lexing_token(builder, token, from, upto);
}

/* Signs that are not seen are looked for by the compiler, not by the loop. */
static inline void lexing_remark(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    (void)builder;
    (void)from;
    (void)upto;
}

static inline int lexing_newline(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    builder->lexer.mode = LEX_LINE_START;
    return lexing_token(builder, T_NEWLINE, from, upto);
}

static inline int lexing_end(struct builder *builder, const char *at)
{
    return lexing_token(builder, T_END, (const unsigned char *)at, (const unsigned char *)at);
}

static inline int lexing_rest_of_line(struct builder *builder)
{
    return (int)builder->lexer.token.begin;
}

static inline void lexing_comment(struct builder *builder, const char *from, const char *upto)
{
    (void)builder;
    (void)from;
    (void)upto;
}

static inline int lexing_words(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                               const char *upto)
{
    (void)value;
    if (builder->lexer.mode == LEX_LINE_START) {
        builder->lexer.mode = LEX_REST;
    }
    return lexing_token(builder, T_WORDS, from, (const unsigned char *)upto);
}

static inline int lexing_view(struct builder *builder, union NOTATION_STYPE *value, int token, const unsigned char *from,
                              const unsigned char *upto)
{
    (void)value;
    return lexing_token(builder, token, from, upto);
}

static inline int lexing_string(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                                const unsigned char *upto)
{
    return lexing_view(builder, value, T_STRING, from, upto);
}

static inline int lexing_unclosed(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                                  const unsigned char *upto)
{
    return lexing_view(builder, value, T_STRING, from, upto);
}

static inline int lexing_label(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                               const unsigned char *upto)
{
    return lexing_view(builder, value, T_LABEL, from, upto);
}

static inline int lexing_ditto(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    return lexing_token(builder, T_UNKNOWN, from, upto);
}

static inline double lexing_decimal(const unsigned char *from, const unsigned char *upto)
{
    return (double)(upto - from);
}

static inline double lexing_fraction(const unsigned char *from, const unsigned char *upto)
{
    return (double)(upto - from);
}

static inline double lexing_figures_of_fraction(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    (void)builder;
    return lexing_fraction(from, upto);
}

static inline double lexing_thousands(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    (void)builder;
    return (double)(upto - from);
}

static inline int lexing_broken(struct builder *builder)
{
    return lexing_end(builder, builder->lexer.cursor);
}

static inline int lexing_meant(struct builder *builder)
{
    return lexing_end(builder, builder->lexer.cursor);
}

static inline double lexing_raised_point(const unsigned char *from, const unsigned char *upto)
{
    return (double)(upto - from);
}

static inline double lexing_minus(const unsigned char *from, const unsigned char *upto)
{
    return (double)(from - upto);
}

static inline double lexing_decimal_comma(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    (void)builder;
    return (double)(upto - from);
}

static inline int lexing_amount(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                                const unsigned char *upto, const char *unit_end)
{
    (void)value;
    bool unit = unit_end > (const char *)upto;
    return lexing_token(builder, unit ? T_AMOUNT : T_NUMBER, from, unit ? (const unsigned char *)unit_end : upto);
}

static inline int lexing_size(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                              const unsigned char *upto)
{
    return lexing_view(builder, value, T_SIZE, from, upto);
}

static inline int lexing_percent(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                                 const unsigned char *upto, enum percent_basis basis)
{
    value->basis = basis;
    return lexing_token(builder, T_PERCENT, from, upto);
}

static inline enum percent_basis lexing_basis(const unsigned char *upto)
{
    (void)upto;
    return PERCENT_PLAIN;
}

static inline size_t lexing_character(const unsigned char *at)
{
    return *at < 0x80 ? 1 : *at < 0xE0 ? 2 : *at < 0xF0 ? 3 : 4;
}

#endif
