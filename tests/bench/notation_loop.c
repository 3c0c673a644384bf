/* The lexer of the notation, alone: grammar/notation.re with the actions of bare/syntax/lexing.h. */
#include "bench/tokens.h"

#define lexer_line_start bare_line_start
#define lexer_rest bare_rest
#define lexer_other bare_other
#include "notation.lex.c"

size_t notation_count_tokens(const char *bytes, size_t length)
{
    struct builder builder = {.lexer = {.cursor = bytes, .start = bytes, .limit = bytes + length, .base = 1}};
    union NOTATION_STYPE value;
    struct span location;
    size_t count = 0;
    while (notation_lex(&value, &location, &builder) != T_END) {
        count++;
    }
    return count;
}
