/* A bottle label for people. */
#include "report/label/model.h"

#include "base/number.h"
#include "report/notices.h"

#include <math.h>

/* What gives way on a small label, the last in the list first.  Title, strength, days, volume, pictograms, signal word and hazard
 * statements never do. */
enum { GIVES_WAY_KEEPING = 1, GIVES_WAY_DILUTION, GIVES_WAY_PRECAUTIONS, GIVES_WAY_CONTENTS, GIVES_WAY_CODE };

static void add_volume(const struct label *label)
{
    struct page *page = label->page;
    if (!isnan(label->volume)) {
        page_fact_strong(page_add_fact(page, TEXT("volume"), print_volume(label->context, page, label->volume)));
    } else if (!isnan(label->mass)) {
        page_fact_strong(page_add_fact(page, TEXT("weight"), print_mass(label->context, page, label->mass)));
    }
}

static void add_keeping(const struct label *label)
{
    if (label->keeps.length > 0) {
        page_facts_add(page_add_facts(label->page), TEXT("keeps"), label->keeps);
        page_gives_way(label->page, GIVES_WAY_KEEPING, TEXT("keeping time"));
    }
}

static void add_days(const struct label *label)
{
    struct page *page = label->page;
    if (label->batch != NULL) {
        page_add_fact(page, TEXT("batch"), label->batch->id);
    }
    bool day_known = label->mixed.length > 0;
    bool discard_known = label->discard.length > 0;
    if (day_known) {
        page_add_fact(page, TEXT("mixed on"), label->mixed);
    }
    if (discard_known) {
        page_add_fact(page, TEXT("discard after"), label->discard);
    }
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

static void add_dilutions(const struct label *label)
{
    struct page *page = label->page;
    struct page_facts *facts = NULL;
    const struct text *mixture = label->mixtures;
    for (const struct use *use = label->formula->uses; use != NULL && label->use == NULL; use = use->next, mixture++) {
        if (mixture->length > 0) {
            facts = facts == NULL ? page_add_facts(page) : facts;
            page_facts_add(facts, page_format(page, "for %.*s", TEXT_ARGUMENTS(use->name)),
                           page_format(page, "%s %.*s", use->mix == NULL ? "dilute" : "mix", TEXT_ARGUMENTS(*mixture)));
        }
    }
    if (facts != NULL) {
        page_gives_way(page, GIVES_WAY_DILUTION, TEXT("dilution"));
    }
}

static struct text statement_words(const struct label *label, const struct safety_statement *first)
{
    struct buffer words;
    buffer_start(&words, label->page->arena);
    for (const struct safety_statement *statement = first; statement != NULL; statement = statement->next) {
        buffer_format(&words, "%s%.*s.", words.length > 0 ? " " : "", TEXT_ARGUMENTS(statement->text));
    }
    return (struct text){words.bytes, words.length};
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
    struct text content = label->batch != NULL ? page_format(page, "batch %.*s formula %.*s", TEXT_ARGUMENTS(label->batch->id),
                                                             TEXT_ARGUMENTS(label->fingerprint))
                                               : page_format(page, "formula %.*s", TEXT_ARGUMENTS(label->fingerprint));
    page_add_code(page, content, label->batch != NULL ? label->batch->id : (struct text){0});
    page_gives_way(page, GIVES_WAY_CODE, TEXT("code"));
}

void label_page(const struct label *label)
{
    struct page *page = label->page;
    const struct mixture_safety *safety = label->safety;
    page_set_title(page, label->title);
    page_set_subtitle(page, label->strength);
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
