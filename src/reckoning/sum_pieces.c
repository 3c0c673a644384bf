/* Pieces of sums: amounts, materials, strengths, what an answer is wanted in. */
#include "reckoning/sum_pieces.h"

#include <strings.h>

/* ---- tokens ---- */

const struct sum_token *piece_ahead(const struct reckoner *reckoner, size_t ahead)
{
    const struct sum_token *token = &reckoner->tokens[reckoner->next];
    while (ahead-- > 0 && token->kind != T_NEWLINE) {
        token++;
    }
    return token;
}

const struct sum_token *piece_next(const struct reckoner *reckoner)
{
    return &reckoner->tokens[reckoner->next];
}

const struct sum_token *piece_take(struct reckoner *reckoner)
{
    const struct sum_token *token = piece_next(reckoner);
    reckoner->next += token->kind != T_NEWLINE;
    return token;
}

bool piece_take_if(struct reckoner *reckoner, int kind)
{
    bool is = piece_next(reckoner)->kind == kind;
    reckoner->next += is && kind != T_NEWLINE;
    return is;
}

bool piece_is_text(struct text text, const char *word)
{
    return text.length == strlen(word) && strncasecmp(text.at, word, text.length) == 0;
}

bool piece_is_word(const struct sum_token *token, const char *word)
{
    return token->kind == T_WORDS && piece_is_text(token->value.name->spelling, word);
}

bool piece_refuse_span(struct reckoner *reckoner, struct span span, const char *expected)
{
    struct text there = source_text(reckoner->library->sources, span);
    return sum_refuse(reckoner, DIAG_SYNTAX, span, NULL, "\"%.*s\" is not understood here; %s is expected",
                      TEXT_ARGUMENTS(there), expected);
}

/* The token that stands next is not what was expected. */
bool piece_refuse(struct reckoner *reckoner, const char *expected)
{
    const struct sum_token *token = piece_next(reckoner);
    if (token->kind == T_NEWLINE) {
        return sum_refuse(reckoner, DIAG_SYNTAX, token->span, NULL, "the sum ends too early; %s is expected here",
                          expected);
    }
    return piece_refuse_span(reckoner, token->span, expected);
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
    struct quantity *quantity = token->value.quantity;
    struct name *unit = sum_unit_in(reckoner, quantity->unit, rest);
    if (unit != NULL) {
        quantity_cut_unit(quantity, unit);
    }
    return quantity;
}

/* A form in brackets, from behind the opening one. */
static struct form_words *form_in_brackets(struct reckoner *reckoner)
{
    const struct sum_token *token = piece_take(reckoner);
    struct form_words *form = NULL;
    if (token->kind == T_WORDS) {
        form = build_form(&reckoner->builder, token->value.name, NAN, false);
    } else if (token->kind == T_NUMBER) {
        bool percent = piece_take_if(reckoner, T_PERCENT);
        form = build_form(&reckoner->builder, NULL, token->value.number, percent);
        piece_take_if(reckoner, T_STOCK);
    } else if (token->kind == T_AMOUNT) {
        form = build_form(&reckoner->builder, token->value.quantity->unit, token->value.quantity->value, false);
    } else {
        reckoner->next -= token->kind != T_NEWLINE;
        piece_refuse(reckoner, "a form such as anhydrous");
        return NULL;
    }
    form->span = (struct span){token->span.begin, reckoner->tokens[reckoner->next - 1].span.end};
    if (!piece_take_if(reckoner, T_CLOSE)) {
        piece_refuse(reckoner, "the closing bracket");
        return NULL;
    }
    return form;
}

/* What follows a material's name: "(anhydrous)" or ", anhydrous". */
static bool form_behind(struct reckoner *reckoner, struct material_words *material)
{
    if (piece_take_if(reckoner, T_OPEN)) {
        material->form = form_in_brackets(reckoner);
        return material->form != NULL;
    }
    if (piece_next(reckoner)->kind == T_COMMA && piece_ahead(reckoner, 1)->kind == T_WORDS) {
        piece_take(reckoner);
        const struct sum_token *token = piece_take(reckoner);
        material->form = build_comma_form(&reckoner->builder, token->value.name, token->span);
    }
    return true;
}

/* "potassium bromide stock" is a stock of it: *stock is set. */
static bool named_material(struct reckoner *reckoner, struct text name, struct span span,
                           struct material_words **material, bool *stock)
{
    static const char *const tails[] = {" stock solution", " stock", " solution", " sol"};
    struct text whole = name;
    if (library_material(reckoner->library, names_find(reckoner->builder.names, whole)) == NULL) {
        for (size_t i = 0; i < sizeof tails / sizeof *tails; i++) {
            size_t length = strlen(tails[i]);
            if (name.length > length &&
                piece_is_text((struct text){name.at + name.length - length, length}, tails[i])) {
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
bool piece_material_if(struct reckoner *reckoner, struct material_words **material, bool *stock)
{
    if (piece_next(reckoner)->kind != T_WORDS) {
        return true;
    }
    const struct sum_token *token = piece_take(reckoner);
    return named_material(reckoner, token->value.name->spelling, token->span, material, stock);
}

/* An amount, and the material behind it when `material` is not NULL. */
struct quantity *piece_measure(struct reckoner *reckoner, struct material_words **material)
{
    const struct sum_token *token = piece_next(reckoner);
    if (token->kind == T_NUMBER) { /* 68 to 72 °F; or a number that lacks its unit, which is said when it is read */
        piece_take(reckoner);
        struct quantity *quantity = build_quantity(&reckoner->builder, token->value.number, NULL, token->span);
        if (material == NULL || piece_next(reckoner)->kind != T_TO || piece_ahead(reckoner, 1)->kind != T_AMOUNT) {
            return quantity;
        }
        piece_take(reckoner);
        struct quantity *high = piece_measure(reckoner, material);
        return high == NULL ? NULL : build_range(quantity, high);
    }
    if (token->kind != T_AMOUNT) {
        piece_refuse(reckoner, "an amount such as 300 mL");
        return NULL;
    }
    struct quantity *sum = NULL;
    struct text rest = {0};
    while (piece_next(reckoner)->kind == T_AMOUNT && rest.length == 0) {
        token = piece_take(reckoner);
        struct quantity *one = one_measure(reckoner, token, &rest);
        sum = sum == NULL ? one : build_sum(sum, one);
    }
    struct span behind = {token->span.end - (uint32_t)rest.length, token->span.end};
    bool stock = false;
    if (rest.length > 0 && material == NULL) {
        piece_refuse_span(reckoner, behind, "the end of the amount");
        return NULL;
    }
    if (rest.length > 0) {
        return named_material(reckoner, rest, behind, material, &stock) ? sum : NULL;
    }
    if (material != NULL) {
        if (piece_next(reckoner)->kind == T_OF && piece_ahead(reckoner, 1)->kind == T_WORDS) {
            piece_take(reckoner);
        }
        return piece_material_if(reckoner, material, &stock) ? sum : NULL;
    }
    return sum;
}

/* ---- strengths and solutions ---- */

bool piece_at_strength(const struct reckoner *reckoner)
{
    return (piece_next(reckoner)->kind == T_NUMBER && piece_ahead(reckoner, 1)->kind == T_PERCENT) ||
           piece_next(reckoner)->kind == T_SATURATED;
}

static const struct strength *strength(struct reckoner *reckoner)
{
    if (!piece_at_strength(reckoner)) {
        piece_refuse(reckoner, "a strength such as 5 %");
        return NULL;
    }
    const struct sum_token *number = piece_take(reckoner);
    if (number->kind == T_SATURATED) {
        return build_strength(&reckoner->builder, NAN, PERCENT_PLAIN, true, (struct span){0}, number->span);
    }
    const struct sum_token *percent = piece_take(reckoner);
    return build_strength(&reckoner->builder, number->value.number, percent->value.basis, false, number->span,
                          span_join(number->span, percent->span));
}

/* "28 %", "28 % acetic acid", "glacial", "acetic acid (glacial)", "0.880". */
bool piece_solution(struct reckoner *reckoner, struct sum_solution *solution, struct material_words **material,
                    bool *stock)
{
    solution->span = piece_next(reckoner)->span;
    if (piece_at_strength(reckoner)) {
        solution->strength = strength(reckoner);
        solution->span = solution->strength->span;
        *stock = piece_take_if(reckoner, T_STOCK);
        if (piece_next(reckoner)->kind == T_OF && piece_ahead(reckoner, 1)->kind == T_WORDS) {
            piece_take(reckoner);
        }
        return piece_material_if(reckoner, material, stock);
    }
    if (piece_next(reckoner)->kind == T_WORDS) {
        return piece_material_if(reckoner, &solution->named, stock);
    }
    if (piece_next(reckoner)->kind == T_NUMBER) { /* a specific gravity names a form: "from 0.880" */
        const struct sum_token *token = piece_take(reckoner);
        struct form_words *form = build_form(&reckoner->builder, NULL, token->value.number, false);
        form->span = token->span;
        solution->named = build_material(&reckoner->builder, NULL, token->span, form);
        return true;
    }
    return piece_refuse(reckoner, "a strength such as 28 %, or a form such as glacial,");
}

/* ---- what the answer is wanted in ---- */

/* "sq in" and "in" are words of the grammar before they are units. */
static struct name *inches(struct reckoner *reckoner, const struct sum_token *token)
{
    bool square = piece_is_word(token, "sq") || piece_is_word(token, "square");
    if (token->kind == T_IN || (square && piece_take_if(reckoner, T_IN))) {
        return names_find(reckoner->builder.names, square ? TEXT("sq in") : TEXT("in"));
    }
    return NULL;
}

bool piece_target(struct reckoner *reckoner, struct sum_target *target)
{
    const struct sum_token *token = piece_take(reckoner);
    target->span = token->span;
    target->unit = inches(reckoner, token);
    if (target->unit != NULL) {
        target->kind = TARGET_UNIT;
        target->span.end = reckoner->tokens[reckoner->next - 1].span.end;
        return true;
    }
    if (token->kind == T_PERCENT || (piece_is_word(token, "a") && piece_take_if(reckoner, T_PERCENT)) ||
        piece_is_word(token, "percentage") || piece_is_word(token, "a percentage")) {
        target->kind = TARGET_PERCENT;
        return true;
    }
    if (piece_is_word(token, "ratio") || piece_is_word(token, "a ratio")) {
        target->kind = TARGET_RATIO;
        return true;
    }
    if (token->kind != T_WORDS) {
        reckoner->next -= token->kind != T_NEWLINE;
        return piece_refuse(reckoner, "a unit such as g, mL or °C");
    }
    target->kind = TARGET_UNIT;
    target->unit = token->value.name;
    if (piece_take_if(reckoner, T_PER)) {
        if (piece_next(reckoner)->kind == T_WORDS) {
            const struct sum_token *unit = piece_take(reckoner);
            target->per = build_quantity(&reckoner->builder, 1, unit->value.name, unit->span);
        } else {
            target->per = piece_measure(reckoner, NULL);
        }
        return target->per != NULL;
    }
    return true;
}

bool piece_at_target_unit(const struct reckoner *reckoner)
{
    int kind = piece_next(reckoner)->kind;
    return kind == T_WORDS || kind == T_PERCENT || kind == T_IN;
}
