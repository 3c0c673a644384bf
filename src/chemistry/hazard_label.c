/* The label of a mixture: Regulation (EC) No 1272/2008, articles 20 to 28, with the statements of Annexes III and IV. */
#include "chemistry/hazard_rules.h"

#include <math.h>

enum { MOST_PRECAUTIONS = 6 /* article 28(3) */, MOST_CODES = 64 };

/* ---- pictograms ---- */

static const struct {
    const char *code;
    const char *name;
} pictograms[] = {{"GHS01", "exploding bomb"}, {"GHS02", "flame"},           {"GHS03", "flame over circle"},
                  {"GHS04", "gas cylinder"},   {"GHS05", "corrosion"},       {"GHS06", "skull and crossbones"},
                  {"GHS07", "exclamation mark"}, {"GHS08", "health hazard"}, {"GHS09", "environment"}};

static bool class_has(const struct hazard_class *class, const char *pictogram)
{
    return class->pictogram != NULL && strcmp(class->pictogram, pictogram) == 0;
}

static bool any_has(const struct hazard_result *results, const char *pictogram)
{
    bool found = false;
    for (const struct hazard_result *result = results; result != NULL; result = result->next) {
        found = found || class_has(result->class, pictogram);
    }
    return found;
}

static bool any_of(const struct hazard_result *results, enum hazard_family family)
{
    bool found = false;
    for (const struct hazard_result *result = results; result != NULL; result = result->next) {
        found = found || result->class->family == family;
    }
    return found;
}

/* Article 26: which signs give way.  The exclamation mark never stands beside the skull; nor for skin and eyes beside the
 * corrosion sign; nor for skin and eyes, and sensitisation of the skin, beside the health hazard of a sensitiser of the
 * airways.  Flame and flame over circle may be left out beside the bomb. */
static bool shows(const struct hazard_result *results, const struct hazard_result *result)
{
    enum hazard_family family = result->class->family;
    bool of_contact = family == FAMILY_SKIN || family == FAMILY_EYE;
    if (class_has(result->class, "GHS07")) {
        bool skull = any_has(results, "GHS06");
        bool corrosion = of_contact && (any_of(results, FAMILY_SKIN) || any_of(results, FAMILY_EYE)) && any_has(results, "GHS05");
        bool airways = (of_contact || family == FAMILY_SKIN_SENSITISER) && any_of(results, FAMILY_AIRWAYS_SENSITISER);
        return !skull && !corrosion && !airways;
    }
    return true;
}

static void choose_pictograms(struct mixture_safety *safety)
{
    for (size_t i = 0; i < sizeof pictograms / sizeof *pictograms; i++) {
        bool shown = false;
        for (const struct hazard_result *result = safety->classes; result != NULL; result = result->next) {
            shown = shown || (class_has(result->class, pictograms[i].code) && shows(safety->classes, result));
        }
        if (shown) {
            safety->pictograms[safety->pictogram_count++] =
                (struct safety_pictogram){text_from(pictograms[i].code), text_from(pictograms[i].name)};
        }
    }
}

/* ---- hazard statements ---- */

static bool has_code(const struct hazard_result *results, const char *code)
{
    bool found = false;
    for (const struct hazard_result *result = results; result != NULL; result = result->next) {
        found = found || text_is(result->code, code);
    }
    return found;
}

/* Article 27: what says the same again is left out.  H410 covers H400 (Annex III, part 1); H314 covers H318, and H350 its way
 * by inhalation. */
static void omit_statements(struct hazard_result *results)
{
    static const struct {
        const char *code;
        const char *covered_by;
    } covered[] = {{"H318", "H314"}, {"H319", "H314"}, {"H400", "H410"}, {"H350i", "H350"}};
    for (struct hazard_result *result = results; result != NULL; result = result->next) {
        for (size_t i = 0; i < sizeof covered / sizeof *covered; i++) {
            result->omitted = result->omitted || (text_is(result->code, covered[i].code) &&
                                                  has_code(results, covered[i].covered_by));
        }
    }
}

struct text phrase_words(const struct declaration *phrase)
{
    return phrase->phrase != NULL && phrase->phrase->says.length > 0 ? phrase->phrase->says : phrase->title;
}

bool phrase_answers(const struct declaration *phrase, const struct hazard_result *results)
{
    for (const struct word *word = phrase->phrase == NULL ? NULL : phrase->phrase->codes; word != NULL; word = word->next) {
        struct text code = word->name->spelling;
        for (const struct hazard_result *result = results; result != NULL; result = result->next) {
            if (text_equal(code, result->code) || text_is(code, result->class->code)) {
                return true;
            }
        }
    }
    return false;
}

static struct text words_of(struct library *library, struct text code)
{
    const struct declaration *phrase = library_phrase(library, code);
    return phrase == NULL ? (struct text){0} : phrase_words(phrase);
}

static struct safety_statement *append(struct arena *arena, struct safety_statement **list, struct text code, struct text words)
{
    struct safety_statement *statement = ARENA_NEW(arena, struct safety_statement);
    while (*list != NULL) {
        list = &(*list)->next;
    }
    statement->code = code;
    statement->text = words;
    return *list = statement;
}

/* "Contains metol. May produce an allergic reaction": the standard's text has dots where the names stand. */
static struct text name_sensitisers(struct arena *arena, struct text words, const struct hazard_result *result)
{
    struct buffer out;
    buffer_start(&out, arena);
    size_t at = 0;
    while (at < words.length && words.at[at] != '<') {
        at++;
    }
    buffer_add(&out, words.at, at);
    for (const struct hazard_cause *cause = result->because; cause != NULL; cause = cause->next) {
        buffer_format(&out, "%s%.*s", cause == result->because ? "" : ", ", TEXT_ARGUMENTS(cause->material));
    }
    while (at < words.length && words.at[at] != '>') {
        at++;
    }
    if (at < words.length) {
        buffer_add(&out, words.at + at + 1, words.length - at - 1);
    }
    return text_from(buffer_finish(&out));
}

/* Adds the statements of the classes with that signal word.  Those of acute toxicity of one severity are one sentence (Annex III,
 * table 1.2): H302+H312. */
static void list_statements(struct arena *arena, struct library *library, struct mixture_safety *safety, enum hazard_signal signal)
{
    bool told[MOST_CODES] = {false};
    size_t index = 0;
    for (const struct hazard_result *result = safety->classes; result != NULL && index < MOST_CODES; result = result->next, index++) {
        if (result->omitted || told[index] || result->class->signal != signal) {
            continue;
        }
        struct text code = result->code;
        bool acute = result->class->family >= FAMILY_ORAL && result->class->family <= FAMILY_INHALATION;
        size_t other_index = index + 1;
        for (const struct hazard_result *other = result->next; acute && other != NULL && other_index < MOST_CODES;
             other = other->next, other_index++) {
            struct text joined = text_from(arena_format(arena, "%.*s+%.*s", TEXT_ARGUMENTS(code), TEXT_ARGUMENTS(other->code)));
            if (library_phrase(library, joined) != NULL) {
                code = joined;
                told[other_index] = true;
            }
        }
        struct text words = words_of(library, code);
        if (words.length == 0) { /* a code with letters of which only the plain one is worded */
            words = words_of(library, text_from(result->class->code));
        }
        if (strcmp(result->class->code, "EUH208") == 0) {
            words = name_sensitisers(arena, words, result);
        }
        append(arena, &safety->hazards, code, words);
    }
}

/* ---- precautionary statements ---- */

struct choosing {
    struct arena *arena;
    struct library *library;
    const struct mixture_safety *safety;
    struct safety_statement *chosen[MOST_PRECAUTIONS];
    size_t count;
};

/* Advice for one part of the body or one measure is given once: P301 of two statements, the stronger P260 before P261. */
static bool repeats(const struct choosing *choosing, struct text code)
{
    static const char *const kin[][2] = {{"P260", "P261"}, {"P302", "P303"}, {"P308", "P313"}, {"P310", "P312"}};
    for (size_t i = 0; i < choosing->count; i++) {
        struct text other = choosing->chosen[i]->code;
        if (memcmp(other.at, code.at, 4) == 0) {
            return true;
        }
        for (size_t k = 0; k < sizeof kin / sizeof *kin; k++) {
            for (int way = 0; way < 2; way++) {
                if (memcmp(other.at, kin[k][way], 4) == 0 && memcmp(code.at, kin[k][1 - way], 4) == 0) {
                    return true;
                }
            }
        }
    }
    return false;
}

/* The library declares them in the order of their weight for a small label. */
static void choose(void *context, const struct declaration *declaration)
{
    struct choosing *choosing = context;
    struct text code = declaration->name.name == NULL ? (struct text){0} : declaration->name.name->spelling;
    bool fits = code.length >= 4 && code.at[0] == 'P' && choosing->count < MOST_PRECAUTIONS &&
                phrase_answers(declaration, choosing->safety->classes) && !repeats(choosing, code);
    if (fits) {
        struct safety_statement *statement = ARENA_NEW(choosing->arena, struct safety_statement);
        statement->code = code;
        statement->text = phrase_words(declaration);
        choosing->chosen[choosing->count++] = statement;
    }
}

static int in_order(struct text a, struct text b)
{
    size_t length = a.length < b.length ? a.length : b.length;
    int order = memcmp(a.at, b.at, length);
    return order != 0 ? order : a.length < b.length ? -1 : 1;
}

static void choose_precautions(struct arena *arena, struct library *library, struct mixture_safety *safety)
{
    struct choosing choosing = {.arena = arena, .library = library, .safety = safety};
    library_each_declaration(library, DECLARE_PHRASE, choose, &choosing);
    for (size_t i = 0; i < choosing.count; i++) { /* printed in the order of their codes */
        struct safety_statement **at = &safety->precautions;
        while (*at != NULL && in_order((*at)->code, choosing.chosen[i]->code) < 0) {
            at = &(*at)->next;
        }
        choosing.chosen[i]->next = *at;
        *at = choosing.chosen[i];
    }
}

struct mixture_safety *hazard_label(struct arena *arena, struct library *library, struct hazard_result *classes)
{
    struct mixture_safety *safety = ARENA_NEW(arena, struct mixture_safety);
    safety->classes = classes;
    safety->acidity = (struct hazard_acidity){NAN, NAN};
    omit_statements(classes);
    for (const struct hazard_result *result = classes; result != NULL; result = result->next) {
        safety->signal = result->class->signal > safety->signal ? result->class->signal : safety->signal;
    }
    static const char *const words[] = {"", "Warning", "Danger"};
    safety->signal_word = text_from(words[safety->signal]);
    choose_pictograms(safety);
    for (int signal = SIGNAL_DANGER; signal >= SIGNAL_NONE; signal--) { /* the gravest first */
        list_statements(arena, library, safety, (enum hazard_signal)signal);
    }
    choose_precautions(arena, library, safety);
    return safety;
}
