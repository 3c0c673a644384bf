/* Mistakes in names and forms, and in whole lines. */
#define _GNU_SOURCE

#include "mistakes/places.h"
#include "potash.h"

#include <ctype.h>
#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* ---- forms and names ---- */

static bool differs(const json_t *one, const json_t *other)
{
    static const char *const figures[] = {"molar_mass", "percent_w_w", "density_g_per_mL"};
    for (size_t i = 0; i < COUNT(figures); i++) {
        if (!json_equal(json_object_get(one, figures[i]), json_object_get(other, figures[i]))) {
            return true;
        }
    }
    return false;
}

/* Whether it matters in which form the material is weighed: boric acid is the same in crystals and as powder. */
static bool forms_differ(const char *material)
{
    struct potash *potash = potash_open(NULL);
    struct potash_output output;
    if (potash == NULL || potash_materials(potash, material, POTASH_JSON, &output) != POTASH_GOOD) {
        fprintf(stderr, "%s: no such material\n", material);
        exit(2);
    }
    json_t *all = json_loadb(output.bytes, output.length, 0, NULL);
    const json_t *forms = json_object_get(json_array_get(json_object_get(all, "materials"), 0), "forms");
    bool differ = false;
    for (size_t i = 1; i < json_array_size(forms); i++) {
        differ = differ || differs(json_array_get(forms, 0), json_array_get(forms, i));
    }
    json_decref(all);
    potash_close(potash);
    return differ;
}

size_t mistake_form_dropped(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        size_t line = sample->additions[i].line;
        struct anatomy anatomy = look_at(sample->lines.lines[line]);
        if (anatomy.form.end > anatomy.form.begin && forms_differ(sample->additions[i].material)) {
            struct piece piece = {anatomy.name.end, anatomy.form.end};
            add_mistake(mistakes, &count, with_piece(sample, line, piece, ""), line);
            mistakes[count - 1].form_counts = true;
        }
    }
    return count;
}

size_t mistake_form_exchanged(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
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
                add_mistake(mistakes, &count, with_piece(sample, line, anatomy.form, forms[f].others[draw(seed, known)]), line);
            }
        }
    }
    return count;
}

size_t mistake_misspelt(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
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
        add_mistake(mistakes, &count, with_piece(sample, addition->line, piece, letters), addition->line);
    }
    return count;
}

size_t mistake_look_alike(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
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
        {"phenidone", {"4-hydroxymethyl-4-methyl-1-phenyl-3-pyrazolidinone", "methylphenidone"}},
    };
    size_t count = 0;
    for (size_t i = 0; i < sample->addition_count; i++) {
        const struct addition *addition = &sample->additions[i];
        for (size_t a = 0; a < COUNT(alike); a++) {
            struct anatomy anatomy = look_at(sample->lines.lines[addition->line]);
            for (size_t o = 0; o < 4 && alike[a].others[o] != NULL && strcmp(alike[a].material, addition->material) == 0; o++) {
                add_mistake(mistakes, &count, with_piece(sample, addition->line, anatomy.name, alike[a].others[o]), addition->line);
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

size_t mistake_swapped(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
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

size_t mistake_dropped_only(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    return dropped(sample, mistakes, true);
}

size_t mistake_dropped_of_several(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
{
    (void)seed;
    return dropped(sample, mistakes, false);
}

size_t mistake_doubled(const struct sample *sample, uint64_t *seed, struct mistake *mistakes)
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
