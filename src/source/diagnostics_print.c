/* Diagnostics as a person reads them: place, message, the line, a caret, and how to mend it. */
#include "source/diagnostics.h"

#include "base/shown.h"
#include "base/utf8.h"

enum {
    LINE_SHOWN = 120 /* bytes of a source line that are shown at most */
};

struct ink {
    const char *place, *error, *warning, *caret, *help, *off;
};

static const struct ink no_ink = {"", "", "", "", "", ""};
static const struct ink terminal_ink = {"\033[1m", "\033[1;31m", "\033[1;33m", "\033[1;32m", "\033[1;36m", "\033[0m"};

static size_t start_of_character(struct text text, size_t at)
{
    while (at > 0 && at < text.length && ((unsigned char)text.at[at] & 0xC0) == 0x80) {
        at--;
    }
    return at;
}

static void print_line(const struct diagnostics *diagnostics, struct buffer *out, struct place place, struct span span,
                       const struct ink *ink)
{
    struct text line = source_line(diagnostics->sources, place);
    uint32_t line_offset = place.file->base + place.line_begin;
    size_t begin = span.begin < line_offset ? 0 : span.begin - line_offset;
    size_t end = span.end < span.begin || span.end < line_offset ? begin : span.end - line_offset;
    if (begin > line.length) {
        begin = line.length;
    }
    if (end > line.length) {
        end = line.length;
    }
    /* A long line is shown around the place. */
    size_t from = 0;
    size_t upto = line.length;
    if (line.length > LINE_SHOWN) {
        from = begin > LINE_SHOWN / 2 ? start_of_character(line, begin - LINE_SHOWN / 2) : 0;
        upto = from + LINE_SHOWN < line.length ? start_of_character(line, from + LINE_SHOWN) : line.length;
    }
    if (end > upto) {
        end = upto;
    }
    size_t before = out->length;
    buffer_number(out, place.line, 5);
    size_t margin = out->length - before;
    buffer_string(out, from > 0 ? " | …" : " | ");
    shown_add(out, (struct text){line.at + from, upto - from});
    buffer_string(out, upto < line.length ? "…\n" : "\n");
    buffer_repeat(out, ' ', margin);
    buffer_string(out, from > 0 ? " |  " : " | ");
    buffer_repeat(out, ' ', utf8_width((struct text){line.at + from, begin - from}));
    size_t width = end > begin ? utf8_width((struct text){line.at + begin, end - begin}) : 1;
    buffer_string(out, ink->caret);
    buffer_character(out, '^');
    buffer_repeat(out, '~', width > 1 ? width - 1 : 0);
    buffer_string(out, ink->off);
    buffer_character(out, '\n');
}

static void print_help(struct buffer *out, const struct buffer *words, const struct ink *ink)
{
    buffer_string(out, "      = ");
    buffer_string(out, ink->help);
    buffer_string(out, "help:");
    buffer_string(out, ink->off);
    buffer_character(out, ' ');
    shown_add(out, (struct text){words->bytes, words->length});
    buffer_character(out, '\n');
}

/* "file:line:column:" */
static void print_place(struct buffer *out, struct place place)
{
    shown_add(out, text_from(place.file->name));
    buffer_character(out, ':');
    buffer_number(out, place.line, 0);
    buffer_character(out, ':');
    buffer_number(out, place.column, 0);
    buffer_character(out, ':');
}

static void print_one(const struct diagnostics *diagnostics, struct buffer *out, struct buffer *words, const struct diagnostic *item,
                      struct place place, const struct ink *ink)
{
    bool error = item->severity == SEVERITY_ERROR;
    buffer_string(out, ink->place);
    print_place(out, place);
    buffer_string(out, ink->off);
    buffer_character(out, ' ');
    buffer_string(out, error ? ink->error : ink->warning);
    buffer_string(out, error ? "error:" : "warning:");
    buffer_string(out, ink->off);
    buffer_character(out, ' ');
    words->length = 0;
    words_print_short(words, item->message);
    shown_add(out, (struct text){words->bytes, words->length});
    buffer_string(out, " [");
    buffer_string(out, diagnostic_registry[item->id].name);
    buffer_string(out, "]\n");
    if (place.file->length > 0) { /* a file that could not be read has no line */
        print_line(diagnostics, out, place, item->span, ink);
    }
    for (const struct related *related = item->related; related != NULL; related = related->next) {
        struct place other = source_place(diagnostics->sources, related->span.begin);
        buffer_string(out, "      = ");
        print_place(out, other);
        buffer_character(out, ' ');
        shown_add(out, text_from(related->message));
        buffer_character(out, '\n');
    }
    if (item->help != NULL) {
        words->length = 0;
        words_print_short(words, item->help);
        print_help(out, words, ink);
        return;
    }
    /* The help says what the fixes do; without it their titles have to. */
    for (const struct fix *fix = item->fixes; fix != NULL; fix = fix_next(fix)) {
        words->length = 0;
        diagnostic_print_title(words, fix);
        print_help(out, words, ink);
    }
}

/* 36,647 */
static void add_grouped(struct buffer *out, size_t number)
{
    if (number >= 1000) {
        add_grouped(out, number / 1000);
        buffer_character(out, ',');
        buffer_repeat(out, '0', number % 1000 < 10 ? 2 : number % 1000 < 100 ? 1 : 0);
        number %= 1000;
    }
    buffer_number(out, number, 0);
}

void diagnostics_print(const struct diagnostics *diagnostics, struct outlet *out, bool colour, size_t most)
{
    const struct ink *ink = colour ? &terminal_ink : &no_ink;
    struct buffer words;
    buffer_start(&words, diagnostics->arena);
    size_t left[DIAGNOSTIC_IDS] = {0};
    size_t shown[DIAGNOSTIC_IDS] = {0};
    for (size_t i = 0; i < diagnostics->count; i++) {
        left[diagnostics->items[i]->id]++;
    }
    struct place place = {0};
    for (size_t i = 0; i < diagnostics->count && !out->refused; i++) {
        const struct diagnostic *item = diagnostics->items[i];
        if (item->withdrawn || (most > 0 && shown[item->id] == most)) {
            continue;
        }
        struct diagnostic explained = diagnostics_explained(diagnostics, item);
        place = source_place_from(diagnostics->sources, &place, item->span.begin);
        print_one(diagnostics, &out->text, &words, &explained, place, ink);
        size_t more = left[item->id] - ++shown[item->id];
        if (shown[item->id] == most && more > 0) {
            buffer_string(&out->text, "      = and ");
            add_grouped(&out->text, more);
            buffer_string(&out->text, " more of this kind; --all shows them\n");
        }
        outlet_pass_on(out);
    }
}
