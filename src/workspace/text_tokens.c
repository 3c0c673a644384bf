/* Walks through the tokens of a text. */
#include "workspace/text_tokens.h"

#include "syntax/builder.h"
#include "syntax/tokens.h"

void text_tokens(struct arena *arena, const struct source_file *source, uint32_t from, bool (*visit)(void *context, const struct text_token *token),
                 void *context)
{
    struct source_set *sources = ARENA_NEW(arena, struct source_set);
    struct diagnostics *aside = ARENA_NEW(arena, struct diagnostics); /* what the lexer has to say is said when the file is checked */
    struct builder *builder = ARENA_NEW(arena, struct builder);
    source_start(sources, arena);
    diagnostics_start(aside, arena, sources);
    *builder = (struct builder){.arena = arena, .names = ARENA_NEW(arena, struct names), .diagnostics = aside, .keep_comments = true};
    names_start(builder->names, arena);
    builder->file = ARENA_NEW(arena, struct syntax_file);
    builder->file->source = (struct source_file *)source;
    bool byte_order_mark = source->length >= 3 && memcmp(source->bytes, "\xEF\xBB\xBF", 3) == 0;
    builder->lexer = (struct lexer){.start = source->bytes,
                                    .base = source->base,
                                    .cursor = source->bytes + (byte_order_mark && from == 0 ? 3 : from),
                                    .limit = source->bytes + source->length,
                                    .mode = LEX_LINE_START};
    size_t comments = 0;
    for (bool on = true; on;) {
        union NOTATION_STYPE value;
        struct span span;
        int kind = notation_lex(&value, &span, builder);
        for (; comments < builder->file->comment_count && on; comments++) {
            on = visit(context, &(struct text_token){TEXT_COMMENT, builder->file->comments[comments], NULL});
        }
        if (kind == T_END || !on) {
            return;
        }
        on = visit(context, &(struct text_token){kind, span, kind == T_AMOUNT ? value.quantity : NULL});
    }
}
