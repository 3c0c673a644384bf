/* What may not fall silent: what each material was kept apart from, baths and courses that were written down before it was known how
 * they would be answered, and that no material is missing in the groups that reactions speak of. */
#define _GNU_SOURCE

#include "support/program.h"
#include "trials.h"

static struct row rows[MOST_ROWS];

/* ---- tests/practice/keep-apart.tsv ---- */

static bool fits_any(const struct reagent *reagent, const struct group_set *groups)
{
    while (reagent != NULL && !reagent_fits(reagent, groups)) {
        reagent = reagent->next;
    }
    return reagent != NULL;
}

/* Whether some reaction speaks of the two, whatever their strength. */
static bool is_said_of(const char *a, const char *b)
{
    const struct reactions *relation = library_relation(&library);
    const struct group_set *one = material_called(a)->groups;
    const struct group_set *other = material_called(b)->groups;
    bool said = false;
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        bool first = fits_any(reaction->first, one), first_other = fits_any(reaction->first, other);
        bool second = fits_any(reaction->second, one) || fits_any(reaction->beside, one);
        bool second_other = fits_any(reaction->second, other) || fits_any(reaction->beside, other);
        bool both_beside = reaction->beside != NULL && second && second_other;
        said = said || (first && second_other) || (first_other && second) || both_beside;
    }
    return said;
}

static void what_is_kept_apart_is_said(void **state)
{
    (void)state;
    size_t count = read_table("tests/practice/keep-apart.tsv", rows);
    int faults = 0;
    for (size_t i = 0; i < count; i++) {
        bool said = false;
        char *others = rows[i].cells[1];
        for (char *other; (other = strsep(&others, "|")) != NULL;) {
            said = said || is_said_of(rows[i].cells[0], other);
        }
        if (!said) {
            print_error("%s: no word of %s (%s)\n", rows[i].cells[0], rows[i].cells[1], rows[i].cells[2]);
            faults++;
        }
    }
    assert_true(count > 300);
    assert_int_equal(faults, 0);
}

/* ---- tests/practice/meetings.tsv ---- */

/* The lines of a cell, between semicolons, as a formula that makes a litre. */
static const char *bath_of_cell(const char *kind, const char *cell)
{
    struct buffer text;
    bool whole = strstr(cell, "makes ") != NULL;
    buffer_start(&text, &arena);
    buffer_format(&text, "    kind %s\n%s    ", kind, whole ? "" : "    water 200 mL\n");
    for (; *cell != '\0'; cell++) {
        buffer_string(&text, *cell == ';' ? "\n    " : arena_format(&arena, "%c", *cell));
    }
    buffer_string(&text, whole ? "\n" : "\n    water to make 1 L\n");
    return buffer_finish(&text);
}

static void meetings_in_baths_are_answered(void **state)
{
    (void)state;
    size_t count = read_table("tests/practice/meetings.tsv", rows);
    struct trials wrong = {0};
    struct trials right = {0};
    for (size_t i = 0; i < count; i++) {
        char **cells = rows[i].cells;
        if (cells[3][0] == '\0') {
            bool harmless = strcmp(cells[0], "harmless") == 0;
            trials_add(harmless ? &right : &wrong, bath_of_cell(cells[1], cells[2]), cells[4], NULL);
        }
    }
    trials_run(&wrong);
    trials_run(&right);
    assert_true(wrong.count >= 35 && right.count >= 15);
    assert_int_equal(trials_faults(&wrong, true) + trials_faults(&right, false), 0);
}

static const char use[] = "    use for film\n        temperature 20 °C\n        time 5 min\n";

static void meetings_of_courses_are_answered(void **state)
{
    (void)state;
    size_t count = read_table("tests/practice/meetings.tsv", rows);
    int faults = 0;
    int tried = 0;
    for (size_t i = 0; i < count; i++) {
        char **cells = rows[i].cells;
        if (cells[3][0] == '\0') {
            continue;
        }
        const char *text = arena_format(&arena, "formula \"One\"\n%s%sformula \"Two\"\n%s%sprocess \"P\"\n    tank 500 mL holds 2 rolls\n"
                                        "    bath \"One\" for film\n    bath \"Two\" for film\n",
                                        bath_of_cell(cells[1], cells[2]), use, bath_of_cell(cells[1], cells[3]), use);
        struct compiled compiled = compile(text);
        struct potash_output page;
        assert_int_equal(potash_process(compiled.potash, POTASH_TEXT, &page), POTASH_GOOD);
        const char *printed = arena_format(&arena, "%.*s", (int)page.length, page.bytes);
        if ((strstr(printed, " of One and ") != NULL) != (strcmp(cells[0], "sequence") == 0)) {
            print_error("%s: %s, then %s\n", cells[0], cells[2], cells[3]);
            faults++;
        }
        compiled_free(&compiled);
        tried++;
    }
    assert_true(tried >= 15);
    assert_int_equal(faults, 0);
}

/* ---- no material is missing ---- */

/* What stands in the chemical formula, or the role, and the groups of which one must hold the material. */
static const struct {
    const char *role;   /* NULL: what stands in the formula decides */
    const char *sign;
    const char *groups;
    const char *but;    /* materials that are not, and why not */
} belongings[] = {
    {"oxidizer", "", "oxidizers|halogens|complex cyanides|copper salts|ferric salts|salts of two valencies", "benzoquinone (an organic one, named by itself)"},
    {"developing agent", "", "developers", ""},
    {"acid", "", "acids|acid salts|bisulfites", "boric acid (too weak)"},
    {"metal", "", "metals", ""},
    {NULL, "Ag", "silver salts|metals", "potassium silver cyanide (gives no free silver), silver fulminate (an explosive, with a stop line)"},
    {NULL, "Au", "gold salts", ""},
    {NULL, "Hg", "mercury salts", ""},
    {NULL, "Pb", "lead salts", ""},
    {NULL, "Cu", "copper salts|metals", ""},
    {NULL, "Fe", "salts of two valencies|complex cyanides|ferrous salts|metals", ""},
    {NULL, "Pt", "platinum salts", ""},
    {NULL, "Pd", "platinum salts", ""},
    {NULL, "As", "arsenic compounds", ""},
    {NULL, "Tl", "sulfide formers", ""},
    {NULL, "Ba", "barium salts", ""},
    {NULL, "Se", "selenium and selenites", ""},
    {NULL, "Cr2O7", "dichromates", ""},
    {NULL, "CrO", "dichromates", ""},
    {NULL, "MnO4", "permanganates", ""},
    {NULL, "S2O8", "persulfates", ""},
    {NULL, "S2O4", "dithionites", ""},
    {NULL, "S2O3", "thiosulfates", ""},
    {NULL, "ClO", "chlorates|chlorine bleach", "vanadium chloride, uranyl chloride"},
    {NULL, "BrO3", "bromates", ""},
    {NULL, "IO3", "iodates", ""},
    {NULL, "SCN", "thiocyanates", ""},
    {NULL, "CN", "cyanides|complex cyanides|thiocyanates", "silver fulminate (an explosive, with a stop line)"},
    {NULL, "NaN3", "azides", ""},
    {NULL, "(NO3)", "nitrates", ""},
    {NULL, "NaNO2", "nitrites", ""},
    {NULL, "KNO2", "nitrites", ""},
    {NULL, "NH4", "ammonia and its salts", "ammonium bifluoride (an acid first), ammonium picrate (a picrate first)"},
    {NULL, "CO3", "carbonates", ""},
};

/* Of carbon compounds the formula does not show what is in them. */
static bool is_belonging(const struct material *material, size_t i)
{
    struct text chemical = material->usual->chemical;
    if (belongings[i].role != NULL) {
        return material_has_role(material, text_from(belongings[i].role));
    }
    bool organic = chemical.length > 1 && chemical.at[0] == 'C' && strchr("H0123456789", chemical.at[1]) != NULL;
    return !organic && memmem(chemical.at, chemical.length, belongings[i].sign, strlen(belongings[i].sign)) != NULL;
}

static void belongs(void *context, const struct material *material)
{
    int *faults = context;
    const char *name = arena_format(&arena, "%.*s", TEXT_ARGUMENTS(material->name));
    for (size_t i = 0; i < COUNT(belongings); i++) {
        if (!is_belonging(material, i) || strstr(belongings[i].but, name) != NULL) {
            continue;
        }
        char *groups = strdup(belongings[i].groups);
        bool found = false;
        char *rest = groups;
        for (char *group; (group = strsep(&rest, "|")) != NULL;) {
            found = found || material_in_group(&library, material, names_fold(&arena, text_from(group)));
        }
        free(groups);
        if (!found) {
            print_error("%s is not among %s\n", name, belongings[i].groups);
            ++*faults;
        }
    }
}

static void no_material_is_missing(void **state)
{
    (void)state;
    int faults = 0;
    library_each_material(&library, belongs, &faults);
    assert_int_equal(faults, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(what_is_kept_apart_is_said),
        WITH_LIBRARY(meetings_in_baths_are_answered),
        WITH_LIBRARY(meetings_of_courses_are_answered),
        WITH_LIBRARY(no_material_is_missing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
