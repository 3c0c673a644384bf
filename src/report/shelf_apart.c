/* What stands side by side on the shelves and must not, and what has stood there too long, the worst first. */
#include "report/shelf.h"

#include "chemistry/reactions.h"

#include <math.h>

static const double OF_A_SOLID = 1000; /* g/L: as strong as can be */

/* g/L of what is in the pack; a solid is taken as it is. */
static double strength_of(const struct pack *pack)
{
    double density = isnan(pack->form->density) ? 1 : pack->form->density;
    return pack->material->liquid ? pack->form->percent / 100 * density * 1000 : OF_A_SOLID;
}

static bool is_kept(const struct pack *pack)
{
    return !pack->sold && pack->left > 0;
}

static struct text pack_name(struct page *page, const struct pack *pack)
{
    return print_material(page, pack->material, pack->form);
}

/* Packs that stand on the shelves, each as something that may react. */
struct standing {
    struct reactants reactants;
    const struct pack **packs; /* of each of them */
};

static struct standing find_standing(const struct shelf_view *view)
{
    struct standing standing = {0};
    size_t count = 0;
    for (const struct pack *pack = view->store->packs; pack != NULL; pack = pack->next) {
        count += is_kept(pack);
    }
    standing.packs = ARENA_ARRAY(view->store->arena, const struct pack *, count + 1);
    for (const struct pack *pack = view->store->packs; pack != NULL; pack = pack->next) {
        if (is_kept(pack)) {
            standing.packs[standing.reactants.count] = pack;
            reactants_add(view->store->arena, &standing.reactants, pack->material, strength_of(pack));
        }
    }
    return standing;
}

static bool fits(const struct reagent *reagent, const struct reactant *reactant)
{
    bool strong = isnan(reagent->bound) || reagent->times || (reagent->over ? reactant->strength > reagent->bound : reactant->strength < reagent->bound);
    return strong && reagent_fits(reagent, reactant->groups);
}

static bool fits_any(const struct reagent *reagent, const struct reactant *reactant)
{
    while (reagent != NULL && !fits(reagent, reactant)) {
        reagent = reagent->next;
    }
    return reagent != NULL;
}

/* The names of what the lines speak of, each once; empty where there is none but `but`. */
static struct text names_of(struct page *page, const struct standing *standing, const struct reagent *first, const struct reagent *any,
                            const struct material *but)
{
    struct buffer names;
    buffer_start(&names, page->arena);
    for (size_t i = 0; i < standing->reactants.count; i++) {
        const struct reactant *item = &standing->reactants.items[i];
        bool named = false;
        for (size_t before = 0; before < i; before++) {
            named = named || standing->reactants.items[before].material == item->material;
        }
        if (!named && item->material != but && (first != NULL ? fits(first, item) : fits_any(any, item))) {
            buffer_format(&names, "%s%.*s", names.length == 0 ? "" : ", ", TEXT_ARGUMENTS(item->material->name));
        }
    }
    return (struct text){names.bytes, names.length};
}

/* The only material that the first line speaks of; NULL where there are several. */
static const struct material *only_first(const struct standing *standing, const struct reagent *first)
{
    const struct material *only = NULL;
    for (size_t i = 0; i < standing->reactants.count; i++) {
        const struct reactant *item = &standing->reactants.items[i];
        if (fits(first, item) && item->material != only) {
            if (only != NULL) {
                return NULL;
            }
            only = item->material;
        }
    }
    return only;
}

struct shelf_danger *shelf_dangers(const struct shelf_view *view, struct page *page)
{
    const struct reactions *relation = library_relation(view->store->library);
    struct standing standing = find_standing(view);
    struct shelf_danger *found = NULL;
    struct shelf_danger **end = &found;
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        if ((reaction->where & MEET_STORED) == 0 || reaction->second == NULL || !isnan(reaction->keeps)) {
            continue;
        }
        struct text these = names_of(page, &standing, reaction->first, NULL, NULL);
        struct text those = these.length == 0 ? these : names_of(page, &standing, NULL, reaction->second, only_first(&standing, reaction->first));
        if (those.length > 0) {
            *end = ARENA_NEW(page->arena, struct shelf_danger);
            **end = (struct shelf_danger){.reaction = reaction, .these = these, .those = those};
            end = &(*end)->next;
        }
    }
    for (size_t i = 0; i < relation->count; i++) {
        const struct reaction *reaction = relation->reactions[i];
        bool ages = (reaction->where & MEET_STORED) != 0 && !isnan(reaction->keeps);
        for (size_t k = 0; ages && k < standing.reactants.count; k++) {
            const struct pack *pack = standing.packs[k];
            bool dated = pack->opened != CALENDAR_NO_DAY && view->store->today != CALENDAR_NO_DAY;
            bool old = dated && view->store->today > calendar_later(pack->opened, reaction->keeps, reaction->months);
            if (fits(reaction->first, &standing.reactants.items[k]) && (old || pack->opened == CALENDAR_NO_DAY)) {
                *end = ARENA_NEW(page->arena, struct shelf_danger);
                **end = (struct shelf_danger){.reaction = reaction, .these = pack_name(page, pack), .pack = pack};
                end = &(*end)->next;
            }
        }
    }
    return found;
}

static void add_aged(struct page *page, const struct shelf_danger *danger)
{
    struct text age = danger->pack->opened == CALENDAR_NO_DAY
                          ? TEXT("no day of opening is written down")
                          : page_format(page, "opened %.*s", TEXT_ARGUMENTS(calendar_print(page->arena, danger->pack->opened)));
    page_add_warning(page, PAGE_CAUTION, page_format(page, "%.*s, %.*s", TEXT_ARGUMENTS(danger->these), TEXT_ARGUMENTS(age)),
                     page_format(page, "%.*s. Instead: %.*s.", TEXT_ARGUMENTS(danger->reaction->warn), TEXT_ARGUMENTS(danger->reaction->advise)));
}

void shelf_add_dangers(const struct shelf_view *view, struct page *page)
{
    struct page_table *table = NULL;
    struct page_column *these = NULL, *those = NULL, *gives = NULL;
    const struct shelf_danger *dangers = shelf_dangers(view, page);
    for (const struct shelf_danger *danger = dangers; danger != NULL; danger = danger->next) {
        if (danger->pack != NULL) {
            add_aged(page, danger);
        }
    }
    for (const struct shelf_danger *danger = dangers; danger != NULL; danger = danger->next) {
        if (danger->pack != NULL) {
            continue;
        }
        if (table == NULL) {
            page_add_heading(page, 2, TEXT("Keep apart, in different cupboards or trays"));
            table = page_add_table(page);
            these = page_table_column(table, TEXT("this"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
            those = page_table_column(table, TEXT("from"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
            gives = page_table_column(table, TEXT("together they give"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
        }
        struct page_row *row = page_table_row(table);
        page_row_cell(row, these, danger->these);
        page_row_cell(row, those, danger->those);
        page_row_cell(row, gives, page_format(page, "%s%.*s", danger->reaction->harm == HARM_DEADLY ? "deadly: " : "",
                                              TEXT_ARGUMENTS(danger->reaction->warn)));
    }
}
