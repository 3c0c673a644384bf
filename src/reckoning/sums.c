/* Reads sums: a recursive descent over the notation's tokens, a line long. */
#include "reckoning/sums.h"

#include <strings.h>

/* ---- tokens ---- */

static const struct sum_token *peek_at(const struct reckoner *reckoner, size_t ahead)
{
    const struct sum_token *token = &reckoner->tokens[reckoner->next];
    while (ahead-- > 0 && token->kind != T_NEWLINE) {
        token++;
    }
    return token;
}

static const struct sum_token *peek(const struct reckoner *reckoner)
{
    return &reckoner->tokens[reckoner->next];
}

static const struct sum_token *take(struct reckoner *reckoner)
{
    const struct sum_token *token = peek(reckoner);
    reckoner->next += token->kind != T_NEWLINE;
    return token;
}

static bool take_if(struct reckoner *reckoner, int kind)
{
    bool is = peek(reckoner)->kind == kind;
    reckoner->next += is && kind != T_NEWLINE;
    return is;
}

static bool is_text(struct text text, const char *word)
{
    return text.length == strlen(word) && strncasecmp(text.at, word, text.length) == 0;
}

static bool word_is(const struct sum_token *token, const char *word)
{
    return token->kind == T_WORDS && is_text(token->value.name->spelling, word);
}

static bool refuse_span(struct reckoner *reckoner, struct span span, const char *expected)
{
    struct text there = source_text(reckoner->library->sources, span);
    return sum_refuse(reckoner, DIAG_SYNTAX, span, NULL, "\"%.*s\" is not understood here; %s is expected",
                      TEXT_ARGUMENTS(there), expected);
}

/* The token that stands next is not what was expected. */
static bool refuse(struct reckoner *reckoner, const char *expected)
{
    const struct sum_token *token = peek(reckoner);
    if (token->kind == T_NEWLINE) {
        return sum_refuse(reckoner, DIAG_SYNTAX, token->span, NULL, "the sum ends too early; %s is expected here", expected);
    }
    return refuse_span(reckoner, token->span, expected);
}

/* ---- amounts ---- */

struct name *sum_unit_in(struct reckoner *reckoner, const struct name *words, struct text *rest)
{
    struct text run = words->spelling;
    for (size_t length = run.length; length > 0; length--) {
        bool ends = length == run.length || run.at[length] == ' ' || run.at[length] == '\t';
        struct text start = text_trim((struct text){run.at, length});
        if (!ends || start.length == 0) {
            continue;
        }
        struct name *name = names_find(reckoner->builder.names, start);
        if (library_unit(reckoner->library, name) != NULL) {
            *rest = text_trim((struct text){run.at + length, run.length - length});
            return name;
        }
    }
    *rest = (struct text){0};
    return NULL;
}

static struct quantity *one_measure(struct reckoner *reckoner, const struct sum_token *token, struct text *rest)
{
    struct name *words = token->value.amount_token.unit;
    struct name *unit = sum_unit_in(reckoner, words, rest);
    struct span span = token->span;
    /* The token ends where its words end; how many blanks stand before the rest does not matter. */
    span.end -= (uint32_t)(unit == NULL ? 0 : words->spelling.length - unit->spelling.length);
    return build_quantity(&reckoner->builder, token->value.amount_token.value, unit == NULL ? words : unit, span);
}

/* A form in brackets, from behind the opening one. */
static struct form_words *form_in_brackets(struct reckoner *reckoner)
{
    const struct sum_token *token = take(reckoner);
    struct form_words *form = NULL;
    if (token->kind == T_WORDS) {
        form = build_form(&reckoner->builder, token->value.name, NAN, false);
    } else if (token->kind == T_NUMBER) {
        bool percent = take_if(reckoner, T_PERCENT);
        form = build_form(&reckoner->builder, NULL, token->value.number, percent);
        take_if(reckoner, T_STOCK);
    } else if (token->kind == T_AMOUNT) {
        form = build_form(&reckoner->builder, token->value.amount_token.unit, token->value.amount_token.value, false);
    } else {
        reckoner->next -= token->kind != T_NEWLINE;
        refuse(reckoner, "a form such as anhydrous");
        return NULL;
    }
    form->span = token->span;
    if (!take_if(reckoner, T_CLOSE)) {
        refuse(reckoner, "the closing bracket");
        return NULL;
    }
    return form;
}

/* What follows a material's name: "(anhydrous)" or ", anhydrous". */
static bool form_behind(struct reckoner *reckoner, struct material_words *material)
{
    if (take_if(reckoner, T_OPEN)) {
        material->form = form_in_brackets(reckoner);
        return material->form != NULL;
    }
    if (peek(reckoner)->kind == T_COMMA && peek_at(reckoner, 1)->kind == T_WORDS) {
        take(reckoner);
        const struct sum_token *token = take(reckoner);
        material->form = build_comma_form(&reckoner->builder, token->value.name, token->span);
    }
    return true;
}

/* "potassium bromide stock" is a stock of it: *stock is set. */
static bool named_material(struct reckoner *reckoner, struct text name, struct span span, struct material_words **material,
                           bool *stock)
{
    static const char *const tails[] = {" stock solution", " stock", " solution", " sol"};
    struct text whole = name;
    if (library_material(reckoner->library, names_find(reckoner->builder.names, whole)) == NULL) {
        for (size_t i = 0; i < sizeof tails / sizeof *tails; i++) {
            size_t length = strlen(tails[i]);
            if (name.length > length && is_text((struct text){name.at + name.length - length, length}, tails[i])) {
                name.length -= length;
                span.end -= (uint32_t)length;
                *stock = true;
                break;
            }
        }
    }
    *material = build_material(&reckoner->builder, names_find(reckoner->builder.names, name), span, NULL);
    return form_behind(reckoner, *material);
}

/* A material if one stands next. */
static bool material_if(struct reckoner *reckoner, struct material_words **material, bool *stock)
{
    if (peek(reckoner)->kind != T_WORDS) {
        return true;
    }
    const struct sum_token *token = take(reckoner);
    return named_material(reckoner, token->value.name->spelling, token->span, material, stock);
}

/* An amount, and the material behind it when `material` is not NULL. */
static struct quantity *measure(struct reckoner *reckoner, struct material_words **material)
{
    const struct sum_token *token = peek(reckoner);
    if (token->kind == T_NUMBER) { /* 68 to 72 °F; or a number that lacks its unit, which is said when it is read */
        take(reckoner);
        struct quantity *quantity = build_quantity(&reckoner->builder, token->value.number, NULL, token->span);
        if (material == NULL || peek(reckoner)->kind != T_TO || peek_at(reckoner, 1)->kind != T_AMOUNT) {
            return quantity;
        }
        take(reckoner);
        struct quantity *high = measure(reckoner, material);
        return high == NULL ? NULL : build_range(quantity, high);
    }
    if (token->kind != T_AMOUNT) {
        refuse(reckoner, "an amount such as 300 mL");
        return NULL;
    }
    struct quantity *sum = NULL;
    struct text rest = {0};
    while (peek(reckoner)->kind == T_AMOUNT && rest.length == 0) {
        token = take(reckoner);
        struct quantity *one = one_measure(reckoner, token, &rest);
        sum = sum == NULL ? one : build_sum(sum, one);
    }
    struct span behind = {token->span.end - (uint32_t)rest.length, token->span.end};
    bool stock = false;
    if (rest.length > 0 && material == NULL) {
        refuse_span(reckoner, behind, "nothing more of the amount");
        return NULL;
    }
    if (rest.length > 0) {
        return named_material(reckoner, rest, behind, material, &stock) ? sum : NULL;
    }
    if (material != NULL) {
        if (peek(reckoner)->kind == T_OF && peek_at(reckoner, 1)->kind == T_WORDS) {
            take(reckoner);
        }
        return material_if(reckoner, material, &stock) ? sum : NULL;
    }
    return sum;
}

/* ---- strengths and solutions ---- */

static bool at_strength(const struct reckoner *reckoner)
{
    return peek(reckoner)->kind == T_NUMBER && peek_at(reckoner, 1)->kind == T_PERCENT;
}

static const struct strength *strength(struct reckoner *reckoner)
{
    if (!at_strength(reckoner)) {
        refuse(reckoner, "a strength such as 5 %");
        return NULL;
    }
    const struct sum_token *number = take(reckoner);
    const struct sum_token *percent = take(reckoner);
    return build_strength(&reckoner->builder, number->value.number, percent->value.basis, false,
                          span_join(number->span, percent->span));
}

/* "28 %", "28 % acetic acid", "glacial", "acetic acid (glacial)", "0.880". */
static bool solution(struct reckoner *reckoner, struct sum_solution *solution, struct material_words **material, bool *stock)
{
    solution->span = peek(reckoner)->span;
    if (at_strength(reckoner)) {
        solution->strength = strength(reckoner);
        solution->span = solution->strength->span;
        *stock = take_if(reckoner, T_STOCK);
        if (peek(reckoner)->kind == T_OF && peek_at(reckoner, 1)->kind == T_WORDS) {
            take(reckoner);
        }
        return material_if(reckoner, material, stock);
    }
    if (peek(reckoner)->kind == T_WORDS) {
        return material_if(reckoner, &solution->named, stock);
    }
    if (peek(reckoner)->kind == T_NUMBER) { /* a specific gravity names a form: "from 0.880" */
        const struct sum_token *token = take(reckoner);
        solution->named = build_material(&reckoner->builder, NULL, token->span,
                                         build_form(&reckoner->builder, NULL, token->value.number, false));
        return true;
    }
    return refuse(reckoner, "a strength such as 28 %, or a form such as glacial,");
}

/* ---- what the answer is wanted in ---- */

static bool target(struct reckoner *reckoner, struct sum_target *target)
{
    const struct sum_token *token = take(reckoner);
    target->span = token->span;
    if (token->kind == T_PERCENT || (word_is(token, "a") && take_if(reckoner, T_PERCENT)) || word_is(token, "percentage") ||
        word_is(token, "a percentage")) {
        target->kind = TARGET_PERCENT;
        return true;
    }
    if (word_is(token, "ratio") || word_is(token, "a ratio")) {
        target->kind = TARGET_RATIO;
        return true;
    }
    if (token->kind != T_WORDS) {
        reckoner->next -= token->kind != T_NEWLINE;
        return refuse(reckoner, "a unit such as g, mL or °C");
    }
    target->kind = TARGET_UNIT;
    target->unit = token->value.name;
    if (take_if(reckoner, T_PER)) {
        if (peek(reckoner)->kind == T_WORDS) {
            const struct sum_token *unit = take(reckoner);
            target->per = build_quantity(&reckoner->builder, 1, unit->value.name, unit->span);
        } else {
            target->per = measure(reckoner, NULL);
        }
        return target->per != NULL;
    }
    return true;
}

static bool at_target_unit(const struct reckoner *reckoner)
{
    int kind = peek(reckoner)->kind;
    return kind == T_WORDS || kind == T_PERCENT;
}

/* ---- the sums ---- */

static bool finish(struct reckoner *reckoner)
{
    return peek(reckoner)->kind == T_NEWLINE || refuse(reckoner, "the end of the sum");
}

/* "for 300 mL", "to make 300 mL", "from 10 mL", or nothing. */
static bool volumes(struct reckoner *reckoner, struct sum *sum)
{
    if (take_if(reckoner, T_FOR) || take_if(reckoner, T_TO_MAKE)) {
        sum->total = measure(reckoner, NULL);
        return sum->total != NULL && finish(reckoner);
    }
    if (take_if(reckoner, T_FROM)) {
        sum->taken = measure(reckoner, NULL);
        return sum->taken != NULL && finish(reckoner);
    }
    return peek(reckoner)->kind == T_NEWLINE || refuse(reckoner, "\"for\" and a volume, or \"from\" and a volume,");
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
    const struct sum_token *token = take(reckoner);
    if (token->kind == T_NUMBER) {
        add_share(reckoner, sum, NULL, token->value.number, token->span);
        return true;
    }
    if (token->kind == T_AMOUNT) {
        struct text label = token->value.amount_token.unit->spelling;
        if (is_parts(reckoner, token->value.amount_token.unit)) {
            sum_unit_in(reckoner, token->value.amount_token.unit, &label);
        }
        if (label.length == 0 && peek(reckoner)->kind == T_OF && peek_at(reckoner, 1)->kind == T_WORDS) {
            take(reckoner);
            label = take(reckoner)->value.name->spelling;
        }
        add_share(reckoner, sum, label.length == 0 ? NULL : copy_text(reckoner, label), token->value.amount_token.value,
                  token->span);
        return true;
    }
    if (token->kind == T_WORDS) {
        const char *label = copy_text(reckoner, token->value.name->spelling);
        const struct sum_token *number = take(reckoner);
        bool parts = number->kind == T_AMOUNT && is_parts(reckoner, number->value.amount_token.unit);
        if (number->kind == T_NUMBER || parts) {
            double value = parts ? number->value.amount_token.value : number->value.number;
            add_share(reckoner, sum, label, value, span_join(token->span, number->span));
            return true;
        }
        reckoner->next -= number->kind != T_NEWLINE;
        return refuse(reckoner, "a number of parts");
    }
    reckoner->next -= token->kind != T_NEWLINE;
    return refuse(reckoner, "a number of parts");
}

static bool dilution(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_DILUTION;
    do {
        if (!share(reckoner, sum)) {
            return false;
        }
    } while (take_if(reckoner, T_PLUS));
    if (sum->shares->next == NULL) {
        return refuse(reckoner, "+ and another number of parts");
    }
    return volumes(reckoner, sum);
}

/* "1:29", "1 to 29". */
static bool either(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_EITHER;
    const struct sum_token *first = take(reckoner);
    take(reckoner); /* : or to */
    const struct sum_token *second = take(reckoner);
    add_share(reckoner, sum, NULL, first->value.number, first->span);
    add_share(reckoner, sum, NULL, second->value.number, second->span);
    return volumes(reckoner, sum);
}

/* "1 in 30 for 600 mL": 1 part in 30 in all. */
static bool one_in(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_DILUTION;
    const struct sum_token *first = take(reckoner);
    const struct sum_token *whole = take(reckoner);
    double stock = first->value.amount_token.value;
    if (whole->value.number <= stock) {
        return sum_refuse(reckoner, DIAG_AMOUNT_OUT_OF_RANGE, span_join(first->span, whole->span),
                          "write the part first and the whole behind it: 1 in 30", "the part is no smaller than the whole");
    }
    add_share(reckoner, sum, NULL, stock, first->span);
    add_share(reckoner, sum, NULL, whole->value.number - stock, whole->span);
    return volumes(reckoner, sum);
}

static bool how_many(struct reckoner *reckoner, struct sum *sum)
{
    sum->kind = SUM_COUNT;
    take(reckoner);
    sum->per = measure(reckoner, NULL);
    if (sum->per == NULL) {
        return false;
    }
    if (!take_if(reckoner, T_IN) && !take_if(reckoner, T_FROM)) {
        return refuse(reckoner, "\"in\" and an amount");
    }
    sum->amount = measure(reckoner, NULL);
    return sum->amount != NULL && finish(reckoner);
}

/* "28 % to 5 % for 1 L", "10 % of 250 mL", "28 % acetic acid in mol/L". */
static bool strength_first(struct reckoner *reckoner, struct sum *sum)
{
    bool stock = false;
    if (!solution(reckoner, &sum->weak, &sum->material, &stock)) {
        return false;
    }
    if (take_if(reckoner, T_TO)) {
        sum->kind = SUM_WEAKEN;
        sum->strong = sum->weak;
        sum->weak = (struct sum_solution){0};
        return solution(reckoner, &sum->weak, &sum->material, &stock) && volumes(reckoner, sum);
    }
    if (take_if(reckoner, T_OF) || take_if(reckoner, T_FOR) || take_if(reckoner, T_TO_MAKE)) {
        sum->kind = stock ? SUM_CONTENT : SUM_MAKE;
        sum->amount = measure(reckoner, NULL);
        return sum->amount != NULL && finish(reckoner);
    }
    if (take_if(reckoner, T_IN) || take_if(reckoner, WORD_AS)) {
        sum->kind = SUM_CONVERT;
        return target(reckoner, &sum->target) && finish(reckoner);
    }
    if (take_if(reckoner, T_FROM)) {
        sum->kind = SUM_WEAKEN;
        return solution(reckoner, &sum->strong, &sum->material, &stock) && volumes(reckoner, sum);
    }
    return refuse(reckoner, "\"of\" and a volume, or \"to\" and another strength,");
}

/* Behind "500 mL of": a strength, or the whole that parts are of. */
static bool amount_of(struct reckoner *reckoner, struct sum *sum)
{
    if (!at_strength(reckoner)) {
        sum->kind = SUM_SHARE;
        sum->per = measure(reckoner, NULL);
        if (sum->per == NULL) {
            return false;
        }
        if (!take_if(reckoner, T_FOR)) {
            return refuse(reckoner, "\"for\" and the whole volume");
        }
        sum->total = measure(reckoner, NULL);
        return sum->total != NULL && finish(reckoner);
    }
    bool stock = false;
    if (!solution(reckoner, &sum->weak, &sum->material, &stock)) {
        return false;
    }
    if (take_if(reckoner, T_FROM)) {
        sum->kind = SUM_WEAKEN;
        sum->total = sum->amount;
        return solution(reckoner, &sum->strong, &sum->material, &stock) && finish(reckoner);
    }
    if (take_if(reckoner, T_TO)) {
        sum->kind = SUM_WEAKEN;
        sum->taken = sum->amount;
        sum->strong = sum->weak;
        sum->weak = (struct sum_solution){0};
        return solution(reckoner, &sum->weak, &sum->material, &stock) && finish(reckoner);
    }
    sum->kind = stock ? SUM_CONTENT : SUM_MAKE;
    if (take_if(reckoner, T_IN)) {
        sum->kind = SUM_CONTENT;
        return target(reckoner, &sum->target) && finish(reckoner);
    }
    return finish(reckoner);
}

/* "40 grains in 20 imperial fl oz …", "7.5 g per 750 mL for 2 L", "150 mL to 1 L as a ratio". */
static bool amount_in(struct reckoner *reckoner, struct sum *sum, bool plus)
{
    if (peek(reckoner)->kind == T_WORDS) { /* per L */
        const struct sum_token *token = take(reckoner);
        sum->per = build_quantity(&reckoner->builder, 1, token->value.name, token->span);
    } else {
        sum->per = measure(reckoner, NULL);
    }
    if (sum->per == NULL) {
        return false;
    }
    if (take_if(reckoner, WORD_EACH) || (word_is(peek(reckoner), "portions") && take(reckoner) != NULL)) {
        sum->kind = SUM_COUNT;
        return finish(reckoner);
    }
    if (plus) {
        sum->kind = SUM_RATIO;
        sum->taken = sum->per; /* the water; the whole is both together */
        sum->per = NULL;
    } else if (take_if(reckoner, T_FOR)) {
        bool parts = sum->amount->unit != NULL && is_parts(reckoner, sum->amount->unit);
        sum->kind = parts ? SUM_SHARE : SUM_SCALE;
        sum->total = measure(reckoner, NULL);
        return sum->total != NULL && finish(reckoner);
    } else {
        sum->kind = SUM_CONVERT;
    }
    if (take_if(reckoner, T_IN) || take_if(reckoner, WORD_AS)) {
        if (!target(reckoner, &sum->target)) {
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
    const struct sum_token *token = peek(reckoner);
    struct text rest;
    bool unit = token->kind == T_WORDS && sum_unit_in(reckoner, token->value.name, &rest) != NULL && rest.length == 0;
    if (unit || token->kind == T_PERCENT || word_is(token, "a") || word_is(token, "ratio") || word_is(token, "a ratio")) {
        sum->kind = SUM_CONVERT;
        return target(reckoner, &sum->target) && finish(reckoner);
    }
    sum->kind = SUM_EQUIVALENT;
    if (sum->material == NULL) {
        return refuse_span(reckoner, sum->amount->span, "the name of a material behind this amount");
    }
    if (token->kind == T_NUMBER) {
        take(reckoner);
        bool percent = take_if(reckoner, T_PERCENT);
        sum->other_form = build_form(&reckoner->builder, NULL, token->value.number, percent);
        sum->other_form->span = token->span;
    }
    bool stock = false;
    if (!material_if(reckoner, &sum->other, &stock)) {
        return false;
    }
    if (sum->other == NULL && sum->other_form == NULL) {
        return refuse(reckoner, "a form such as monohydrate, or another material,");
    }
    return finish(reckoner);
}

static bool amount_first(struct reckoner *reckoner, struct sum *sum)
{
    sum->amount = measure(reckoner, &sum->material);
    if (sum->amount == NULL) {
        return false;
    }
    bool stock = false;
    const struct sum_token *token = take(reckoner);
    switch (token->kind) {
    case T_NEWLINE:
        sum->kind = SUM_CONVERT;
        return true;
    case WORD_EACH:
        sum->kind = SUM_COUNT;
        sum->per = sum->amount;
        if (!take_if(reckoner, T_FROM) && !take_if(reckoner, T_IN) && !take_if(reckoner, T_OF)) {
            return refuse(reckoner, "\"from\" and an amount");
        }
        sum->amount = measure(reckoner, NULL);
        return sum->amount != NULL && finish(reckoner);
    case T_FROM:
        sum->kind = SUM_TAKE;
        return solution(reckoner, &sum->weak, &sum->material, &stock) && finish(reckoner);
    case T_OF:
        return amount_of(reckoner, sum);
    case T_AT:
        sum->kind = SUM_COUNT;
        sum->per = measure(reckoner, NULL);
        take_if(reckoner, WORD_EACH);
        return sum->per != NULL && finish(reckoner);
    case T_FOR:
        sum->kind = SUM_DOSE;
        sum->total = measure(reckoner, NULL);
        return sum->total != NULL && finish(reckoner);
    case T_IN:
    case T_TO:
        if (at_target_unit(reckoner)) {
            sum->kind = SUM_CONVERT;
            return target(reckoner, &sum->target) && finish(reckoner);
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
        return refuse(reckoner, "\"in\" and a unit, \"as\" and a form, or \"for\" and a volume,");
    }
}

/* An amount that opens a mixture: "1 part A + 1 part B + 8 parts water", "1 A + 1 B". */
static bool at_share(struct reckoner *reckoner)
{
    const struct sum_token *token = peek(reckoner);
    const struct sum_token *behind = peek_at(reckoner, 1);
    if (behind->kind == T_OF && peek_at(reckoner, 2)->kind == T_WORDS) {
        behind = peek_at(reckoner, 3);
    }
    if (behind->kind != T_PLUS) {
        return false;
    }
    struct text rest;
    struct name *unit = sum_unit_in(reckoner, token->value.amount_token.unit, &rest);
    const struct unit *known = unit == NULL ? NULL : library_unit(reckoner->library, unit);
    return known == NULL || (known->dimension != DIMENSION_VOLUME && known->dimension != DIMENSION_MASS);
}

static bool parse(struct reckoner *reckoner, struct sum *sum)
{
    const struct sum_token *token = peek(reckoner);
    const struct sum_token *second = peek_at(reckoner, 1);
    if (token->kind == WORD_HOW_MANY) {
        return how_many(reckoner, sum);
    }
    if (token->kind == T_NUMBER) {
        bool pair = (second->kind == T_COLON || second->kind == T_TO) && peek_at(reckoner, 2)->kind == T_NUMBER &&
                    peek_at(reckoner, 3)->kind != T_PERCENT;
        return second->kind == T_PERCENT ? strength_first(reckoner, sum)
               : second->kind == T_PLUS  ? dilution(reckoner, sum)
               : pair                    ? either(reckoner, sum)
                                         : amount_first(reckoner, sum);
    }
    if (token->kind == T_AMOUNT) {
        bool in = is_text(token->value.amount_token.unit->spelling, "in") && second->kind == T_NUMBER;
        return in ? one_in(reckoner, sum) : at_share(reckoner) ? dilution(reckoner, sum) : amount_first(reckoner, sum);
    }
    if (token->kind == T_WORDS && (second->kind == T_NUMBER || second->kind == T_AMOUNT)) {
        return dilution(reckoner, sum);
    }
    return refuse(reckoner, "a number, such as that of an amount or of a dilution,");
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
