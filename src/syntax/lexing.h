/* What the lexer does with a piece of text once its kind is known. */
#ifndef POTASH_SYNTAX_LEXING_H
#define POTASH_SYNTAX_LEXING_H

#include "syntax/lexing_marks.h"

union NOTATION_STYPE;

enum { LEXING_GO_ON = -1 }; /* no token here: look again in the rest of the line */

/* Closes the token [from, upto) and returns `token`. */
static inline int lexing_token(struct builder *builder, int token, const unsigned char *from, const unsigned char *upto)
{
    struct lexer *lexer = &builder->lexer;
    lexer->cursor = (const char *)upto;
    lexer->token = span_make(lexer->base + (uint32_t)((const char *)from - lexer->start),
                             lexer->base + (uint32_t)((const char *)upto - lexer->start));
    return token;
}

/* Whether the last token lies behind the part of the file that is to be parsed. */
static inline bool lexing_past_limit(const struct lexer *lexer)
{
    return lexer->start + (lexer->token.begin - lexer->base) >= lexer->limit;
}

int lexing_keyword(struct builder *builder, int token, const unsigned char *from, const unsigned char *upto);
int lexing_newline(struct builder *builder, const unsigned char *from, const unsigned char *upto);
int lexing_end(struct builder *builder, const char *at);

/* The rest of a line of a wording, as it stands. */
int lexing_meaning(struct builder *builder, union NOTATION_STYPE *value);

/* A line whose keyword is misspelt: it ends as it is, and begins again with the keyword that was meant. */
int lexing_broken(struct builder *builder);
int lexing_meant(struct builder *builder);

/* The last token and the rest of its line as one token without a meaning. */
int lexing_rest_of_line(struct builder *builder);
/* Says so when control signs stand in a text, which may hold any. */
void lexing_remark(struct builder *builder, const unsigned char *from, const unsigned char *upto);
void lexing_comment(struct builder *builder, const char *from, const char *upto);

int lexing_words(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from, const char *upto);
int lexing_view(struct builder *builder, union NOTATION_STYPE *value, int token, const unsigned char *from,
                const unsigned char *upto);
int lexing_string(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                  const unsigned char *upto);
/* A sign for "the same as above" in the place of a unit; elsewhere a comma, or a sign without meaning. */
int lexing_ditto(struct builder *builder, const unsigned char *from, const unsigned char *upto);
/* A part's name as print has it, with the points and the dash behind it. */
int lexing_label(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from, const unsigned char *upto);
int lexing_unclosed(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                    const unsigned char *upto);
/* Values of numbers; what is wrong with one is reported. */
double lexing_decimal(const unsigned char *from, const unsigned char *upto);
double lexing_raised_point(const unsigned char *from, const unsigned char *upto);
double lexing_fraction(const unsigned char *from, const unsigned char *upto);
/* The same; a whole number that has run into the fraction ("11/2") is reported. */
double lexing_figures_of_fraction(struct builder *builder, const unsigned char *from, const unsigned char *upto);
double lexing_minus(const unsigned char *from, const unsigned char *upto);
double lexing_thousands(struct builder *builder, const unsigned char *from, const unsigned char *upto);
double lexing_decimal_comma(struct builder *builder, const unsigned char *from, const unsigned char *upto);

/* The number value->number, from `from` to `upto`, with its unit up to `unit_end` when that lies further. */
int lexing_amount(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                  const unsigned char *upto, const char *unit_end);
int lexing_size(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                const unsigned char *upto);
int lexing_percent(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                   const unsigned char *upto, enum percent_basis basis);
enum percent_basis lexing_basis(const unsigned char *upto);
size_t lexing_character(const unsigned char *at);

#endif
