/* The lexer of the notation, alone: grammar/notation.re with the actions of bare/syntax/lexing.h. */
#include "bench/tokens.h"

#define notation_lex bare_notation_lex
#define lexing_next bare_lexing_next
#include "notation.lex.c"

size_t notation_count_tokens(const char *bytes, size_t length)
{
    struct builder builder = {.lexer = {.cursor = bytes, .start = bytes, .limit = bytes + length, .base = 1}};
    union NOTATION_STYPE value;
    struct span location;
    size_t count = 0;
    while (bare_notation_lex(&value, &location, &builder) != T_END) {
        count++;
    }
    return count;
}
