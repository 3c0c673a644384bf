/* How baths are used, held against what is usual (stdlib/uses.bath): an hour for a minute, a dilution turned round, rolls for sheets. */
#include "practice/checks/usual_uses.h"

#include "base/number.h"
#include "base/slips.h"
#include "practice/rules/rules.h"

#include <math.h>
#include <string.h>
#include <strings.h>

/* What the rules that are about a bath know of one thing, taken together; `low` is NAN where none knows it. */
struct usual {
    double low, high;
    bool by_sheets;
    const struct rule *rule;
};

static bool names_purpose(const struct rule *rule, struct text folded)
{
    for (size_t i = 0; i < rule->purpose_count; i++) {
        if (text_equal(rule->purposes[i], folded)) {
            return true;
        }
    }
    return false;
}

static bool is_purpose(const struct rules *rules, struct text folded)
{
    for (size_t i = 0; i < rules->usages.count; i++) {
        if (names_purpose(rules->usages.rules[i], folded)) {
            return true;
        }
    }
    return false;
}

/* By what the use is for where its name says so, else by what all of the formula is for. */
static bool is_about(struct bench *bench, const struct rule *rule, const struct use *use)
{
    const struct formula *formula = bench->formula;
    struct names *names = bench->formulary->names;
    struct text name = use == NULL ? (struct text){0} : names_folded(names, names_find(names, use->name))->spelling;
    if (!rule_is_for_kind(rule, formula->kind) || rule_is_silenced(bench, rule->name)) {
        return false;
    }
    if (rule->purpose_count == 0 || is_purpose(bench->rules, name)) {
        return rule->purpose_count == 0 || names_purpose(rule, name);
    }
    bool all = formula->purposes != NULL;
    for (const struct word *word = formula->purposes; word != NULL; word = word->next) {
        all = all && names_purpose(rule, names_folded(names, word->name)->spelling);
    }
    return all;
}

static bool holds_word(struct text text, struct text word)
{
    for (size_t i = 0; i + word.length <= text.length; i++) {
        if (strncasecmp(text.at + i, word.at, word.length) == 0) {
            return true;
        }
    }
    return false;
}

/* `vessel`: of keeping; what is said of a vessel goes before what is said of any. */
static struct usual find_usual(struct bench *bench, const struct use *use, enum usual_what what,
                               struct text vessel)
{
    const struct rules *rules = bench->rules;
    struct usual found = {.low = NAN, .high = NAN, .by_sheets = true};
    bool particular = false;
    for (size_t i = 0; i < rules->usages.count; i++) {
        const struct rule *rule = rules->usages.rules[i];
        for (size_t j = 0; j < rule->usual_count; j++) {
            const struct usual_value *value = &rule->usuals[j];
            bool of_vessel = value->in.length > 0;
            if (value->what != what || (of_vessel && !holds_word(vessel, value->in)) || (particular && !of_vessel) ||
                !is_about(bench, rule, use)) {
                continue;
            }
            bool anew = isnan(found.low) || (of_vessel && !particular);
            found.low = anew ? value->low : fmin(found.low, value->low);
            found.high = anew ? value->high : fmax(found.high, value->high);
            found.by_sheets = value->by_sheets && (anew || found.by_sheets);
            found.rule = rule;
            particular = particular || of_vessel;
        }
    }
    return found;
}

static bool outside(const struct usual *usual, double low, double high)
{
    return low < usual->low * (1 - 1e-9) || high > usual->high * (1 + 1e-9); /* neither where nothing is known */
}

/* "30 s", "4 h", "12 years": in the largest unit that leaves one or more. */
static const char *time_words(struct arena *arena, double seconds)
{
    static const struct {
        double seconds;
        const char *one, *many;
    } units[] = {{31557600, "year", "years"}, {86400, "day", "days"}, {3600, "h", "h"}, {60, "min", "min"}, {1, "s", "s"}};
    size_t i = 0;
    while (i + 1 < sizeof units / sizeof *units && seconds < units[i].seconds * (1 - 1e-9)) {
        i++;
    }
    double count = seconds / units[i].seconds;
    return arena_format(arena, "%s %s", number_print_significant(arena, count, 2), fabs(count - 1) < 1e-9 ? units[i].one : units[i].many);
}

static struct text source_of(const struct usual *usual)
{
    return usual->rule->source.length > 0 ? usual->rule->source : TEXT("no source");
}

/* Other units of time that are mistaken for the one that stands there. */
static void offer_units(struct bench *bench, struct diagnostic *diagnostic, const struct quantity *quantity,
                        const struct usual *usual, double low, double high)
{
    static const struct {
        const char *unit;
        double seconds;
    } units[] = {{"s", 1}, {"min", 60}, {"h", 3600}, {"days", 86400}, {"weeks", 604800}, {"months", 2629800}};
    struct library *library = bench->formulary->library;
    const struct quantity *last = quantity->high != NULL ? quantity->high : quantity;
    const struct unit *unit = last->unit == NULL ? NULL : library_unit(library, last->unit);
    if (unit == NULL || quantity->more != NULL || quantity->unit_span.end <= quantity->unit_span.begin) {
        return;
    }
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        double factor = units[i].seconds / unit->factor;
        if (fabs(factor - 1) > 1e-9 && !outside(usual, low * factor, high * factor)) {
            diagnostics_fix_writing(bench->formulary->diagnostics, diagnostic, quantity->unit_span, "%s", units[i].unit);
        }
    }
}

/* ---- times ---- */

static const struct quantity *words_of_time(const struct formula *formula, struct span span)
{
    for (const struct statement *statement = formula->statements; statement != NULL; statement = statement->next) {
        if (statement->kind == SAY_TIME && statement->span.begin == span.begin) {
            return ((const struct time_statement *)statement)->of.time;
        }
    }
    return NULL;
}

/* "9.30 min": nine and three tenths, or 9 min 30 s?  Two figures behind the point that could be seconds are asked about. */
static void check_clock_figures(struct bench *bench, const struct quantity *words)
{
    struct diagnostics *diagnostics = bench->formulary->diagnostics;
    const struct unit *unit = words->unit == NULL ? NULL : library_unit(bench->formulary->library, words->unit);
    struct text figure = source_text(diagnostics->sources, quantity_number_span(words));
    const char *point = memchr(figure.at, '.', figure.length);
    bool two = point != NULL && figure.at + figure.length - point == 3 && point > figure.at && point[1] >= '0' && point[1] <= '5' &&
               text_is_digit(point[2]);
    if (!two || unit == NULL || unit->dimension != DIMENSION_TIME || unit->factor != 60 || words->more != NULL || words->high != NULL) {
        return;
    }
    int minutes = (int)floor(words->value);
    int seconds = (point[1] - '0') * 10 + point[2] - '0';
    if (seconds == 0) {
        return;
    }
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_AMOUNT_UNUSUAL, words->span, "%.*s min are %s s; are %d min %d s meant?", TEXT_ARGUMENTS(figure),
                     number_print_significant(bench->formulary->arena, words->value * 60, 4), minutes, seconds);
    diagnostics_help(diagnostics, diagnostic, "write minutes and seconds apart: %d min %d s", minutes, seconds);
    diagnostics_fix_writing(diagnostics, diagnostic, words->span, "%d min %d s", minutes, seconds);
    diagnostics_fix_writing(diagnostics, diagnostic, words->span, "%s s", number_print_significant(bench->formulary->arena, words->value * 60, 4));
}

static void check_time(struct bench *bench, const struct use *use, const struct time_row *row)
{
    struct usual usual = find_usual(bench, use, USUAL_TIME, (struct text){0});
    const struct quantity *words = words_of_time(bench->formula, row->span);
    struct arena *arena = bench->formulary->arena;
    if (!outside(&usual, row->time[0], row->time[1])) {
        if (words != NULL) {
            check_clock_figures(bench, words);
        }
        return;
    }
    bool longer = row->time[1] > usual.high;
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_AMOUNT_UNUSUAL, row->time_span, "%s is %s than this %.*s takes for %.*s",
                     time_words(arena, longer ? row->time[1] : row->time[0]), longer ? "longer" : "shorter", TEXT_ARGUMENTS(bench->formula->kind),
                     TEXT_ARGUMENTS(use->name));
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "usual are %s to %s (%.*s); check the figure and its unit",
                     time_words(arena, usual.low), time_words(arena, usual.high), TEXT_ARGUMENTS(source_of(&usual)));
    if (words != NULL) {
        offer_units(bench, diagnostic, words, &usual, row->time[0], row->time[1]);
    }
}

/* ---- dilutions ---- */

static void check_dilution(struct bench *bench, const struct use *use, const struct ratio *ratio)
{
    struct usual usual = find_usual(bench, use, USUAL_DILUTION, (struct text){0});
    struct arena *arena = bench->formulary->arena;
    if (ratio == NULL || ratio->doubtful || ratio->count != 2 || !(ratio->figures[1] > 0) ||
        bench_said(bench, DIAG_AMOUNT_UNUSUAL, ratio->span)) {
        return;
    }
    double stock = ratio->figures[0], water = ratio->figures[1];
    if (!outside(&usual, water / stock, water / stock)) {
        return;
    }
    const char *first = number_print(arena, stock, 3), *second = number_print(arena, water, 3);
    struct diagnostic *diagnostic =
        bench_say(bench, DIAG_AMOUNT_UNUSUAL, ratio->span, "%s+%s is %s of stock and %s of water", first, second, first, second);
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "usual are 1+%s to 1+%s (%.*s): parts of stock stand first",
                     number_print(arena, usual.low, 1), number_print(arena, usual.high, 0), TEXT_ARGUMENTS(source_of(&usual)));
    if (!outside(&usual, stock / water, stock / water)) {
        diagnostics_fix_writing(bench->formulary->diagnostics, diagnostic, ratio->span, "%s+%s", second, first);
    }
}

/* ---- capacities ---- */

static void check_capacity(struct bench *bench, const struct use *use)
{
    struct usual usual = find_usual(bench, use, USUAL_CAPACITY, (struct text){0});
    double does = use->capacity * use->capacity_area / use->capacity_per;
    if (isnan(does) || isnan(usual.low)) {
        return;
    }
    bool rolls = usual.by_sheets && use->capacity_size == NULL;
    if (!rolls && !outside(&usual, does, does)) {
        return;
    }
    struct arena *arena = bench->formulary->arena;
    double litre = 1000 / use->capacity_area;
    struct diagnostic *diagnostic;
    if (rolls) {
        diagnostic = bench_say(bench, DIAG_AMOUNT_UNUSUAL, use->capacity_span, "a bath for %.*s is counted in sheets, not in %.*s",
                                  TEXT_ARGUMENTS(use->name), TEXT_ARGUMENTS(use->capacity_of->spelling));
        diagnostics_help(bench->formulary->diagnostics, diagnostic, "write it as in: capacity 40 sheets 8x10 in per L");
        return;
    }
    diagnostic = bench_say(bench, DIAG_AMOUNT_UNUSUAL, use->capacity_span, "%s %.*s in a litre are %s than this %.*s does",
                              number_print_significant(arena, use->capacity / use->capacity_per * 1000, 3),
                              TEXT_ARGUMENTS(use->capacity_of->spelling), does > usual.high ? "more" : "less", TEXT_ARGUMENTS(bench->formula->kind));
    diagnostics_help(bench->formulary->diagnostics, diagnostic, "usual are %s to %s of them (%.*s); check the figure, and the volume behind \"per\"",
                     number_print_significant(arena, usual.low * litre, 2), number_print_significant(arena, usual.high * litre, 2),
                     TEXT_ARGUMENTS(source_of(&usual)));
}

/* ---- keeping ---- */

static void check_keeping(struct bench *bench, const struct keeping *list)
{
    struct arena *arena = bench->formulary->arena;
    for (const struct keeping *keeping = list; keeping != NULL; keeping = keeping->next) {
        struct usual usual = find_usual(bench, NULL, USUAL_KEEPS, keeping->in);
        if (!outside(&usual, keeping->duration, keeping->duration) || bench_said(bench, DIAG_AMOUNT_UNUSUAL, keeping->span)) {
            continue;
        }
        struct diagnostic *diagnostic =
            bench_say(bench, DIAG_AMOUNT_UNUSUAL, keeping->amount_span, "no bath keeps %s%s%.*s", time_words(arena, keeping->duration),
                         keeping->in.length > 0 ? " in " : "", TEXT_ARGUMENTS(keeping->in));
        diagnostics_help(bench->formulary->diagnostics, diagnostic, "usual are %s to %s (%.*s); check the figure and its unit",
                         time_words(arena, usual.low), time_words(arena, usual.high), TEXT_ARGUMENTS(source_of(&usual)));
    }
}

/* ---- purposes ---- */

/* A word that is a slip away from what the rules know baths to be for: "papre". */
static void check_purpose(struct bench *bench, struct text folded, struct span span)
{
    const struct rules *rules = bench->rules;
    enum { ONE_SLIP = 2, SHORTEST = 4 };
    if (folded.length < SHORTEST || folded.length > SLIPS_LONGEST || span.end - span.begin != folded.length || is_purpose(rules, folded)) {
        return;
    }
    for (size_t i = 0; i < rules->usages.count; i++) {
        const struct rule *rule = rules->usages.rules[i];
        for (size_t j = 0; j < rule->purpose_count; j++) {
            struct text known = rule->purposes[j];
            size_t both = known.length < folded.length ? known.length : folded.length;
            bool number = memcmp(known.at, folded.at, both) == 0; /* "plate", "films" */
            if (number || text_slips(folded, known, ONE_SLIP) > ONE_SLIP) {
                continue;
            }
            struct diagnostic *diagnostic = bench_say(bench, DIAG_LOOK_ALIKE, span, "\"%.*s\" is nearly \"%.*s\"",
                                                         TEXT_ARGUMENTS(folded), TEXT_ARGUMENTS(known));
            diagnostics_help(bench->formulary->diagnostics, diagnostic, "did you mean %.*s?", TEXT_ARGUMENTS(known));
            diagnostics_fix_writing(bench->formulary->diagnostics, diagnostic, span, "%.*s", TEXT_ARGUMENTS(known));
            return;
        }
    }
}

static void check_purposes(struct bench *bench)
{
    struct names *names = bench->formulary->names;
    for (const struct word *word = bench->formula->purposes; word != NULL; word = word->next) {
        check_purpose(bench, names_folded(names, word->name)->spelling, word->span);
    }
    for (const struct statement *statement = bench->formula->statements; statement != NULL; statement = statement->next) {
        const struct word *word = statement->kind == SAY_USE ? ((const struct words_statement *)statement)->words : NULL;
        if (word != NULL) {
            check_purpose(bench, names_folded(names, word->name)->spelling, word->span);
        }
    }
}

void usual_uses_check(struct bench *bench)
{
    check_purposes(bench);
    check_keeping(bench, bench->formula->keeps);
    for (const struct part *part = bench->formula->parts; part != NULL; part = part->next) {
        check_keeping(bench, part->keeps);
    }
    for (const struct use *use = bench->formula->uses; use != NULL; use = use->next) {
        check_keeping(bench, use->keeps);
        check_dilution(bench, use, use->ratio);
        for (const struct time_row *row = use->times; row != NULL; row = row->next) {
            check_time(bench, use, row);
            if (row->ratio != use->ratio) {
                check_dilution(bench, use, row->ratio);
            }
        }
        check_capacity(bench, use);
    }
}
