/* Signs of print whose meaning depends on what stands around them. */
#include "syntax/lexing_marks.h"

#include "base/utf8.h"

#include "notation.tab.h"

#include <string.h>

bool lexing_is_leader(const struct lexer *lexer, const unsigned char *at)
{
    bool behind_name = lexer->previous == T_WORDS || lexer->previous == T_CLOSE || lexer->previous == T_PERCENT || lexer->previous == T_TO_MAKE;
    size_t length = utf8_character_length((struct text){(const char *)at, 4});
    behind_name = behind_name || (*at == ':' && lexer->line_tokens == 1 && lexer->previous != T_NUMBER); /* "Time: 5 min" */
    bool wide = length > 1 && memcmp(at, "\u2212", 3) != 0; /* a long dash needs no blanks; a minus right before a figure is one */
    return behind_name && (wide || at[length] == ' ' || at[length] == '\t' || at[length] == '-');
}

bool lexing_divides_columns(const struct builder *builder, const unsigned char *at)
{
    const struct declaration *open = builder->open;
    bool in_formula = open != NULL && (open->kind == DECLARE_FORMULA || open->kind == DECLARE_VARIANT);
    while (*at == ' ' || *at == '\t') {
        at++;
    }
    return in_formula && (builder->lexer.previous == T_AMOUNT || builder->lexer.previous == T_NUMBER) && text_is_digit((char)*at);
}

bool lexing_begins_name(const unsigned char *at)
{
    return (*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z') || *at >= 0xC3;
}

bool lexing_is_bullet(const unsigned char *at, const unsigned char *upto)
{
    bool dash = *at == '-' || memcmp(at, "\u2013", 3) == 0 || memcmp(at, "\u2014", 3) == 0;
    bool apart = upto[-1] == ' ' || upto[-1] == '\t';
    return (lexing_begins_name(upto) && (apart || !dash)) || (apart && !dash && (text_is_digit((char)*upto) || *upto == '('));
}

const unsigned char *lexing_number_end(const unsigned char *at)
{
    at += *at == '(';
    while (text_is_digit((char)*at)) {
        at++;
    }
    return at + (*at == ')');
}

/* The figure that counts a line; 0 when none does. */
static int counted_line(const char *line)
{
    line += strspn(line, " \t(");
    int figure = 0;
    for (size_t digits = 0; text_is_digit(*line); digits++, line++) {
        figure = digits > 1 ? -1 : figure * 10 + (*line - '0');
    }
    return figure > 0 && (*line == '.' || *line == ')') && !text_is_digit(line[1]) ? figure : 0;
}

static const char *line_start(const char *start, const char *at)
{
    while (at > start && at[-1] != '\n') {
        at--;
    }
    return at;
}

bool lexing_is_numbering(const char *start, const char *at)
{
    const char *line = line_start(start, at);
    const int own = counted_line(line);
    int run = 1;
    int figure = own;
    const char *above = line;
    while (run < 3 && above > start && (above = line_start(start, above - 1), counted_line(above) == figure - 1) && figure > 1) {
        figure--;
        run++;
    }
    figure = own;
    for (const char *below = strchr(line, '\n'); run < 3 && below != NULL && counted_line(below + 1) == figure + 1;
         below = strchr(below + 1, '\n')) {
        figure++;
        run++;
    }
    return run >= 3;
}
