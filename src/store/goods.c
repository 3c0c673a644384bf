/* Counted goods. */
#include "store/goods.h"

enum { LEAST_SHEET = 1, MOST_SHEET = 100000 /* cm2: a stamp, and more than any roll of paper is cut to */ };

bool goods_read(struct checker *checker, const struct quantity *quantity, const char *example, struct goods *goods)
{
    *goods = (struct goods){.area = NAN};
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(checker->library, quantity->unit);
    if (quantity->unit != NULL && unit == NULL) {
        check_quantity(checker, quantity, false); /* it says which unit may be meant */
        return false;
    }
    bool counted = unit != NULL && (unit->dimension == DIMENSION_COUNT || unit->dimension == DIMENSION_AREA);
    if (!counted || quantity->more != NULL || quantity->high != NULL) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_UNIT_MISMATCH, quantity->span, "a count of rolls or of sheets is expected here");
        diagnostics_help(checker->diagnostics, diagnostic, "write it as in: %s", example);
        return false;
    }
    if (unit->dimension == DIMENSION_COUNT && quantity->size == NULL) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, quantity->span, "%.*s of what size?",
                                                  TEXT_ARGUMENTS(quantity->unit->spelling));
        struct span end = {quantity->span.end, quantity->span.end};
        diagnostics_help(checker->diagnostics, diagnostic, "write the size behind, as in: 10 sheets 8x10 in");
        diagnostics_fix_writing(checker->diagnostics, diagnostic, end, " 8x10 in");
        diagnostics_fix_writing(checker->diagnostics, diagnostic, end, " 5x7 in");
        diagnostics_fix_writing(checker->diagnostics, diagnostic, end, " 4x5 in");
        return false;
    }
    if (!(quantity->value > 0) || quantity->value > 1e6) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span,
                                   "a count must be more than nothing, and within reason"),
                         "write how many, as in: 2 rolls, or 40 sheets 8x10 in");
        return false;
    }
    double area = quantity->size != NULL ? measure_sheet_area(checker->library, quantity->size) : unit->factor;
    if (quantity->size != NULL && !(area >= LEAST_SHEET && area <= MOST_SHEET)) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, quantity->span, "no sheet has that size"),
                         "write its width and height, as in: 10 sheets 8x10 in");
        return false;
    }
    goods->count = quantity->value;
    goods->unit = quantity->unit;
    goods->size = quantity->size;
    goods->area = area;
    return true;
}

struct goods goods_of_capacity(const struct use *use)
{
    bool none = isnan(use->capacity);
    return (struct goods){none ? 0 : use->capacity, use->capacity_of, use->capacity_size, use->capacity_area};
}

struct goods goods_of_needs(const struct use *use)
{
    return (struct goods){isnan(use->needs) ? 0 : 1, use->needs_per, NULL, use->needs_area};
}

bool goods_alike(const struct goods *a, const struct goods *b)
{
    return a->unit != NULL && b->unit != NULL && (a->size != NULL) == (b->size != NULL);
}

double goods_in(const struct goods *from, const struct goods *to)
{
    if (from->unit == NULL || to->unit == NULL) {
        return NAN;
    }
    if (from->area > 0 && to->area > 0) {
        return from->count * from->area / to->area;
    }
    return from->unit == to->unit ? from->count : NAN;
}
