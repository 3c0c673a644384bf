/* Repairs of lines that stand in a book as a piece of a sentence. */
#define _GNU_SOURCE

#include "syntax/builder.h"

#include "base/buffer.h"
#include "syntax/apothecary.h"
#include "syntax/sentences.h"

#include <stdio.h>
#include <strings.h>

struct span syntax_span_of(const struct builder *builder, struct text text)
{
    const struct lexer *lexer = &builder->lexer;
    uint32_t begin = lexer->base + (uint32_t)(text.at - lexer->start);
    return (struct span){begin, begin + (uint32_t)text.length};
}

struct text syntax_line_of(const struct builder *builder, struct span span)
{
    const struct lexer *lexer = &builder->lexer;
    const char *begin = lexer->start + (span.begin - lexer->base);
    while (begin > lexer->start && begin[-1] != '\n' && begin[-1] != '\r') {
        begin--;
    }
    return text_trim((struct text){begin, strcspn(begin, "\r\n#")});
}

void syntax_offer_line(struct diagnostics *diagnostics, struct diagnostic *diagnostic, struct span span, const char *text)
{
    struct buffer shown; /* several lines stand in one here */
    buffer_start(&shown, diagnostics->arena);
    for (const char *at = text; *at != '\0';) {
        size_t length = strcspn(at, "\n");
        buffer_format(&shown, "%s%.*s", at == text ? "" : "; ", (int)length, at);
        at += length;
        at += strspn(at, "\n ");
    }
    const char *line = buffer_finish(&shown);
    diagnostics_help(diagnostics, diagnostic, "write it as: %s", line);
    diagnostics_fix(diagnostics, diagnostic, span, text, "write %s", line);
}

/* "mix equal parts of A and B": with a repair; "mix" and anything else: with an example. */
static bool mend_mixture(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    const char *mixed = syntax_mixture(builder->arena, line);
    if (mixed != NULL) {
        syntax_offer_line(builder->diagnostics, diagnostic, syntax_span_of(builder, line), mixed);
        return true;
    }
    if (line.length < 4 || strncasecmp(line.at, "mix ", 4) != 0) {
        return false;
    }
    diagnostics_help(builder->diagnostics, diagnostic, "a share stands behind each name: mix A 1 + B 1 + water 8");
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
                diagnostics_fix_writing(builder->diagnostics, diagnostic, syntax_span_of(builder, word), "%s", numbers[i].figure);
                return true;
            }
        }
    }
    return false;
}

static bool has_digit(struct text text)
{
    bool digit = false;
    for (size_t i = 0; i < text.length; i++) {
        digit = digit || text_is_digit(text.at[i]);
    }
    return digit;
}

/* The line as a text behind a keyword; the quotes in it become single ones. */
static const char *in_quotes(struct arena *arena, const char *keyword, struct text line)
{
    char *quoted = arena_format(arena, "%s \"%.*s\"", keyword, TEXT_ARGUMENTS(line));
    for (char *at = quoted + strlen(keyword) + 2; at[1] != '\0'; at++) {
        *at = *at == '"' ? '\'' : *at;
    }
    return quoted;
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
                     {"when ", "do"},       {"add ", "do"},      {"then ", "do"},      {"development ", "note"}, {"developing ", "note"}, {"use ", "note"},   {"develop ", "note"}, {"take ", "note"},   {"for use", "note"},
                     {"average ", "note"},  {"keep ", "note"},  {"store ", "note"},  {"time of ", "note"}, {"rinse ", "note"},
                     {"wash ", "note"},     {"fix ", "note"},   {"immerse ", "note"}, {"tone ", "note"},   {"bleach for ", "note"},
                     {"dilute for ", "note"}, {"dilute with ", "note"}, {"this ", "note"}, {"these ", "note"}, {"the ", "note"}};
    const char *told = syntax_mixture(arena, line);
    told = told != NULL ? told : syntax_use(arena, line);
    told = told != NULL ? told : syntax_working(arena, line);
    if (told != NULL) {
        return told;
    }
    for (size_t i = 0; i < sizeof shorter / sizeof *shorter; i++) {
        size_t length = strlen(shorter[i].begin);
        bool adds = shorter[i].instead[0] == '\0'; /* then a name and an amount have to follow */
        bool addition = line.length > length && !text_is_digit(line.at[length]) && has_digit(line) && memchr(line.at, ',', line.length) == NULL;
        if (line.length > length && strncasecmp(line.at, shorter[i].begin, length) == 0 && (!adds || addition)) {
            return arena_format(arena, "%s%.*s", shorter[i].instead, (int)(line.length - length), line.at + length);
        }
    }
    for (size_t i = 0; i < sizeof sentences / sizeof *sentences; i++) {
        size_t length = strlen(sentences[i].begin);
        if (line.length > length && strncasecmp(line.at, sentences[i].begin, length) == 0) {
            return in_quotes(arena, sentences[i].keyword, line);
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
    syntax_offer_line(builder->diagnostics, diagnostic, syntax_span_of(builder, line), instead);
    return true;
}

/* "Metric   Avoirdupois", over the columns of a page. */
static bool mend_column_heads(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    static const char heads[] = " metric avoirdupois avoir avoir. av av. u.s us u.s. american imperial imp. british english customary troy "
                                "apothecaries grams grammes ounces c.c c.c. cc ml parts solids liquids amount amounts quantity quantities "
                                "weight weights measure measures chemical chemicals ingredient ingredients grains system units and ";
    for (size_t at = 0; at < line.length;) {
        size_t end = at;
        while (end < line.length && line.at[end] != ' ' && line.at[end] != '\t') {
            end++;
        }
        char word[24];
        if (end - at > sizeof word - 3) {
            return false;
        }
        int length = snprintf(word, sizeof word, " %.*s ", (int)(end - at), line.at + at);
        if (length > 2 && strcasestr(heads, word) == NULL) {
            return false;
        }
        at = end + 1;
    }
    const char *comment = arena_format(builder->arena, "# %.*s", TEXT_ARGUMENTS(line));
    diagnostics_help(builder->diagnostics, diagnostic, "the heading of columns is kept as a comment");
    diagnostics_fix(builder->diagnostics, diagnostic, syntax_span_of(builder, line), comment, "write it as a comment");
    return true;
}

/* "* The anhydrous salt": a footnote. */
static bool mend_footnote(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    static const char *const marks[] = {"*", "†", "‡", "§", "¶", "¹"};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        size_t length = strlen(marks[i]);
        if (line.length > length && memcmp(line.at, marks[i], length) == 0) {
            syntax_offer_line(builder->diagnostics, diagnostic, syntax_span_of(builder, line), in_quotes(builder->arena, "note", line));
            return true;
        }
    }
    return false;
}

/* "A few drops of ammonia": the name comes first. */
static bool mend_few_drops(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    static const char *const begins[] = {"a few drops of ", "few drops of ", "few drops ", "a little ", "a trace of ", "a pinch of "};
    for (size_t i = 0; i < sizeof begins / sizeof *begins; i++) {
        size_t length = strlen(begins[i]);
        if (line.length > length && strncasecmp(line.at, begins[i], length) == 0) {
            const char *turned = arena_format(builder->arena, "%.*s as needed note \"%.*s\"", (int)(line.length - length), line.at + length,
                                              TEXT_ARGUMENTS(line));
            syntax_offer_line(builder->diagnostics, diagnostic, syntax_span_of(builder, line), turned);
            return true;
        }
    }
    return false;
}

/* "Glycin —", "Glycin nil": nothing of it. */
static bool mend_nothing(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    static const char *const ends[] = {"—", "–", " -", " nil", " none", " nil.", " none."};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        size_t length = strlen(ends[i]);
        if (line.length > length && strncasecmp(line.at + line.length - length, ends[i], length) == 0) {
            diagnostics_help(builder->diagnostics, diagnostic, "what a formula has nothing of has no line in it");
            diagnostics_fix(builder->diagnostics, diagnostic, syntax_span_of(builder, line), "", "leave this line out");
            return true;
        }
    }
    return false;
}

/* "gr. xx": the figure is written in ours, and the unit behind it. */
static bool mend_apothecary(struct builder *builder, struct diagnostic *diagnostic, struct text line)
{
    struct apothecary_amount amount = apothecary_read(builder->arena, line);
    if (amount.readings[0] == NULL) {
        return false;
    }
    if (amount.readings[1] != NULL) {
        diagnostics_help(builder->diagnostics, diagnostic, "the 3 stands for the sign of the dram or of the ounce: %s or %s",
                         amount.readings[0], amount.readings[1]);
    } else {
        diagnostics_help(builder->diagnostics, diagnostic, "the figure comes first, in figures of ours: %s",
                         amount.readings[0]);
    }
    for (int i = 0; i < APOTHECARY_READINGS && amount.readings[i] != NULL; i++) {
        diagnostics_fix_writing(builder->diagnostics, diagnostic, syntax_span_of(builder, amount.written), "%s", amount.readings[i]);
    }
    return true;
}

bool syntax_mend_sentence(struct builder *builder, struct diagnostic *diagnostic, struct span span)
{
    struct text line = syntax_line_of(builder, span);
    if (line.length > LONGEST_SENTENCE) {
        return false;
    }
    bool in_formula = builder->open != NULL && builder->open->kind == DECLARE_FORMULA;
    return mend_apothecary(builder, diagnostic, line) || mend_few_drops(builder, diagnostic, line) ||
           (in_formula && (mend_nothing(builder, diagnostic, line) || mend_column_heads(builder, diagnostic, line) ||
                           mend_footnote(builder, diagnostic, line))) || mend_mixture(builder, diagnostic, line) || (in_formula && mend_sentence(builder, diagnostic, line)) ||
           mend_number_word(builder, diagnostic, line);
}
