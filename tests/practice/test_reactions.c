/* What must not meet: published pairs of groups, every reaction of the library, cases with their amounts on either side of each
 * bound, and baths that the trade mixes without harm. */
#define _GNU_SOURCE

#include "support/compiling.h"
#include "support/library_help.h"
#include "support/program.h"

#include "library/relation.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

enum { COLUMNS = 8, MOST_ROWS = 500, MOST_MEMBERS = 80 };

static const char *const ids[] = {"hazard-combination", "bath-spoils", "keeps-too-long"};

static size_t warnings_in(const struct compiled *compiled)
{
    size_t count = 0;
    for (size_t i = 0; i < COUNT(ids); i++) {
        count += compiled_count(compiled, ids[i]);
    }
    return count;
}

static void print_warnings(const struct compiled *compiled)
{
    size_t i;
    json_t *item;
    json_array_foreach(compiled->diagnostics, i, item) {
        print_error("  %d: %s [%s]\n", (int)json_number_of(item, "line"), json_text_of(item, "message"), json_text_of(item, "id"));
    }
}

/* ---- published pairs (tests/practice/incompatible.tsv names the source of each) ---- */

struct row {
    char *cells[COLUMNS];
};

static struct row rows[MOST_ROWS];
static char nothing[] = "";
static size_t row_count;

static int read_rows(void **state)
{
    set_up_library(state);
    size_t length;
    char *at = file_bytes("tests/practice/incompatible.tsv", &length);
    row_count = 0;
    for (char *line; (line = strsep(&at, "\n")) != NULL;) {
        bool said = line[0] != '#' && line[0] != '\0';
        for (size_t i = 0; said && i < COLUMNS; i++) {
            char *cell = strsep(&line, "\t");
            rows[row_count].cells[i] = cell == NULL ? nothing : cell;
        }
        row_count += said;
    }
    return 0;
}

static bool among(const char *list, const char *name)
{
    size_t length = strlen(name);
    for (const char *at = list; (at = strstr(at, name)) != NULL; at += length) {
        if ((at == list || at[-1] == '|') && (at[length] == '\0' || at[length] == '|')) {
            return true;
        }
    }
    return false;
}

/* Those of a group that the library has. */
static size_t members_of(const char *group, const char *members[MOST_MEMBERS])
{
    size_t count = 0;
    for (size_t i = 0; i < row_count; i++) {
        bool is = strcmp(rows[i].cells[0], "member") == 0 && among(rows[i].cells[2], group) &&
                  library_material_entry(&library, text_from(rows[i].cells[1])) != NULL;
        if (is && count < MOST_MEMBERS) {
            members[count++] = rows[i].cells[1];
        }
    }
    return count;
}

static bool is_spared(const char *a, const char *b, const char *one, const char *other)
{
    bool spared = false;
    for (size_t i = 0; i < row_count; i++) {
        const struct row *row = &rows[i];
        spared = spared || (strcmp(row->cells[0], "spared") == 0 && strcmp(row->cells[1], a) == 0 && strcmp(row->cells[2], b) == 0 &&
                            (among(row->cells[3], one) || among(row->cells[3], other)));
    }
    return spared;
}

/* The strongest form of a liquid, the usual one of a solid. */
static const struct form *strongest(const struct material *material)
{
    const struct form *form = material->usual;
    for (size_t i = 0; material->liquid && i < material->form_count; i++) {
        form = material->forms[i].percent > form->percent ? &material->forms[i] : form;
    }
    return form;
}

static void add_line(struct buffer *text, const char *name, double grams_or_mL)
{
    const struct material *material = material_called(name);
    const struct form *form = strongest(material);
    if (form->label.length > 0) {
        buffer_format(text, "    %s (%.*s) %g %s\n", name, TEXT_ARGUMENTS(form->label), grams_or_mL, material->liquid ? "mL" : "g");
    } else {
        buffer_format(text, "    %s %g %s\n", name, grams_or_mL, material->liquid ? "mL" : "g");
    }
}

/* 100 g of a solid or 200 mL of a liquid, in a litre (in water), in little or no water (concentrated), or dry. */
static const char *bath_of_pair(const char *state, const char *a, const char *b, const char *third)
{
    struct buffer text;
    bool warm = strcmp(third, "warm") == 0;
    bool liquid = material_called(a)->liquid || material_called(b)->liquid;
    buffer_start(&text, &arena);
    buffer_format(&text, "formula \"x\"\n    kind other\n");
    if (strcmp(state, "in water") == 0 || (strcmp(state, "concentrated") == 0 && (warm || !liquid))) {
        buffer_format(&text, "    water %d mL%s\n", strcmp(state, "in water") == 0 ? 400 : 200, warm ? " at 60 °C" : "");
    }
    for (int i = 0; i < 2; i++) {
        const char *name = i == 0 ? a : b;
        if (strcmp(name, "water") != 0) {
            add_line(&text, name, material_called(name)->liquid ? 200 : 100);
        }
    }
    if (strcmp(third, "-") != 0 && !warm) {
        buffer_format(&text, "    %s\n", third);
    }
    buffer_string(&text, strcmp(state, "in water") == 0 ? "    water to make 1 L\n" : strcmp(state, "dry") == 0 ? "    makes 200 g\n" : "");
    return buffer_finish(&text);
}

/* How many of the pair's baths draw no warning. */
static int try_pair(const struct row *pair, const char *state, size_t *tried)
{
    const char *ones[MOST_MEMBERS];
    const char *others[MOST_MEMBERS];
    size_t one_count = members_of(pair->cells[1], ones);
    size_t other_count = members_of(pair->cells[2], others);
    int faults = 0;
    for (size_t i = 0; i < one_count * other_count; i++) {
        const char *a = ones[i / other_count];
        const char *b = others[i % other_count];
        bool powders = !material_called(a)->liquid && !material_called(b)->liquid;
        if (strcmp(a, b) == 0 || is_spared(pair->cells[1], pair->cells[2], a, b) || (strcmp(state, "dry") == 0 && !powders)) {
            continue;
        }
        const char *text = bath_of_pair(state, a, b, pair->cells[4]);
        struct compiled compiled = compile(text);
        if (warnings_in(&compiled) == 0) {
            print_error("%s and %s, %s: no word of %s\n", a, b, state, pair->cells[5]);
            faults++;
        }
        compiled_free(&compiled);
        ++*tried;
    }
    return faults;
}

static void published_pairs_are_answered(void **state)
{
    (void)state;
    static const char *const states[] = {"in water", "concentrated", "dry"};
    size_t tried = 0;
    int faults = 0;
    for (size_t i = 0; i < row_count; i++) {
        for (size_t s = 0; strcmp(rows[i].cells[0], "pair") == 0 && s < COUNT(states); s++) {
            if (strstr(rows[i].cells[3], states[s]) != NULL) {
                faults += try_pair(&rows[i], states[s], &tried);
            }
        }
    }
    assert_true(tried > 3000);
    assert_int_equal(faults, 0);
}

/* ---- every reaction speaks where it should ---- */

/* A material for a line, from the `skip`-th on; NULL when there is none. */
struct choice {
    const struct reagent *reagent;
    const struct material *but;
    size_t skip;
    const struct material *found;
};

static void choose(void *context, const struct material *material)
{
    struct choice *choice = context;
    bool fits = reagent_fits(choice->reagent, material_groups(&library, material)) && material != choice->but;
    if (fits && choice->found == NULL && choice->skip-- == 0) {
        choice->found = material;
    }
}

static const struct material *material_for(const struct reagent *reagent, const struct material *but, size_t skip)
{
    struct choice choice = {reagent, but, skip, NULL};
    library_each_material(&library, choose, &choice);
    return choice.found;
}

/* So much that the bound is passed, of a form as strong as can be had: half of what a bound forbids, twice what it asks for. */
static double amount_for(const struct reagent *reagent, const struct material *material)
{
    const struct form *form = strongest(material);
    double strength = isnan(reagent->bound) || reagent->times ? 30 : reagent->over ? reagent->bound * 2 + 1 : reagent->bound / 2;
    double pure = form->percent / 100 * (material->liquid ? form->density : 1);
    double waters = isnan(form->molar_mass) ? 1 : form->molar_mass / (form->molar_mass - 18.015 * form->waters);
    return ceil(strength * waters / pure);
}

static void add_reagent(struct buffer *text, const struct reagent *reagent, const struct material *material)
{
    if (material->is_water) {
        buffer_format(text, "    %.*s 100 mL\n", (int)strcspn(reagent->words.at, "\n"), reagent->also.length > 0 ? "tap water" : "water");
        return;
    }
    add_line(text, arena_format(&arena, "%.*s", TEXT_ARGUMENTS(material->name)), amount_for(reagent, material));
}

/* Whether the reaction speaks of a bath of these materials. */
static bool speaks(const struct reaction *reaction, const struct material *first, const struct reagent *meets,
                   const struct material *second, size_t skip, struct text kind)
{
    struct buffer text;
    bool dry = (reaction->where & (MEET_DISSOLVED | MEET_CONCENTRATED)) == 0 && isnan(reaction->keeps);
    double celsius = meets == NULL ? NAN : meets->celsius;
    for (const struct reagent *beside = reaction->beside; beside != NULL; beside = beside->next) {
        celsius = isnan(beside->celsius) ? celsius : beside->celsius;
    }
    buffer_start(&text, &arena);
    buffer_format(&text, "formula \"x\"\n    kind %.*s\n", TEXT_ARGUMENTS(kind));
    if (!dry) {
        buffer_format(&text, isnan(celsius) ? "    water 400 mL\n" : "    water 400 mL at %g °C\n", celsius + 1);
    }
    add_reagent(&text, reaction->first, first);
    if (second != NULL && (!second->is_water || meets->also.length > 0)) {
        add_reagent(&text, meets, second);
    }
    for (const struct reagent *beside = reaction->beside; beside != NULL; beside = beside->next) {
        const struct material *third = isnan(beside->celsius) ? material_for(beside, first, skip % 3) : NULL;
        if (third != NULL && third != second) {
            add_reagent(&text, beside, third);
        }
    }
    buffer_string(&text, dry ? "    makes 500 g\n" : "    water to make 1 L\n");
    if (!isnan(reaction->keeps)) {
        buffer_format(&text, "    keeps 10 years in %.*s\n",
                      TEXT_ARGUMENTS(reaction->vessel.length == 0 ? text_from("bottle") : reaction->vessel));
    }
    struct compiled compiled = compile(buffer_finish(&text));
    const char *sign = arena_format(&arena, "(reaction %.*s)", TEXT_ARGUMENTS(reaction->shown));
    bool found = false;
    size_t i;
    json_t *item;
    json_array_foreach(compiled.diagnostics, i, item) {
        const char *help = json_string_value(json_object_get(item, "help"));
        found = found || (help != NULL && strstr(help, sign) != NULL);
    }
    compiled_free(&compiled);
    return found;
}

static bool speaks_somewhere(const struct reaction *reaction, const struct reagent *meets)
{
    enum { TRIES = 14 };
    const struct material *first;
    for (size_t i = 0; i < TRIES && (first = material_for(reaction->first, NULL, i)) != NULL; i++) {
        const struct material *second = NULL;
        for (size_t j = 0; j < TRIES && (meets == NULL || (second = material_for(meets, first, j)) != NULL); j++) {
            size_t kind = 0;
            do {
                if (speaks(reaction, first, meets, second, j, reaction->kind_count == 0 ? text_from("other") : reaction->kinds[kind])) {
                    return true;
                }
            } while (++kind < reaction->kind_count);
            if (meets == NULL) {
                break;
            }
        }
    }
    return false;
}

/* Waiting for materials that the library does not have yet is no silence: nobody can write them. */
static bool has_materials(const struct reaction *reaction, const struct reagent *meets)
{
    return material_for(reaction->first, NULL, 0) != NULL && (meets == NULL || material_for(meets, NULL, 0) != NULL);
}

static void every_reaction_speaks(void **state)
{
    (void)state;
    const struct reactions *relation = library_relation(&library);
    int faults = 0;
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        bool in_a_bath = (reaction->where & (MEET_DISSOLVED | MEET_CONCENTRATED | MEET_DRY)) != 0 && reaction->where != MEET_STORED;
        const struct reagent *meets = reaction->second;
        for (bool more = in_a_bath; more; more = meets != NULL) {
            if (has_materials(reaction, meets) && !speaks_somewhere(reaction, meets)) {
                print_error("reaction %.*s is silent of %.*s\n", TEXT_ARGUMENTS(reaction->shown),
                            TEXT_ARGUMENTS(meets == NULL ? reaction->first->words : meets->words));
                faults++;
            }
            meets = meets == NULL ? NULL : meets->next;
        }
    }
    assert_true(relation->count > 100);
    assert_int_equal(faults, 0);
}

/* ---- cases with their amounts: the first is answered, the second is not ---- */

#include "reaction_cases.h"

static struct compiled compile_case(const struct reaction_case *item, const char *lines)
{
    bool whole = strstr(lines, "to make") != NULL || strstr(lines, "makes ") != NULL;
    char *text = NULL;
    assert_true(asprintf(&text, "formula \"x\"\nkind %s\n%s\n%s\n", item->kind, lines, whole ? "" : "water to make 1 L") > 0);
    struct compiled compiled = compile(text);
    free(text);
    return compiled;
}

static void cases_on_either_side(void **state)
{
    (void)state;
    int faults = 0;
    for (size_t i = 0; i < COUNT(reaction_cases); i++) {
        const struct reaction_case *item = &reaction_cases[i];
        struct compiled compiled = compile_case(item, item->answered);
        const char *sign = arena_format(&arena, "(reaction %s)", item->reaction);
        const json_t *said = compiled_find(&compiled, item->id, 0);
        const char *help = said == NULL ? NULL : json_string_value(json_object_get(said, "help"));
        if (help == NULL || strstr(help, sign) == NULL) {
            print_error("%s is silent of: %s\n", item->reaction, item->answered);
            print_warnings(&compiled);
            faults++;
        }
        compiled_free(&compiled);
        compiled = compile_case(item, item->spared);
        if (warnings_in(&compiled) > 0) {
            print_error("a warning of: %s\n", item->spared);
            print_warnings(&compiled);
            faults++;
        }
        compiled_free(&compiled);
    }
    assert_int_equal(faults, 0);
}

static void harmless_baths_draw_nothing(void **state)
{
    (void)state;
    int faults = 0;
    for (size_t i = 0; i < COUNT(harmless_baths); i++) {
        struct compiled compiled = compile(harmless_baths[i]);
        if (warnings_in(&compiled) > 0) {
            print_error("a warning of: %s\n", harmless_baths[i]);
            print_warnings(&compiled);
            faults++;
        }
        compiled_free(&compiled);
    }
    assert_int_equal(faults, 0);
}

/* ---- groups ---- */

struct seen {
    struct group_set members;
};

static void look_at_material(void *context, const struct material *material)
{
    struct seen *seen = context;
    group_set_add(&seen->members, material_groups(&library, material));
}

static void every_group_has_members(void **state)
{
    (void)state;
    const struct groups *groups = &library_relation(&library)->groups;
    struct seen seen = {0};
    library_each_material(&library, look_at_material, &seen);
    for (size_t i = 0; i < groups->count; i++) {
        if (!group_set_has(&seen.members, i)) {
            fail_msg("the group %.*s has no member", TEXT_ARGUMENTS(groups->names[i]));
        }
    }
}

/* An ion decides alike for all its salts. */
static void salts_of_an_ion_are_siblings(void **state)
{
    (void)state;
    static const struct {
        const char *group;
        const char *salts[4];
    } siblings[] = {
        {"sulfides", {"sodium sulfide", "potassium sulfide", "ammonium sulfide", "barium sulfide"}},
        {"thiocyanates", {"sodium thiocyanate", "potassium thiocyanate", "ammonium thiocyanate", "sodium thiocyanate solution"}},
        {"iodides", {"sodium iodide", "potassium iodide", "ammonium iodide", "mercuric iodide"}},
        {"bromides", {"sodium bromide", "potassium bromide", "ammonium bromide", "potassium bromide"}},
        {"sulfites", {"sodium sulfite", "potassium sulfite", "ammonium sulfite", "sodium metabisulfite"}},
        {"persulfates", {"sodium persulfate", "potassium persulfate", "ammonium persulfate", "sodium persulfate"}},
        {"dichromates", {"sodium dichromate", "potassium dichromate", "ammonium dichromate", "chromium trioxide"}},
        {"chlorine bleach", {"sodium hypochlorite", "calcium hypochlorite", "sodium hypochlorite", "calcium hypochlorite"}},
        {"ammonium salts", {"ammonium chloride", "ammonium alum", "ferric ammonium citrate", "ammonium thiosulfate solution"}},
    };
    for (size_t i = 0; i < COUNT(siblings); i++) {
        for (size_t j = 0; j < 4; j++) {
            if (!material_in_group(&library, material_called(siblings[i].salts[j]), text_from(siblings[i].group))) {
                fail_msg("%s is not among %s", siblings[i].salts[j], siblings[i].group);
            }
        }
    }
    assert_false(material_in_group(&library, material_called("ammonia"), text_from("ammonium salts")));
    assert_false(material_in_group(&library, material_called("boric acid"), text_from("acids")));
    assert_true(material_in_group(&library, material_called("citric acid"), text_from("acids")));
}

/* ---- declarations of one's own ---- */

static void reactions_of_ones_own(void **state)
{
    (void)state;
    const char *own = "reaction marsh-salt-and-borax\n of sodium chloride over 5 g/L\n meets borax\n harm serious\n warn \"a smell of marsh\"\n"
                      "formula \"x\"\nkind other\nsodium chloride %s\nborax (decahydrate) 5 g\nwater to make 1 L\n%s";
    char text[600];
    snprintf(text, sizeof text, own, "6 g", "");
    expect_list(text, "hazard-combination:9");
    snprintf(text, sizeof text, own, "5 g", "");
    expect_list(text, "");
    snprintf(text, sizeof text, own, "6 g", "silence marsh-salt-and-borax\n");
    expect_list(text, "");
    expect_list("reaction x\n of sodium chloride\n meets borax\n where everywhere\n warn \"…\"\nformula \"x\"\nkind other\nborax (decahydrate) 5 g\nwater to make 1 L\n",
                "syntax:4");
    expect_list("reaction x\n of sodium chloride over 5 g\n meets borax\n warn \"…\"\nformula \"x\"\nkind other\nborax (decahydrate) 5 g\nwater to make 1 L\n",
                "syntax:2");
    expect_list("reaction x\n meets borax\n warn \"…\"\nformula \"x\"\nkind other\nborax (decahydrate) 5 g\nwater to make 1 L\n", "syntax:1");
    /* A material of one's own is what its ions say. */
    expect_list("material marsh liver\n form K2S\n ions 2 K+, S--\n"
                "formula \"x\"\nkind other\nmarsh liver 5 g\ncitric acid (anhydrous) 5 g\nwater to make 1 L\n", "hazard-combination:7");
}

#define WITH_PAIRS(test) cmocka_unit_test_setup_teardown(test, read_rows, tear_down_arena)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_PAIRS(published_pairs_are_answered),
        WITH_LIBRARY(every_reaction_speaks),
        WITH_LIBRARY(cases_on_either_side),
        WITH_LIBRARY(harmless_baths_draw_nothing),
        WITH_LIBRARY(every_group_has_members),
        WITH_LIBRARY(salts_of_an_ion_are_siblings),
        cmocka_unit_test(reactions_of_ones_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
