/* The safety notes' handling: weighing, gloves, air, mixing, what must not meet, first aid, what to do with the used bath. */
#include "report/safety.h"

#include "chemistry/reactions.h"
#include "chemistry/hazard_rules.h"

#include "base/number.h"

#include <math.h>

/* A topic of which one piece of advice, the strictest, is enough stands first in the library. */
static void add_topic(const struct safety_report *report, struct page_list *list, const char *topic, bool solutions, bool only_first)
{
    for (const struct advice *advice = handling_advice(&report->handling, topic, solutions); advice != NULL; advice = advice->next) {
        page_list_item(list, advice->text);
        if (only_first) {
            return;
        }
    }
}

/* How warm a hydroxide makes the solution that it is dissolved in. */
static void add_warming(const struct safety_report *report, struct page_list *list)
{
    for (const struct safety_subject *subject = report->subjects; subject != NULL; subject = subject->next) {
        if (subject->part == NULL || subject->safety == NULL) {
            continue;
        }
        const struct mixture *mixture = subject->safety->mixture;
        for (const struct component *component = mixture->components; component != NULL; component = component->next) {
            double warming = handling_warming(&report->handling, mixture, component);
            if (warming >= 2) {
                page_list_item(list, page_format(report->page,
                                                 "%.*s: dissolving it warms the whole of the solution by about %s °C (estimate), and "
                                                 "far more in less water",
                                                 TEXT_ARGUMENTS(component->material->name),
                                                 number_print(report->page->arena, warming, 0)));
            }
        }
    }
}

static void add_sensitisers(const struct safety_report *report, struct page_list *list)
{
    struct buffer names;
    buffer_start(&names, report->page->arena);
    const struct handled_material *last = NULL;
    for (const struct handled_material *item = report->handling.materials; item != NULL; item = item->next) {
        bool sensitises = hazard_entry_of(item->data, FAMILY_SKIN_SENSITISER) != NULL ||
                          hazard_entry_of(item->data, FAMILY_AIRWAYS_SENSITISER) != NULL;
        if (sensitises) {
            buffer_format(&names, "%s%.*s", names.length == 0 ? "" : ", ", TEXT_ARGUMENTS(item->material->name));
            last = item;
        }
    }
    if (last != NULL) {
        page_list_item(list, page_format(report->page,
                                         "Can make people allergic: %s. Keep bare hands, sleeves and rags from it. A formula without it: "
                                         "potash check --without \"%.*s\"; what may stand in for it: potash materials --like \"%.*s\"",
                                         buffer_finish(&names), TEXT_ARGUMENTS(last->material->name),
                                         TEXT_ARGUMENTS(last->material->name)));
    }
}

static void add_section(const struct safety_report *report, const char *title, const char *topic)
{
    page_add_heading(report->page, 2, text_from(title));
    struct page_list *list = page_add_list(report->page, PAGE_POINTS);
    add_topic(report, list, topic, true, false);
}

/* ---- what must not meet ---- */

static bool is_listed(const struct meeting *const *listed, size_t count, const struct meeting *meeting)
{
    for (size_t i = 0; i < count; i++) {
        if (text_equal(listed[i]->reaction->name, meeting->reaction->name)) {
            return true;
        }
    }
    return false;
}

static void add_combinations(const struct safety_report *report)
{
    enum { MOST = 40 };
    const struct meeting *listed[MOST];
    size_t count = 0;
    struct page *page = report->page;
    struct library *library = report->context->formulary->library;
    struct page_table *table = NULL;
    struct page_column *here = NULL, *with = NULL, *gives = NULL;
    for (const struct safety_subject *subject = report->subjects; subject != NULL; subject = subject->next) {
        const struct meeting *meeting =
            subject->safety == NULL ? NULL : meetings_of(page->arena, library, subject->safety->mixture);
        for (; meeting != NULL && count < MOST; meeting = meeting->next) {
            if (is_listed(listed, count, meeting)) {
                continue;
            }
            if (table == NULL) {
                page_add_heading(page, 2, TEXT("Never together, in sink, tray or can"));
                table = page_add_table(page);
                here = page_table_column(table, TEXT("this"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
                with = page_table_column(table, TEXT("with"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
                gives = page_table_column(table, TEXT("gives"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
            }
            listed[count++] = meeting;
            struct page_row *row = page_table_row(table);
            page_row_cell(row, here, meeting->first->name);
            page_row_cell(row, with, meeting->other);
            page_row_cell(row, gives, meeting->reaction->warn);
            page_row_remark(row, page_format(page, "instead: %.*s", TEXT_ARGUMENTS(meeting->reaction->advise)));
        }
    }
}

static void add_within(const struct safety_report *report)
{
    struct page *page = report->page;
    enum { MOST = 40 };
    const struct meeting *listed[MOST];
    size_t count = 0;
    for (const struct safety_subject *subject = report->subjects; subject != NULL; subject = subject->next) {
        const struct meeting *meeting =
            subject->safety == NULL
                ? NULL
                : meetings_within(page->arena, report->context->formulary->library, subject->safety->mixture);
        for (; meeting != NULL && count < MOST; meeting = meeting->next) {
            if (!is_listed(listed, count, meeting)) {
                listed[count++] = meeting;
                page_add_warning(page, PAGE_CAUTION,
                                 page_format(page, "%s%.*s and %.*s in one bath", meeting->reaction->harm == HARM_DEADLY ? "Do not mix it: " : "", TEXT_ARGUMENTS(meeting->first->name),
                                             TEXT_ARGUMENTS(meeting->second->name)),
                                 page_format(page, "%.*s: %.*s.", TEXT_ARGUMENTS(meeting->reaction->warn), TEXT_ARGUMENTS(meeting->reaction->advise)));
            }
        }
    }
}

/* ---- when it has happened ---- */

static void add_first_aid(const struct safety_report *report)
{
    struct page *page = report->page;
    page_add_heading(page, 2, TEXT("When it has happened"));
    struct page_facts *facts = page_add_facts(page);
    enum { MOST = 40 };
    struct text told[MOST];
    size_t count = 0;
    bool doubtful = false; /* the gravest poisons, and what nobody has assessed */
    for (const struct safety_subject *subject = report->subjects; subject != NULL; subject = subject->next) {
        doubtful = doubtful || (subject->safety != NULL && (subject->safety->stops != NULL || subject->safety->unassessed != NULL));
        const struct safety_statement *statement =
            subject->safety == NULL
                ? NULL
                : handling_statements(page->arena, report->context->formulary->library, subject->safety, "P3");
        for (; statement != NULL; statement = statement->next) {
            bool again = false;
            for (size_t i = 0; i < count; i++) {
                again = again || text_equal(told[i], statement->code);
            }
            if (!again && count < MOST) {
                told[count++] = statement->code;
                page_facts_add(facts, statement->code, statement->text);
            }
        }
    }
    if (doubtful) { /* common practice, no source */
        page_facts_add(facts, TEXT("at once"), TEXT("out into fresh air, wet clothes off, eyes and skin under running water for 15 minutes; "
                                                    "call a poison centre or the emergency number, also where nothing is felt yet"));
    } else if (count == 0) {
        page_facts_add(facts, TEXT("eyes"), TEXT("rinse with running water for several minutes"));
        page_facts_add(facts, TEXT("skin"), TEXT("wash with water and soap"));
        page_facts_add(facts, TEXT("swallowed"), TEXT("rinse the mouth, and ask a doctor if you feel unwell"));
    }
    page_facts_add(facts, TEXT("spilt"), TEXT("take it up with a wet cloth or sand, rinse the place with water, and mind the points below"));
    page_add_paragraph(page, TEXT("Show the doctor the bottle and this page. The supplier's safety data sheets go before what stands "
                                  "here."));
}

void safety_add_handling(const struct safety_report *report)
{
    struct page *page = report->page;
    add_within(report);
    page_add_heading(page, 2, TEXT("Weighing and mixing"));
    struct page_list *list = page_add_list(page, PAGE_POINTS);
    add_topic(report, list, "gloves", false, false);
    add_topic(report, list, "eyes", false, true);
    add_topic(report, list, "air", false, false);
    add_topic(report, list, "dust", false, false);
    add_topic(report, list, "mixing", false, false);
    add_warming(report, list);
    add_sensitisers(report, list);
    add_topic(report, list, "allergy", false, false);
    add_topic(report, list, "person", false, false);
    add_combinations(report);
    add_first_aid(report);
    add_section(report, "Keeping", "storage");
    add_section(report, "When it is used up", "disposal");
}
