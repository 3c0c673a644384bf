/* A bare lexer of the notation's plainest tokens (tokens.re). */
#ifndef POTASH_BENCH_TOKENS_H
#define POTASH_BENCH_TOKENS_H

#include "base/text.h"

enum token_kind {
    TOKEN_END, TOKEN_LINE_END, TOKEN_COMMENT, TOKEN_WORD, TOKEN_NUMBER, TOKEN_STRING, TOKEN_SIGN, TOKEN_KINDS
};

/* The next token at *cursor, which moves behind it; the text ends with NUL. */
enum token_kind tokens_next(const char **cursor, struct text *token);

/* How many tokens of the notation the text holds, by the notation's own lexer with nothing done to its tokens. */
size_t notation_count_tokens(const char *bytes, size_t length);

#endif
