/* Asks the parser what it would take: a sign without meaning is put at the end, and what it says of that is the answer. */
#include "syntax/expected.h"

#include "syntax/builder.h"

struct syntax_expected syntax_expect(struct arena *arena, struct text text)
{
    static const char probe[] = "`\n";
    struct syntax_expected expected = {.count = 0};
    struct source_set *sources = ARENA_NEW(arena, struct source_set);
    struct diagnostics *aside = ARENA_NEW(arena, struct diagnostics);
    struct names *names = ARENA_NEW(arena, struct names);
    source_start(sources, arena);
    diagnostics_start(aside, arena, sources);
    names_start(names, arena);
    size_t length = text.length + sizeof probe - 1;
    char *bytes = arena_allocate(arena, length + 1);
    memcpy(bytes, text.at, text.length);
    memcpy(bytes + text.length, probe, sizeof probe);
    struct source_file *source = source_add(sources, "", bytes, length, false);
    if (source == NULL) {
        return expected;
    }
    expected.at = source->base + (uint32_t)text.length;
    struct builder builder;
    uint32_t begin = syntax_begin(&builder, arena, names, aside, source);
    builder.expected = &expected;
    syntax_parse_to(&builder, begin, source->length);
    return expected;
}
