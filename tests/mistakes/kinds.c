/* The sorts of mistakes that people make when they type a formula. */
#define _GNU_SOURCE

#include "mistakes/mistakes.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

uint64_t draw(uint64_t *seed, uint64_t below)
{
    uint64_t z = (*seed += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (z ^ (z >> 31)) % below;
}

struct text_lines cut_lines(const char *text)
{
    struct text_lines lines = {.count = 0};
    while (*text != '\0' && lines.count < MOST_LINES) {
        size_t length = strcspn(text, "\n");
        lines.lines[lines.count++] = strndup(text, length);
        text += length + (text[length] == '\n');
    }
    return lines;
}

char *join_lines(const struct text_lines *lines)
{
    size_t length = 1;
    for (size_t i = 0; i < lines->count; i++) {
        length += strlen(lines->lines[i]) + 1;
    }
    char *text = malloc(length);
    char *at = text;
    for (size_t i = 0; i < lines->count; i++) {
        at += sprintf(at, "%s\n", lines->lines[i]);
    }
    *at = '\0';
    return text;
}

void free_lines(struct text_lines *lines)
{
    for (size_t i = 0; i < lines->count; i++) {
        free(lines->lines[i]);
    }
    lines->count = 0;
}

/* ---- places in a line ---- */

struct piece {
    size_t begin;
    size_t end;
};

static bool is_figure(const char *at)
{
    return isdigit((unsigned char)*at) || strncmp(at, "\xC2\xBC", 2) == 0 || strncmp(at, "\xC2\xBD", 2) == 0 ||
           strncmp(at, "\xC2\xBE", 2) == 0;
}

/* An addition's line: name, bracket, figure and unit.  False when it is not written so simply. */
struct anatomy {
    struct piece name;
    struct piece form;     /* with its brackets; empty when there is none */
    struct piece number;   /* a plain decimal */
    struct piece unit;
    bool plain;            /* number and unit are there */
};

static struct anatomy look_at(const char *line)
{
    struct anatomy anatomy = {.plain = false};
    size_t at = strspn(line, " \t");
    anatomy.name.begin = at;
    while (line[at] != '\0' && line[at] != '(' && !(is_figure(line + at) && line[at - 1] == ' ') &&
           strncmp(line + at, "to make", 7) != 0 && strncmp(line + at, "as needed", 9) != 0) {
        at++;
    }
    size_t end = at;
    while (end > anatomy.name.begin && strchr(" .", line[end - 1]) != NULL) {
        end--;
    }
    anatomy.name.end = end;
    if (line[at] == '(') {
        anatomy.form.begin = at;
        at += strcspn(line + at, ")") + 1;
        anatomy.form.end = at;
    }
    while (line[at] != '\0' && line[at] != '"' && !is_figure(line + at)) {
        at++;
    }
    size_t digits = strspn(line + at, "0123456789");
    if (digits == 0) {
        return anatomy;
    }
    anatomy.number.begin = at;
    at += digits;
    if (line[at] == '.' && isdigit((unsigned char)line[at + 1])) {
        at += 1 + strspn(line + at + 1, "0123456789");
    }
    anatomy.number.end = at;
    if (line[at] == '/' || (unsigned char)line[at] >= 0x80) {
        return anatomy;
    }
    at += strspn(line + at, " ");
    if (is_figure(line + at) || strncmp(line + at, "to ", 3) == 0) {
        return anatomy;
    }
    anatomy.unit.begin = at;
    anatomy.unit.end = at + strcspn(line + at, " \t");
    anatomy.plain = anatomy.unit.end > anatomy.unit.begin;
    return anatomy;
}

static bool piece_is(const char *line, struct piece piece, const char *const *words)
{
    for (; *words != NULL; words++) {
        if (strlen(*words) == piece.end - piece.begin && strncasecmp(line + piece.begin, *words, strlen(*words)) == 0) {
            return true;
        }
    }
    return false;
}

static double number_in(const char *line, struct piece piece)
{
    char digits[40];
    snprintf(digits, sizeof digits, "%.*s", (int)(piece.end - piece.begin), line + piece.begin);
    return strtod(digits, NULL);
}

/* The sample with a piece of one line replaced. */
static char *with_piece(const struct sample *sample, size_t line, struct piece piece, const char *text)
{
    struct text_lines lines = sample->lines;
    char *changed = NULL;
    if (asprintf(&changed, "%.*s%s%s", (int)piece.begin, lines.lines[line], text, lines.lines[line] + piece.end) < 0) {
        abort();
    }
    lines.lines[line] = changed;
    char *whole = join_lines(&lines);
    free(changed);
    return whole;
}

static void add(struct mistake *mistakes, size_t *count, char *wrong, size_t line)
{
    if (*count < MOST_SITES) {
        mistakes[(*count)++] = (struct mistake){.wrong = wrong, .lines = {line}, .line_count = 1};
    } else {
        free(wrong);
    }
}

/* ---- amounts ---- */

static size_t point_moved(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        const char *line = sample->lines.lines[addition->line];
        struct anatomy anatomy = look_at(line);
        if (addition->water || !anatomy.plain) {
            continue;
        }
        char figure[40];
        snprintf(figure, sizeof figure, "%.10g", number_in(line, anatomy.number) * (draw(seed, 2) == 0 ? 10 : 0.1));
        add(mistakes, &count, with_piece(sample, addition->line, anatomy.number, figure), addition->line);
    }
    return count;
}

static size_t unit_exchanged(const struct sample *sample, struct mistake *mistakes, const char *const *from, const char *to,
                             bool water)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        const char *line = sample->lines.lines[addition->line];
        struct anatomy anatomy = look_at(line);
        if (anatomy.plain && (water || !addition->water) && piece_is(line, anatomy.unit, from)) {
            add(mistakes, &count, with_piece(sample, addition->line, anatomy.unit, to), addition->line);
        }
    }
    return count;
}

static const char *const grams[] = {"g", "gram", "grams", "gm", "gms", NULL};
static const char *const milligrams[] = {"mg", NULL};
static const char *const millilitres[] = {"mL", "c.c.", "cc", "ccm", NULL};
static const char *const litres[] = {"L", "liter", "litre", NULL};
static const char *const grains[] = {"grain", "grains", NULL};
static const char *const ounces[] = {"oz", "oz.", "ounce", "ounces", NULL};

static size_t grams_milligrams(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = unit_exchanged(sample, mistakes, grams, "mg", false);
    return count + unit_exchanged(sample, mistakes + count, milligrams, "g", false);
}

static size_t grams_millilitres(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    return unit_exchanged(sample, mistakes, grams, "mL", false);
}

static size_t millilitres_litres(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = unit_exchanged(sample, mistakes, millilitres, "L", true);
    return count + unit_exchanged(sample, mistakes + count, litres, "mL", true);
}

static size_t grains_grams(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = unit_exchanged(sample, mistakes, grams, "gr", false);
    count += unit_exchanged(sample, mistakes + count, grains, "gr", false);
    return count + unit_exchanged(sample, mistakes + count, grains, "g", false);
}

static size_t ounces_fluid(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        const char *line = sample->lines.lines[addition->line];
        struct anatomy anatomy = look_at(line);
        bool apothecaries = anatomy.plain && strncmp(line + anatomy.unit.end, " ap", 3) == 0;
        /* The ounce of a liquid is the fluid one anyway. */
        if (anatomy.plain && !addition->liquid && !apothecaries && piece_is(line, anatomy.unit, ounces) &&
            strstr(line, "stock") == NULL && strstr(line, "solution") == NULL) {
            add(mistakes, &count, with_piece(sample, addition->line, anatomy.unit, "fl oz"), addition->line);
        }
    }
    return count;
}

static size_t stock_percent(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        size_t number = sample->additions[i].line;
        const char *line = sample->lines.lines[number];
        const char *percent = strstr(line, "% stock");
        if (percent == NULL || strncmp(line, "stock ", 6) == 0) {
            continue;
        }
        size_t end = (size_t)(percent - line);
        while (end > 0 && line[end - 1] == ' ') {
            end--;
        }
        size_t begin = end;
        while (begin > 0 && (isdigit((unsigned char)line[begin - 1]) || line[begin - 1] == '.')) {
            begin--;
        }
        struct piece piece = {begin, end};
        double was = number_in(line, piece);
        char figure[40];
        snprintf(figure, sizeof figure, "%.10g", was * (was <= 10 && draw(seed, 2) == 0 ? 10 : 0.1));
        add(mistakes, &count, with_piece(sample, number, piece, figure), number);
    }
    return count;
}

static size_t final_volume(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    static const double factors[] = {0.1, 0.5, 2, 5, 10};
    size_t count = 0;
    for (size_t i = 0; i < sample->lines.count; i++) {
        const char *line = sample->lines.lines[i];
        const char *make = strstr(line, "to make");
        if (make == NULL || strchr(line, '#') != NULL) {
            continue;
        }
        struct anatomy anatomy = look_at(line);
        if (anatomy.plain) {
            char figure[40];
            snprintf(figure, sizeof figure, "%.10g", number_in(line, anatomy.number) * factors[draw(seed, COUNT(factors))]);
            add(mistakes, &count, with_piece(sample, i, anatomy.number, figure), i);
        }
    }
    return count;
}

/* ---- ratios and temperatures ---- */

static const char *ratio_in(const char *line, struct piece *water)
{
    const char *at = line + strspn(line, " ");
    if (strncmp(at, "dilute", 6) != 0) {
        return NULL;
    }
    const char *plus = strchr(at, '+');
    if (plus != NULL) {
        water->begin = (size_t)(plus + 1 - line);
        water->end = water->begin + strspn(plus + 1, "0123456789");
    }
    return plus;
}

static size_t colon_ratio(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->lines.count; i++) {
        struct piece water;
        const char *plus = ratio_in(sample->lines.lines[i], &water);
        if (plus != NULL) {
            struct piece piece = {water.begin - 1, water.begin};
            add(mistakes, &count, with_piece(sample, i, piece, ":"), i);
        }
    }
    return count;
}

static size_t dilution_digit(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->lines.count; i++) {
        struct piece water;
        if (ratio_in(sample->lines.lines[i], &water) != NULL) {
            char digit[2] = {(char)('0' + draw(seed, 10)), '\0'};
            size_t place = water.begin + 1 + draw(seed, water.end - water.begin);
            add(mistakes, &count, with_piece(sample, i, (struct piece){place, place}, digit), i);
        }
    }
    return count;
}

static size_t fahrenheit(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->lines.count; i++) {
        const char *line = sample->lines.lines[i];
        const char *degree = strstr(line, "°");
        const char *quote = strchr(line, '"');
        if (degree == NULL || (quote != NULL && quote < degree) || strchr(line, '#') != NULL || strstr(line, "per 10") != NULL) {
            continue;
        }
        size_t sign = (size_t)(degree - line) + strlen("°");
        while (line[sign] == ' ') {
            sign++;
        }
        struct piece letter = {sign, sign + 1};
        if (line[sign] == 'F') {
            add(mistakes, &count, with_piece(sample, i, letter, "C"), i);
            continue;
        }
        /* The right text is the same temperature in °F; the mistake is the letter. */
        size_t begin = (size_t)(degree - line);
        while (begin > 0 && strchr("0123456789. ", line[begin - 1]) != NULL) {
            begin--;
        }
        begin += strspn(line + begin, " ");
        struct piece all = {begin, sign + 1};
        char figures[60];
        /* "18 to 22 °C": both ends. */
        double high = number_in(line, all);
        const char *to = strstr(line, " to ");
        if (to != NULL && to < degree && isdigit((unsigned char)to[-1])) {
            size_t first = (size_t)(to - line);
            while (first > 0 && isdigit((unsigned char)line[first - 1])) {
                first--;
            }
            all.begin = first;
            snprintf(figures, sizeof figures, "%.0f to %.0f °", number_in(line, (struct piece){first, (size_t)(to - line)}) * 1.8 + 32,
                     high * 1.8 + 32);
        } else {
            snprintf(figures, sizeof figures, "%.0f °", high * 1.8 + 32);
        }
        char written[80];
        snprintf(written, sizeof written, "%sC", figures);
        add(mistakes, &count, with_piece(sample, i, all, written), i);
        snprintf(written, sizeof written, "%sF", figures);
        mistakes[count - 1].right = with_piece(sample, i, all, written);
    }
    return count;
}

/* ---- forms and names ---- */

static size_t form_dropped(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        size_t line = sample->additions[i].line;
        struct anatomy anatomy = look_at(sample->lines.lines[line]);
        if (anatomy.form.end > anatomy.form.begin) {
            struct piece piece = {anatomy.name.end, anatomy.form.end};
            add(mistakes, &count, with_piece(sample, line, piece, ""), line);
            mistakes[count - 1].form_counts = true;
        }
    }
    return count;
}

static size_t form_exchanged(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    static const struct {
        const char *form;
        const char *others[3];
    } forms[] = {{"(anhydrous)", {"(crystals)", "(monohydrate)", "(decahydrate)"}}, {"(pentahydrate)", {"(anhydrous)"}},
                 {"(decahydrate)", {"(anhydrous)", "(pentahydrate)"}}, {"(monohydrate)", {"(anhydrous)"}},
                 {"(crystalline)", {"(anhydrous)"}}, {"(crystals)", {"(anhydrous)"}}, {"(glacial)", {"(28 %)"}}};
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        size_t line = sample->additions[i].line;
        struct anatomy anatomy = look_at(sample->lines.lines[line]);
        for (size_t f = 0; f < COUNT(forms); f++) {
            size_t length = anatomy.form.end - anatomy.form.begin;
            if (length == strlen(forms[f].form) &&
                strncmp(sample->lines.lines[line] + anatomy.form.begin, forms[f].form, length) == 0) {
                size_t known = 0;
                while (known < 3 && forms[f].others[known] != NULL) {
                    known++;
                }
                add(mistakes, &count, with_piece(sample, line, anatomy.form, forms[f].others[draw(seed, known)]), line);
            }
        }
    }
    return count;
}

static size_t misspelt(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        const char *line = sample->lines.lines[addition->line];
        struct anatomy anatomy = look_at(line);
        size_t length = anatomy.name.end - anatomy.name.begin;
        if (addition->water || length < 4 || strncmp(line + anatomy.name.begin, "solution", 8) == 0) {
            continue;
        }
        size_t at;
        do {
            at = anatomy.name.begin + 1 + draw(seed, length - 2);
        } while (!isalpha((unsigned char)line[at]) || !isalpha((unsigned char)line[at + 1]) || line[at] == line[at + 1]);
        char letters[4] = {0};
        struct piece piece = {at, at + 1};
        switch (draw(seed, 4)) {
        case 0: /* left out */
            break;
        case 1: /* doubled */
            letters[0] = letters[1] = line[at];
            break;
        case 2: /* two exchanged */
            piece.end = at + 2;
            letters[0] = line[at + 1];
            letters[1] = line[at];
            break;
        default: /* another letter */
            letters[0] = (char)('a' + (line[at] - 'a' + 1 + (int)draw(seed, 24) + 26) % 26);
            break;
        }
        add(mistakes, &count, with_piece(sample, addition->line, piece, letters), addition->line);
    }
    return count;
}

static size_t look_alike(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    static const struct {
        const char *material;
        const char *others[4];
    } alike[] = {
        {"sodium sulfite", {"sodium sulfate", "sodium sulfide", "sodium thiosulfate", "sodium bisulfite"}},
        {"sodium thiosulfate", {"sodium sulfate", "sodium sulfite", "sodium sulfide"}},
        {"sodium bisulfite", {"sodium bisulfate", "sodium bicarbonate"}},
        {"sodium metabisulfite", {"sodium bisulfate"}},
        {"potassium ferricyanide", {"potassium ferrocyanide"}},
        {"potassium ferrocyanide", {"potassium ferricyanide"}},
        {"sodium carbonate", {"sodium bicarbonate"}},
        {"potassium carbonate", {"potassium bicarbonate"}},
        {"sodium chloride", {"sodium chlorate"}},
        {"potassium chloride", {"potassium chlorate"}},
        {"potassium bromide", {"potassium bromate"}},
        {"phenidone", {"dimezone s", "methylphenidone"}},
    };
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        for (size_t a = 0; a < COUNT(alike); a++) {
            struct anatomy anatomy = look_at(sample->lines.lines[addition->line]);
            for (size_t o = 0; o < 4 && alike[a].others[o] != NULL && strcmp(alike[a].material, addition->material) == 0; o++) {
                add(mistakes, &count, with_piece(sample, addition->line, anatomy.name, alike[a].others[o]), addition->line);
            }
        }
    }
    (void)seed;
    return count;
}

/* ---- lines ---- */

enum class { CLASS_NONE, CLASS_METOL, CLASS_AGENT, CLASS_ALKALI, CLASS_SULFITE, CLASS_RESTRAINER, CLASS_FIXING, CLASS_ACID, CLASS_ALUM };

static enum class class_of(const char *material)
{
    static const struct {
        enum class class;
        const char *material;
    } classes[] = {
        {CLASS_METOL, "metol"},           {CLASS_AGENT, "hydroquinone"},      {CLASS_AGENT, "phenidone"},
        {CLASS_AGENT, "pyrogallol"},      {CLASS_AGENT, "catechol"},          {CLASS_AGENT, "amidol"},
        {CLASS_AGENT, "glycin"},          {CLASS_AGENT, "hydroxylamine hydrochloride"},
        {CLASS_ALKALI, "sodium carbonate"}, {CLASS_ALKALI, "potassium carbonate"}, {CLASS_ALKALI, "borax"},
        {CLASS_ALKALI, "sodium hydroxide"}, {CLASS_ALKALI, "ammonia"},        {CLASS_ALKALI, "ammonium carbonate"},
        {CLASS_SULFITE, "sodium sulfite"}, {CLASS_SULFITE, "sodium metabisulfite"}, {CLASS_SULFITE, "potassium metabisulfite"},
        {CLASS_SULFITE, "sodium bisulfite"},
        {CLASS_RESTRAINER, "potassium bromide"}, {CLASS_RESTRAINER, "ammonium bromide"}, {CLASS_RESTRAINER, "benzotriazole"},
        {CLASS_FIXING, "sodium thiosulfate"}, {CLASS_FIXING, "ammonium thiosulfate"},
        {CLASS_ACID, "acetic acid"}, {CLASS_ACID, "citric acid"}, {CLASS_ACID, "sulfuric acid"}, {CLASS_ACID, "hydrochloric acid"},
        {CLASS_ALUM, "potassium alum"}, {CLASS_ALUM, "chrome alum"},
    };
    for (size_t i = 0; i < COUNT(classes); i++) {
        if (strcmp(classes[i].material, material) == 0) {
            return classes[i].class;
        }
    }
    return CLASS_NONE;
}

/* Pairs whose order matters, the first before the second; common practice. */
static bool order_matters(const struct sample *sample, const struct addition *first, const struct addition *second)
{
    enum class a = class_of(first->material);
    enum class b = class_of(second->material);
    bool neutral = strcmp(first->material, "sodium sulfite") == 0;
    if (strcmp(sample->kind, "developer") == 0) {
        return (a == CLASS_METOL && strcmp(second->material, "sodium sulfite") == 0 && second->g_per_L > 10) ||
               (a == CLASS_SULFITE && b == CLASS_AGENT && strcmp(second->material, "phenidone") != 0) ||
               ((a == CLASS_METOL || (a == CLASS_AGENT && strcmp(first->material, "phenidone") != 0)) && b == CLASS_ALKALI &&
                strcmp(second->material, "borax") != 0);
    }
    if (strcmp(sample->kind, "fixer") == 0) {
        return (neutral && b == CLASS_ACID) || (neutral && strstr(second->material, "bisulfite") != NULL) ||
               (a == CLASS_ACID && b == CLASS_ALUM);
    }
    return false;
}

/* Only where the list is in the order of mixing: it begins with water. */
static bool begins_with_water(const struct sample *sample, size_t part)
{
    for (size_t i = 0; i < sample->addition_count; i++) {
        if (sample->additions[i].part == part) {
            return sample->additions[i].water;
        }
    }
    return false;
}

static size_t swapped(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        for (size_t k = i + 1; k < sample->addition_count; k++) {
            const struct addition *first = &sample->additions[i];
            const struct addition *second = &sample->additions[k];
            if (first->part != second->part || !begins_with_water(sample, first->part) ||
                !order_matters(sample, first, second) || count >= MOST_SITES) {
                continue;
            }
            struct text_lines lines = sample->lines;
            lines.lines[first->line] = sample->lines.lines[second->line];
            lines.lines[second->line] = sample->lines.lines[first->line];
            mistakes[count++] = (struct mistake){
                .wrong = join_lines(&lines), .lines = {first->line, second->line}, .line_count = 2};
        }
    }
    return count;
}

static size_t dropped(const struct sample *sample, struct mistake *mistakes, bool only)
{
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        enum class class = class_of(sample->additions[i].material);
        bool developer = strcmp(sample->kind, "developer") == 0;
        bool fixer = strcmp(sample->kind, "fixer") == 0;
        bool needed = (developer && class != CLASS_NONE && class != CLASS_ACID && class != CLASS_FIXING && class != CLASS_ALUM) ||
                      (fixer && (class == CLASS_FIXING || class == CLASS_SULFITE));
        class = class == CLASS_METOL ? CLASS_AGENT : class;
        size_t like = 0;
        for (size_t k = 0; k < sample->addition_count; k++) {
            enum class other = class_of(sample->additions[k].material);
            like += (other == CLASS_METOL ? CLASS_AGENT : other) == class;
        }
        if (!needed || (like == 1) != only || count >= MOST_SITES) {
            continue;
        }
        size_t line = sample->additions[i].line;
        struct text_lines lines = sample->lines;
        memmove(&lines.lines[line], &lines.lines[line + 1], (lines.count - line - 1) * sizeof *lines.lines);
        lines.count--;
        mistakes[count++] = (struct mistake){.wrong = join_lines(&lines),
                                             .lines = {sample->heading, sample->kind_line, line - 1, line},
                                             .line_count = 4};
    }
    return count;
}

static size_t dropped_only(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    return dropped(sample, mistakes, true);
}

static size_t dropped_of_several(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    return dropped(sample, mistakes, false);
}

static size_t doubled(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count && count < MOST_SITES; i++) {
        if (sample->additions[i].water || sample->lines.count + 1 >= MOST_LINES) {
            continue;
        }
        size_t line = sample->additions[i].line;
        struct text_lines lines = sample->lines;
        memmove(&lines.lines[line + 1], &lines.lines[line], (lines.count - line) * sizeof *lines.lines);
        lines.count++;
        mistakes[count++] =
            (struct mistake){.wrong = join_lines(&lines), .lines = {line, line + 1}, .line_count = 2};
    }
    return count;
}

const struct mistake_kind mistake_kinds[] = {
    {"decimal point moved", point_moved},
    {"g and mg exchanged", grams_milligrams},
    {"g and mL exchanged", grams_millilitres},
    {"mL and L exchanged", millilitres_litres},
    {"grains and grams exchanged, or gr", grains_grams},
    {"oz and fl oz exchanged", ounces_fluid},
    {"stock wrong by ten", stock_percent},
    {"ratio with a colon", colon_ratio},
    {"form dropped", form_dropped},
    {"form exchanged", form_exchanged},
    {"two lines swapped, order matters", swapped},
    {"line dropped, the only one of its role", dropped_only},
    {"line dropped, one of several", dropped_of_several},
    {"line doubled", doubled},
    {"look-alike material", look_alike},
    {"name misspelt", misspelt},
    {"°F taken for °C", fahrenheit},
    {"final volume of another batch", final_volume},
    {"dilution with a figure too many", dilution_digit},
};
const size_t mistake_kind_count = COUNT(mistake_kinds);
