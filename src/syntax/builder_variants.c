/* Nodes of variants: what is changed, and in which part. */
#include "syntax/builder.h"

#include <strings.h>

void build_change(struct builder *builder, enum statement_kind kind, struct material_words *from, struct word *part,
                  struct amount_words *amount, struct span span)
{
    struct change_statement *statement = ARENA_NEW(builder->arena, struct change_statement);
    statement->from = from;
    statement->part = part;
    statement->amount = amount;
    build_statement(builder, &statement->base, kind, span);
}

void build_swap(struct builder *builder, struct material_words *from, struct word *part, struct material_words *to,
                struct material_words *with, struct span span)
{
    struct change_statement *statement = ARENA_NEW(builder->arena, struct change_statement);
    statement->from = from;
    statement->part = part;
    statement->to = to;
    statement->with = with;
    build_statement(builder, &statement->base, SAY_SWAP, span);
}

struct tails *build_tail_part(struct builder *builder, struct tails *tails, struct word *part)
{
    if (part == NULL) {
        return tails;
    }
    struct tails *with_part = tails != NULL ? tails : ARENA_NEW(builder->arena, struct tails);
    with_part->part = part;
    return with_part;
}

struct word *build_in_part(struct builder *builder, struct name *words, struct span words_span, double number, struct text title,
                           struct span end)
{
    /* "part A" is one run of words. */
    static const char keyword[] = "part";
    const size_t length = sizeof keyword - 1;
    struct text text = words->spelling;
    bool part = text.length >= length && strncasecmp(text.at, keyword, length) == 0 && (text.length == length || text.at[length] == ' ');
    struct text rest = part ? text_trim((struct text){text.at + length, text.length - length}) : text;
    bool named = rest.length > 0 || !isnan(number) || title.at != NULL;
    if (!part || !named) {
        struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, words_span, "this does not name a part");
        diagnostics_help(builder->diagnostics, diagnostic, "a part is named as in: in part A");
        if (!part) {
            struct span front = {words_span.begin, words_span.begin};
            diagnostics_fix(builder->diagnostics, diagnostic, front, "part ", "write in part %.*s", TEXT_ARGUMENTS(text));
        }
        return NULL;
    }
    struct span span = span_join(words_span, end);
    if (rest.length > 0) {
        span.begin += (uint32_t)(rest.at - text.at);
    } else {
        span = end;
    }
    return build_part_word(builder, rest.length > 0 ? names_find(builder->names, rest) : NULL, number, title, span);
}
