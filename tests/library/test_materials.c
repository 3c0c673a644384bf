/* Looking materials up: library names, chemical names, the names of old books, near misses. */
#include "support/library_help.h"

static void assert_found(const char *spelling, const char *material, const char *form)
{
    const struct material_reading *reading = library_material(&library, names_find(&names, text_from(spelling)));
    if (reading == NULL || !text_is(reading->material->name, material)) {
        fail_msg("\"%s\" is %.*s instead of %s", spelling,
                 TEXT_ARGUMENTS(reading == NULL ? TEXT("not found") : reading->material->name), material);
    }
    struct text label = reading->form == NULL ? TEXT("-") : reading->form->label;
    if (!text_is(label, form)) {
        fail_msg("\"%s\" is the form %.*s instead of %s", spelling, TEXT_ARGUMENTS(label), form);
    }
}

/* The library names that the contract fixes. */
static void names_of_the_contract(void **state)
{
    (void)state;
    static const char *const wanted[] = {"metol",
                                         "phenidone",
                                         "hydroquinone",
                                         "pyrogallol",
                                         "catechol",
                                         "amidol",
                                         "glycin",
                                         "p-aminophenol hydrochloride",
                                         "sodium thiosulfate",
                                         "potassium alum",
                                         "chrome alum",
                                         "acetic acid",
                                         "ammonia",
                                         "formaldehyde",
                                         "copper sulfate",
                                         "mercuric chloride",
                                         "ferric chloride",
                                         "ferrous sulfate",
                                         "gold chloride",
                                         "sodium sulfite",
                                         "sodium carbonate",
                                         "potassium carbonate",
                                         "potassium bromide",
                                         "water"};
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        assert_found(wanted[i], wanted[i], "-");
    }
}

static void other_names(void **state)
{
    (void)state;
    /* The contract's own examples. */
    assert_found("4-methylaminophenol sulfate", "metol", "-");
    assert_found("hyposulphite of soda", "sodium thiosulfate", "-");
    assert_found("bichromate of potash", "potassium dichromate", "-");
    assert_found("yellow prussiate of potash", "potassium ferrocyanide", "-");
    /* Names of the old books. */
    assert_found("hypo", "sodium thiosulfate", "-");
    assert_found("red prussiate of potash", "potassium ferricyanide", "-");
    assert_found("pyro", "pyrogallol", "-");
    assert_found("sulphite of soda", "sodium sulfite", "-");
    assert_found("formalin", "formaldehyde", "-");
    assert_found("Sodium Sulphite", "sodium sulfite", "-");
    assert_found("SODIUM  SULFITE", "sodium sulfite", "-");
    assert_found("Potass. bromide", "potassium bromide", "-");
}

static void a_name_may_hold_the_form(void **state)
{
    (void)state;
    assert_found("glacial acetic acid", "acetic acid", "glacial");
    assert_found("anhydrous sodium sulfite", "sodium sulfite", "anhydrous");
    assert_found("sodium carbonate monohydrate", "sodium carbonate", "monohydrate");
}

/* "glacial acetic acid" is another name of acetic acid, and states the form as well: no such name loses it. */
static void look_for_lost_forms(void *context, const struct material *material)
{
    int *lost = context;
    for (size_t a = 0; a < material->also_count; a++) {
        struct text name = names_fold(&arena, material->also[a]);
        for (size_t i = 0; i < name.length; i++) {
            struct text halves[2] = {{name.at, i},
                                     {name.at + i + (i + 1 < name.length), name.length - i - (i + 1 < name.length)}};
            for (int h = 0; name.at[i] == ' ' && h < 2; h++) {
                const struct material_reading *rest = library_material(&library, names_find(&names, halves[1 - h]));
                const struct form *form = library_form_named(&library, material, names_find(&names, halves[h]));
                if (rest == NULL || rest->material != material || form == NULL) {
                    continue;
                }
                const struct material_reading *whole = library_material(&library, names_find(&names, name));
                if (whole->form == NULL) {
                    print_error("%.*s: \"%.*s\" states a form\n", TEXT_ARGUMENTS(material->name), TEXT_ARGUMENTS(name));
                    ++*lost;
                }
            }
        }
    }
}

static void no_other_name_hides_a_form(void **state)
{
    (void)state;
    int lost = 0;
    library_each_material(&library, look_for_lost_forms, &lost);
    assert_int_equal(lost, 0);
}

static void forms_by_name_and_number(void **state)
{
    (void)state;
    assert_text(form_called("sodium sulfite", "crystalline")->label, "heptahydrate");
    assert_text(form_called("sodium sulfite", "Anhydrous")->label, "anhydrous");
    assert_text(form_called("acetic acid", "28 %")->label, "28 %");
    assert_null(
        library_form_named(&library, material_called("sodium sulfite"), names_find(&names, TEXT("decahydrate"))));
    assert_null(library_form_named(&library, material_called("metol"), names_find(&names, TEXT(""))));
}

static void look_ups_are_kept(void **state)
{
    (void)state;
    struct name *name = names_find(&names, TEXT("metol"));
    const struct material_reading *first = library_material(&library, name);
    assert_ptr_equal(library_material(&library, name), first);
    struct name *nothing = names_find(&names, TEXT("dragon's blood"));
    assert_null(library_material(&library, nothing));
    assert_null(library_material(&library, nothing));
    assert_null(library_material(&library, names_find(&names, TEXT(""))));
}

static void near_misses(void **state)
{
    (void)state;
    static const struct {
        const char *wrong;
        const char *right;
    } cases[] = {{"potasium bromyde", "potassium bromide"},
                 {"hydroquinon", "hydroquinone"},
                 {"metoll", "metol"},
                 {"sodium sulfit", "sodium sulfite"},
                 {"phenidon", "phenidone"},
                 {"sodum carbonate", "sodium carbonate"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct text near[3];
        struct text grave;
        size_t count = library_near_materials(&library, text_from(cases[i].wrong), near, 3, &grave);
        assert_true(count > 0);
        assert_text(near[0], cases[i].right);
        for (size_t other = 1; other < count; other++) {
            assert_false(text_equal(near[other], near[0]));
        }
    }
    struct text near[3];
    struct text grave;
    assert_int_equal(library_near_materials(&library, TEXT("xyzzy plugh frobozz"), near, 3, &grave), 0);
    assert_int_equal(library_near_materials(&library, TEXT(""), near, 3, &grave), 0);
    assert_int_equal(grave.length, 0);
}

/* A slip in the name of a poison leads neither to the poison nor to something harmless. */
static void grave_materials_are_never_offered(void **state)
{
    (void)state;
    static const char *const slips[] = {"potasium cyanide", "potassium cyanid",   "cyanide of zinc",  "cyanide of copper", "mercuric clorid",
                                        "mercury perchlorid", "white arsnic",     "sodium arsenit",   "picrid acid",       "picrate of potash",
                                        "sodium azid",      "silver azide",       "thallium bromide", "uranium nitrat",    "osmic acd",
                                        "flouric acid",     "guncoton",           "bromin"};
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        struct text near[8];
        struct text grave;
        struct text short_grave;
        size_t count = library_abbreviated_materials(&library, text_from(slips[i]), near, 8, &short_grave);
        count += library_near_materials(&library, text_from(slips[i]), near, 3, &grave);
        if (count > 0 || grave.length + short_grave.length == 0) {
            fail_msg("\"%s\" is answered with %.*s", slips[i], TEXT_ARGUMENTS(count > 0 ? near[0] : TEXT("nothing")));
        }
    }
    static const char *const shortened[] = {"pot. cyan.", "cyan. potass."};
    for (size_t i = 0; i < sizeof shortened / sizeof *shortened; i++) {
        struct text near[8];
        struct text grave;
        assert_int_equal(library_abbreviated_materials(&library, text_from(shortened[i]), near, 8, &grave), 0);
        assert_text(grave, "potassium cyanide");
    }
}

/* Names of poisons in old books, common knowledge of the trade. */
static void poisons_have_their_old_names(void **state)
{
    (void)state;
    static const char *const names_of[][2] = {{"Cyanide of potassium", "potassium cyanide"},
                                              {"cyankali", "potassium cyanide"},
                                              {"bichloride of mercury", "mercuric chloride"},
                                              {"corrosive sublimate", "mercuric chloride"},
                                              {"biniodide of mercury", "mercuric iodide"},
                                              {"sulphocyanide of mercury", "mercuric thiocyanate"},
                                              {"white arsenic", "arsenic trioxide"},
                                              {"arsenious acid", "arsenic trioxide"},
                                              {"carbazotic acid", "picric acid"},
                                              {"nitrate of uranium", "uranyl nitrate"},
                                              {"sugar of lead", "lead acetate"},
                                              {"gun-cotton", "pyroxylin"},
                                              {"osmic acid", "osmium tetroxide"},
                                              {"quicksilver", "mercury"},
                                              {"benzole", "benzene"},
                                              {"carbolic acid", "phenol"}};
    for (size_t i = 0; i < sizeof names_of / sizeof *names_of; i++) {
        assert_found(names_of[i][0], names_of[i][1], "-");
    }
}

static void near_units_and_forms(void **state)
{
    (void)state;
    struct text near[3];
    assert_true(library_near_units(&library, TEXT("grian"), DIMENSION_BIT(DIMENSION_MASS), near, 3) > 0);
    assert_text(near[0], "grain");
    const struct form *form = library_near_form(&library, material_called("sodium sulfite"), TEXT("anhydrus"));
    assert_non_null(form);
    assert_text(form->label, "anhydrous");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(names_of_the_contract),
        WITH_LIBRARY(other_names),
        WITH_LIBRARY(a_name_may_hold_the_form),
        WITH_LIBRARY(no_other_name_hides_a_form),
        WITH_LIBRARY(forms_by_name_and_number),
        WITH_LIBRARY(look_ups_are_kept),
        WITH_LIBRARY(near_misses),
        WITH_LIBRARY(grave_materials_are_never_offered),
        WITH_LIBRARY(poisons_have_their_old_names),
        WITH_LIBRARY(near_units_and_forms),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
