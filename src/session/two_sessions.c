/* Two sessions side by side: which formula stands against which, and what differs. */
#include "session/reports.h"

#include "compare/compare.h"
#include "page/page.h"
#include "report/comparison.h"

#include <math.h>

/* ---- formulas of a side ---- */

static size_t count_formulas(struct potash *potash)
{
    size_t count = 0;
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        count++;
    }
    return count;
}

static const struct formula *find_title(struct potash *potash, struct text title)
{
    const struct formula *formula = formulary_find(&potash->formulary, title);
    const char *asked = potash->options.title;
    bool about = formula != NULL && (asked == NULL ? formula->declaration->file->named : text_is(formula->title, asked));
    return about ? formula : NULL;
}

static bool share_a_title(struct potash *a, struct potash *b)
{
    for (const struct formula *formula = session_next(a, NULL); formula != NULL; formula = session_next(a, formula)) {
        if (find_title(b, formula->title) != NULL) {
            return true;
        }
    }
    return false;
}

/* ---- whether it can be done ---- */

static const char *list_titles(struct potash *potash, struct potash *for_arena)
{
    struct buffer titles;
    buffer_start(&titles, &for_arena->arena);
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        buffer_format(&titles, "%s\"%.*s\"", titles.length == 0 ? "" : ", ", TEXT_ARGUMENTS(formula->title));
    }
    return titles.length == 0 ? "no formula" : buffer_finish(&titles);
}

/* A side without any formula is one that is not there yet, or no more: a file that git shows as /dev/null. */
static enum potash_status side_ready(struct potash *side, struct potash *told)
{
    if (side->message != NULL) {
        return side == told ? POTASH_UNUSABLE : session_unusable(told, "%s", side->message);
    }
    if (side->loose_errors > 0 || side->strictly_faulty) {
        return POTASH_FAULTY;
    }
    if (side->options.title != NULL && session_next(side, NULL) == NULL) {
        return session_unusable(told, "there is no formula \"%.200s\" in these files", side->options.title);
    }
    for (const struct formula *formula = session_next(side, NULL); formula != NULL; formula = session_next(side, formula)) {
        if (formula->faulty) {
            return POTASH_FAULTY;
        }
    }
    return POTASH_GOOD;
}

/* ---- pairing ---- */

struct pairing {
    struct potash *a;
    struct potash *b;
    struct arena *arena;
    double within;
    struct comparison *first;
    struct comparison **end;
};

static void add_pair(struct pairing *pairing, const struct formula *a, const struct formula *b)
{
    struct comparison *comparison = compare_formulas(pairing->arena, a, b, pairing->within);
    comparison->formulary_a = &pairing->a->formulary;
    comparison->formulary_b = &pairing->b->formulary;
    *pairing->end = comparison;
    pairing->end = &comparison->next;
}

static void pair_by_title(struct pairing *pairing)
{
    for (const struct formula *a = session_next(pairing->a, NULL); a != NULL; a = session_next(pairing->a, a)) {
        add_pair(pairing, a, find_title(pairing->b, a->title));
    }
    for (const struct formula *b = session_next(pairing->b, NULL); b != NULL; b = session_next(pairing->b, b)) {
        if (find_title(pairing->a, b->title) == NULL) {
            add_pair(pairing, NULL, b);
        }
    }
}

/* One against one, whatever their titles; a chosen one against the one of its title; else all by their titles. */
static enum potash_status pair_up(struct pairing *pairing)
{
    struct potash *a = pairing->a;
    struct potash *b = pairing->b;
    const struct formula *first = session_next(a, NULL);
    const struct formula *second = session_next(b, NULL);
    size_t count_a = count_formulas(a);
    size_t count_b = count_formulas(b);
    if (count_a == 1 && count_b == 1) {
        add_pair(pairing, first, second);
        return POTASH_GOOD;
    }
    if (a->options.title != NULL && first != NULL && (second = find_title(b, first->title)) != NULL) {
        add_pair(pairing, first, second);
        return POTASH_GOOD;
    }
    second = session_next(b, NULL);
    if (b->options.title != NULL && second != NULL && (first = find_title(a, second->title)) != NULL) {
        add_pair(pairing, first, second);
        return POTASH_GOOD;
    }
    if (count_a == 0 && count_b == 0) {
        return session_unusable(a, "there is no formula on either side");
    }
    bool chosen = a->options.title != NULL || b->options.title != NULL;
    if (count_a == 0 || count_b == 0 || (!chosen && share_a_title(a, b))) {
        pair_by_title(pairing);
        return POTASH_GOOD;
    }
    return session_unusable(a, "which formulas are meant? Name them as FILE#\"Title\". A has %s; B has %s", list_titles(a, a),
                            list_titles(b, a));
}

/* ---- output ---- */

static struct text side_name(const struct potash *side)
{
    for (const struct syntax_list *item = side->files; item != NULL; item = item->next) {
        if (item->file->source->named) {
            return text_from(item->file->source->name);
        }
    }
    return TEXT("nothing");
}

static enum potash_status put(struct pairing *pairing, enum potash_format format, struct potash_output *output, bool *same)
{
    struct potash *potash = pairing->a;
    struct comparison_report report = {.comparisons = pairing->first,
                                       .file_a = side_name(pairing->a),
                                       .file_b = side_name(pairing->b),
                                       .batches_a = &pairing->a->batches,
                                       .batches_b = &pairing->b->batches,
                                       .context_a = &pairing->a->context,
                                       .context_b = &pairing->b->context,
                                       .date = potash->context.date};
    *same = report_comparison_same(&report);
    if (format == POTASH_JSON) {
        return session_put_json(potash, report_comparison_json(&report), output);
    }
    struct page_set set;
    page_set_start(&set, &potash->arena);
    report_comparison(&report, page_set_add(&set));
    return session_put_pages(potash, &set, format, output);
}

static enum potash_status compare(struct potash *a, struct potash *b, enum potash_format format, struct potash_output *output,
                                  bool *same)
{
    enum potash_status first = side_ready(a, a);
    enum potash_status second = side_ready(b, a);
    enum potash_status status = first == POTASH_UNUSABLE || second == POTASH_GOOD ? first : second;
    if (status != POTASH_GOOD) {
        return status;
    }
    struct pairing pairing = {.a = a, .b = b, .arena = &a->arena, .within = a->within};
    pairing.end = &pairing.first;
    status = pair_up(&pairing);
    return status == POTASH_GOOD ? put(&pairing, format, output, same) : status;
}

enum potash_status potash_compare(struct potash *a, struct potash *b, enum potash_format format, struct potash_output *output,
                                  bool *same)
{
    *same = false;
    if (session_has_forms(a) != POTASH_GOOD) {
        return POTASH_UNUSABLE;
    }
    if (b->message == NULL && session_has_forms(b) != POTASH_GOOD) {
        return session_unusable(a, "%s", b->message);
    }
    /* Whichever session runs out of memory, there is one way back. */
    jmp_buf *outer = b->arena.on_failure;
    if (SESSION_GUARD(a)) {
        b->arena.on_failure = outer;
        return session_out_of_memory(a);
    }
    b->arena.on_failure = &a->failure;
    enum potash_status status = compare(a, b, format, output, same);
    b->arena.on_failure = outer;
    return status;
}
