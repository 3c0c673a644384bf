/* The safety notes as a person reads them: reasons for every class, combinations, silver, heat, allergy. */
#include "safety_help.h"
#include "support/program.h"

static void assert_not_printed(const struct run *run, const char *text)
{
    if (strstr(run->output, text) != NULL) {
        fail_msg("\"%s\" is printed", text);
    }
}

/* ---- a reason for every class ---- */

static void check_solution(const json_t *solution, const char *page)
{
    static const char *const lists[] = {"classes", "supplements"};
    for (size_t l = 0; l < 2; l++) {
        size_t index;
        json_t *item;
        json_array_foreach(json_object_get(solution, lists[l]), index, item)
        {
            const json_t *because = json_object_get(item, "because");
            assert_true(strstr(json_text_of(item, "rule"), "%") != NULL || strstr(json_text_of(item, "rule"), "per cent") != NULL || strstr(json_text_of(item, "rule"), "mg/") != NULL ||
                        strstr(json_text_of(item, "rule"), "ppm") != NULL || strstr(json_text_of(item, "rule"), "pH") != NULL);
            assert_true(json_array_size(because) > 0);
            assert_non_null(strstr(page, json_text_of(item, "code")));
            for (size_t i = 0; i < json_array_size(because); i++) {
                const char *material = json_text_of(json_array_get(because, i), "material");
                double percent = json_number_of(json_array_get(because, i), "percent");
                if (strstr(page, material) == NULL || !(percent > 0 && percent <= 100)) {
                    fail_msg("%s is not named for %s", material, json_text_of(item, "code"));
                }
            }
        }
    }
}

/* Holds the notes of a file against its JSON. */
static size_t check_file(const char *path)
{
    struct run page = run_potash("safety", path, "--date", "none", NULL);
    struct run data = run_potash("safety", path, "--as", "json", NULL);
    assert_status(&page, 0);
    assert_status(&data, 0);
    for (char *at = page.output; *at != '\0'; at++) { /* names are broken over lines */
        *at = *at == '\n' ? ' ' : *at;
    }
    char *flat = malloc(page.output_length + 1);
    size_t length = 0;
    for (const char *at = page.output; *at != '\0'; at++) {
        if (*at != ' ' || length == 0 || flat[length - 1] != ' ') {
            flat[length++] = *at;
        }
    }
    flat[length] = '\0';
    json_t *json = json_loadb(data.output, data.output_length, 0, NULL);
    size_t count = 0;
    size_t index;
    json_t *formula;
    json_array_foreach(json_object_get(json, "formulas"), index, formula)
    {
        size_t p;
        json_t *item;
        json_array_foreach(json_object_get(formula, "parts"), p, item)
        {
            check_solution(json_object_get(item, "safety"), flat);
        }
        json_array_foreach(json_object_get(formula, "uses"), p, item)
        {
            check_solution(item, flat);
        }
        count++;
    }
    json_decref(json);
    free(flat);
    run_free(&page);
    run_free(&data);
    return count;
}

static void every_class_of_the_samples_has_its_reason(void **state)
{
    (void)state;
    static const char *const files[] = {"acid-fixer", "brown-toner", "clearing-bath", "film-developer", "old-print-developer", "plain-fixer",
                                        "print-developer", "stocks", "stop-bath", "two-part-developer"};
    size_t count = 0;
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        char path[100];
        snprintf(path, sizeof path, "samples/%s.bath", files[i]);
        count += check_file(path);
    }
    assert_true(count >= 12);
}

/* Old formulas with the poisons of their time. */
static void every_class_of_old_formulas_has_its_reason(void **state)
{
    (void)state;
    static const char *const files[] = {"03-formalin-hardener", "13-gold-tungstate-toner", "16-uranium-iron-blue-toner", "19-ferricyanide-reducer",
                                        "24-lead-intensifier", "26-copper-bromide-reducer", "39-silver-bath"};
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        char path[100];
        snprintf(path, sizeof path, "tests/published/%s.bath", files[i]);
        check_file(path);
    }
}

/* ---- combinations ---- */

static const char baths[] = "formula \"Sulfide toner\"\n    kind toner\n    sodium sulfide (nonahydrate) 20 g\n    water to make 1 L\n"
                            "    use for paper\n        time 2 min\n"
                            "formula \"Acid fixer\"\n    kind fixer\n    sodium thiosulfate (pentahydrate) 200 g\n    sodium metabisulfite 20 g\n"
                            "    water to make 1 L\n    use for paper\n        time 5 min\n"
                            "formula \"Soda bath\"\n    kind other\n    sodium carbonate (anhydrous) 60 g\n    water to make 1 L\n"
                            "    use for paper\n        time 1 min\n";

static struct run run_process(const char *lines)
{
    char text[3000];
    snprintf(text, sizeof text, "%sprocess \"Toning\"\n    trays 1 L holds 1 sheet 8x10 in\n%s", baths, lines);
    return run_potash("process", scratch_text("process.bath", text), "--date", "none", NULL);
}

static void baths_that_follow_each_other(void **state)
{
    (void)state;
    struct run run = run_process("    bath \"Acid fixer\" for paper 5 min\n    bath \"Sulfide toner\" for paper 2 min\n");
    assert_status(&run, 0);
    assert_prints(&run, "hydrogen sulfide");
    assert_prints(&run, "Instead: do not mix them: keep them in separate");
    assert_not_printed(&run, "Pour these away apart");
    run_free(&run);
    run = run_process("    bath \"Acid fixer\" for paper 5 min\n    wash 10 min\n    bath \"Sulfide toner\" for paper 2 min\n");
    assert_not_printed(&run, "Instead:");
    assert_prints(&run, "Pour these away apart");
    run_free(&run);
    run = run_process("    bath \"Soda bath\" for paper 1 min\n    bath \"Sulfide toner\" for paper 2 min\n");
    assert_not_printed(&run, "Instead:");
    assert_not_printed(&run, "Pour these away apart");
    run_free(&run);
    scratch_remove();
}

static struct run run_notes(const char *text)
{
    return run_potash("safety", scratch_text("notes.bath", text), "--date", "none", NULL);
}

static void what_must_not_meet_in_the_sink(void **state)
{
    (void)state;
    struct run run = run_potash("safety", "samples/acid-fixer.bath", NULL);
    assert_prints(&run, "Never together");
    assert_prints(&run, "chlorine bleach");
    assert_prints(&run, "hydrogen sulfide");
    run_free(&run);
    run = run_potash("safety", "samples/print-developer.bath", NULL);
    assert_not_printed(&run, "hydrogen sulfide");
    run_free(&run);
}

/* Within one bath the rules of practice speak, and the notes repeat them. */
static void what_must_not_meet_in_one_bath(void **state)
{
    (void)state;
    struct run run = run_notes("formula \"Mistake\"\n    kind other\n    water 500 mL\n    sodium hypochlorite (5 %) 100 mL\n"
                               "    citric acid (anhydrous) 10 g\n    water to make 1 L\n");
    assert_prints(&run, "in one bath");
    assert_prints(&run, "chlorine");
    run_free(&run);
    scratch_remove();
}

/* ---- silver, heat, people ---- */

static void silver_is_named(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        bool silver;
    } cases[] = {{"sodium thiosulfate (pentahydrate) 200 g", true},
                 {"ammonium thiosulfate solution 200 mL", true},
                 {"silver nitrate 50 g", true},
                 {"sodium sulfite (anhydrous) 50 g", false}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[300];
        snprintf(text, sizeof text, "formula \"Bath\"\n    kind other\n    water 500 mL\n    %s\n    water to make 1 L\n", cases[i].line);
        struct run run = run_notes(text);
        assert_status(&run, 0);
        if (cases[i].silver) {
            assert_prints(&run, "Holds silver");
        } else {
            assert_not_printed(&run, "Holds silver");
        }
        run_free(&run);
    }
    scratch_remove();
}

/* 40 g of sodium hydroxide are 1 mol, 44.5 kJ (CRC Handbook, enthalpy of solution of electrolytes); in 1000 g of water of
 * 4.18 J/g K that is 10.6 °C. */
static void hydroxide_heats(void **state)
{
    (void)state;
    struct run run = run_notes("formula \"Lye\"\n    kind other\n    water 800 mL\n    sodium hydroxide 40 g\n    water to make 1 L\n");
    assert_prints(&run, "11 °C (estimate)");
    assert_prints(&run, "Hydroxides heat the water");
    run_free(&run);
    scratch_remove();
}

static void dry_mixes_have_notes(void **state)
{
    (void)state;
    struct run run = run_notes("formula \"Mix\"\n    kind other\n    makes 100 g\n    citric acid (anhydrous) 60 g\n    sodium sulfate (anhydrous) 40 g\n");
    assert_status(&run, 0);
    assert_prints(&run, "The dry mix");
    assert_prints(&run, "H319");
    assert_not_printed(&run, "pH is not known");
    run_free(&run);
    scratch_remove();
}

/* A class that is no class of the Regulation is said, and not passed over. */
static void a_class_that_is_not_known(void **state)
{
    (void)state;
    struct run run = run_notes("material marsh salt\n    role salt\n    form NaCl\n    hazard \"Acute Toxic 9\" H399\n\n"
                               "formula \"Bath\"\n    kind other\n    marsh salt 30 g\n    water to make 1 L\n");
    assert_status(&run, 0);
    assert_prints(&run, "NOT ASSESSED: H399, whose class is not known");
    run_free(&run);
    scratch_remove();
}

/* Where something is unknown, sheet, label and notes say so first, name it, and give no other reassurance. */
static void unknown_is_not_harmless(void **state)
{
    (void)state;
    static const char text[] = "material marsh salt\n    role salt\n\nformula \"Bath\"\n    kind other\n    water 500 mL\n    marsh salt 3 g\n"
                               "    sodium chloride 5 g\n    water to make 1 L\n    use for film\n        dilute 1+4\n";
    static const char *const verbs[] = {"sheet", "label", "safety"};
    for (size_t i = 0; i < 3; i++) {
        struct run run = run_potash(verbs[i], scratch_text("unknown.bath", text), "--date", "none", NULL);
        assert_status(&run, 0);
        assert_prints(&run, "NOT ASSESSED");
        assert_prints(&run, "marsh salt 0.3 %");
        assert_not_printed(&run, "no class of hazard");
        assert_not_printed(&run, "needs no sign");
        assert_not_printed(&run, "if you feel unwell");
        assert_true(strcmp(verbs[i], "safety") != 0 || strstr(run.output, "call a poison centre") != NULL);
        run_free(&run);
    }
    struct run book = run_potash("book", scratch_text("unknown.bath", text), "--date", "none", NULL);
    assert_prints(&book, "NOT ASSESSED");
    assert_not_printed(&book, "none known");
    run_free(&book);
    scratch_remove();
}

/* A stop line stands before the first statement of hazard on each page, and is a warning of the check. */
static void a_stop_line_stands_first(void **state)
{
    (void)state;
    static const char text[] = "formula \"Old fixer\"\n    kind fixer\n    water 500 mL\n    cyanide of potassium 25 g\n    water to make 1 L\n";
    static const char *const verbs[] = {"sheet", "label", "safety"};
    for (size_t i = 0; i < 3; i++) {
        struct run run = run_potash(verbs[i], scratch_text("stop.bath", text), "--date", "none", NULL);
        assert_status(&run, 0);
        const char *stop = strstr(run.output, "STOP: potassium cyanide");
        const char *first = strstr(run.output, "Danger");
        assert_non_null(stop);
        assert_true(first == NULL || stop < first);
        run_free(&run);
    }
    struct run check = run_potash("check", scratch_text("stop.bath", text), NULL);
    assert_non_null(strstr(check.error, "[grave-danger]"));
    run_free(&check);
    struct run like = run_potash("materials", "--like", "sodium thiosulfate", NULL);
    assert_prints(&like, "ammonium thiosulfate");
    assert_not_printed(&like, "potassium cyanide");
    run_free(&like);
    scratch_remove();
}

/* The bottles of two parts stand apart on the sheet: the acid one is not said of the other. */
static void bottles_stand_apart(void **state)
{
    (void)state;
    struct run run = run_potash("sheet", scratch_text("two.bath", "formula \"Two\"\n    kind other\n    part A\n    acetic acid (glacial) 300 mL\n"
                                                                  "    water to make 1 L\n    part B\n    sodium chloride 10 g\n    water to make 1 L\n"),
                                "--date", "none", NULL);
    assert_prints(&run, "bottle A  Danger (GHS05)");
    assert_prints(&run, "bottle B  no class of hazard is reached");
    run_free(&run);
    scratch_remove();
}

/* Each class says whether it is from the Regulation, a list, a sheet or memory. */
static void every_class_shows_its_basis(void **state)
{
    (void)state;
    struct run run = run_notes("formula \"Bath\"\n    kind other\n    water 500 mL\n    hydroquinone 20 g\n    glycin 20 g\n    water to make 1 L\n");
    assert_prints(&run, "H351, H341, H302, H318, H317, H400 (Annex VI)");
    assert_prints(&run, "(memory)");
    run_free(&run);
    scratch_remove();
}

/* ---- without, like ---- */

static const char club[] = "stock metol 1 %\n\n"
                           "formula \"With\"\n    kind developer\n    water 500 mL\n    metol 2 g\n    sodium sulfite (anhydrous) 30 g\n"
                           "    sodium carbonate (anhydrous) 20 g\n    water to make 1 L\n\n"
                           "formula \"From stock\"\n    kind developer\n    water 500 mL\n    sodium sulfite (anhydrous) 30 g\n"
                           "    metol 0.2 g from 1 % stock\n    sodium carbonate (anhydrous) 20 g\n    water to make 1 L\n\n"
                           "formula \"Through solution\"\n    kind developer\n    water 500 mL\n    solution \"With\" 100 mL\n    water to make 1 L\n\n"
                           "formula \"Free\"\n    kind fixer\n    sodium thiosulfate (pentahydrate) 200 g\n    water to make 1 L\n\n"
                           "variant \"Variant with\"\n    of \"With\"\n    change metol to 3 g\n\n"
                           "variant \"Variant free\"\n    of \"With\"\n    leave out metol\n    add hydroquinone 4 g, before sodium carbonate\n";

static void formulas_without_a_material(void **state)
{
    (void)state;
    const char *path = scratch_text("club.bath", club);
    struct run run = run_potash("check", path, "--without", "4-methylaminophenol sulfate", NULL);
    assert_status(&run, 1);
    const char *free_list = strstr(run.output, "Without metol:");
    assert_non_null(free_list);
    static const struct {
        const char *title;
        bool holds;
    } wanted[] = {{"  With: metol", true},         {"  From stock: metol", true},  {"  Through solution: metol", true},
                  {"  Variant with: metol", true}, {"  metol 1 % stock: metol", true}, {"  Free\n", false},
                  {"  Variant free\n", false}};
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++) {
        const char *at = strstr(run.output, wanted[i].title);
        if (at == NULL || (at < free_list) != wanted[i].holds) {
            fail_msg("\"%s\" is not where it belongs in:\n%s", wanted[i].title, run.output);
        }
    }
    run_free(&run);
    run = run_potash("check", path, "--title", "Free", "--without", "metol", NULL);
    assert_status(&run, 0);
    run_free(&run);
    run = run_potash("check", path, "--without", "mettol", NULL);
    assert_status(&run, 2);
    assert_says(&run, "did you mean metol");
    run_free(&run);
    scratch_remove();
}

static void what_may_stand_in(void **state)
{
    (void)state;
    struct run run = run_potash("materials", "--like", "metol", "--as", "json", NULL);
    assert_status(&run, 0);
    json_t *json = json_loadb(run.output, run.output_length, 0, NULL);
    bool sensitiser_seen = false;
    bool phenidone = false;
    bool aminophenol = false;
    size_t index;
    json_t *item;
    json_array_foreach(json_object_get(json, "materials"), index, item)
    {
        bool sensitises = json_is_true(json_object_get(item, "sensitises"));
        assert_false(sensitiser_seen && !sensitises); /* those stand last */
        sensitiser_seen = sensitiser_seen || sensitises;
        const char *name = json_text_of(item, "material");
        assert_string_not_equal(name, "metol");
        phenidone = phenidone || (strcmp(name, "phenidone") == 0 && !sensitises);
        aminophenol = aminophenol || (strcmp(name, "p-phenylenediamine") == 0 && sensitises); /* 612-028-00-6: H317 */
    }
    assert_true(phenidone && aminophenol);
    json_decref(json);
    run_free(&run);
    run = run_potash("materials", "--like", "metol", NULL);
    assert_prints(&run, "ask a doctor");
    run_free(&run);
    run = run_potash("materials", "metol", "--like", "metol", NULL);
    assert_status(&run, 2);
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_class_of_the_samples_has_its_reason),
        cmocka_unit_test(every_class_of_old_formulas_has_its_reason),
        cmocka_unit_test(baths_that_follow_each_other),
        cmocka_unit_test(what_must_not_meet_in_the_sink),
        cmocka_unit_test(what_must_not_meet_in_one_bath),
        cmocka_unit_test(silver_is_named),
        cmocka_unit_test(hydroxide_heats),
        cmocka_unit_test(dry_mixes_have_notes),
        cmocka_unit_test(a_class_that_is_not_known),
        cmocka_unit_test(unknown_is_not_harmless),
        cmocka_unit_test(a_stop_line_stands_first),
        cmocka_unit_test(bottles_stand_apart),
        cmocka_unit_test(every_class_shows_its_basis),
        cmocka_unit_test(formulas_without_a_material),
        cmocka_unit_test(what_may_stand_in),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
