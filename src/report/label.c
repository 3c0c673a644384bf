/* Bottle labels. */
#include "report/label.h"

#include "base/number.h"
#include "chemistry/hazard.h"
#include "formula/fingerprint.h"
#include "report/notices.h"
#include "report/printing.h"

#include <math.h>

/* What gives way on a small label, the last in the list first.  Title, strength, days, volume, pictograms, signal word and hazard
 * statements never do. */
enum { GIVES_WAY_KEEPING = 1, GIVES_WAY_DILUTION, GIVES_WAY_PRECAUTIONS, GIVES_WAY_CONTENTS, GIVES_WAY_CODE };

struct label {
    const struct report_context *context;
    const struct formula *formula;
    const struct part *part; /* of a bottle, else NULL */
    const struct part *bottled; /* the same at the size of the batch */
    const struct use *use;   /* of a working solution, else NULL */
    const struct mixing *batch;
    struct page *page;
};

/* ---- strength and volume ---- */

static struct text mixture_words(const struct label *label, const struct use *use)
{
    struct page *page = label->page;
    struct buffer words;
    buffer_start(&words, page->arena);
    if (!isnan(use->stock_parts)) {
        if (use->water_parts > 0) {
            buffer_text(&words, print_ratio(page, use->stock_parts, use->water_parts));
        }
        if (use->water_parts_high > use->water_parts) {
            buffer_format(&words, " to %.*s", TEXT_ARGUMENTS(print_ratio(page, use->stock_parts, use->water_parts_high)));
        }
    }
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        struct text name = share->part != NULL && share->part->name != NULL ? share->part->name->spelling
                           : share->material != NULL                        ? share->material->name
                                                                            : TEXT("water");
        buffer_format(&words, "%s%.*s %s%s", words.length > 0 ? " + " : "", TEXT_ARGUMENTS(name),
                      number_print_significant(page->arena, share->amount, 4), share->by_volume ? "\u00A0mL" : "");
    }
    return (struct text){words.bytes, words.length};
}

/* Whether the bottle's content is used as it is: no use dilutes or mixes it. */
static bool is_ready(const struct formula *formula)
{
    bool ready = formula->part_count <= 1;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        ready = ready && use->mix == NULL && !(use->water_parts > 0);
    }
    return ready && formula->uses != NULL;
}

static void set_heads(const struct label *label)
{
    struct page *page = label->page;
    const struct formula *formula = label->formula;
    struct text title = formula->title.length > 0 ? formula->title : TEXT("Untitled");
    bool many = label->part != NULL && label->part->name != NULL;
    page_set_title(page, many ? page_format(page, "%.*s, part %.*s", TEXT_ARGUMENTS(title),
                                            TEXT_ARGUMENTS(label->part->name->spelling))
                              : title);
    struct text kind = formula->kind.length > 0 ? formula->kind : TEXT("bath");
    if (label->use != NULL) {
        struct text mixture = mixture_words(label, label->use);
        page_set_subtitle(page, page_format(page, "Working solution for %.*s%s%.*s (%.*s)", TEXT_ARGUMENTS(label->use->name),
                                            mixture.length > 0 ? ": " : "", TEXT_ARGUMENTS(mixture), TEXT_ARGUMENTS(kind)));
    } else if (label->part != NULL && isnan(label->part->makes)) {
        page_set_subtitle(page, page_format(page, "Dry mix (%.*s)", TEXT_ARGUMENTS(kind)));
    } else if (is_ready(formula)) {
        page_set_subtitle(page, page_format(page, "Ready for use, not to be diluted (%.*s)", TEXT_ARGUMENTS(kind)));
    } else {
        bool itself = text_is(kind, "stock solution"); /* a declared stock */
        page_set_subtitle(page, itself ? TEXT("Stock solution") : page_format(page, "Stock solution (%.*s)", TEXT_ARGUMENTS(kind)));
    }
}

static void add_volume(const struct label *label)
{
    struct page *page = label->page;
    double volume = label->bottled == NULL ? NAN : label->bottled->makes;
    double mass = label->bottled == NULL ? NAN : label->bottled->makes_mass;
    if (!isnan(volume)) {
        page_fact_value(page_add_fact(page, TEXT("volume"), print_volume(label->context, page, volume)), volume, TEXT("mL"));
    } else if (!isnan(mass)) {
        page_fact_value(page_add_fact(page, TEXT("weight"), print_mass(label->context, page, mass)), mass, TEXT("g"));
    } else if (label->use != NULL && !isnan(label->context->working)) {
        page_fact_value(page_add_fact(page, TEXT("volume"), print_volume(label->context, page, label->context->working)),
                        label->context->working, TEXT("mL"));
    }
}

/* ---- days ---- */

/* The keeping times of what is in the bottle, the most particular first. */
static const struct keeping *keeping_of(const struct label *label)
{
    if (label->use != NULL && label->use->keeps != NULL) {
        return label->use->keeps;
    }
    if (label->part != NULL && label->part->keeps != NULL) {
        return label->part->keeps;
    }
    return label->use == NULL || is_ready(label->formula) ? label->formula->keeps : NULL;
}

static struct text keeping_words(const struct label *label)
{
    struct buffer words;
    buffer_start(&words, label->page->arena);
    for (const struct keeping *keeping = keeping_of(label); keeping != NULL; keeping = keeping->next) {
        buffer_format(&words, "%s%.*s", words.length > 0 ? "; " : "", TEXT_ARGUMENTS(print_keeping(label->page, keeping)));
    }
    return (struct text){words.bytes, words.length};
}

/* The day that the first keeping time leads to. */
static struct text discard_day(const struct label *label)
{
    const struct keeping *keeping = keeping_of(label);
    if (label->batch == NULL || label->batch->mixed == CALENDAR_NO_DAY || keeping == NULL) {
        return (struct text){0};
    }
    long day = calendar_later(label->batch->mixed, keeping->duration, keeping->months);
    struct mixing bottle = *label->batch;
    bool several = label->formula->part_count > 1;
    bottle.part = several && label->part != NULL ? label->part : bottle.part; /* each part keeps as long as it does */
    long stands = label->use == NULL ? mixing_standing(&bottle, bottle.mixed, NULL).discard : CALENDAR_NO_DAY;
    return calendar_print(label->page->arena, stands != CALENDAR_NO_DAY ? stands : day);
}

static void add_keeping(const struct label *label)
{
    struct text keeps = keeping_words(label);
    if (keeps.length > 0) {
        page_facts_add(page_add_facts(label->page), TEXT("keeps"), keeps);
        page_gives_way(label->page, GIVES_WAY_KEEPING, TEXT("keeping time"));
    }
}

static void add_days(const struct label *label)
{
    struct page *page = label->page;
    struct text mixed = {0};
    struct text discard = discard_day(label);
    if (label->batch != NULL) {
        page_add_fact(page, TEXT("batch"), label->batch->id);
        mixed = label->use == NULL ? calendar_print(page->arena, label->batch->mixed) : (struct text){0};
    }
    if (mixed.length > 0) {
        page_add_fact(page, TEXT("mixed on"), mixed);
    }
    if (discard.length > 0 && label->use == NULL) {
        page_add_fact(page, TEXT("discard after"), discard);
    }
    bool day_known = mixed.length > 0;
    bool discard_known = discard.length > 0 && label->use == NULL;
    if (day_known && discard_known) {
        return;
    }
    struct page_blanks *blanks = page_add_blanks(page);
    if (!day_known) {
        page_blank(blanks, TEXT("mixed on"), PAGE_ROOM_NAME, (struct text){0});
    }
    if (!discard_known) {
        page_blank(blanks, TEXT("discard after"), PAGE_ROOM_NAME, (struct text){0});
    }
    if (label->batch == NULL) {
        page_blank(blanks, TEXT("batch no."), PAGE_ROOM_NAME, (struct text){0});
    }
}

/* ---- use ---- */

static void add_dilutions(const struct label *label)
{
    struct page *page = label->page;
    struct page_facts *facts = NULL;
    for (const struct use *use = label->formula->uses; use != NULL && label->use == NULL; use = use->next) {
        struct text mixture = mixture_words(label, use);
        if (mixture.length == 0) {
            continue;
        }
        facts = facts == NULL ? page_add_facts(page) : facts;
        page_facts_add(facts, page_format(page, "for %.*s", TEXT_ARGUMENTS(use->name)),
                       use->mix == NULL ? page_format(page, "dilute %.*s", TEXT_ARGUMENTS(mixture))
                                        : page_format(page, "mix %.*s", TEXT_ARGUMENTS(mixture)));
    }
    if (facts != NULL) {
        page_gives_way(page, GIVES_WAY_DILUTION, TEXT("dilution"));
    }
}

/* ---- hazards and contents ---- */

static struct text statement_words(const struct label *label, const struct safety_statement *first)
{
    struct buffer words;
    buffer_start(&words, label->page->arena);
    for (const struct safety_statement *statement = first; statement != NULL; statement = statement->next) {
        buffer_format(&words, "%s%.*s.", words.length > 0 ? " " : "", TEXT_ARGUMENTS(statement->text));
    }
    return (struct text){words.bytes, words.length};
}

static struct mixture_safety *safety_of_label(const struct label *label)
{
    struct arena *arena = label->page->arena;
    struct formulary *formulary = label->context->formulary;
    const struct estimate estimate = label->use != NULL ? estimate_use(formulary, label->formula, label->use)
                                                        : estimate_part(formulary, label->part, NAN);
    return label->use != NULL ? safety_of_use(arena, formulary, label->formula, label->use, &estimate)
                              : safety_of_part(arena, formulary, label->part, &estimate);
}

static void add_hazards(const struct label *label, const struct mixture_safety *safety)
{
    struct page *page = label->page;
    if (safety->pictogram_count > 0) {
        struct page_pictograms *pictograms = page_add_pictograms(page);
        for (size_t i = 0; i < safety->pictogram_count; i++) {
            page_pictogram(pictograms, safety->pictograms[i].code, safety->pictograms[i].name);
        }
    }
    if (notice_is_strong(safety)) {
        page_add_warning(page, PAGE_NOTE, safety->acidity.ph < 7 ? TEXT("Strongly acid") : TEXT("Strongly alkaline"),
                         TEXT("Keep it from eyes and skin; rinse splashes off at once and for long."));
    }
    struct text hazards = statement_words(label, safety->hazards);
    if (safety->signal_word.length + hazards.length > 0) {
        page_add_warning(page, safety->signal == SIGNAL_DANGER ? PAGE_CAUTION : PAGE_NOTE, safety->signal_word, hazards);
    }
    struct text precautions = statement_words(label, safety->precautions);
    if (precautions.length > 0) {
        page_add_paragraph(page, precautions);
        page_gives_way(page, GIVES_WAY_PRECAUTIONS, TEXT("precautionary statements"));
    }
}

static void add_contents(const struct label *label, const struct mixture *mixture)
{
    struct page *page = label->page;
    struct buffer words;
    buffer_start(&words, page->arena);
    bool water_told = mixture->water <= 0;
    for (const struct component *component = mixture->components; component != NULL; component = component->next) {
        if (!water_told && mixture->water >= component->grams) {
            buffer_string(&words, words.length > 0 ? ", water" : "water");
            water_told = true;
        }
        buffer_format(&words, "%s%.*s %s\u00A0%%", words.length > 0 ? ", " : "", TEXT_ARGUMENTS(component->material->name),
                      number_print_significant(page->arena, component->percent, 2));
    }
    buffer_string(&words, water_told ? "" : words.length > 0 ? ", water" : "water");
    page_add_paragraph(page, page_format(page, "Contains %s (by weight).", buffer_finish(&words)));
    page_gives_way(page, GIVES_WAY_CONTENTS, TEXT("contents"));
}

/* For a camera: the batch, or the title where there is none, and the formula. */
static void add_code(const struct label *label)
{
    struct page *page = label->page;
    struct text fingerprint = formula_fingerprint(page->arena, label->formula);
    struct text content = label->batch != NULL
                              ? page_format(page, "batch %.*s formula %.*s", TEXT_ARGUMENTS(label->batch->id), TEXT_ARGUMENTS(fingerprint))
                              : page_format(page, "formula %.*s", TEXT_ARGUMENTS(fingerprint));
    page_add_code(page, content, label->batch != NULL ? label->batch->id : (struct text){0});
    page_gives_way(page, GIVES_WAY_CODE, TEXT("code"));
}

static void fill_label(const struct label *label)
{
    struct page *page = label->page;
    const struct mixture_safety *safety = safety_of_label(label);
    set_heads(label);
    notice_stops(page, safety);
    notice_unassessed(page, safety);
    add_volume(label);
    add_days(label);
    add_keeping(label);
    add_dilutions(label);
    if (safety != NULL) {
        add_hazards(label, safety);
        if (safety->mixture != NULL) {
            add_contents(label, safety->mixture);
        }
    } else {
        page_add_warning(page, PAGE_CAUTION, TEXT("NOT ASSESSED"),
                         TEXT("Its volume or its mixture is not known: treat it as poisonous and corrosive."));
    }
    add_code(label);
    page_set_source(page, text_from(label->formula->declaration->file->name));
    if (label->context->date != NULL) {
        page_set_date(page, text_from(label->context->date));
    }
    page_set_caution(page, TEXT("Hazards by calculation, an estimate: safety data sheets and local rules come first."));
}

/* ---- which labels ---- */

size_t report_labels(const struct report_context *context, const struct formula *formula, const char *of,
                     const struct mixing *batch, struct page_set *set)
{
    struct label label = {.context = context, .formula = formula, .batch = batch};
    double scale = batch != NULL ? mixing_scale(batch) : batch_scale(formula, context->make);
    const struct batch *made = batch_make(context->formulary->arena, formula, scale, NULL, &context->scales);
    size_t count = 0;
    if (context->use_for == NULL && (of == NULL || strcmp(of, "stock") == 0)) {
        for (size_t i = 0; i < made->part_count; i++) {
            const struct part *part = made->parts[i].written;
            if (batch != NULL && batch->part != NULL && batch->part != part) {
                continue;
            }
            count++;
            label.part = part;
            label.bottled = made->parts[i].part;
            label.page = page_set_add(set);
            fill_label(&label);
        }
        return count;
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        if (report_wants_use(context, use)) {
            label.use = use;
            label.page = page_set_add(set);
            fill_label(&label);
            count++;
        }
    }
    return count;
}
