/* The tokens of a text, as the lexer gives them, with comments between. */
#ifndef POTASH_WORKSPACE_TEXT_TOKENS_H
#define POTASH_WORKSPACE_TEXT_TOKENS_H

#include "syntax/tree.h"

struct text_token {
    int kind;                        /* a token of the grammar; TEXT_COMMENT */
    struct span span;
    const struct quantity *quantity; /* of an amount; else NULL */
};

enum { TEXT_COMMENT = -2 };

/* Calls `visit` for each from an offset of the source on, where a line begins, until it answers false. */
void text_tokens(struct arena *arena, const struct source_file *source, uint32_t from, bool (*visit)(void *context, const struct text_token *token),
                 void *context);

#endif
