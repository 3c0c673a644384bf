/* What to take care of at the bench: the materials' own cautions, and what holds for all powders and liquids. */
#include "report/sheet/model.h"

#include "base/number.h"
#include "report/notices.h"

static bool is_first_of_material(const struct formula *formula, const struct step *wanted)
{
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (step_is_addition(step) && step->material == wanted->material) {
                return step == wanted;
            }
        }
    }
    return false;
}

/* The words of the material's own cautions; its classes, where it has no words. */
static void caution_of(struct sheet *sheet, const struct material *material)
{
    struct buffer classes;
    buffer_start(&classes, sheet->page->arena);
    struct text caution = {0};
    for (const struct statement *statement = material->declaration->statements; statement != NULL;
         statement = statement->next) {
        if (statement->kind == SAY_CAUTION) {
            caution = ((const struct text_statement *)statement)->text;
        }
        if (statement->kind == SAY_HAZARD) {
            const struct figure_statement *hazard = (const struct figure_statement *)statement;
            struct text code = hazard->word->name->spelling;
            if (!text_is(code, "none")) {
                buffer_format(&classes, "%s%.*s", classes.length == 0 ? "" : ", ", TEXT_ARGUMENTS(code));
            }
        }
    }
    if (caution.length == 0 && classes.length == 0) {
        return;
    }
    struct text words = caution.length > 0 ? caution : text_from(buffer_finish(&classes));
    sheet_note(sheet, &sheet->cautions, page_plain(words))->title = material->name;
}

struct text sheet_short_label(struct page *page, const struct mixture_safety *safety)
{
    enum { MOST = 2 };
    if (safety == NULL) {
        return TEXT("NOT ASSESSED: what it holds is not known");
    }
    struct buffer text;
    buffer_start(&text, page->arena);
    if (safety->unassessed != NULL) {
        struct text names = notice_names(page->arena, safety->unassessed);
        buffer_format(&text, "NOT ASSESSED (%.*s)%s", TEXT_ARGUMENTS(names), safety->hazards == NULL ? "" : "; of the rest: ");
    } else if (safety->hazards == NULL && !notice_is_strong(safety)) {
        return TEXT("no class of hazard is reached by calculation");
    }
    if (notice_is_strong(safety)) {
        buffer_format(&text, "%sstrongly %s, pH about %s: goggles and gloves%s", text.length > 0 ? "; " : "",
                      safety->acidity.ph < 7 ? "acid" : "alkaline", number_print(page->arena, safety->acidity.ph, 1),
                      safety->hazards == NULL ? "" : "; ");
    }
    size_t before = text.length;
    buffer_text(&text, safety->signal_word);
    for (size_t i = 0; i < safety->pictogram_count; i++) {
        buffer_format(&text, "%s%.*s%s", i == 0 ? " (" : ", ", TEXT_ARGUMENTS(safety->pictograms[i].code),
                      i + 1 == safety->pictogram_count ? ")" : "");
    }
    size_t told = 0;
    for (const struct safety_statement *statement = safety->hazards; statement != NULL; statement = statement->next) {
        bool supplement = statement->code.at[0] == 'E';
        const char *joint = text.length == before ? "" : told == 0 ? ": " : told < MOST ? "; " : ", ";
        bool in_words = told < MOST && (!supplement || text.length == before);
        told++;
        buffer_format(&text, "%s%.*s", joint, TEXT_ARGUMENTS(statement->code));
        if (in_words) {
            buffer_format(&text, "\u00A0%.*s", TEXT_ARGUMENTS(statement->text));
        }
    }
    return text_from(buffer_finish(&text));
}

static bool same_statements(const struct mixture_safety *a, const struct mixture_safety *b)
{
    const struct safety_statement *one = a->hazards;
    const struct safety_statement *other = b->hazards;
    while (one != NULL && other != NULL && text_equal(one->code, other->code)) {
        one = one->next;
        other = other->next;
    }
    return one == NULL && other == NULL;
}

void sheet_find_cautions(struct sheet *sheet)
{
    for (const struct part *part = sheet->formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            bool shown = step_is_addition(step) && step->material != NULL && !step->material->is_water &&
                         is_first_of_material(sheet->formula, step);
            if (shown) {
                caution_of(sheet, step->material);
            }
        }
    }
}

/* What each bottle and working solution is classed as, in a line or two; the safety notes have the rest. */
static void add_classes(const struct sheet *sheet)
{
    struct page *page = sheet->page;
    const struct mixture_safety *bottle = NULL; /* of a formula in one bottle */
    struct page_facts *facts = page_add_facts(page);
    for (size_t i = 0; i < sheet->batch->part_count; i++) {
        const struct name *name = sheet->parts[i].batch->part->name;
        bottle = sheet->batch->part_count == 1 ? sheet->parts[i].safety : NULL;
        page_facts_add(facts, name == NULL ? TEXT("bottle") : page_format(page, "bottle %.*s", TEXT_ARGUMENTS(name->spelling)),
                       sheet->parts[i].label);
    }
    for (size_t i = 0; i < sheet->use_count; i++) {
        const struct mixture_safety *working = sheet->uses[i].safety;
        bool told = working == NULL || (working->hazards == NULL && working->unassessed == NULL) ||
                    (bottle != NULL && same_statements(working, bottle));
        if (!told) {
            page_facts_add(facts, page_format(page, "for %.*s", TEXT_ARGUMENTS(sheet->uses[i].use->name)), sheet->uses[i].label);
        }
    }
}

void sheet_add_care(const struct sheet *sheet)
{
    struct page *page = sheet->page;
    page_add_heading(page, 2, TEXT("Take care"));
    add_classes(sheet);
    /* Common practice, no source. */
    page_add_paragraph(page, TEXT("Gloves, eye protection, an apron; powders weighed out of the draught, without dust, in an aired "
                                  "room; no food or drink on the bench; spills wiped up at once."));
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    for (const struct sheet_note *note = sheet->cautions; note != NULL; note = note->next) {
        page_list_item(list, page_format(page, "%.*s: %.*s", TEXT_ARGUMENTS(note->title), TEXT_ARGUMENTS(note->words.text)));
    }
}
