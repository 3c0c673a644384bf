/* Repairs of lines that stand in a book as a piece of a sentence. */
#include "syntax/builder.h"

#include "base/buffer.h"
#include "syntax/sentences.h"

#include <strings.h>

static struct span span_of(const struct builder *builder, struct text text)
{
    const struct lexer *lexer = &builder->lexer;
    uint32_t begin = lexer->base + (uint32_t)(text.at - lexer->start);
    return (struct span){begin, begin + (uint32_t)text.length};
}

/* Cuts the next name of "A, B and C" off the list. */
static struct text next_name(struct text *list)
{
    size_t end = 0;
    size_t skip = 0;
    while (end < list->length && skip == 0) {
        bool comma = list->at[end] == ',' || list->at[end] == '&';
        bool and = end + 5 < list->length && strncasecmp(list->at + end, " and ", 5) == 0;
        skip = comma ? 1 : and ? 5 : 0;
        end += skip == 0;
    }
    struct text name = text_trim((struct text){list->at, end});
    *list = text_trim((struct text){list->at + end + skip, list->length - end - skip});
    return name;
}

static struct text without_end(struct text text, const char *end)
{
    size_t length = strlen(end);
    bool there = text.length > length && strncasecmp(text.at + text.length - length, end, length) == 0;
    return there ? text_trim((struct text){text.at, text.length - length}) : text;
}

/* "mix equal parts of A and B", "mix A and B in equal parts": with a repair; "mix" and anything else: with an example. */
static bool mend_mixture(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    if (line.length < 4 || strncasecmp(line.at, "mix ", 4) != 0) {
        return false;
    }
    diagnostics_help(builder->diagnostics, diagnostic, "a share stands behind each name: mix A 1 + B 1 + water 8");
    static const char equal[] = "equal parts of ";
    struct text rest = text_trim((struct text){line.at + 4, line.length - 4});
    struct text list = without_end(without_end(without_end(rest, "."), "in equal parts"), "equal parts");
    bool leads = rest.length > sizeof equal && strncasecmp(rest.at, equal, sizeof equal - 1) == 0;
    if (leads) {
        list = (struct text){rest.at + sizeof equal - 1, rest.length - (sizeof equal - 1)};
    } else if (list.length == rest.length) {
        return true;
    }
    list = without_end(text_trim(list), ",");
    struct buffer mended;
    buffer_start(&mended, builder->arena);
    buffer_string(&mended, "mix ");
    for (int count = 0; list.length > 0; count++) {
        struct text name = next_name(&list);
        if (name.length > 0) {
            buffer_format(&mended, "%s%.*s 1", count == 0 ? "" : " + ", TEXT_ARGUMENTS(name));
        }
    }
    const char *text = buffer_finish(&mended);
    diagnostics_fix(builder->diagnostics, diagnostic, span_of(builder, line), text, "%s", text);
    return true;
}

/* "half an ounce", "one ounce": the figure is written. */
static bool mend_number_word(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    static const struct {
        const char *words;
        const char *figure;
    } numbers[] = {{" half an ", "1/2"}, {" half a ", "1/2"}, {" quarter of an ", "1/4"}, {" one ", "1"},   {" two ", "2"},
                   {" three ", "3"},     {" four ", "4"},     {" five ", "5"},            {" six ", "6"},   {" seven ", "7"},
                   {" eight ", "8"},     {" nine ", "9"},     {" ten ", "10"},            {" twelve ", "12"}, {" twenty ", "20"}};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        size_t length = strlen(numbers[i].words);
        for (size_t at = 1; at + length < line.length; at++) { /* a name stands before it, and a unit behind it */
            if (strncasecmp(line.at + at, numbers[i].words, length) == 0) {
                struct text word = {line.at + at + 1, length - 2};
                diagnostics_help(builder->diagnostics, diagnostic, "write the number in figures: %s %.*s", numbers[i].figure,
                                 (int)(line.length - at - length), line.at + at + length);
                diagnostics_fix(builder->diagnostics, diagnostic, span_of(builder, word), numbers[i].figure, "%s", numbers[i].figure);
                return true;
            }
        }
    }
    return false;
}

const char *syntax_sentence(struct arena *arena, struct text line)
{
    /* Beginnings that the notation has in fewer words, and those of what is done or remarked. */
    static const struct {
        const char *begin;
        const char *instead;
    } shorter[] = {{"let stand for ", "stand "}, {"let stand ", "stand "}, {"allow to stand ", "stand "}, {"stand for ", "stand "},
                   {"cool down to ", "cool to "}, {"heat to ", "warm to "}, {"then add ", ""},            {"add ", ""}};
    static const struct {
        const char *begin;
        const char *keyword;
    } sentences[] = {{"dissolve ", "do"},   {"stir ", "do"},    {"shake ", "do"},    {"boil ", "do"},      {"let ", "do"},
                     {"allow ", "do"},      {"filter ", "do"},  {"heat ", "do"},     {"pour ", "do"},      {"decant ", "do"},
                     {"when ", "do"},       {"use ", "note"},   {"develop ", "note"}, {"take ", "note"},   {"for use", "note"},
                     {"average ", "note"},  {"keep ", "note"},  {"store ", "note"},  {"time of ", "note"}, {"rinse ", "note"},
                     {"wash ", "note"},     {"fix ", "note"},   {"immerse ", "note"}, {"tone ", "note"},   {"bleach for ", "note"},
                     {"dilute for ", "note"}, {"dilute with ", "note"}, {"this ", "note"}, {"these ", "note"}, {"the ", "note"}};
    for (size_t i = 0; i < sizeof shorter / sizeof *shorter; i++) {
        size_t length = strlen(shorter[i].begin);
        if (line.length > length && strncasecmp(line.at, shorter[i].begin, length) == 0) {
            return arena_format(arena, "%s%.*s", shorter[i].instead, (int)(line.length - length), line.at + length);
        }
    }
    for (size_t i = 0; i < sizeof sentences / sizeof *sentences; i++) {
        size_t length = strlen(sentences[i].begin);
        if (line.length > length && strncasecmp(line.at, sentences[i].begin, length) == 0) {
            char *quoted = arena_format(arena, "%s \"%.*s\"", sentences[i].keyword, TEXT_ARGUMENTS(line));
            for (char *at = quoted + strlen(sentences[i].keyword) + 2; at[1] != '\0'; at++) {
                *at = *at == '"' ? '\'' : *at;
            }
            return quoted;
        }
    }
    return NULL;
}

static bool mend_sentence(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    const char *instead = syntax_sentence(builder->arena, line);
    if (instead == NULL) {
        return false;
    }
    diagnostics_help(builder->diagnostics, diagnostic, "write it as: %s", instead);
    diagnostics_fix(builder->diagnostics, diagnostic, span_of(builder, line), instead, "%s", instead);
    return true;
}

bool syntax_mend_sentence(struct builder *builder, struct diagnostic *diagnostic, struct span span)
{
    const struct lexer *lexer = &builder->lexer;
    const char *begin = lexer->start + (span.begin - lexer->base);
    while (begin > lexer->start && begin[-1] != '\n' && begin[-1] != '\r') {
        begin--;
    }
    struct text line = text_trim((struct text){begin, strcspn(begin, "\r\n#")});
    bool in_formula = builder->open != NULL && builder->open->kind == DECLARE_FORMULA;
    return mend_mixture(builder, diagnostic, line) || (in_formula && mend_sentence(builder, diagnostic, line)) ||
           mend_number_word(builder, diagnostic, line);
}
