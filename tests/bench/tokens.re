/* The least that a lexer does: cuts the bytes of a formula into words, numbers, strings, signs, comments and lines, and hands
 * them over one by one.  Nothing is looked up and nothing is made of them; the check is measured against this loop. */
#include "bench/tokens.h"

enum token_kind tokens_next(const char **cursor, struct text *token)
{
    const unsigned char *YYCURSOR = (const unsigned char *)*cursor;
    const unsigned char *YYMARKER;
    const unsigned char *begin;
    enum token_kind kind;
    for (;;) {
        begin = YYCURSOR;
        /*!re2c
            re2c:define:YYCTYPE  = "unsigned char";
            re2c:yyfill:enable   = 0;
            re2c:flags:utf-8     = 1;

            blank  = [ \t]+ | "." "."+;
            letter = [a-zA-Z] | [^\x00-\x7F];

            blank                              { continue; }
            "\r"? "\n"                         { kind = TOKEN_LINE_END; break; }
            "#" [^\r\n\x00]*                   { kind = TOKEN_COMMENT; break; }
            letter (letter | [0-9'/_-])*       { kind = TOKEN_WORD; break; }
            [0-9]+ ("." [0-9]+)?               { kind = TOKEN_NUMBER; break; }
            "\"" [^"\r\n\x00]* "\""            { kind = TOKEN_STRING; break; }
            "\x00"                             { kind = TOKEN_END; break; }
            *                                  { kind = TOKEN_SIGN; break; }
        */
    }
    token->at = (const char *)begin;
    token->length = (size_t)(YYCURSOR - begin);
    *cursor = (const char *)YYCURSOR;
    return kind;
}
