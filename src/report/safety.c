/* The safety notes: what a formula's solutions are classed as and why, and how to handle them. */
#include "report/safety.h"

#include "base/number.h"
#include "report/notices.h"

#include <math.h>

static struct text use_name(struct page *page, const struct use *use)
{
    if (isnan(use->stock_parts)) {
        return page_format(page, "Working solution for %.*s", TEXT_ARGUMENTS(use->name));
    }
    return page_format(page, "Working solution for %.*s, %.*s", TEXT_ARGUMENTS(use->name),
                       TEXT_ARGUMENTS(print_ratio(page, use->stock_parts, use->water_parts)));
}

static bool same_label(const struct mixture_safety *a, const struct mixture_safety *b)
{
    if (a == NULL || b == NULL || a->mixture == NULL || b->mixture == NULL) {
        return false;
    }
    const struct hazard_result *one = a->classes;
    const struct hazard_result *other = b->classes;
    while (one != NULL && other != NULL && one->class == other->class && text_equal(one->code, other->code)) {
        one = one->next;
        other = other->next;
    }
    /* The same solution, not only one of the same classes: its reasons would differ. */
    return one == NULL && other == NULL && fabs(a->mixture->water / a->mixture->grams - b->mixture->water / b->mixture->grams) < 5e-3;
}

static void add_subject(struct safety_report *report, struct text name, const struct part *part, const struct use *use,
                        const struct mixture_safety *safety)
{
    struct safety_subject **at = &report->subjects;
    const struct safety_subject *same = NULL;
    while (*at != NULL) {
        same = same == NULL && (*at)->same_as == NULL && same_label((*at)->safety, safety) ? *at : same;
        at = &(*at)->next;
    }
    *at = ARENA_NEW(report->page->arena, struct safety_subject);
    **at = (struct safety_subject){.name = name, .part = part, .use = use, .safety = safety, .same_as = same};
    handling_add(&report->handling, safety);
}

void safety_find_subjects(struct safety_report *report)
{
    struct page *page = report->page;
    const struct formula *formula = report->formula;
    const struct mixture_safety *const *safety = report->solutions->parts;
    handling_start(&report->handling, page->arena, report->context->formulary->library);
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        struct text name = part->name == NULL ? (isnan(part->makes_mass) ? TEXT("In the bottle") : TEXT("The dry mix"))
                                              : page_format(page, "Part %.*s", TEXT_ARGUMENTS(part->name->spelling));
        add_subject(report, name, part, NULL, *safety++);
    }
    safety = report->solutions->uses;
    for (const struct use *use = formula->uses; use != NULL; use = use->next, safety++) {
        if (report_wants_use(report->context, use)) {
            add_subject(report, use_name(page, use), NULL, use, *safety);
        }
    }
}

struct text safety_print_causes(struct arena *arena, const struct hazard_cause *causes)
{
    struct buffer text;
    buffer_start(&text, arena);
    buffer_string(&text, "");
    for (const struct hazard_cause *cause = causes; cause != NULL; cause = cause->next) {
        buffer_format(&text, "%s%.*s\u00A0%s\u00A0%%", cause == causes ? "" : ", ", TEXT_ARGUMENTS(cause->material),
                      number_print_significant(arena, cause->percent, cause->percent < 1 ? 2 : 3));
        if (cause->basis != BASIS_NONE) {
            buffer_format(&text, " (%.*s)", TEXT_ARGUMENTS(hazard_basis_words(cause->basis)));
        }
    }
    return text.length == 0 ? (struct text){0} : text_from(buffer_finish(&text));
}

/* ---- one solution ---- */

static void add_classes(struct page *page, const struct mixture_safety *safety)
{
    struct page_table *table = page_add_table(page);
    struct page_column *hazard = page_table_column(table, TEXT("class"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *code = page_table_column(table, TEXT("says"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    struct page_column *because = page_table_column(table, TEXT("because of (by weight)"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    for (const struct hazard_result *result = safety->classes; result != NULL; result = result->next) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, hazard, result->hazard.length > 0 ? result->hazard : TEXT("supplement"));
        page_row_cell(row, code, result->code);
        page_row_cell(row, because, safety_print_causes(page->arena, result->because));
        page_row_remark(row, result->rule);
    }
}

static void add_label(struct page *page, const struct mixture_safety *safety)
{
    if (safety->pictogram_count > 0) {
        struct page_pictograms *pictograms = page_add_pictograms(page);
        for (size_t i = 0; i < safety->pictogram_count; i++) {
            page_pictogram(pictograms, safety->pictograms[i].code, safety->pictograms[i].name);
        }
        page_keep_with_next(page);
    }
    struct page_facts *facts = page_add_facts(page);
    if (safety->signal_word.length > 0) {
        page_facts_add(facts, TEXT("signal word"), safety->signal_word);
    }
    for (const struct safety_statement *statement = safety->hazards; statement != NULL; statement = statement->next) {
        page_facts_add(facts, statement->code, statement->text);
    }
    for (const struct safety_statement *statement = safety->precautions; statement != NULL; statement = statement->next) {
        page_facts_add(facts, statement->code, statement->text);
    }
}

/* Annex I, 3.2.3.1.2, and why it is not taken as corrosive. */
static void add_extreme_ph(struct page *page, const struct mixture_safety *safety)
{
    bool acid = safety->acidity.ph < 7;
    double sum;
    bool by_pH = hazard_acidity_corrodes(safety->acidity, &sum);
    struct buffer text;
    buffer_start(&text, page->arena);
    buffer_format(&text,
                  "Wear goggles and gloves, and rinse splashes off for long. The estimated pH is %s. At 2 or less, or 11.5 or more, a "
                  "solution is taken as corrosive (H314: Annex I, 3.2.3.1.2) unless other data speak against it.",
                  number_print(page->arena, safety->acidity.ph, 1));
    if (by_pH) {
        buffer_string(&text, " That what makes it so is classed, and not as corrosive, is taken as such data here.");
    } else {
        buffer_format(&text,
                      " Its %s reserve is about %s g of sodium hydroxide, or its equal, in 100 g, and pH %s reserve/12 is %s: below what "
                      "corrodes, %s (Young, How, Walker and Worth, 1988).",
                      acid ? "acid" : "alkali", number_print_significant(page->arena, safety->acidity.reserve, 2), acid ? "-" : "+",
                      number_print(page->arena, sum, 1), acid ? "-0.5 or less" : "14.5 or more");
    }
    buffer_string(&text, " Whoever gives it away labels it as corrosive, or has that confirmed by a test.");
    page_add_warning(page, PAGE_CAUTION, acid ? TEXT("Strongly acid") : TEXT("Strongly alkaline"), text_from(buffer_finish(&text)));
}

static void add_uncertainty(const struct safety_report *report, const struct mixture_safety *safety)
{
    struct page *page = report->page;
    struct buffer text;
    buffer_start(&text, page->arena);
    buffer_string(&text, "Percentages are by weight");
    if (safety->mixture->density_estimated) {
        buffer_format(&text, " of an estimated density of %s g/mL",
                      number_print(page->arena, safety->mixture->grams / safety->mixture->millilitres, 2));
    }
    double ph = safety->acidity.ph;
    if (!isnan(ph)) {
        buffer_format(&text, "; the estimated pH is %s", number_print(page->arena, ph, 1));
        bool near = (ph > 2 && ph < 2.5) || (ph > 11 && ph < 11.5);
        buffer_string(&text, near ? ", close to where a solution counts as corrosive (2 and 11.5): measure it" : "");
    } else if (!safety->mixture->dry) {
        buffer_string(&text, "; the pH is not known: at 2 or less, or 11.5 or more, it counts as corrosive (H314)");
    }
    buffer_string(&text, ".");
    if (safety->unknown_percent[ROUTE_ORAL] > 0) { /* Annex I, 3.1.3.6.2.2 */
        buffer_format(&text, " %s %% of the mixture consists of ingredients of unknown toxicity.",
                      number_print(page->arena, safety->unknown_percent[ROUTE_ORAL], 0));
    }
    page_add_paragraph(page, text_from(buffer_finish(&text)));
}

void safety_add_subject(const struct safety_report *report, const struct safety_subject *subject)
{
    struct page *page = report->page;
    const struct mixture_safety *safety = subject->safety;
    page_add_heading(page, 2, subject->name);
    if (safety == NULL) {
        page_add_warning(page, PAGE_CAUTION, TEXT("NOT ASSESSED"),
                         TEXT("What it holds is not known, so nothing can be said of it. Treat it as poisonous and corrosive."));
        return;
    }
    if (subject->same_as != NULL) {
        page_add_paragraph(page, page_format(page, "The same solution as above (%.*s).", TEXT_ARGUMENTS(subject->same_as->name)));
        return;
    }
    notice_unassessed(page, safety);
    if (notice_is_strong(safety)) {
        add_extreme_ph(page, safety);
    }
    if (safety->classes != NULL) {
        if (safety->unassessed != NULL) {
            page_add_paragraph(page, TEXT("What is known of the rest:"));
            page_keep_with_next(page);
        }
        add_label(page, safety);
    } else if (safety->unassessed == NULL) {
        page_add_paragraph(page, notice_is_strong(safety) ? TEXT("By its ingredients no class of hazard is reached.")
                                                   : TEXT("By calculation no class of hazard is reached, and the label needs no sign. That "
                                                          "is not to say that it is harmless."));
    }
}

/* Why: the classes with their reasons, and how good the percentages are. */
static void add_reasons(const struct safety_report *report, const struct safety_subject *subject)
{
    if (subject->safety == NULL || subject->same_as != NULL) {
        return;
    }
    page_add_heading(report->page, 2, page_format(report->page, "Why: %.*s", TEXT_ARGUMENTS(subject->name)));
    if (subject->safety->classes != NULL) {
        add_classes(report->page, subject->safety);
    }
    add_uncertainty(report, subject->safety);
}

/* ---- the page ---- */

static struct text short_name(struct page *page, const struct safety_subject *subject)
{
    if (subject->use != NULL) {
        return subject->use->name;
    }
    return subject->part->name == NULL ? (subject->safety->mixture->dry ? TEXT("mix") : TEXT("bottle"))
                                       : page_format(page, "part %.*s", TEXT_ARGUMENTS(subject->part->name->spelling));
}

/* "H302, H318 (Annex VI); H319 (memory)" */
static struct text list_codes(struct arena *arena, const struct hazard_data *data)
{
    struct buffer codes;
    buffer_start(&codes, arena);
    if (data->entry_count == 0 && data->not_understood.length == 0) {
        buffer_format(&codes, data->stated && data->basis != BASIS_NONE ? "none (%.*s)" : data->stated ? "none%.*s" : "NOT ASSESSED%.*s",
                      TEXT_ARGUMENTS(data->stated ? hazard_basis_words(data->basis) : (struct text){0}));
    }
    for (size_t i = 0; i < data->entry_count; i++) {
        const struct hazard_entry *entry = &data->entries[i];
        bool last = i + 1 == data->entry_count || data->entries[i + 1].basis != entry->basis;
        bool first = i == 0 || data->entries[i - 1].basis != entry->basis;
        buffer_format(&codes, "%s%.*s", i == 0 ? "" : first ? "; " : ", ", TEXT_ARGUMENTS(entry->code));
        if (last && entry->basis != BASIS_NONE) {
            buffer_format(&codes, " (%.*s)", TEXT_ARGUMENTS(hazard_basis_words(entry->basis)));
        }
    }
    if (data->not_understood.length > 0) {
        buffer_format(&codes, "%sNOT ASSESSED: %.*s, whose class is not known", data->entry_count > 0 ? "; " : "",
                      TEXT_ARGUMENTS(data->not_understood));
    }
    return text_from(buffer_finish(&codes));
}

static bool has_column(const struct safety_subject *subject)
{
    return subject->safety != NULL && subject->same_as == NULL;
}

static void add_contents(const struct safety_report *report)
{
    enum { MOST = 16 };
    struct page *page = report->page;
    struct page_column *columns[MOST];
    page_add_heading(page, 2, TEXT("What it was calculated from, per cent by weight"));
    struct page_table *table = page_add_table(page);
    struct page_column *name = page_table_column(table, TEXT("substance"), PAGE_COLUMN_TEXT, PAGE_LEFT, 1);
    size_t count = 0;
    for (const struct safety_subject *subject = report->subjects; subject != NULL && count < MOST; subject = subject->next) {
        if (has_column(subject)) {
            columns[count] = page_table_column(table, short_name(page, subject), PAGE_COLUMN_AMOUNT, PAGE_DECIMAL, count == 0 ? 1 : 3);
            count++;
        }
    }
    struct page_column *classes = page_table_column(table, TEXT("classed by itself"), PAGE_COLUMN_TEXT, PAGE_LEFT, 2);
    for (const struct handled_material *item = report->handling.materials; item != NULL; item = item->next) {
        struct page_row *row = page_table_row(table);
        page_row_cell(row, name, print_material(page, item->material, mixture_form(report->context->formulary->library, item->material)));
        size_t at = 0;
        for (const struct safety_subject *subject = report->subjects; subject != NULL && at < count; subject = subject->next) {
            double percent = has_column(subject) ? mixture_percent(subject->safety->mixture, item->material) : 0;
            if (percent > 0) {
                page_row_amount(row, columns[at], text_from(number_print_significant(page->arena, percent, 3)), percent, TEXT("%"));
            }
            at += has_column(subject);
        }
        page_row_cell(row, classes, list_codes(page->arena, item->data));
        for (const struct statement *statement = item->material->declaration->statements; statement != NULL;
             statement = statement->next) {
            if (statement->kind == SAY_NOTE) { /* where sources disagree */
                page_row_remark(row, ((const struct text_statement *)statement)->text);
            }
        }
    }
}

static void add_limits(struct page *page)
{
    page_add_heading(page, 2, TEXT("Where this ends"));
    page_add_paragraph(page, TEXT("Classed by the calculation methods of the UN GHS and of Regulation (EC) No 1272/2008, Annex I, from "
                                  "the classes of the substances; each of these is from Annex VI of the Regulation, from a published "
                                  "list, from a supplier's sheet, or from memory, as stands beside it. Fire, explosion, oxidising and corrosion of metals need tests and "
                                  "are not assessed, but for spirit and strong oxidisers in water where limits are known. The "
                                  "name and address of whoever gives it away, and a UFI where one is needed, are for you to add. "
                                  "This is no safety data sheet."));
}

void report_safety(const struct report_context *context, const struct formula *formula, struct page *page)
{
    const struct solutions solutions = solutions_of_formula(context->formulary, formula);
    struct safety_report report = {.context = context, .formula = formula, .solutions = &solutions, .page = page};
    page_set_title(page, formula->title.length > 0 ? formula->title : TEXT("Untitled"));
    page_set_subtitle(page, page_format(page, "Safety notes: %.*s", TEXT_ARGUMENTS(formula->kind.length > 0 ? formula->kind : TEXT("formula"))));
    page_set_source(page, text_from(formula->declaration->file->name));
    if (context->date != NULL) {
        page_set_date(page, text_from(context->date));
    }
    report_caution(page);
    notice_stops(page, solutions.whole);
    safety_find_subjects(&report);
    for (const struct safety_subject *subject = report.subjects; subject != NULL; subject = subject->next) {
        safety_add_subject(&report, subject);
    }
    safety_add_handling(&report);
    for (const struct safety_subject *subject = report.subjects; subject != NULL; subject = subject->next) {
        add_reasons(&report, subject);
    }
    add_contents(&report);
    add_limits(page);
}
