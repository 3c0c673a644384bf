/* Reads sums: a recursive descent over the notation's tokens, a line long. */
#include "reckoning/sum_pieces.h"

static bool finish(struct reckoner *reckoner)
{
    return piece_next(reckoner)->kind == T_NEWLINE || piece_refuse(reckoner, "the end of the sum");
}

/* "for 300 mL", "to make 300 mL", "from 10 mL", or nothing. */
static bool volumes(struct reckoner *reckoner, struct sum *sum)
{
    if (piece_take_if(reckoner, T_FOR) || piece_take_if(reckoner, T_TO_MAKE)) {
        sum->total = piece_measure(reckoner, NULL);
        if (sum->total != NULL && sum->kind == SUM_DILUTION && piece_take_if(reckoner, T_FROM)) {
            sum->taken = piece_measure(reckoner, NULL);
            return sum->taken != NULL && finish(reckoner);
        }
        return sum->total != NULL && finish(reckoner);
    }
    if (piece_take_if(reckoner, T_FROM)) {
        sum->taken = piece_measure(reckoner, NULL);
        return sum->taken != NULL && finish(reckoner);
    }
    return piece_next(reckoner)->kind == T_NEWLINE ||
           piece_refuse(reckoner, "\"for\" and a volume, or \"from\" and a volume,");
}

static void add_share(struct reckoner *reckoner, struct sum *sum, const char *label, double parts, struct span span)
{
    struct sum_share **end = &sum->shares;
    while (*end != NULL) {
        end = &(*end)->next;
    }
    *end = ARENA_NEW(reckoner->arena, struct sum_share);
    **end = (struct sum_share){.label = label, .parts = parts, .span = span};
}

static const char *copy_text(struct reckoner *reckoner, struct text text)
{
    return arena_copy(reckoner->arena, text.at, text.length);
}

static bool is_parts(struct reckoner *reckoner, const struct name *unit)
{
    struct text rest;
    struct name *name = sum_unit_in(reckoner, unit, &rest);
    const struct unit *known = name == NULL ? NULL : library_unit(reckoner->library, name);
    return known != NULL && known->dimension == DIMENSION_PARTS;
}

/* One share of a mixture: "29", "A 1", "water 8 parts", "1 part A", "1 A". */
static bool share(struct reckoner *reckoner, struct sum *sum)
{
    const struct sum_token *token = piece_take(reckoner);
    if (token->kind == T_NUMBER) {
        add_share(reckoner, sum, NULL, token->value.number, token->span);
        return true;
    }
    if (token->kind == T_AMOUNT) {
        struct text label = token->value.quantity->unit->spelling;
        if (is_parts(reckoner, token->value.quantity->unit)) {
            sum_unit_in(reckoner, token->value.quantity->unit, &label);
        }
        bool bare = sum->shares != NULL && sum->shares->label == NULL; /* 1+29: words have no place in it, but water */
        if (bare && label.length > 0 && !piece_is_text(label, "water")) {
            struct span behind = {token->span.end - (uint32_t)label.length, token->span.end};
            return piece_refuse_span(reckoner, behind, "\"for\" and a volume, or \"from\" and a volume,");
        }
        if (label.length == 0 && piece_next(reckoner)->kind == T_OF && piece_ahead(reckoner, 1)->kind == T_WORDS) {
            piece_take(reckoner);
            label = piece_take(reckoner)->value.name->spelling;
        }
        add_share(reckoner, sum, label.length == 0 ? NULL : copy_text(reckoner, label), token->value.quantity->value,
                  token->span);
        return true;
    }
    if (token->kind == T_WORDS) {
        const char *label = copy_text(reckoner, token->value.name->spelling);
        const struct sum_token *number = piece_take(reckoner);
        bool parts = number->kind == T_AMOUNT && is_parts(reckoner, number->value.quantity->unit);
        if (number->kind == T_NUMBER || parts) {
            double value = parts ? number->value.quantity->value : number->value.number;
            add_share(reckoner, sum, label, value, span_join(token->span, number->span));
            return true;
        }
        reckoner->next -= number->kind != T_NEWLINE;
        return piece_refuse(reckoner, "a number of parts");
    }
    reckoner->next -= token->kind != T_NEWLINE;
    return piece_refuse(reckoner, "a number of parts");
}

static bool dilution(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_DILUTION;
    do {
        if (!share(reckoner, sum)) {
            return false;
        }
    } while (piece_take_if(reckoner, T_PLUS));
    if (sum->shares->next == NULL) {
        return piece_refuse(reckoner, "+ and another number of parts");
    }
    return volumes(reckoner, sum);
}

/* "1:29", "1 to 29". */
static bool either(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_EITHER;
    const struct sum_token *first = piece_take(reckoner);
    piece_take(reckoner); /* : or to */
    const struct sum_token *second = piece_take(reckoner);
    add_share(reckoner, sum, NULL, first->value.number, first->span);
    add_share(reckoner, sum, NULL, second->value.number, second->span);
    return volumes(reckoner, sum);
}

/* "1 in 30 for 600 mL": 1 part in 30 in all. */
static bool one_in(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_DILUTION;
    const struct sum_token *first = piece_take(reckoner);
    const struct sum_token *whole = piece_take(reckoner);
    double stock = first->value.quantity->value;
    if (whole->value.number <= stock) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, span_join(first->span, whole->span),
                          "write the part first and the whole behind it: 1 in 30",
                          "the part is no smaller than the whole");
    }
    add_share(reckoner, sum, NULL, stock, first->span);
    add_share(reckoner, sum, NULL, whole->value.number - stock, whole->span);
    return volumes(reckoner, sum);
}

static bool how_many(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_COUNT;
    piece_take(reckoner);
    sum->per = piece_measure(reckoner, NULL);
    if (sum->per == NULL) {
        return false;
    }
    if (!piece_take_if(reckoner, T_IN) && !piece_take_if(reckoner, T_FROM)) {
        return piece_refuse(reckoner, "\"in\" and an amount");
    }
    sum->amount = piece_measure(reckoner, NULL);
    return sum->amount != NULL && finish(reckoner);
}

/* "28 % to 5 % for 1 L", "10 % of 250 mL", "28 % acetic acid in mol/L". */
static bool strength_first(struct reckoner *reckoner, struct sum *sum)
{
    bool stock = false;
    if (!piece_solution(reckoner, &sum->weak, &sum->material, &stock)) {
        return false;
    }
    if (piece_take_if(reckoner, T_TO)) {
        sum->kind = SUM_WEAKEN;
        sum->strong = sum->weak;
        sum->weak = (struct sum_solution){0};
        return piece_solution(reckoner, &sum->weak, &sum->material, &stock) && volumes(reckoner, sum);
    }
    if (piece_take_if(reckoner, T_OF) || piece_take_if(reckoner, T_FOR) || piece_take_if(reckoner, T_TO_MAKE)) {
        sum->kind = stock ? SUM_CONTENT : SUM_MAKE;
        sum->amount = piece_measure(reckoner, NULL);
        return sum->amount != NULL && finish(reckoner);
    }
    if (piece_take_if(reckoner, T_IN) || piece_take_if(reckoner, WORD_AS)) {
        sum->kind = SUM_CONVERT;
        return piece_target(reckoner, &sum->target) && finish(reckoner);
    }
    if (piece_take_if(reckoner, T_FROM)) {
        sum->kind = SUM_WEAKEN;
        return piece_solution(reckoner, &sum->strong, &sum->material, &stock) && volumes(reckoner, sum);
    }
    return piece_refuse(reckoner, "\"of\" and a volume, or \"to\" and another strength,");
}

/* Behind "500 mL of": a strength, or the whole that parts are of. */
static bool amount_of(struct reckoner *reckoner, struct sum *sum)
{
    if (!piece_at_strength(reckoner)) {
        sum->kind = SUM_SHARE;
        sum->per = piece_measure(reckoner, NULL);
        if (sum->per == NULL) {
            return false;
        }
        if (!piece_take_if(reckoner, T_FOR)) {
            return piece_refuse(reckoner, "\"for\" and the whole volume");
        }
        sum->total = piece_measure(reckoner, NULL);
        return sum->total != NULL && finish(reckoner);
    }
    bool stock = false;
    if (!piece_solution(reckoner, &sum->weak, &sum->material, &stock)) {
        return false;
    }
    if (piece_take_if(reckoner, T_FROM)) {
        sum->kind = SUM_WEAKEN;
        sum->total = sum->amount;
        return piece_solution(reckoner, &sum->strong, &sum->material, &stock) && finish(reckoner);
    }
    if (piece_take_if(reckoner, T_TO)) {
        sum->kind = SUM_WEAKEN;
        sum->taken = sum->amount;
        sum->strong = sum->weak;
        sum->weak = (struct sum_solution){0};
        return piece_solution(reckoner, &sum->weak, &sum->material, &stock) && finish(reckoner);
    }
    sum->kind = stock ? SUM_CONTENT : SUM_MAKE;
    if (piece_take_if(reckoner, T_IN)) {
        sum->kind = SUM_CONTENT;
        return piece_target(reckoner, &sum->target) && finish(reckoner);
    }
    return finish(reckoner);
}

/* "40 grains in 20 imperial fl oz …", "7.5 g per 750 mL for 2 L", "150 mL to 1 L as a ratio". */
static bool amount_in(struct reckoner *reckoner, struct sum *sum, bool plus)
{
    if (piece_next(reckoner)->kind == T_WORDS) { /* per L */
        const struct sum_token *token = piece_take(reckoner);
        sum->per = build_quantity(&reckoner->builder, 1, token->value.name, token->span);
    } else {
        sum->per = piece_measure(reckoner, NULL);
    }
    if (sum->per == NULL) {
        return false;
    }
    if (piece_take_if(reckoner, WORD_EACH) ||
        (piece_is_word(piece_next(reckoner), "portions") && piece_take(reckoner) != NULL)) {
        sum->kind = SUM_COUNT;
        return finish(reckoner);
    }
    if (plus) {
        sum->kind = SUM_RATIO;
        sum->taken = sum->per; /* the water; the whole is both together */
        sum->per = NULL;
    } else if (piece_take_if(reckoner, T_FOR)) {
        bool parts = sum->amount->unit != NULL && is_parts(reckoner, sum->amount->unit);
        sum->kind = parts ? SUM_SHARE : SUM_SCALE;
        sum->total = piece_measure(reckoner, NULL);
        return sum->total != NULL && finish(reckoner);
    } else {
        sum->kind = SUM_CONVERT;
    }
    if (piece_take_if(reckoner, T_IN) || piece_take_if(reckoner, WORD_AS)) {
        if (!piece_target(reckoner, &sum->target)) {
            return false;
        }
        if (sum->target.kind == TARGET_RATIO) {
            sum->kind = SUM_RATIO;
        }
    }
    return finish(reckoner);
}

/* Behind "as": a unit, a form, or another material. */
static bool amount_as(struct reckoner *reckoner, struct sum *sum)
{
    const struct sum_token *token = piece_next(reckoner);
    struct text rest;
    bool unit = token->kind == T_WORDS && sum_unit_in(reckoner, token->value.name, &rest) != NULL && rest.length == 0;
    if (unit || token->kind == T_PERCENT || piece_is_word(token, "a") || piece_is_word(token, "ratio") ||
        piece_is_word(token, "a ratio")) {
        sum->kind = SUM_CONVERT;
        return piece_target(reckoner, &sum->target) && finish(reckoner);
    }
    sum->kind = SUM_EQUIVALENT;
    if (sum->material == NULL) {
        return piece_refuse_span(reckoner, sum->amount->span, "the name of a material behind this amount");
    }
    if (token->kind == T_NUMBER) {
        piece_take(reckoner);
        bool percent = piece_take_if(reckoner, T_PERCENT);
        sum->other_form = build_form(&reckoner->builder, NULL, token->value.number, percent);
        sum->other_form->span = (struct span){token->span.begin, reckoner->tokens[reckoner->next - 1].span.end};
    }
    bool stock = false;
    if (!piece_material_if(reckoner, &sum->other, &stock)) {
        return false;
    }
    if (sum->other == NULL && sum->other_form == NULL) {
        return piece_refuse(reckoner, "a form such as monohydrate, or another material,");
    }
    if (sum->other != NULL && piece_take_if(reckoner, T_PLUS)) {
        if (!piece_material_if(reckoner, &sum->with, &stock)) {
            return false;
        }
        if (sum->with == NULL) {
            return piece_refuse(reckoner, "the name of an alkali or acid");
        }
    } else if (sum->other != NULL) {
        struct material_words second = {0};
        if (library_part_pair(reckoner->library, sum->other, &second)) {
            sum->with = build_material(&reckoner->builder, second.name, second.span, NULL);
        }
    }
    sum->kind = sum->with == NULL ? SUM_EQUIVALENT : SUM_REPLACEMENT;
    return finish(reckoner);
}

/* "dissolve 30 g borax in 500 mL at 20 °C". */
static bool dissolve(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_DISSOLVE;
    piece_take(reckoner);
    sum->amount = piece_measure(reckoner, &sum->material);
    if (sum->amount == NULL) {
        return false;
    }
    if (sum->material == NULL) {
        return piece_refuse_span(reckoner, sum->amount->span, "the name of a material behind this amount");
    }
    if (piece_take_if(reckoner, T_IN)) {
        sum->per = piece_measure(reckoner, NULL);
        if (sum->per == NULL) {
            return false;
        }
    }
    if (piece_take_if(reckoner, T_AT)) {
        sum->temperature = piece_measure(reckoner, NULL);
        if (sum->temperature == NULL) {
            return false;
        }
    }
    return finish(reckoner);
}

/* "pH of 16 g citric acid (monohydrate) + 4 g sodium hydroxide in 1 L at 20 °C". */
static bool ph_of(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_PH;
    struct sum_dissolved **last = &sum->dissolved;
    piece_take(reckoner);
    do {
        struct sum_dissolved *item = ARENA_NEW(reckoner->arena, struct sum_dissolved);
        item->amount = piece_measure(reckoner, &item->material);
        if (item->amount == NULL) {
            return false;
        }
        if (item->material == NULL) {
            return piece_refuse_span(reckoner, item->amount->span, "the name of a material behind this amount");
        }
        *last = item;
        last = &item->next;
    } while (piece_take_if(reckoner, T_PLUS));
    if (!piece_take_if(reckoner, T_IN)) {
        return piece_refuse(reckoner, "the volume of the solution, such as in 1 L,");
    }
    sum->per = piece_measure(reckoner, NULL);
    if (sum->per != NULL && piece_take_if(reckoner, T_AT)) {
        sum->temperature = piece_measure(reckoner, NULL);
        return sum->temperature != NULL && finish(reckoner);
    }
    return sum->per != NULL && finish(reckoner);
}

/* Behind "9 min at 20 °C": "to 24 °C coefficient 1.9 per 10 °C". */
static bool time_at(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_TIME;
    sum->temperature = sum->per;
    sum->per = NULL;
    sum->coefficient = NAN;
    sum->to_temperature = piece_measure(reckoner, NULL);
    if (sum->to_temperature == NULL) {
        return false;
    }
    if (piece_take_if(reckoner, WORD_COEFFICIENT)) {
        const struct sum_token *number = piece_take(reckoner);
        if (number->kind != T_NUMBER || !piece_take_if(reckoner, T_PER)) {
            reckoner->next -= number->kind != T_NEWLINE;
            return piece_refuse(reckoner, "a factor such as 1.9 per 10 °C");
        }
        sum->coefficient = number->value.number;
        sum->per = piece_measure(reckoner, NULL);
        return sum->per != NULL && finish(reckoner);
    }
    return finish(reckoner);
}

static bool amount_first(struct reckoner *reckoner, struct sum *sum)
{
    sum->amount = piece_measure(reckoner, &sum->material);
    if (sum->amount == NULL) {
        return false;
    }
    bool stock = false;
    const struct sum_token *token = piece_take(reckoner);
    switch (token->kind) {
    case T_NEWLINE:
        sum->kind = SUM_CONVERT;
        return true;
    case WORD_EACH:
        sum->kind = SUM_COUNT;
        sum->per = sum->amount;
        if (!piece_take_if(reckoner, T_FROM) && !piece_take_if(reckoner, T_IN) && !piece_take_if(reckoner, T_OF)) {
            return piece_refuse(reckoner, "\"from\" and an amount");
        }
        sum->amount = piece_measure(reckoner, NULL);
        return sum->amount != NULL && finish(reckoner);
    case T_FROM:
        sum->kind = SUM_TAKE;
        return piece_solution(reckoner, &sum->weak, &sum->material, &stock) && finish(reckoner);
    case T_OF:
        return amount_of(reckoner, sum);
    case T_AT:
        sum->kind = SUM_COUNT;
        sum->per = piece_measure(reckoner, NULL);
        if (sum->per != NULL && (piece_take_if(reckoner, T_TO) || piece_take_if(reckoner, T_FOR))) {
            return time_at(reckoner, sum);
        }
        piece_take_if(reckoner, WORD_EACH);
        return sum->per != NULL && finish(reckoner);
    case T_FOR:
        sum->kind = SUM_DOSE;
        sum->total = piece_measure(reckoner, NULL);
        return sum->total != NULL && finish(reckoner);
    case T_IN:
    case T_TO:
        if (piece_at_target_unit(reckoner)) {
            sum->kind = SUM_CONVERT;
            return piece_target(reckoner, &sum->target) && finish(reckoner);
        }
        return amount_in(reckoner, sum, false);
    case T_PER:
    case T_TO_MAKE:
        return amount_in(reckoner, sum, false);
    case T_PLUS:
        return amount_in(reckoner, sum, true);
    case WORD_AS:
        return amount_as(reckoner, sum);
    default:
        reckoner->next--;
        return piece_refuse(reckoner, "\"in\" and a unit, \"as\" and a form, or \"for\" and a volume,");
    }
}

/* An amount that opens a mixture: "1 part A + 1 part B + 8 parts water", "1 A + 1 B". */
static bool at_share(struct reckoner *reckoner)
{
    const struct sum_token *token = piece_next(reckoner);
    const struct sum_token *behind = piece_ahead(reckoner, 1);
    if (behind->kind == T_OF && piece_ahead(reckoner, 2)->kind == T_WORDS) {
        behind = piece_ahead(reckoner, 3);
    }
    if (behind->kind != T_PLUS) {
        return false;
    }
    struct text rest;
    struct name *unit = sum_unit_in(reckoner, token->value.quantity->unit, &rest);
    const struct unit *known = unit == NULL ? NULL : library_unit(reckoner->library, unit);
    return known == NULL || (known->dimension != DIMENSION_VOLUME && known->dimension != DIMENSION_MASS);
}

static bool parse(struct reckoner *reckoner, struct sum *sum)
{
    const struct sum_token *token = piece_next(reckoner);
    const struct sum_token *second = piece_ahead(reckoner, 1);
    if (token->kind == WORD_HOW_MANY) {
        return how_many(reckoner, sum);
    }
    if (token->kind == WORD_DISSOLVE) {
        return dissolve(reckoner, sum);
    }
    if (token->kind == WORD_PH_OF) {
        return ph_of(reckoner, sum);
    }
    if (token->kind == T_NUMBER) {
        bool pair = (second->kind == T_COLON || second->kind == T_TO) && piece_ahead(reckoner, 2)->kind == T_NUMBER &&
                    piece_ahead(reckoner, 3)->kind != T_PERCENT;
        return second->kind == T_PERCENT ? strength_first(reckoner, sum)
               : second->kind == T_PLUS  ? dilution(reckoner, sum)
               : pair                    ? either(reckoner, sum)
                                         : amount_first(reckoner, sum);
    }
    if (token->kind == T_AMOUNT) {
        bool in = piece_is_text(token->value.quantity->unit->spelling, "in") && second->kind == T_NUMBER;
        return in ? one_in(reckoner, sum) : at_share(reckoner) ? dilution(reckoner, sum) : amount_first(reckoner, sum);
    }
    if (token->kind == T_WORDS && (second->kind == T_NUMBER || second->kind == T_AMOUNT)) {
        return dilution(reckoner, sum);
    }
    return piece_refuse(reckoner, "a number, such as that of an amount or of a dilution,");
}

struct sum *sum_parse(struct reckoner *reckoner)
{
    struct sum *sum = ARENA_NEW(reckoner->arena, struct sum);
    size_t last = 0;
    while (reckoner->tokens[last].kind != T_NEWLINE) {
        last++;
    }
    sum->span = span_join(reckoner->tokens[0].span, reckoner->tokens[last].span);
    return parse(reckoner, sum) ? sum : NULL;
}
