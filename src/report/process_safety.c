/* What the baths of a process must not do to one another: carried over from one to the next, or poured away together. */
#include "report/process.h"

#include "chemistry/reactions.h"

#include <math.h>

/* A bath as it is poured: its use's working solution, in the dilution of the process where that has one; of a formula in parts that
 * nobody says how to mix, all parts as they stand.  NULL where nothing is known of it. */
static const struct reactants *reactants_of_stage(const struct process_sheet *sheet, const struct stage *stage)
{
    struct formulary *formulary = sheet->context->formulary;
    struct arena *arena = sheet->page->arena;
    struct reactants *reactants = ARENA_NEW(arena, struct reactants);
    const struct mixture *mixture = NULL;
    if (stage->kind != STAGE_BATH || stage->formula == NULL || stage->formula->faulty) {
        return NULL;
    }
    if (stage->part != NULL) {
        mixture = mixture_of_part(arena, formulary, stage->part);
    } else if (stage->use != NULL) {
        struct use use = *stage->use;
        if (stage->diluted_here) {
            use.stock_parts = stage->stock_parts;
            use.water_parts = stage->water_parts;
            use.mix = NULL;
        }
        mixture = mixture_of_use(arena, formulary, stage->formula, &use);
    }
    if (mixture != NULL) {
        reactants_add_mixture(arena, reactants, mixture);
        return reactants;
    }
    for (const struct part *part = stage->formula->parts; part != NULL; part = part->next) {
        mixture = mixture_of_part(arena, formulary, part);
        if (mixture != NULL) {
            reactants_add_mixture(arena, reactants, mixture);
        }
    }
    return reactants->count > 0 ? reactants : NULL;
}

static const struct stage *next_bath(const struct stage *stage, bool *washed)
{
    *washed = false;
    for (stage = stage->next; stage != NULL && stage->kind != STAGE_BATH; stage = stage->next) {
        *washed = *washed || stage->kind == STAGE_WASH;
    }
    return stage;
}

static struct text name_pair(const struct process_sheet *sheet, const struct stage *one, const struct stage *other,
                             const struct meeting *meeting)
{
    return page_format(sheet->page, "%.*s of %.*s and %.*s of %.*s", TEXT_ARGUMENTS(meeting->first->name),
                       TEXT_ARGUMENTS(one->title), TEXT_ARGUMENTS(meeting->second->name), TEXT_ARGUMENTS(other->title));
}

static const char *grave(const struct meeting *meeting)
{
    return meeting->reaction->harm == HARM_DEADLY ? "deadly: " : "";
}

void process_carried(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    for (const struct stage *stage = sheet->plan->process->stages; stage != NULL; stage = stage->next) {
        bool washed;
        const struct stage *next = stage->kind == STAGE_BATH ? next_bath(stage, &washed) : NULL;
        const struct reactants *here = next == NULL || washed ? NULL : reactants_of_stage(sheet, stage);
        const struct reactants *there = here == NULL ? NULL : reactants_of_stage(sheet, next);
        if (there == NULL) {
            continue;
        }
        const struct meeting *meeting = meetings_of_baths(page->arena, sheet->context->formulary->library, here, there);
        for (; meeting != NULL; meeting = meeting->next) {
            page_add_warning(page, meeting->reaction->harm == HARM_SPOILS ? PAGE_NOTE : PAGE_CAUTION, name_pair(sheet, stage, next, meeting),
                             page_format(page, "%s%.*s. Instead: %.*s.", grave(meeting), TEXT_ARGUMENTS(meeting->reaction->warn),
                                         TEXT_ARGUMENTS(meeting->reaction->advise)));
        }
    }
}

void process_poured_away(const struct process_sheet *sheet)
{
    struct page *page = sheet->page;
    struct page_list *list = NULL;
    for (const struct stage *one = sheet->plan->process->stages; one != NULL; one = one->next) {
        bool washed;
        const struct stage *follower = next_bath(one, &washed);
        const struct reactants *here = reactants_of_stage(sheet, one);
        for (const struct stage *other = one->next; here != NULL && other != NULL; other = other->next) {
            bool told = other == follower && !washed;
            const struct reactants *there = told ? NULL : reactants_of_stage(sheet, other);
            const struct meeting *meeting =
                there == NULL ? NULL : meetings_of_baths(page->arena, sheet->context->formulary->library, here, there);
            for (; meeting != NULL; meeting = meeting->next) {
                if (list == NULL) {
                    page_add_heading(page, 2, TEXT("Pour these away apart"));
                    list = page_add_list(page, PAGE_POINTS);
                }
                struct text pair = name_pair(sheet, one, other, meeting);
                page_list_item(list, page_format(page, "%.*s: %s%.*s", TEXT_ARGUMENTS(pair), grave(meeting), TEXT_ARGUMENTS(meeting->reaction->warn)));
            }
        }
    }
}
