/* From a file to the lines that tidying lays out: tokens and comments by the lexer, kinds of lines by the syntax tree.
 */
#include "syntax/tidy_lines.h"

#include "syntax/builder.h"
#include "syntax/tokens.h"

struct reader {
    struct tidy_document *document;
    const struct syntax_file *file;
    struct builder builder;
    size_t line_capacity;
    struct tidy_token *tokens; /* of the open line */
    size_t token_count;
    size_t token_capacity;
    bool line_open;
    size_t comments_taken;
    uint32_t last_end; /* where the last token or comment ended */
    const struct declaration *declaration;
    const struct statement *statement;
};

static const char *at_offset(const struct reader *reader, uint32_t offset)
{
    const struct source_file *source = reader->file->source;
    return source->bytes + (offset - source->base);
}

/* The text of a span; and, with `to_line_end`, what follows it on its line. */
static struct text text_of(const struct reader *reader, struct span span, bool to_line_end)
{
    const char *from = at_offset(reader, span.begin);
    const char *upto = at_offset(reader, span.end);
    return (struct text){from, (size_t)(upto - from) + (to_line_end ? strcspn(upto, "\r\n") : 0)};
}

/* Whether an empty line stands between the last token and `begin`. */
static bool blank_between(const struct reader *reader, uint32_t begin)
{
    const struct source_file *source = reader->file->source;
    const char *at = at_offset(reader, reader->last_end);
    const char *upto = at_offset(reader, begin);
    int ends = 0;
    for (; at < upto; at++) {
        ends += *at == '\n' || (*at == '\r' && at + 1 < source->bytes + source->length && at[1] != '\n');
    }
    return ends > 1 && reader->document->count > 0;
}

static struct tidy_line *add_line(struct reader *reader, uint32_t begin)
{
    struct tidy_document *document = reader->document;
    if (document->count == reader->line_capacity) {
        size_t capacity = reader->line_capacity == 0 ? 64 : reader->line_capacity * 2;
        struct tidy_line *lines = ARENA_ARRAY(document->arena, struct tidy_line, capacity);
        if (document->count > 0) {
            memcpy(lines, document->lines, document->count * sizeof *lines);
        }
        document->lines = lines;
        reader->line_capacity = capacity;
    }
    bool blank = blank_between(reader, begin);
    struct tidy_line *line = &document->lines[document->count++];
    line->blank_before = blank;
    return line;
}

static void add_token(struct reader *reader, int kind, struct span span)
{
    if (reader->token_count == reader->token_capacity) {
        size_t capacity = reader->token_capacity == 0 ? 16 : reader->token_capacity * 2;
        struct tidy_token *tokens = ARENA_ARRAY(reader->document->arena, struct tidy_token, capacity);
        if (reader->token_count > 0) {
            memcpy(tokens, reader->tokens, reader->token_count * sizeof *tokens);
        }
        reader->tokens = tokens;
        reader->token_capacity = capacity;
    }
    struct tidy_token *token = &reader->tokens[reader->token_count++];
    token->kind = kind;
    token->begin = span.begin;
    token->apart = span.begin > reader->last_end;
    token->text =
        tidy_token_text(reader->document->arena, kind, text_of(reader, span, false), text_of(reader, span, true));
}

/* Comments that the lexer passed over on its way to the last token. */
static void take_comments(struct reader *reader)
{
    const struct syntax_file *seen = reader->builder.file;
    for (; reader->comments_taken < seen->comment_count; reader->comments_taken++) {
        struct span span = seen->comments[reader->comments_taken];
        struct tidy_line *line =
            reader->line_open ? &reader->document->lines[reader->document->count - 1] : add_line(reader, span.begin);
        line->comment = text_trim(text_of(reader, span, false));
        reader->last_end = span.end;
    }
}

static enum tidy_class class_of(const struct statement *statement)
{
    switch (statement->kind) {
    case SAY_PART:
    case SAY_USE:
        return TIDY_SECTION;
    case SAY_ADDITION:
    case SAY_SOLUTION:
        return TIDY_ADDITION;
    case SAY_PINCH:
    case SAY_COOL:
    case SAY_WARM:
    case SAY_STAND:
    case SAY_FILTER:
    case SAY_DO:
        return TIDY_STEP;
    default:
        return TIDY_PROPERTY;
    }
}

/* Finds the node that starts where the line does; both come in the order of the text. */
static void classify(struct reader *reader, struct tidy_line *line, uint32_t begin)
{
    const struct declaration *next =
        reader->declaration == NULL ? reader->file->declarations : reader->declaration->next;
    if (next != NULL && next->span.begin <= begin) {
        reader->declaration = next;
        reader->statement = next->statements;
        line->class = TIDY_HEADING;
        line->declaration = next;
        return;
    }
    while (reader->statement != NULL && reader->statement->span.begin < begin) {
        reader->statement = reader->statement->next;
    }
    bool found = reader->statement != NULL && reader->statement->span.begin == begin;
    line->declaration = reader->declaration;
    line->statement = found ? reader->statement : NULL;
    line->class = found ? class_of(reader->statement) : TIDY_PROPERTY;
}

static void close_line(struct reader *reader)
{
    struct tidy_line *line = &reader->document->lines[reader->document->count - 1];
    line->token_count = reader->token_count;
    line->tokens = ARENA_ARRAY(reader->document->arena, struct tidy_token, reader->token_count);
    memcpy(line->tokens, reader->tokens, reader->token_count * sizeof *line->tokens);
    classify(reader, line, line->tokens[0].begin);
    reader->token_count = 0;
    reader->line_open = false;
}

struct tidy_document *tidy_read(struct arena *arena, struct names *names, const struct syntax_file *file)
{
    struct diagnostics aside; /* what the lexer has to say has been said when the file was parsed */
    struct source_set no_sources;
    source_start(&no_sources, arena);
    diagnostics_start(&aside, arena, &no_sources);
    struct reader reader = {.file = file, .document = ARENA_NEW(arena, struct tidy_document)};
    reader.document->arena = arena;
    const struct source_file *source = file->source;
    bool byte_order_mark = source->length >= 3 && memcmp(source->bytes, "\xEF\xBB\xBF", 3) == 0;
    struct builder *builder = &reader.builder;
    *builder = (struct builder){.arena = arena, .names = names, .diagnostics = &aside, .keep_comments = true};
    builder->file = ARENA_NEW(arena, struct syntax_file);
    builder->file->source = (struct source_file *)source;
    builder->lexer.start = source->bytes;
    builder->lexer.base = source->base;
    builder->lexer.cursor = source->bytes + (byte_order_mark ? 3 : 0);
    builder->lexer.limit = source->bytes + source->length;
    builder->lexer.mode = LEX_LINE_START;
    reader.last_end = source->base + (byte_order_mark ? 3 : 0);
    for (;;) {
        union NOTATION_STYPE value;
        struct span span;
        int kind = notation_lex(&value, &span, builder);
        take_comments(&reader);
        if (kind == T_END) {
            return reader.document;
        }
        if (kind == T_NEWLINE) {
            if (reader.line_open) {
                close_line(&reader);
            }
            continue;
        }
        if (!reader.line_open) {
            add_line(&reader, span.begin);
            reader.line_open = true;
        }
        add_token(&reader, kind, span);
        reader.last_end = span.end;
    }
}
