/* Dilutions, mixtures by parts, portions and scaling: sums that need no chemistry. */
#include "reckoning/sums.h"

#include "base/buffer.h"
#include "base/number.h"

/* What a share is called: its label; else stock and water, or A, B, C and water. */
static const char *share_name(struct reckoner *reckoner, const struct sum *sum, size_t index, size_t count)
{
    const struct sum_share *share = sum->shares;
    bool labelled = false;
    for (const struct sum_share *other = sum->shares; other != NULL; other = other->next) {
        labelled = labelled || other->label != NULL;
    }
    for (size_t i = 0; i < index; i++) {
        share = share->next;
    }
    if (share->label != NULL) {
        return share->label;
    }
    if (labelled) {
        return arena_format(reckoner->arena, "number %zu", index + 1);
    }
    if (index + 1 == count) {
        return "water";
    }
    return count == 2 ? "stock" : arena_format(reckoner->arena, "%c", (int)('A' + index % 26));
}

static bool check_parts(struct reckoner *reckoner, const struct sum *sum, size_t *count, double *parts)
{
    *count = 0;
    *parts = 0;
    for (const struct sum_share *share = sum->shares; share != NULL; share = share->next) {
        bool water = share->next == NULL && *count > 0; /* 1+0 is the undiluted stock */
        if (!(share->parts > 0 || (water && share->parts == 0)) || share->parts > 1e6) {
            return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, share->span, NULL,
                              "parts must be more than nothing, and not absurd");
        }
        *parts += share->parts;
        ++*count;
    }
    return true;
}

/* The shares for `part` mL or g a part: "10 mL of stock + 290 mL of water = 300 mL". */
static const char *list_shares(struct reckoner *reckoner, const struct sum *sum, size_t count, double parts,
                               double part, enum dimension dimension, const char *reading)
{
    struct buffer out;
    buffer_start(&out, reckoner->arena);
    size_t index = 0;
    for (const struct sum_share *share = sum->shares; share != NULL; share = share->next) {
        const char *name = share_name(reckoner, sum, index++, count);
        buffer_format(&out, "%s%s of %s", index == 1 ? "" : " + ",
                      answer_own_amount(reckoner, share->parts * part, dimension), name);
        answer_add_amount(reckoner, share->parts * part, dimension,
                          *reading == '\0' ? name : answer_format(reckoner, "%s, read as %s", name, reading));
    }
    buffer_format(&out, " = %s", answer_own_amount(reckoner, parts * part, dimension));
    return buffer_finish(&out);
}

static const char *parts_word(double parts)
{
    return parts == 1 ? "part" : "parts";
}

/* How many fillings a bottle of the first share gives: "1+29 for 300 mL from 500 mL" fills a tank 50 times. */
static bool count_fillings(struct reckoner *reckoner, const struct sum *sum, const char *name, const struct sum_amount *filling,
                           double share)
{
    struct sum_amount bottle;
    if (!sum_volume(reckoner, sum->taken, true, &bottle)) {
        return false;
    }
    if (bottle.dimension != filling->dimension) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->taken->span, "write it as in: 1+29 for 300 mL from 500 mL",
                          "%s is poured from %s", dimension_phrases[filling->dimension], dimension_phrases[bottle.dimension]);
    }
    double fillings = floor(bottle.value / share + 1e-9);
    struct answer *answer = reckoner->answer;
    answer->text = arena_format(reckoner->arena, "%s; %s of %s fill it %.0f time%s", answer->text,
                                answer_own_amount(reckoner, bottle.value, bottle.dimension), name, fillings, fillings == 1 ? "" : "s");
    answer->working = arena_format(reckoner->arena, "%s; %s / %s = %s", answer->working,
                                   answer_own_amount(reckoner, bottle.value, bottle.dimension),
                                   answer_own_amount(reckoner, share, bottle.dimension),
                                   answer_number(reckoner, bottle.value / share));
    answer_add(reckoner, fillings, "fillings", "fillings");
    return true;
}

bool sum_dilution(struct reckoner *reckoner, const struct sum *sum)
{
    size_t count;
    double parts;
    if (!check_parts(reckoner, sum, &count, &parts)) {
        return false;
    }
    struct answer *answer = reckoner->answer;
    double first = sum->shares->parts;
    if (sum->total == NULL && sum->taken == NULL) {
        const char *name = share_name(reckoner, sum, 0, count);
        double each = 1000 * first / parts;
        answer->text = answer_format(reckoner, "%s mL of %s in a litre, 1 part in %s", answer_number(reckoner, each),
                                     name, answer_number(reckoner, parts / first));
        answer->working = answer_format(reckoner, "1000 mL x %s / %s parts = %s mL", answer_number(reckoner, first),
                                        answer_number(reckoner, parts), answer_number(reckoner, each));
        answer_add(reckoner, each, "mL/L", name);
        return true;
    }
    struct sum_amount amount;
    if (!sum_volume(reckoner, sum->total != NULL ? sum->total : sum->taken, true, &amount)) {
        return false;
    }
    double of = sum->total != NULL ? parts : first;
    double part = amount.value / of;
    answer->text = list_shares(reckoner, sum, count, parts, part, amount.dimension, "");
    answer->working = answer_format(
        reckoner, "%s / %s %s = %s a part%s", answer_amount(reckoner, amount.value, amount.dimension),
        answer_number(reckoner, of), parts_word(of), answer_amount(reckoner, part, amount.dimension),
        sum->total != NULL ? "" : answer_format(reckoner, "; %s parts in all", answer_number(reckoner, parts)));
    answer_add_amount(reckoner, parts * part, amount.dimension, "in all");
    bool bottle = sum->total != NULL && sum->taken != NULL;
    return !bottle || count_fillings(reckoner, sum, share_name(reckoner, sum, 0, count), &amount, first * part);
}

bool sum_either(struct reckoner *reckoner, const struct sum *sum)
{
    size_t count;
    double parts;
    if (!check_parts(reckoner, sum, &count, &parts)) {
        return false;
    }
    double stock = sum->shares->parts;
    double other = sum->shares->next->parts;
    const char *a = answer_number(reckoner, stock);
    const char *b = answer_number(reckoner, other);
    struct sum within = *sum; /* 1 in 29: 28 of water */
    struct sum_share shares[2] = {*sum->shares, *sum->shares->next};
    shares[0].next = &shares[1];
    shares[1].parts = other - stock;
    within.shares = shares;
    if (other < stock) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, span_join(sum->shares->span, sum->shares->next->span),
                          "write the stock first and the water behind it: 1+29", "this is no dilution");
    }
    struct sum_amount amount = {.value = 1000, .dimension = DIMENSION_VOLUME};
    bool total = sum->taken == NULL;
    const struct quantity *stated = sum->total != NULL ? sum->total : sum->taken;
    if (stated != NULL && !sum_volume(reckoner, stated, false, &amount)) {
        return false;
    }
    const char *plus = answer_format(reckoner, "%s+%s", a, b);
    const char *in = answer_format(reckoner, "%s in %s", a, b);
    double part = amount.value / (total ? parts : stock);
    double part_within = amount.value / (total ? other : stock);
    const char *first = list_shares(reckoner, sum, count, parts, part, amount.dimension, plus);
    const char *second = list_shares(reckoner, &within, count, other, part_within, amount.dimension, in);
    const char *volume = answer_amount(reckoner, amount.value, amount.dimension);
    struct answer *answer = reckoner->answer;
    answer->text = arena_format(reckoner->arena, "%s: %s; %s: %s", plus, first, in, second);
    answer->working =
        answer_format(reckoner, "%s / %s parts or / %s parts", volume, answer_number(reckoner, total ? parts : stock),
                      answer_number(reckoner, total ? other : stock));
    if (!total) {
        answer->working = answer_format(reckoner, "%s x %s or x %s", volume, answer_number(reckoner, parts / stock),
                                        answer_number(reckoner, other / stock));
    }
    answer_note(reckoner, "this is read in both ways; write %s or %s", plus, in);
    return true;
}

/* A number of parts: "10 parts", or a bare "10". */
static bool read_parts(struct reckoner *reckoner, const struct quantity *quantity, double *parts)
{
    if (quantity->unit == NULL && quantity->value > 0 && quantity->value < 1e6) {
        *parts = quantity->value;
        return true;
    }
    struct sum_amount amount;
    if (!sum_amount(reckoner, quantity, false, &amount)) {
        return false;
    }
    *parts = amount.value;
    return amount.dimension == DIMENSION_PARTS ||
           sum_refuse(reckoner, DIAG_UNIT_MISMATCH, quantity->span, "write it as in: 2 parts of 10 parts for 500 mL",
                      "%s are expected here, and this is %s", dimension_names[DIMENSION_PARTS],
                      dimension_phrases[amount.dimension]);
}

bool sum_share(struct reckoner *reckoner, const struct sum *sum)
{
    double some;
    double whole;
    struct sum_amount total;
    if (!read_parts(reckoner, sum->amount, &some) || !read_parts(reckoner, sum->per, &whole) ||
        !sum_volume(reckoner, sum->total, true, &total)) {
        return false;
    }
    if (some > whole) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, span_join(sum->amount->span, sum->per->span),
                          "write the part first and the whole behind it", "the part is larger than the whole");
    }
    double part = total.value / whole;
    const char *share = answer_own_amount(reckoner, some * part, total.dimension);
    const char *rest = answer_own_amount(reckoner, (whole - some) * part, total.dimension);
    struct answer *answer = reckoner->answer;
    answer->text = answer_format(reckoner, "%s; the rest is %s", share, rest);
    answer->working =
        answer_format(reckoner, "%s / %s parts = %s a part", answer_amount(reckoner, total.value, total.dimension),
                      answer_number(reckoner, whole), answer_amount(reckoner, part, total.dimension));
    answer_add_amount(reckoner, some * part, total.dimension, "the part");
    answer_add_amount(reckoner, (whole - some) * part, total.dimension, "the rest");
    return true;
}

bool sum_ratio(struct reckoner *reckoner, const struct sum *sum)
{
    struct sum_amount stock;
    struct sum_amount other;
    bool whole = sum->per != NULL;
    const struct quantity *second = whole ? sum->per : sum->taken;
    if (!sum_volume(reckoner, sum->amount, true, &stock) || !sum_volume(reckoner, second, true, &other)) {
        return false;
    }
    struct span both = span_join(sum->amount->span, second->span);
    if (stock.dimension != other.dimension) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, both, "give both in units of one kind",
                          "%s and %s make no ratio", dimension_phrases[stock.dimension],
                          dimension_phrases[other.dimension]);
    }
    double water = whole ? other.value - stock.value : other.value;
    if (water < 0) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, both, "write the stock first: 150 mL to 1 L",
                          "the stock is more than the whole");
    }
    double parts = water / stock.value;
    const char *a = answer_amount(reckoner, stock.value, stock.dimension);
    const char *b = answer_amount(reckoner, other.value, other.dimension);
    struct answer *answer = reckoner->answer;
    const char *ratio = number_print_significant(reckoner->arena, parts, 3);
    answer->text = answer_format(reckoner, "1+%s", parts >= 100 ? answer_number(reckoner, parts) : ratio);
    answer->working = whole ? answer_format(reckoner, "(%s - %s) / %s = %s parts of water to 1 of stock", b, a, a,
                                            answer_number(reckoner, parts))
                            : answer_format(reckoner, "%s / %s = %s parts of water to 1 of stock", b, a,
                                            answer_number(reckoner, parts));
    answer_add(reckoner, 1, "parts", "stock");
    answer_add(reckoner, parts, "parts", "water");
    return true;
}

bool sum_count(struct reckoner *reckoner, const struct sum *sum)
{
    struct sum_amount amount;
    struct sum_amount each;
    if (!sum_amount(reckoner, sum->amount, true, &amount) || !sum_amount(reckoner, sum->per, true, &each)) {
        return false;
    }
    if (amount.dimension != each.dimension || amount.dimension == DIMENSION_TEMPERATURE) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, span_join(sum->amount->span, sum->per->span),
                          "write it as in: 500 mL at 10 mL each", "%s cannot be shared out by %s",
                          dimension_phrases[amount.dimension], dimension_phrases[each.dimension]);
    }
    double portions = amount.value / each.value;
    double whole = floor(portions + 1e-9);
    double left = amount.value - whole * each.value;
    bool none_left = left < 1e-9 * amount.value;
    bool measured = amount.dimension == DIMENSION_VOLUME || amount.dimension == DIMENSION_MASS;
    struct text first = source_text(reckoner->library->sources, sum->amount->span);
    struct text second = source_text(reckoner->library->sources, sum->per->span);
    struct answer *answer = reckoner->answer;
    answer->text = none_left  ? answer_format(reckoner, "%.0f", whole)
                   : measured ? answer_format(reckoner, "%.0f, and %s left", whole,
                                              answer_own_amount(reckoner, left, amount.dimension))
                              : answer_format(reckoner, "%.0f whole ones", whole);
    answer->working = answer_format(reckoner, "%.*s / %.*s = %s", TEXT_ARGUMENTS(first), TEXT_ARGUMENTS(second),
                                    answer_number(reckoner, portions));
    answer_add(reckoner, whole, "portions", "whole portions");
    if (measured) {
        answer_add_amount(reckoner, none_left ? 0 : left, amount.dimension, "left");
    }
    return true;
}

/* The name behind "of", or nothing. */
static const char *of_material(struct reckoner *reckoner, const struct sum *sum, const char **what)
{
    *what = "the amount";
    if (sum->material == NULL) {
        return "";
    }
    struct text words = source_text(reckoner->library->sources, sum->material->span);
    if (sum->material->form != NULL) {
        struct text form = source_text(reckoner->library->sources, sum->material->form->span);
        *what = answer_format(reckoner, "%.*s (%.*s%s)", TEXT_ARGUMENTS(words), TEXT_ARGUMENTS(form),
                              sum->material->form->percent ? " %" : "");
    } else {
        *what = answer_format(reckoner, "%.*s", TEXT_ARGUMENTS(words));
    }
    return answer_format(reckoner, " of %s", *what);
}

bool sum_scale(struct reckoner *reckoner, const struct sum *sum)
{
    struct sum_amount amount;
    struct sum_amount per;
    struct sum_amount total;
    if (!sum_volume(reckoner, sum->per, true, &per) || !sum_volume(reckoner, sum->total, true, &total)) {
        return false;
    }
    if (per.dimension != total.dimension) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->total->span, "give both in units of one kind",
                          "%s is expected here, and this is %s", dimension_phrases[per.dimension],
                          dimension_phrases[total.dimension]);
    }
    bool liquid = false;
    if (sum->material != NULL) {
        const struct material *material;
        const struct form *form;
        if (!sum_material(reckoner, sum->material, &material, &form)) {
            return false;
        }
        reckoner->answer->notes = NULL; /* the form stays what it was: nothing has to be assumed about it */
        reckoner->answer->last_note = NULL;
        liquid = material->liquid || material->is_water;
    }
    if (!sum_amount(reckoner, sum->amount, liquid, &amount)) {
        return false;
    }
    if (amount.dimension != DIMENSION_MASS && amount.dimension != DIMENSION_VOLUME) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->amount->span, "write it as in: 7.5 g per 750 mL for 2 L",
                          "a mass or a volume is expected here, and this is %s", dimension_phrases[amount.dimension]);
    }
    double scaled = amount.value * total.value / per.value;
    const char *what;
    const char *of = of_material(reckoner, sum, &what);
    struct answer *answer = reckoner->answer;
    answer->text = answer_format(reckoner, "%s%s", answer_own_amount(reckoner, scaled, amount.dimension), of);
    answer->working = answer_format(
        reckoner, "%s x %s / %s = %s", answer_amount(reckoner, amount.value, amount.dimension),
        answer_amount(reckoner, total.value, total.dimension), answer_amount(reckoner, per.value, per.dimension),
        answer_amount(reckoner, scaled, amount.dimension));
    answer_add_amount(reckoner, scaled, amount.dimension, what);
    return true;
}

bool sum_dose(struct reckoner *reckoner, const struct sum *sum)
{
    struct sum_amount amount;
    struct sum_amount total;
    if (!sum_amount(reckoner, sum->amount, false, &amount) || !sum_volume(reckoner, sum->total, false, &total)) {
        return false;
    }
    const char *what;
    const char *of = of_material(reckoner, sum, &what);
    double litres = total.value / 1000;
    double dose = amount.value * litres;
    const char *per = NULL;
    double factor = 1;
    enum dimension dimension = DIMENSION_MASS;
    if (amount.dimension == DIMENSION_CONCENTRATION) {
        per = "g/L";
    } else if (amount.dimension == DIMENSION_VOLUME_RATIO) {
        per = "mL/L";
        dimension = DIMENSION_VOLUME;
    } else if (amount.dimension == DIMENSION_MOLARITY && sum->material != NULL) {
        const struct material *material;
        const struct form *form;
        if (!sum_material(reckoner, sum->material, &material, &form)) {
            return false;
        }
        factor = form->molar_mass * 100 / form->percent;
        per = "mol/L";
        what = answer_material(reckoner, material, form);
        of = answer_format(reckoner, " of %s", what);
    }
    if (per == NULL || isnan(factor)) {
        return sum_refuse(reckoner, DIAG_UNIT_MISMATCH, sum->amount->span,
                          "write it as in: 5 g/L for 750 mL, or: 7.5 g per 750 mL for 2 L",
                          "%s cannot be reckoned for a volume on its own", dimension_phrases[amount.dimension]);
    }
    dose *= factor;
    struct answer *answer = reckoner->answer;
    answer->text = answer_format(reckoner, "%s%s", answer_own_amount(reckoner, dose, dimension), of);
    answer->working = answer_format(
        reckoner, "%s %s x %s L%s = %s", answer_number(reckoner, amount.value), per, answer_number(reckoner, litres),
        factor == 1 ? "" : answer_format(reckoner, " x %s g/mol", answer_number(reckoner, factor)),
        answer_amount(reckoner, dose, dimension));
    answer_add_amount(reckoner, dose, dimension, what);
    return true;
}
