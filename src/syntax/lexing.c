/* What the lexer does with a piece of text: numbers, strings, words. */
#include "syntax/lexing.h"

#include "base/number.h"
#include "base/utf8.h"
#include "syntax/builder.h"
#include "syntax/keywords.h"

#include "notation.tab.h"

static struct text view(const unsigned char *from, const unsigned char *upto)
{
    return (struct text){(const char *)from, (size_t)(upto - from)};
}


int lexing_keyword(struct builder *builder, int token, const unsigned char *from, const unsigned char *upto)
{
    bool names = token == T_ALSO || token == T_MISTAKEN_FOR || token == T_MATERIAL;
    bool declared = token == T_UNIT || token == T_ELEMENT;
    bool of_ions = token == T_PK || token == T_INERT || token == T_INTERACTION;
    builder->lexer.mode = names                                ? LEX_NAMES
                          : declared                           ? LEX_DECLARED
                          : token == T_FORM || token == T_IONS ? LEX_FORM
                          : of_ions                            ? LEX_EQUILIBRIUM
                          : token == T_TRIAL || token == T_TIME ? LEX_CONDITIONS
                          : token == T_MEANS || token == T_OFFERS || token == T_MIXED_AS ? LEX_MEANING
                                                               : LEX_REST;
    return lexing_token(builder, token, from, upto);
}

int lexing_newline(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    struct lexer *lexer = &builder->lexer;
    lexer->mode = LEX_LINE_START;
    lexer->unit_above = lexer->unit != NULL ? lexer->unit : lexer->unit_above;
    lexer->unit = NULL;
    lexing_token(builder, T_NEWLINE, from, from); /* so that the span of a line ends with its text */
    lexer->cursor = (const char *)upto;
    return T_NEWLINE;
}

int lexing_rest_of_line(struct builder *builder)
{
    struct lexer *lexer = &builder->lexer;
    lexer->cursor += strcspn(lexer->cursor, "\r\n");
    lexer->mode = LEX_REST;
    return T_UNKNOWN;
}

int lexing_end(struct builder *builder, const char *at)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *here = (const unsigned char *)at;
    /* The last line may lack its end. */
    bool line_open = lexer->mode != LEX_LINE_START;
    lexer->mode = LEX_LINE_START;
    return lexing_token(builder, line_open ? T_NEWLINE : T_END, here, here);
}

int lexing_meaning(struct builder *builder, union NOTATION_STYPE *value)
{
    const char *at = builder->lexer.cursor;
    at += strspn(at, " \t");
    struct text rest = {at, strcspn(at, "\r\n")};
    bool quoted = false; /* a comment may follow */
    for (size_t i = 0; i < rest.length; i++) {
        quoted ^= rest.at[i] == '"';
        if (rest.at[i] == '#' && !quoted) {
            rest.length = i;
        }
    }
    rest = text_trim(rest);
    builder->lexer.mode = LEX_REST;
    return lexing_view(builder, value, T_MEANING, (const unsigned char *)rest.at, (const unsigned char *)rest.at + rest.length);
}

int lexing_broken(struct builder *builder)
{
    const unsigned char *here = (const unsigned char *)builder->lexer.cursor;
    builder->lexer.mode = LEX_MEANT;
    return lexing_token(builder, T_NEWLINE, here, here);
}

int lexing_meant(struct builder *builder)
{
    struct lexer *lexer = &builder->lexer;
    const unsigned char *from = (const unsigned char *)lexer->meant_slip.at;
    lexer->line_tokens = 0;
    return lexing_keyword(builder, lexer->meant->token, from, from + lexer->meant_slip.length);
}

void lexing_remark(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    if (builder->hidden.source != NULL) {
        const char *start = builder->lexer.start;
        hidden_signs_in_text(&builder->hidden, (size_t)((const char *)from - start), (size_t)((const char *)upto - start));
    }
}

void lexing_comment(struct builder *builder, const char *from, const char *upto)
{
    struct syntax_file *file = builder->file;
    lexing_remark(builder, (const unsigned char *)from, (const unsigned char *)upto);
    if (!builder->keep_comments) {
        return;
    }
    if (file->comment_count == file->comment_capacity) {
        size_t capacity = file->comment_capacity == 0 ? 32 : file->comment_capacity * 2;
        struct span *comments = ARENA_ARRAY(builder->arena, struct span, capacity);
        if (file->comment_count > 0) {
            memcpy(comments, file->comments, file->comment_count * sizeof *comments);
        }
        file->comments = comments;
        file->comment_capacity = capacity;
    }
    const struct lexer *lexer = &builder->lexer;
    file->comments[file->comment_count++] = (struct span){lexer->base + (uint32_t)(from - lexer->start),
                                                          lexer->base + (uint32_t)(upto - lexer->start)};
}

int lexing_words(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from, const char *upto)
{
    if (builder->lexer.mode == LEX_LINE_START) {
        builder->lexer.mode = LEX_REST;
    }
    value->name = names_single(builder->names, names_find(builder->names, view(from, (const unsigned char *)upto)));
    return lexing_token(builder, T_WORDS, from, (const unsigned char *)upto);
}

int lexing_view(struct builder *builder, union NOTATION_STYPE *value, int token, const unsigned char *from,
                const unsigned char *upto)
{
    value->text = view(from, upto);
    return lexing_token(builder, token, from, upto);
}

static size_t quote_length(unsigned char first)
{
    return first == '"' ? 1 : 3; /* the curly ones take three bytes */
}

int lexing_string(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                  const unsigned char *upto)
{
    size_t quote = quote_length(*from);
    value->text = view(from + quote, upto - quote);
    lexing_remark(builder, from, upto);
    return lexing_token(builder, T_STRING, from, upto);
}

int lexing_unclosed(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                    const unsigned char *upto)
{
    lexing_remark(builder, from, upto);
    /* A comment behind the forgotten quote, or a blank, is not part of the text that was meant. */
    value->text = text_trim(view(from + quote_length(*from), upto));
    if (value->text.length == 0 && builder->lexer.previous == T_NUMBER) {
        return lexing_ditto(builder, from, from + quote_length(*from));
    }
    lexing_token(builder, T_STRING, from, upto);
    if (builder->lexer.line_told) {
        return T_STRING;
    }
    builder->lexer.line_told = true;
    struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, builder->lexer.token,
                                                    "the text in quotes is not closed on its line");
    struct span end = {builder->lexer.token.end, builder->lexer.token.end};
    diagnostics_fix(builder->diagnostics, diagnostic, end, *from == '"' ? "\"" : "”", "close it with a quote");
    return T_STRING;
}

int lexing_label(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from, const unsigned char *upto)
{
    value->text = view(from, upto);
    const unsigned char *end = upto;
    const unsigned char *at = upto;
    for (;;) {
        bool dash = *at == 0xE2 && at[1] == 0x80 && (at[2] == 0x93 || at[2] == 0x94);
        bool sign = *at == '.' || *at == ':' || *at == '-';
        if (!dash && !sign && *at != ' ' && *at != '\t') {
            break;
        }
        at += dash ? 3 : 1;
        end = dash || sign ? at : end;
    }
    bool goes_on = (*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z');
    return lexing_token(builder, T_LABEL, from, goes_on ? at : end);
}

static void say_ditto(struct builder *builder)
{
    struct lexer *lexer = &builder->lexer;
    if (lexer->line_told) {
        return;
    }
    lexer->line_told = true;
    struct diagnostic *diagnostic =
        diagnostics_add(builder->diagnostics, DIAG_SYNTAX, lexer->token, "this stands for what is printed above; each line has its own unit");
    const struct name *above = lexer->unit_above;
    if (above != NULL) {
        diagnostics_help(builder->diagnostics, diagnostic, "write the unit: %.*s", TEXT_ARGUMENTS(above->spelling));
        diagnostics_fix_as(builder->diagnostics, diagnostic, lexer->token, "write %s, as above", "%.*s", TEXT_ARGUMENTS(above->spelling));
    }
}

int lexing_ditto(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    if (builder->lexer.previous != T_NUMBER) {
        return *from == ',' ? lexing_token(builder, T_COMMA, from, from + 1) : lexing_token(builder, T_UNKNOWN, from, upto);
    }
    lexing_token(builder, T_UNKNOWN, from, upto);
    say_ditto(builder);
    return T_UNKNOWN;
}

int lexing_amount(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                  const unsigned char *upto, const char *unit_end)
{
    if (unit_end <= (const char *)upto) {
        return lexing_token(builder, T_NUMBER, from, upto);
    }
    /* Blanks and leader dots stand between; a unit starts with a letter or a degree sign. */
    const unsigned char *unit = upto;
    while (*unit == ' ') { /* as nearly always */
        unit++;
    }
    for (size_t blank; (blank = *unit == '.' ? 1 : names_blank_length(view(unit, (const unsigned char *)unit_end), 0)) > 0;) {
        unit += blank;
    }
    struct text word = view(unit, (const unsigned char *)unit_end);
    if (*unit == 'd' && (text_is(word, "do") || text_is(word, "do.") || text_is(word, "ditto"))) {
        lexing_token(builder, T_UNKNOWN, unit, (const unsigned char *)unit_end);
        say_ditto(builder);
        return T_UNKNOWN;
    }
    /* Mostly it is that of the line above. */
    struct name *above = builder->lexer.unit_above;
    bool same = above != NULL && text_equal(above->spelling, word);
    struct quantity *quantity = ARENA_NEW(builder->arena, struct quantity);
    quantity->value = value->number;
    quantity->unit = same ? above : names_find(builder->names, word);
    if (builder->lexer.unit == NULL) {
        builder->lexer.unit = quantity->unit;
    }
    lexing_token(builder, T_AMOUNT, from, (const unsigned char *)unit_end);
    quantity->span = builder->lexer.token;
    quantity->number_end = quantity->span.begin + (uint32_t)(upto - from);
    quantity->unit_span = span_make(quantity->span.end - (uint32_t)word.length, quantity->span.end);
    value->quantity = quantity;
    return T_AMOUNT;
}

double lexing_decimal(const unsigned char *from, const unsigned char *upto)
{
    return number_read(view(from, upto));
}

/* "11·5": old print sets the decimal point in the middle of the line (U+00B7). */
double lexing_raised_point(const unsigned char *from, const unsigned char *upto)
{
    char figures[64];
    size_t length = 0;
    for (const unsigned char *at = from; at < upto && length < sizeof figures - 1; at++) {
        if (*at == 0xC2) {
            figures[length++] = '.';
            at++;
        } else {
            figures[length++] = (char)*at;
        }
    }
    return number_read((struct text){figures, length});
}

/* ¼ ½ ¾ (U+00BC to U+00BE) and ⅐ to ⅞ (U+2150 to U+215E), by the Unicode names of the characters. */
static double vulgar_fraction(const unsigned char *at)
{
    static const double quarters[] = {0.25, 0.5, 0.75};
    static const double others[] = {1 / 7.0, 1 / 9.0, 0.1,     1 / 3.0, 2 / 3.0, 0.2,   0.4, 0.6,
                                    0.8,     1 / 6.0, 5 / 6.0, 0.125,   0.375,   0.625, 0.875};
    return *at == 0xC2 ? quarters[at[1] - 0xBC] : others[at[2] - 0x90];
}

double lexing_fraction(const unsigned char *from, const unsigned char *upto)
{
    double figures[3] = {0};
    int count = 0;
    double vulgar = 0;
    for (const unsigned char *at = from; at < upto;) {
        if (*at >= '0' && *at <= '9') {
            const unsigned char *start = at;
            while (at < upto && *at >= '0' && *at <= '9') {
                at++;
            }
            figures[count++] = number_read(view(start, at));
        } else if ((*at == 0xE2 && at[1] == 0x85) || (*at == 0xC2 && at[1] >= 0xBC && at[1] <= 0xBE)) {
            vulgar = vulgar_fraction(at);
            break;
        } else {
            at++;
        }
    }
    double number = vulgar > 0  ? figures[0] + vulgar
                    : count == 3 ? figures[0] + figures[1] / figures[2]
                                 : figures[0] / figures[1];
    return isfinite(number) ? number : 0; /* 1/0: reported as out of range where it is used */
}

/* "11/2" is mostly 1 1/2, as it comes out of a scan or is typed without the blank; nobody prints a half of eleven. */
static size_t run_together(const unsigned char *from, const unsigned char *upto)
{
    struct text written = view(from, upto);
    size_t slash = 0;
    while (slash < written.length && text_is_digit(written.at[slash])) {
        slash++;
    }
    /* U+2044, the slash of fractions, takes three bytes. */
    size_t length = slash >= written.length ? 0 : written.at[slash] == '/' ? 1 : (unsigned char)written.at[slash] == 0xE2 ? 3 : 0;
    if (slash < 2 || length == 0 || slash + length >= written.length) {
        return 0;
    }
    double above = number_read((struct text){written.at, slash});
    double below = number_read((struct text){written.at + slash + length, written.length - slash - length});
    size_t whole = slash == 2 || below < 10 ? slash - 1 : slash - 2; /* 15/16, but 115/16 is 1 15/16 */
    whole = whole == 0 ? 1 : whole;
    double part = number_read((struct text){written.at + whole, slash - whole});
    return above > below && part > 0 && part < below ? whole : 0;
}

double lexing_figures_of_fraction(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    size_t whole = run_together(from, upto);
    double value = lexing_fraction(from, upto);
    if (whole == 0 || builder->lexer.line_told) {
        return value;
    }
    lexing_token(builder, T_NUMBER, from, upto);
    const char *apart = arena_format(builder->arena, "%.*s %.*s", (int)whole, (const char *)from, (int)(upto - from) - (int)whole,
                                     (const char *)from + whole);
    const char *decimal = arena_format(builder->arena, "%.6g", value);
    struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, builder->lexer.token,
                                                    "%.*s is read both as %s and as %s", (int)(upto - from), (const char *)from, apart, decimal);
    diagnostics_help(builder->diagnostics, diagnostic, "write %s with a blank behind the whole number, or %s", apart, decimal);
    diagnostics_fix_writing(builder->diagnostics, diagnostic, builder->lexer.token, "%s", apart);
    diagnostics_fix_writing(builder->diagnostics, diagnostic, builder->lexer.token, "%s", decimal);
    return value;
}

double lexing_minus(const unsigned char *from, const unsigned char *upto)
{
    size_t sign = *from == '-' ? 1 : 3;
    return -number_read(text_trim(view(from + sign, upto)));
}

double lexing_decimal_comma(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    struct text digits = view(from, upto);
    char *point = arena_copy(builder->arena, digits.at, digits.length);
    *strchr(point, ',') = '.';
    char *joined = arena_copy(builder->arena, digits.at, digits.length);
    char *comma = strchr(joined, ',');
    memmove(comma, comma + 1, strlen(comma));
    size_t whole_digits = (size_t)(comma - joined);
    size_t places = strlen(point) - whole_digits - 1;
    bool grouped = places == 3 && joined[0] != '0';
    bool two_points = strchr(strchr(point, '.') + 1, '.') != NULL; /* 1,000.5 can only be a grouped thousand */
    builder->lexer.commas = true;
    lexing_token(builder, T_NUMBER, from, upto);
    double value = number_read(text_from(two_points || grouped ? joined : point));
    if (builder->lexer.line_told) { /* the rest of a line that could not be read */
        return value;
    }
    struct span span = builder->lexer.token;
    struct diagnostic *diagnostic =
        diagnostics_add(builder->diagnostics, DIAG_DECIMAL_COMMA, span,
                        two_points ? "%.*s has a comma; thousands are written without one"
                                   : "%.*s can be read as a decimal or as a number of thousands",
                        TEXT_ARGUMENTS(digits));
    const char *without_zeros = joined;
    while (without_zeros[0] == '0' && without_zeros[1] != '\0' && without_zeros[1] != '.') {
        without_zeros++;
    }
    if (!two_points) {
        diagnostics_help(builder->diagnostics, diagnostic, "write %s with a decimal point, or %s without the comma", point,
                         without_zeros);
        diagnostics_fix(builder->diagnostics, diagnostic, span, point, "write %s (the comma is a decimal point)", point);
    }
    diagnostics_fix(builder->diagnostics, diagnostic, span, without_zeros, "write %s (the comma groups thousands)",
                    without_zeros);
    return value;
}

/* "1.000" on a page that has decimal commas is a thousand. */
double lexing_thousands(struct builder *builder, const unsigned char *from, const unsigned char *upto)
{
    double value = lexing_decimal(from, upto);
    if (!builder->lexer.commas || builder->lexer.line_told) {
        return value;
    }
    lexing_token(builder, T_NUMBER, from, upto);
    struct text digits = view(from, upto);
    char *joined = arena_copy(builder->arena, digits.at, digits.length);
    char *point = strchr(joined, '.');
    memmove(point, point + 1, strlen(point));
    struct diagnostic *diagnostic =
        diagnostics_add(builder->diagnostics, DIAG_DECIMAL_COMMA, builder->lexer.token,
                        "decimal commas stand above, so that the point in %.*s may mark the thousands", TEXT_ARGUMENTS(digits));
    diagnostics_help(builder->diagnostics, diagnostic, "write %s without the point, or %.6g", joined, value);
    diagnostics_fix(builder->diagnostics, diagnostic, builder->lexer.token, joined, "write %s (the point groups thousands)", joined);
    diagnostics_fix_writing(builder->diagnostics, diagnostic, builder->lexer.token, "%.6g", value);
    return value;
}

static size_t digits_length(const char *at)
{
    return strspn(at, "0123456789.");
}

int lexing_size(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                const unsigned char *upto)
{
    const char *at = (const char *)from;
    struct sheet_size *size = ARENA_NEW(builder->arena, struct sheet_size);
    size_t length = digits_length(at);
    size->width = number_read((struct text){at, length});
    at += length;
    while (*at < '0' || *at > '9') { /* blanks and the sign of multiplication, all of whose bytes are above the digits */
        at++;
    }
    length = digits_length(at);
    size->height = number_read((struct text){at, length});
    at += length;
    struct text unit = text_trim(view((const unsigned char *)at, upto));
    size->unit = unit.length == 0 ? NULL : names_find(builder->names, unit);
    value->size = size;
    return lexing_token(builder, T_SIZE, from, upto);
}

int lexing_percent(struct builder *builder, union NOTATION_STYPE *value, const unsigned char *from,
                   const unsigned char *upto, enum percent_basis basis)
{
    value->basis = basis;
    return lexing_token(builder, T_PERCENT, from, upto);
}

enum percent_basis lexing_basis(const unsigned char *upto)
{
    bool by_volume = (upto[-3] | 0x20) == 'v';
    bool in_volume = (upto[-1] | 0x20) == 'v';
    return by_volume ? PERCENT_VOLUME_IN_VOLUME : in_volume ? PERCENT_WEIGHT_IN_VOLUME : PERCENT_WEIGHT_IN_WEIGHT;
}

size_t lexing_character(const unsigned char *at)
{
    return utf8_character_length((struct text){(const char *)at, 4});
}
