/* Runs the lexer and the parser over a file or a part of one. */
#include "syntax/parse.h"

#include "base/utf8.h"
#include "syntax/builder.h"

#include "notation.tab.h"

/* Reports what is not text and puts '?' in its place, so that the lexer meets neither; and signs beyond ASCII that are not seen. */
static void clean_encoding(struct diagnostics *diagnostics, struct source_file *source, size_t from)
{
    char *bytes = (char *)source->bytes;
    struct hidden_signs hidden = {diagnostics, source, 0};
    struct utf8_walk walk = {.bytes = bytes, .length = source->length, .at = from, .meet = hidden_signs_meet, .context = &hidden};
    while (utf8_walk_to_fault(&walk) < source->length) {
        size_t at = walk.at;
        const char *line_feed = memchr(bytes + at, '\n', source->length - at);
        size_t line_end = line_feed != NULL ? (size_t)(line_feed - bytes) : source->length;
        struct span span = {source->base + (uint32_t)at, source->base + (uint32_t)at + 1};
        bool nul = bytes[at] == '\0';
        struct diagnostic *diagnostic =
            nul ? diagnostics_add(diagnostics, DIAG_TEXT_ENCODING, span, "a NUL byte stands in the text")
                : diagnostics_add(diagnostics, DIAG_TEXT_ENCODING, span, "byte 0x%02X is not valid UTF-8",
                                  (unsigned)(unsigned char)bytes[at]);
        diagnostics_help(diagnostics, diagnostic,
                         nul ? "delete it; was the file saved as UTF-16?" : "save the file as UTF-8 and type the sign again");
        /* The rest of the line says nothing more about its own encoding. */
        bytes[at] = '?';
        utf8_mask_faults(bytes, line_end, at);
    }
}

/* Files whose lines end with a carriage return alone, as some old machines wrote them: what counts lines knows the other ends only. */
static void turn_lone_returns(struct source_file *source)
{
    char *bytes = (char *)source->bytes;
    if (memchr(bytes, '\n', source->length) != NULL) {
        return;
    }
    for (char *at = bytes; (at = memchr(at, '\r', source->length - (size_t)(at - bytes))) != NULL;) {
        *at = '\n';
    }
}

struct syntax_file *syntax_parse_to(struct builder *builder, uint32_t begin, uint32_t end)
{
    struct source_file *source = builder->file->source;
    builder->lexer.start = source->bytes;
    builder->lexer.base = source->base;
    builder->lexer.cursor = source->bytes + begin;
    builder->lexer.limit = source->bytes + end;
    builder->lexer.mode = LEX_LINE_START;
    notation_parse(builder);
    return builder->file;
}

static void start(struct builder *builder, struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                  struct source_file *source)
{
    *builder = (struct builder){.arena = arena, .names = names, .diagnostics = diagnostics};
    builder->file = ARENA_NEW(arena, struct syntax_file);
    builder->file->source = source;
}

uint32_t syntax_begin(struct builder *builder, struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                      struct source_file *source)
{
    start(builder, arena, names, diagnostics, source);
    turn_lone_returns(source);
    bool byte_order_mark = source->length >= 3 && memcmp(source->bytes, "\xEF\xBB\xBF", 3) == 0;
    const uint32_t begin = byte_order_mark ? 3 : 0;
    clean_encoding(diagnostics, source, begin);
    builder->hidden = (struct hidden_signs){diagnostics, source, 0};
    return begin;
}

struct syntax_file *syntax_parse(struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                                 struct source_file *source, bool keep_comments)
{
    struct builder builder;
    uint32_t begin = syntax_begin(&builder, arena, names, diagnostics, source);
    builder.keep_comments = keep_comments;
    return syntax_parse_to(&builder, begin, source->length);
}

struct syntax_file *syntax_parse_slice(struct arena *arena, struct names *names, struct diagnostics *diagnostics,
                                       struct source_file *source, uint32_t begin, uint32_t end)
{
    struct builder builder;
    start(&builder, arena, names, diagnostics, source);
    return syntax_parse_to(&builder, begin, end);
}
