/* Every material of the library says all that a material has to say: a new one with a gap fails here. */
#define _GNU_SOURCE

#include "support/library_help.h"

#include "syntax/parse.h"

#include <math.h>
#include <stdio.h>

static size_t count_of(const struct material *material, enum statement_kind kind)
{
    size_t count = 0;
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        count += statement->kind == kind;
    }
    return count;
}

/* Mixtures and natural matter have no formula of one substance. */
static bool has_no_formula(const struct material *material)
{
    static const char *const mixtures[] = {
        "albumen",   "arrowroot starch", "carboxymethylcellulose", "casein",  "dextrin",       "fish glue",      "gelatin",
        "gum arabic", "honey",           "polyvinyl alcohol",      "starch",  "lavender oil",  "polyethylene glycol 400",
        "turpentine", "liver of sulfur", "ox gall",                "polysorbate 20", "polysorbate 80", "saponin", "tannic acid",
        "ferric ammonium citrate", "ferric citrate", "collodion", "pyroxylin", "sandarac", "shellac"};
    for (size_t i = 0; i < sizeof mixtures / sizeof *mixtures; i++) {
        if (text_is(material->name, mixtures[i])) {
            return true;
        }
    }
    return false;
}

static const char *missing_of_form(const struct material *material, const struct form *form)
{
    bool said_unknown = form->source.length > 0 && memmem(form->source.at, form->source.length, "CAS number is not known", 23) != NULL;
    if (form->cas.length == 0 && !said_unknown) {
        return "a CAS number";
    }
    if (form->chemical.length == 0 && !has_no_formula(material)) {
        return "a chemical formula";
    }
    if (material->liquid && isnan(form->density)) {
        return "a density";
    }
    if (material->form_count > 1 && form->label.length == 0) {
        return "a name among its forms";
    }
    return NULL;
}

/* What the material lacks first; NULL for nothing. */
static const char *missing(const struct material *material)
{
    if (material->form_count == 0 || count_of(material, SAY_FORM) == 0) {
        return "a form";
    }
    for (size_t i = 0; i < material->form_count; i++) {
        const char *what = missing_of_form(material, &material->forms[i]);
        if (what != NULL) {
            return what;
        }
    }
    const struct {
        bool there;
        const char *what;
    } fields[] = {{material->role_count > 0, "a role"},
                  {material->is_water || material->solubility_count > 0, "a solubility"},
                  {material->is_water || material->stop.length > 0 || material->typical_count > 0, "a usual amount"},
                  {count_of(material, SAY_HAZARD) > 0, "a hazard class, or \"hazard none\""},
                  {count_of(material, SAY_CAUTION) > 0, "a caution"},
                  {material->is_water || count_of(material, SAY_STORE) > 0, "how it is stored"},
                  {count_of(material, SAY_SOURCE) > 0, "a source"}};
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        if (!fields[i].there) {
            return fields[i].what;
        }
    }
    return NULL;
}

/* The last figure of a CAS number is the sum of the others, each times its place from the right, modulo ten (Chemical Abstracts
 * Service, "Check digit verification of CAS Registry Numbers"). */
static bool cas_is_sound(struct text cas)
{
    int sum = 0;
    int place = 0;
    for (size_t i = cas.length - 1; i-- > 0;) {
        sum += text_is_digit(cas.at[i]) ? ++place * (cas.at[i] - '0') : 0;
    }
    return sum % 10 == cas.at[cas.length - 1] - '0';
}

/* What kills in small amounts, or explodes, has a `stop` line. */
static bool is_grave(const struct material *material)
{
    static const char *const codes[] = {"H200", "H201", "H300", "H310"};
    bool grave = false;
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        for (size_t i = 0; statement->kind == SAY_HAZARD && i < sizeof codes / sizeof *codes; i++) {
            grave = grave || text_is(((const struct figure_statement *)statement)->word->name->spelling, codes[i]);
        }
    }
    return grave;
}

/* Aquatic Acute 1 and Chronic 1 have an M factor, if only the 1 that is taken (Annex I, 4.1.3.5.5.5). */
static bool lacks_factor(const struct material *material, const char *code, const char *which)
{
    bool classed = false;
    bool has = false;
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        const struct figure_statement *figure = (const struct figure_statement *)statement;
        classed = classed || (statement->kind == SAY_HAZARD && text_is(figure->word->name->spelling, code));
        has = has || (statement->kind == SAY_FACTOR && text_is(figure->word->name->spelling, which));
    }
    return classed && !has;
}

static const char *missing_of_care(const struct material *material)
{
    for (size_t i = 0; i < material->form_count; i++) {
        if (material->forms[i].cas.length > 0 && !cas_is_sound(material->forms[i].cas)) {
            return "a CAS number whose last figure is right";
        }
    }
    return is_grave(material) && material->stop.length == 0     ? "a stop line"
           : lacks_factor(material, "H400", "acute")            ? "an M factor for H400"
           : lacks_factor(material, "H410", "chronic")          ? "an M factor for H410"
                                                                : NULL;
}

/* Every figure names its source. */
static const char *figure_without_source(const struct material *material)
{
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        const struct figure_statement *figure = (const struct figure_statement *)statement;
        switch (statement->kind) {
        case SAY_DISSOLVES:
        case SAY_TYPICAL:
        case SAY_HAZARD:
        case SAY_LIMIT:
        case SAY_FACTOR:
        case SAY_TOXICITY:
        case SAY_COUNTS_AS:
            if (figure->source.length == 0) {
                return "a source of one of its figures";
            }
            break;
        default:
            break;
        }
    }
    for (size_t i = 0; i < material->form_count; i++) {
        if (!isnan(material->forms[i].density) && material->forms[i].source.length == 0) {
            return "a source of a density";
        }
    }
    return NULL;
}

static void look_at(void *context, const struct material *material)
{
    int *gaps = context;
    const char *what = missing(material);
    what = what == NULL ? missing_of_care(material) : what;
    what = what == NULL ? figure_without_source(material) : what;
    if (what != NULL) {
        print_error("%.*s lacks %s\n", TEXT_ARGUMENTS(material->name), what);
        ++*gaps;
    }
}

static void every_material_is_complete(void **state)
{
    (void)state;
    int gaps = 0;
    library_each_material(&library, look_at, &gaps);
    assert_int_equal(gaps, 0);
}

/* The check itself: each line left out of a complete material is missed. */
static void a_gap_is_found(void **state)
{
    (void)state;
    static const char *const lines[] = {"role acid",
                                        "form H2O cas 7732-18-5",
                                        "dissolves freely source \"s\"",
                                        "typical developer 1 to 2 g/L source \"s\"",
                                        "hazard none source \"s\"",
                                        "caution \"c\"",
                                        "store \"closed\"",
                                        "source \"s\""};
    enum { COUNT = sizeof lines / sizeof *lines };
    for (int left_out = -1; left_out < COUNT; left_out++) {
        struct buffer text;
        buffer_start(&text, &arena);
        buffer_format(&text, "material test stuff %d\n", left_out + 1);
        for (int i = 0; i < COUNT; i++) {
            if (i != left_out) {
                buffer_format(&text, "    %s\n", lines[i]);
            }
        }
        struct source_file *file = source_add(&sources, "test", (char *)buffer_finish(&text), text.length, false);
        library_add_file(&library, syntax_parse(&arena, &names, &diagnostics, file, false));
        const char *what = missing(material_called(arena_format(&arena, "test stuff %d", left_out + 1)));
        if ((what == NULL) != (left_out == -1)) {
            fail_msg("without \"%s\": %s", left_out < 0 ? "nothing" : lines[left_out], what == NULL ? "complete" : what);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(every_material_is_complete),
        WITH_LIBRARY(a_gap_is_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
