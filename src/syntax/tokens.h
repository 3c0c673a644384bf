/* The tokens of the notation, one after the other: for the parser, and for those who read a text without it. */
#ifndef POTASH_SYNTAX_TOKENS_H
#define POTASH_SYNTAX_TOKENS_H

#include "syntax/lexing.h"

#include "notation.tab.h"

/* What stands where the lexer is (grammar/notation.re): at the start of a line, further on in it, and in lines with words of their
 * own.  The first may say LEXING_GO_ON. */
int lexer_line_start(struct builder *builder, union NOTATION_STYPE *value);
int lexer_rest(struct builder *builder, union NOTATION_STYPE *value);
int lexer_other(struct builder *builder, union NOTATION_STYPE *value);

/* The next one of lines that stand for one that was typed (reread.c). */
int reread_lex(struct builder *builder, union NOTATION_STYPE *value);

/* The next token; its value goes to `value` and its place to `location`.  It stands here so that it becomes a part of whoever
 * calls it, which is once for every word of a file. */
static inline int notation_lex(union NOTATION_STYPE *value, struct span *location, struct builder *builder)
{
    struct lexer *lexer = &builder->lexer;
    int token;
    if (lexer->mode == LEX_REST) {
        token = lexer_rest(builder, value);
    } else if (lexer->mode == LEX_LINE_START) {
        lexer->line_tokens = 0;
        lexer->line_told = false;
        token = lexer_line_start(builder, value);
        if (token == LEXING_GO_ON) {
            token = lexer_rest(builder, value);
        }
        if (lexing_past_limit(lexer)) { /* the text goes on, but the part that is parsed does not */
            token = T_END;
        }
    } else {
        token = lexer_other(builder, value);
    }
    if (++lexer->line_tokens > LINE_TOKENS_MOST && token != T_NEWLINE && token != T_END) {
        token = lexing_rest_of_line(builder);
    }
    *location = lexer->token;
    lexer->before = lexer->previous;
    lexer->previous = token;
    return token;
}

#endif
