/* Reactions from their declarations. */
#include "library/relation.h"

#include "library/entries.h"
#include "library/measure.h"

#include <math.h>

struct reading {
    struct library *library;
    struct reactions *relation;
    struct groups_reader groups;
    struct reaction **reactions; /* as they come */
    size_t room;
};

/* The ends of the lists of a reaction. */
struct ends {
    struct reagent *second, *beside, *unless;
};

static void report(const struct reading *reading, struct span span, const char *message, const char *help)
{
    struct diagnostics *diagnostics = reading->library->diagnostics;
    diagnostics_help(diagnostics, diagnostics_add(diagnostics, DIAG_SYNTAX, span, "%s", message), "%s", help);
}

/* ---- one line: "sulfides or selenium except barium sulfide over 2 g/L" ---- */

/* Takes the next name off; *excepted is set from the first `except` on. */
static struct text cut_name(struct text *rest, bool *excepted)
{
    static const struct {
        const char *word;
        bool except;
    } joints[] = {{" or ", false}, {" except ", true}};
    struct text all = *rest;
    for (size_t i = 0; i < all.length; i++) {
        for (size_t j = 0; j < 2; j++) {
            size_t length = strlen(joints[j].word);
            if (all.length - i > length && memcmp(all.at + i, joints[j].word, length) == 0) {
                *rest = (struct text){all.at + i + length, all.length - i - length};
                *excepted = joints[j].except || *excepted;
                return (struct text){all.at, i};
            }
        }
    }
    *rest = (struct text){0};
    return all;
}

static void read_names(struct reading *reading, struct text words, struct group_set *in, struct group_set *out)
{
    bool excepted = false;
    for (struct text rest = words; rest.length > 0;) {
        struct group_set *set = excepted ? out : in;
        size_t place = groups_place(&reading->groups, cut_name(&rest, &excepted));
        if (place < MOST_GROUPS) {
            group_set_put(set, place);
        }
    }
}

static void read_bound(struct reading *reading, struct reagent *reagent, const struct bound *bound)
{
    static const char times[] = "times ";
    struct library *library = reading->library;
    struct text words = bound->quantity->unit == NULL ? (struct text){0} : bound->quantity->unit->spelling;
    reagent->over = bound->over;
    if (words.length >= sizeof times && memcmp(words.at, times, sizeof times - 1) == 0) {
        struct group_set none = {0};
        struct text rest = text_trim((struct text){words.at + sizeof times - 1, words.length - sizeof times + 1});
        reagent->bound = bound->quantity->value;
        reagent->times = true;
        read_names(reading, names_fold(library->arena, rest), &reagent->measure, &none);
        return;
    }
    reagent->bound = measure_read_only(library, bound->quantity, DIMENSION_CONCENTRATION);
    reagent->celsius = measure_read_only(library, bound->quantity, DIMENSION_TEMPERATURE);
    if (isnan(reagent->bound) && isnan(reagent->celsius)) {
        report(reading, bound->quantity->span, "a reaction's limit is a strength, or a temperature of the water",
               "write it as: over 10 g/L, over 40 °C, or over 2 times sulfites");
    }
}

/* By its lines: no material is made before the groups are known. */
static bool is_water(struct library *library, struct library_entry *entry)
{
    const struct declaration *declaration = library_declaration(library, entry);
    for (const struct statement *at = declaration == NULL ? NULL : declaration->statements; at != NULL; at = at->next) {
        const struct word *role = at->kind == SAY_ROLE ? ((const struct words_statement *)at)->words : NULL;
        for (; role != NULL; role = role->next) {
            if (text_is(names_folded(library->names, role->name)->spelling, "water")) {
                return true;
            }
        }
    }
    return false;
}

/* Of water's names only those that are written are meant: what is dissolved in the tap's is not in distilled water. */
static struct text names_of_water(struct library *library, struct text words)
{
    bool excepted = false;
    struct text rest = words;
    struct text name = cut_name(&rest, &excepted);
    struct library_entry *entry = library_find(library, DECLARE_MATERIAL, name);
    return entry != NULL && !text_equal(entry->key, name) && is_water(library, entry) ? words : (struct text){0};
}

bool reagent_is_written(const struct reagent *reagent, struct text written)
{
    bool excepted = false;
    bool found = reagent->also.length == 0;
    for (struct text rest = reagent->also; rest.length > 0 && !found;) {
        found = text_equal(cut_name(&rest, &excepted), written);
    }
    return found;
}

static struct reagent *read_reagent(struct reading *reading, const struct condition_statement *line)
{
    struct library *library = reading->library;
    struct reagent *reagent = ARENA_NEW(library->arena, struct reagent);
    struct text folded = names_folded(library->names, line->subject->name)->spelling;
    *reagent = (struct reagent){.words = line->subject->name->spelling, .bound = NAN, .celsius = NAN};
    read_names(reading, folded, &reagent->in, &reagent->out);
    reagent->also = names_of_water(library, folded);
    if (line->bound != NULL) {
        read_bound(reading, reagent, line->bound);
    }
    return reagent;
}

/* ---- one reaction ---- */

static unsigned read_places(const struct reading *reading, const struct word *word)
{
    static const struct {
        const char *name;
        unsigned place;
    } places[] = {{"dissolved", MEET_DISSOLVED}, {"concentrated", MEET_CONCENTRATED}, {"dry", MEET_DRY},
                  {"stored", MEET_STORED},       {"carried", MEET_CARRIED},           {"drain", MEET_DRAIN}};
    unsigned found = 0;
    for (; word != NULL; word = word->next) {
        unsigned place = 0;
        for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
            place |= text_is(word->name->spelling, places[i].name) ? places[i].place : 0;
        }
        if (place == 0) {
            report(reading, word->span, "this is no place where things meet",
                   "a reaction takes place: dissolved, concentrated, dry, stored, carried, drain");
        }
        found |= place;
    }
    return found;
}

const char *const harm_names[] = {[HARM_DEADLY] = "deadly", [HARM_SERIOUS] = "serious", [HARM_SPOILS] = "spoils"};

static enum harm read_harm(const struct reading *reading, const struct word *word)
{
    for (enum harm harm = HARM_DEADLY; harm <= HARM_SPOILS; harm++) {
        if (text_is(word->name->spelling, harm_names[harm])) {
            return harm;
        }
    }
    report(reading, word->span, "how grave it is is not understood", "it is one of: deadly, serious, spoils");
    return HARM_SERIOUS;
}

static void read_keeping(const struct reading *reading, struct reaction *reaction, const struct quantity_statement *line)
{
    double keeps = line->quantity == NULL ? NAN : measure_read_only(reading->library, line->quantity, DIMENSION_TIME);
    if (isnan(keeps)) {
        report(reading, line->base.span, "this is no time", "write it as: keeps 3 days in closed bottle");
        return;
    }
    reaction->keeps = keeps;
    reaction->months = measure_months(reading->library, line->quantity);
    reaction->vessel = line->word == NULL ? (struct text){0} : names_folded(reading->library->names, line->word->name)->spelling;
}

static void append(const struct reagent **list, struct reagent **last, struct reagent *reagent)
{
    *(*last == NULL ? list : &(*last)->next) = reagent;
    *last = reagent;
}

static void read_kinds(const struct reading *reading, struct reaction *reaction, const struct word *words)
{
    size_t count = 0;
    for (const struct word *word = words; word != NULL; word = word->next) {
        count++;
    }
    struct text *kinds = ARENA_ARRAY(reading->library->arena, struct text, count);
    reaction->kinds = kinds;
    reaction->kind_count = 0;
    for (const struct word *word = words; word != NULL; word = word->next) {
        kinds[reaction->kind_count++] = names_folded(reading->library->names, word->name)->spelling;
    }
}

static void read_line(struct reading *reading, struct reaction *reaction, struct ends *ends, const struct statement *statement)
{
    const struct condition_statement *reagent = (const struct condition_statement *)statement;
    const struct word *words = ((const struct words_statement *)statement)->words;
    const struct text_statement *text = (const struct text_statement *)statement;
    switch (statement->kind) {
    case SAY_OF:
        reaction->first = read_reagent(reading, reagent);
        break;
    case SAY_MEETS:
        append(&reaction->second, &ends->second, read_reagent(reading, reagent));
        break;
    case SAY_BESIDE:
        append(&reaction->beside, &ends->beside, read_reagent(reading, reagent));
        break;
    case SAY_UNLESS:
        append(&reaction->unless, &ends->unless, read_reagent(reading, reagent));
        break;
    case SAY_FOR:
        read_kinds(reading, reaction, words);
        break;
    case SAY_WHERE:
        reaction->where = read_places(reading, words);
        break;
    case SAY_HARM:
        reaction->harm = read_harm(reading, words);
        break;
    case SAY_KEEPS:
        read_keeping(reading, reaction, (const struct quantity_statement *)statement);
        break;
    case SAY_WARN:
        reaction->warn = text->text;
        break;
    case SAY_ADVISE:
        reaction->advise = text->text;
        break;
    case SAY_SOURCE:
        reaction->source = reaction->source.length == 0 ? text->text : reaction->source;
        break;
    default:
        break;
    }
}

static void read_reaction(void *context, const struct declaration *declaration)
{
    struct reading *reading = context;
    struct library *library = reading->library;
    struct reactions *relation = reading->relation;
    if (declaration->name.name == NULL) {
        return;
    }
    struct reaction *reaction = ARENA_NEW(library->arena, struct reaction);
    *reaction = (struct reaction){.shown = declaration->name.name->spelling, .harm = HARM_SERIOUS, .where = MEET_DISSOLVED,
                                  .keeps = NAN};
    reaction->name = names_folded(library->names, declaration->name.name)->spelling;
    struct ends ends = {NULL, NULL, NULL};
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        read_line(reading, reaction, &ends, statement);
    }
    if (reaction->first == NULL || (reaction->second == NULL && isnan(reaction->keeps)) || reaction->warn.length == 0) {
        report(reading, declaration->span, "a reaction says what it is of, what that meets, and what comes of it",
               "give it the lines: of NAME, meets NAME, warn \"…\"");
        return;
    }
    if (relation->count == MOST_REACTION_WORDS * 64) {
        report(reading, declaration->span, "there are more reactions than can be looked for", "leave some out");
        return;
    }
    if (relation->count == reading->room) {
        reading->room = reading->room == 0 ? 128 : reading->room * 2;
        struct reaction **more = ARENA_ARRAY(library->arena, struct reaction *, reading->room);
        for (size_t i = 0; i < relation->count; i++) {
            more[i] = reading->reactions[i];
        }
        reading->reactions = more;
    }
    reading->reactions[relation->count++] = reaction;
}

/* Otherwise in the order of the files. */
static void put_worst_first(const struct reading *reading)
{
    struct reactions *relation = reading->relation;
    const struct reaction **sorted = ARENA_ARRAY(reading->library->arena, const struct reaction *, relation->count + 1);
    size_t count = 0;
    for (enum harm harm = HARM_DEADLY; harm <= HARM_SPOILS; harm++) {
        for (size_t i = 0; i < relation->count; i++) {
            if (reading->reactions[i]->harm == harm) {
                sorted[count++] = reading->reactions[i];
            }
        }
    }
    relation->reactions = sorted;
}

/* For each group the reactions whose first line, or any second one, names it; `by` has `words` words for each. */
static void note_groups(uint64_t *by, size_t words, size_t place, const struct reagent *reagent)
{
    for (; reagent != NULL; reagent = reagent->next) {
        for (size_t i = 0; i < MOST_GROUPS / 64; i++) {
            for (uint64_t left = reagent->in.bits[i]; left != 0; left &= left - 1) {
                size_t group = i * 64 + (size_t)__builtin_ctzll(left);
                by[group * words + place / 64] |= (uint64_t)1 << place % 64;
            }
        }
    }
}

static void index_groups(const struct library *library, struct reactions *relation)
{
    relation->words = (relation->count + 63) / 64;
    uint64_t *by_first = ARENA_ARRAY(library->arena, uint64_t, MOST_GROUPS * relation->words + 1);
    uint64_t *by_second = ARENA_ARRAY(library->arena, uint64_t, MOST_GROUPS * relation->words + 1);
    uint64_t *alone = ARENA_ARRAY(library->arena, uint64_t, relation->words + 1);
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        note_groups(by_first, relation->words, i, reaction->first);
        note_groups(by_second, relation->words, i, reaction->second);
        alone[i / 64] |= (uint64_t)(reaction->second == NULL) << i % 64;
    }
    relation->by_first = by_first;
    relation->by_second = by_second;
    relation->alone = alone;
}

void reactions_among(const struct reactions *relation, const struct group_set *groups, uint64_t found[MOST_REACTION_WORDS])
{
    uint64_t second[MOST_REACTION_WORDS] = {0};
    for (size_t w = 0; w < relation->words; w++) {
        found[w] = 0;
        second[w] = relation->alone[w];
    }
    for (size_t i = 0; i < MOST_GROUPS / 64; i++) {
        for (uint64_t left = groups->bits[i]; left != 0; left &= left - 1) {
            size_t group = i * 64 + (size_t)__builtin_ctzll(left);
            for (size_t w = 0; w < relation->words; w++) {
                found[w] |= relation->by_first[group * relation->words + w];
                second[w] |= relation->by_second[group * relation->words + w];
            }
        }
    }
    for (size_t w = 0; w < relation->words; w++) {
        found[w] &= second[w];
    }
}

const struct reactions *library_relation(struct library *library)
{
    bool built_in = library->tables != NULL && !library_declares(library, DECLARE_GROUP) && !library_declares(library, DECLARE_REACTION);
    if (library->relation == NULL && built_in) {
        library->relation = &built_in_reactions;
    } else if (library->relation == NULL) {
        struct reading reading = {.library = library, .relation = ARENA_NEW(library->arena, struct reactions)};
        groups_start(&reading.groups, &reading.relation->groups, library);
        library_each_declaration(library, DECLARE_REACTION, read_reaction, &reading);
        put_worst_first(&reading);
        index_groups(library, reading.relation);
        library->relation = reading.relation;
    }
    return library->relation;
}
