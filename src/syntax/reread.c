/* Parses lines that stand for one that was typed (reread.h). */
#include "syntax/reread.h"

#include "base/buffer.h"
#include "syntax/builder.h"
#include "syntax/tokens.h"

const char *reread_text(struct arena *arena, const struct reread_piece *pieces, size_t count)
{
    struct buffer out;
    buffer_start(&out, arena);
    for (size_t i = 0; i < count; i++) {
        buffer_text(&out, pieces[i].text);
    }
    return buffer_finish(&out);
}

/* The piece that the lexer stands in: blanks before a token belong to none. */
static const struct reread_piece *find_piece(struct lexer *lexer)
{
    struct reread *reread = lexer->reread;
    lexer->cursor += strspn(lexer->cursor, " \t");
    while (reread->piece + 1 < reread->count &&
           lexer->cursor >= reread->piece_begin + reread->pieces[reread->piece].text.length) {
        reread->piece_begin += reread->pieces[reread->piece].text.length;
        reread->piece++;
    }
    return &reread->pieces[reread->piece];
}

static int lex_in(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    if (lexer->mode == LEX_LINE_START) {
        lexer->line_tokens = 0;
        lexer->line_told = false;
        int token = lexer_line_start(builder, value);
        return token == LEXING_GO_ON ? lexer_rest(builder, value) : token;
    }
    return lexer->mode == LEX_REST ? lexer_rest(builder, value) : lexer_other(builder, value);
}

int reread_lex(struct builder *builder, union NOTATION_STYPE *value)
{
    struct lexer *lexer = &builder->lexer;
    struct reread *reread = lexer->reread;
    const struct reread_piece *piece = find_piece(lexer);
    bool typed = piece->typed.end > piece->typed.begin;
    /* A token's place is its distance from the start and this; so the tokens of a piece come out where they were typed. */
    lexer->base = (typed ? piece->typed.begin : reread->line.begin) - (uint32_t)(reread->piece_begin - lexer->start);
    lexer->mode = reread->mode;
    int token = lex_in(builder, value);
    reread->mode = lexer->mode;
    lexer->mode = LEX_REREAD;
    if (token == T_NEWLINE || token == T_END) {
        lexer->token = span_make(reread->line.end, reread->line.end);
    } else if (typed && lexer->token.end > piece->typed.end) { /* it goes on in a piece that was not typed so: "3 mois", of which 3 is */
        lexer->token.end = reread->line.end;
        if (token == T_AMOUNT) {
            value->quantity->span.end = value->quantity->unit_span.end = reread->line.end;
            value->quantity->unit_span.begin = value->quantity->number_end < reread->line.end ? value->quantity->number_end : reread->line.end;
        }
    } else if (!typed) {
        lexer->token = reread->line;
        if (token == T_AMOUNT) {
            value->quantity->span = value->quantity->unit_span = reread->line;
            value->quantity->number_end = reread->line.end;
        }
    }
    return token;
}

/* A heading for the lines. */
static struct text heading(enum declaration_kind kind)
{
    return kind == DECLARE_STOCK ? TEXT("stock x 1 %\n") : kind == DECLARE_VARIANT ? TEXT("variant \"\"\n") : TEXT("formula \"\"\n");
}

struct statement *syntax_reread(struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                                const struct declaration *open, struct reread reread, struct statement **last, bool *draws_on_formulas)
{
    struct reread_piece *pieces = ARENA_ARRAY(arena, struct reread_piece, reread.count + 2);
    pieces[0].text = heading(open->kind);
    memcpy(pieces + 1, reread.pieces, reread.count * sizeof *pieces);
    pieces[reread.count + 1].text = TEXT("\n");
    reread.pieces = pieces;
    reread.count += 2;
    reread.text = reread.piece_begin = reread_text(arena, pieces, reread.count);
    reread.mode = LEX_LINE_START;

    struct builder builder = {.arena = arena, .names = names, .diagnostics = diagnostics};
    builder.file = ARENA_NEW(arena, struct syntax_file);
    builder.file->source = open->file;
    builder.lexer = (struct lexer){.start = reread.text, .cursor = reread.text, .limit = reread.text + strlen(reread.text),
                                   .mode = LEX_REREAD, .reread = &reread};
    notation_parse(&builder);
    struct declaration *made = builder.file->declarations;
    if (reread.refused || made == NULL || made->next != NULL || made->refused || made->statements == NULL) {
        return NULL;
    }
    *last = made->last;
    *draws_on_formulas = builder.file->draws_on_formulas;
    return made->statements;
}
