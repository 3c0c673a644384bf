/* What must not meet: every reaction of the library, cases with their amounts on either side of each bound, and baths that the trade
 * mixes without harm. */
#define _GNU_SOURCE

#include "support/program.h"
#include "trials.h"

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
    bool fits = reagent_fits(choice->reagent, material->groups) && material != choice->but;
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

/* A bath of these materials, of which the reaction should speak. */
static const char *bath_of(const struct reaction *reaction, const struct material *first, const struct reagent *meets,
                   const struct material *second, size_t skip, struct text kind)
{
    struct buffer text;
    bool dry = (reaction->where & (MEET_DISSOLVED | MEET_CONCENTRATED)) == 0 && isnan(reaction->keeps);
    double celsius = meets == NULL ? NAN : meets->celsius;
    for (const struct reagent *beside = reaction->beside; beside != NULL; beside = beside->next) {
        celsius = isnan(beside->celsius) ? celsius : beside->celsius;
    }
    buffer_start(&text, &arena);
    buffer_format(&text, "    kind %.*s\n", TEXT_ARGUMENTS(kind));
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
    return buffer_finish(&text);
}

enum { TRIES = 14 }; /* materials of each group, at most */

/* The `number`-th of the baths that a reaction can be tried with; NULL when there are no more. */
static const char *nth_bath(const struct reaction *reaction, const struct reagent *meets, size_t number)
{
    size_t kinds = reaction->kind_count == 0 ? 1 : reaction->kind_count;
    struct text kind = reaction->kind_count == 0 ? text_from("other") : reaction->kinds[number % kinds];
    size_t pair = number / kinds;
    const struct material *first = pair / TRIES < TRIES ? material_for(reaction->first, NULL, pair / TRIES) : NULL;
    const struct material *second = first == NULL || meets == NULL ? NULL : material_for(meets, first, pair % TRIES);
    if (first == NULL) {
        return NULL;
    }
    return meets != NULL && second == NULL ? "" : bath_of(reaction, first, meets, second, pair % TRIES, kind);
}

/* A line of a reaction that is to be heard, and the next bath to try it with. */
struct hearing {
    const struct reaction *reaction;
    const struct reagent *meets;
    size_t next;
    bool heard;
};

enum { MOST_HEARINGS = 1000 };

/* Waiting for materials that the library does not have yet is no silence: nobody can write them. */
static bool has_materials(const struct reaction *reaction, const struct reagent *meets)
{
    return material_for(reaction->first, NULL, 0) != NULL && (meets == NULL || material_for(meets, NULL, 0) != NULL);
}

static size_t list_hearings(struct hearing hearings[MOST_HEARINGS])
{
    const struct reactions *relation = library_relation(&library);
    size_t count = 0;
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        bool in_a_bath = (reaction->where & (MEET_DISSOLVED | MEET_CONCENTRATED | MEET_DRY)) != 0;
        const struct reagent *meets = reaction->second;
        for (bool more = in_a_bath; more; more = meets != NULL) {
            if (has_materials(reaction, meets)) {
                assert_true(count < MOST_HEARINGS);
                hearings[count++] = (struct hearing){reaction, meets, 0, false};
            }
            meets = meets == NULL ? NULL : meets->next;
        }
    }
    return count;
}

/* Tries one more bath of each reaction that was not heard yet, all in one file; false when there are none left. */
static bool hear_once_more(struct hearing *hearings, size_t count)
{
    struct trials trials = {0};
    struct hearing *heard[MOST_HEARINGS];
    for (size_t i = 0; i < count; i++) {
        struct hearing *hearing = &hearings[i];
        const char *bath = hearing->heard ? NULL : "";
        while (bath != NULL && bath[0] == '\0') {
            bath = nth_bath(hearing->reaction, hearing->meets, hearing->next++);
        }
        if (bath != NULL) {
            heard[trials.count] = hearing;
            trials_add(&trials, bath, "", arena_format(&arena, "%.*s", TEXT_ARGUMENTS(hearing->reaction->shown)));
        }
    }
    if (trials.count > 0) {
        trials_run(&trials);
    }
    for (size_t i = 0; i < trials.count; i++) {
        heard[i]->heard = trials.items[i].answered;
    }
    return trials.count > 0;
}

static void every_reaction_speaks(void **state)
{
    (void)state;
    static struct hearing hearings[MOST_HEARINGS];
    size_t count = list_hearings(hearings);
    while (hear_once_more(hearings, count)) {
    }
    int faults = 0;
    for (size_t i = 0; i < count; i++) {
        const struct reagent *meets = hearings[i].meets;
        if (!hearings[i].heard) {
            print_error("reaction %.*s is silent of %.*s\n", TEXT_ARGUMENTS(hearings[i].reaction->shown),
                        TEXT_ARGUMENTS(meets == NULL ? hearings[i].reaction->first->words : meets->words));
            faults++;
        }
    }
    assert_true(count > 200);
    assert_int_equal(faults, 0);
}

/* ---- cases with their amounts: the first is answered, the second is not ---- */

#include "reaction_cases.h"

static const char *lines_of_case(const struct reaction_case *item, const char *lines)
{
    bool whole = strstr(lines, "to make") != NULL || strstr(lines, "makes ") != NULL;
    return arena_format(&arena, "kind %s\n%s\n%s", item->kind, lines, whole ? "" : "water to make 1 L\n");
}

static void cases_on_either_side(void **state)
{
    (void)state;
    struct trials answered = {0};
    struct trials spared = {0};
    for (size_t i = 0; i < COUNT(reaction_cases); i++) {
        const struct reaction_case *item = &reaction_cases[i];
        trials_add(&answered, lines_of_case(item, item->answered), item->reaction, item->reaction);
        trials_add(&spared, lines_of_case(item, item->spared), item->reaction, NULL);
    }
    trials_run(&answered);
    trials_run(&spared);
    assert_int_equal(trials_faults(&answered, true) + trials_faults(&spared, false), 0);
}

static void harmless_baths_draw_nothing(void **state)
{
    (void)state;
    struct trials trials = {0};
    for (size_t i = 0; i < COUNT(harmless_baths); i++) {
        trials_add(&trials, harmless_baths[i], "harmless", NULL);
    }
    trials_run(&trials);
    assert_true(trials.count >= 30);
    assert_int_equal(trials_faults(&trials, false), 0);
}

/* ---- groups ---- */

struct seen {
    struct group_set members;
};

static void look_at_material(void *context, const struct material *material)
{
    struct seen *seen = context;
    group_set_add(&seen->members, material->groups);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(every_reaction_speaks),
        WITH_LIBRARY(cases_on_either_side),
        WITH_LIBRARY(harmless_baths_draw_nothing),
        WITH_LIBRARY(every_group_has_members),
        WITH_LIBRARY(salts_of_an_ion_are_siblings),
        cmocka_unit_test(reactions_of_ones_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
