/* What a bottle label says. */
#include "report/label/model.h"

#include "base/number.h"
#include "formula/fingerprint.h"

#include <math.h>

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

static void set_heads(struct label *label)
{
    struct page *page = label->page;
    const struct formula *formula = label->formula;
    struct text title = formula->title.length > 0 ? formula->title : TEXT("Untitled");
    bool many = label->part != NULL && label->part->name != NULL;
    label->title = many ? page_format(page, "%.*s, part %.*s", TEXT_ARGUMENTS(title),
                                            TEXT_ARGUMENTS(label->part->name->spelling))
                        : title;
    struct text kind = formula->kind.length > 0 ? formula->kind : TEXT("bath");
    if (label->use != NULL) {
        struct text mixture = mixture_words(label, label->use);
        label->strength = page_format(page, "Working solution for %.*s%s%.*s (%.*s)", TEXT_ARGUMENTS(label->use->name),
                                            mixture.length > 0 ? ": " : "", TEXT_ARGUMENTS(mixture), TEXT_ARGUMENTS(kind));
    } else if (label->part != NULL && isnan(label->part->makes)) {
        label->strength = page_format(page, "Dry mix (%.*s)", TEXT_ARGUMENTS(kind));
    } else if (is_ready(formula)) {
        label->strength = page_format(page, "Ready for use, not to be diluted (%.*s)", TEXT_ARGUMENTS(kind));
    } else {
        bool itself = text_is(kind, "stock solution"); /* a declared stock */
        label->strength = itself ? TEXT("Stock solution") : page_format(page, "Stock solution (%.*s)", TEXT_ARGUMENTS(kind));
    }
}

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

static void fill(struct label *label, const struct part *bottled)
{
    struct arena *arena = label->page->arena;
    struct formulary *formulary = label->context->formulary;
    bool working = label->use != NULL;
    const struct estimate estimate = working ? estimate_use(formulary, label->formula, label->use) : estimate_part(formulary, label->part, NAN);
    label->safety = working ? safety_of_use(arena, formulary, label->formula, label->use, &estimate)
                            : safety_of_part(arena, formulary, label->part, &estimate);
    label->volume = bottled != NULL ? bottled->makes : working ? label->context->working : NAN;
    label->mass = bottled != NULL ? bottled->makes_mass : NAN;
    label->mixed = label->batch != NULL && !working ? calendar_print(arena, label->batch->mixed) : (struct text){0};
    label->discard = working ? (struct text){0} : discard_day(label);
    label->keeps = keeping_words(label);
    label->fingerprint = formula_fingerprint(arena, label->formula);
    struct text *mixtures = ARENA_ARRAY(arena, struct text, formula_use_count(label->formula) + 1);
    label->mixtures = mixtures;
    for (const struct use *use = label->formula->uses; use != NULL; use = use->next) {
        *mixtures++ = mixture_words(label, use);
    }
    set_heads(label);
}

struct label *label_model(const struct report_context *context, const struct formula *formula, const char *of, const struct mixing *batch)
{
    struct arena *arena = context->formulary->arena;
    const struct label common = {.context = context, .formula = formula, .batch = batch};
    double scale = batch != NULL ? mixing_scale(batch) : batch_scale(formula, context->make);
    const struct batch *made = batch_make(arena, formula, scale, NULL, &context->scales);
    struct label *first = NULL;
    struct label **end = &first;
    bool bottles = context->use_for == NULL && (of == NULL || strcmp(of, "stock") == 0);
    for (size_t i = 0; bottles && i < made->part_count; i++) {
        const struct part *part = made->parts[i].written;
        if (batch == NULL || batch->part == NULL || batch->part == part) {
            struct label *label = *end = ARENA_NEW(arena, struct label);
            *label = common;
            label->part = part;
            label->page = page_start(arena);
            fill(label, made->parts[i].part);
            end = &label->next;
        }
    }
    for (const struct use *use = bottles ? NULL : formula->uses; use != NULL; use = use->next) {
        if (report_wants_use(context, use)) {
            struct label *label = *end = ARENA_NEW(arena, struct label);
            *label = common;
            label->use = use;
            label->page = page_start(arena);
            fill(label, NULL);
            end = &label->next;
        }
    }
    return first;
}
