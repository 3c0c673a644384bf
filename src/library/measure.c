/* From a number and its unit to base units. */
#include "library/measure.h"

#include "base/calendar.h"

const struct unit *measure_find_unit(struct library *library, struct name *words, struct name **leftover)
{
    const struct unit *unit = library_unit(library, words);
    *leftover = NULL;
    if (unit != NULL) {
        return unit;
    }
    struct text run = words->spelling;
    enum { LONGEST_UNIT = 60 }; /* bytes; longer runs of words start with a unit, if at all */
    for (size_t i = run.length < LONGEST_UNIT ? run.length : LONGEST_UNIT; i-- > 1;) {
        if (run.at[i] == ' ' || run.at[i] == '\t') {
            struct text first = text_trim((struct text){run.at, i});
            unit = library_unit(library, names_find(library->names, first));
            if (unit != NULL) {
                *leftover = names_find(library->names, text_trim((struct text){run.at + i, run.length - i}));
                return unit;
            }
        }
    }
    return NULL;
}

/* What all numbers of an amount are read by. */
struct reader {
    struct library *library;
    enum measures measures;
    bool liquid;
};

static struct measure fault_at(enum measure_fault fault, const struct quantity *quantity)
{
    return (struct measure){.fault = fault, .at = quantity, .unit_span = quantity->unit_span};
}

/* One number with its unit, whatever is added to it. */
static struct measure read_one(const struct reader *reader, const struct quantity *quantity)
{
    if (quantity->unit == NULL) {
        return fault_at(MEASURE_NO_UNIT, quantity);
    }
    struct name *leftover;
    const struct unit *unit = measure_find_unit(reader->library, quantity->unit, &leftover);
    if (unit == NULL) {
        return fault_at(MEASURE_UNKNOWN_UNIT, quantity);
    }
    struct unit_reading reading = library_read_unit(unit, reader->measures, reader->liquid);
    struct measure measure = fault_at(reading.answer == UNIT_UNCLEAR          ? MEASURE_UNCLEAR_UNIT
                                      : reading.answer == UNIT_NEEDS_MEASURES ? MEASURE_UNIT_OF_TWO
                                                                              : MEASURE_GOOD,
                                      quantity);
    measure.dimension = reading.dimension;
    measure.low = measure.high = (quantity->value - reading.zero_at) * reading.factor + 0.0; /* which leaves no minus before a zero */
    measure.approximate = reading.approximate;
    measure.unit = reading.unit;
    measure.leftover = leftover;
    if (leftover != NULL) { /* a view into the words of the unit, or into the same words elsewhere */
        size_t behind = leftover->spelling.length;
        struct text before = text_trim((struct text){quantity->unit->spelling.at, quantity->unit->spelling.length - behind});
        measure.unit_span.end = measure.unit_span.begin + (uint32_t)before.length;
    }
    return measure;
}

/* Whether the words behind a unit only lead on to another reading: "20 ozs. or 1000 c.c." */
static bool leads_on(const struct name *leftover)
{
    return leftover != NULL && text_is(leftover->spelling, "or");
}

/* Whether both are masses, or both volumes, and one is metric and the other is not. */
static bool are_of_two_systems(const struct measure *first, const struct measure *second)
{
    bool measured = first->dimension == DIMENSION_MASS || first->dimension == DIMENSION_VOLUME;
    return measured && first->dimension == second->dimension && !first->approximate && !second->approximate &&
           first->unit->metric != second->unit->metric;
}

/* A sum goes down from unit to unit: "1 oz 60 grains", and neither "2 g 4 g" nor "60 grains 1 oz". */
static bool goes_down(const struct reader *reader, const struct measure *from, const struct measure *to)
{
    if (from->dimension != to->dimension || from->dimension == DIMENSION_TEMPERATURE) {
        return true;
    }
    double larger = library_read_unit(from->unit, reader->measures, reader->liquid).factor;
    return library_read_unit(to->unit, reader->measures, reader->liquid).factor < larger;
}

/* Adds up the numbers of one reading.  Grains and then grams on one line are no sum, and no more are 2 g and 4 g: they are two columns
 * of a page, or two readings of one amount, and the second is left for another call. */
static struct measure read_sum(const struct reader *reader, const struct quantity *quantity)
{
    struct measure sum = read_one(reader, quantity);
    struct measure above = sum;
    for (const struct quantity *at = quantity->more; at != NULL && sum.fault == MEASURE_GOOD; at = at->more) {
        struct measure one = read_one(reader, at);
        bool led = leads_on(sum.leftover);
        if (led || (one.unit != NULL && (are_of_two_systems(&sum, &one) || !goes_down(reader, &above, &one)))) {
            sum.second = at;
            break;
        }
        if (one.fault != MEASURE_GOOD) {
            return one;
        }
        if (one.dimension != sum.dimension) {
            sum.fault = MEASURE_MIXED;
            sum.other = one.dimension;
            sum.at = quantity;
            return sum;
        }
        sum.low += one.low;
        sum.approximate = sum.approximate || one.approximate;
        sum.leftover = one.leftover != NULL ? one.leftover : sum.leftover;
        above = one;
    }
    sum.high = sum.low;
    sum.leftover = leads_on(sum.leftover) ? NULL : sum.leftover;
    return sum;
}

struct measure measure_read_any(struct library *library, const struct quantity *quantity, enum measures measures, bool liquid)
{
    struct reader reader = {library, measures, liquid};
    struct measure low = read_sum(&reader, quantity);
    if (low.fault != MEASURE_GOOD || quantity->high == NULL) {
        return low;
    }
    struct measure high = read_sum(&reader, quantity->high);
    if (high.fault != MEASURE_GOOD) {
        return high;
    }
    if (high.dimension != low.dimension) {
        low.fault = MEASURE_MIXED;
        low.other = high.dimension;
        low.at = quantity->high;
    }
    low.high = high.low;
    low.approximate = low.approximate || high.approximate;
    low.leftover = high.leftover != NULL ? high.leftover : low.leftover;
    return low;
}

double measure_read_only(struct library *library, const struct quantity *quantity, enum dimension dimension)
{
    if (quantity->more != NULL || quantity->high != NULL) {
        return NAN;
    }
    struct measure measure = measure_read(library, quantity, MEASURES_UNSTATED, dimension == DIMENSION_VOLUME);
    return measure.fault == MEASURE_GOOD && measure.leftover == NULL && measure.dimension == dimension ? measure.low : NAN;
}

double measure_months(struct library *library, const struct quantity *quantity)
{
    double months = 0;
    for (; quantity != NULL; quantity = quantity->more) {
        const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(library, quantity->unit);
        double of_unit = unit == NULL || unit->dimension != DIMENSION_TIME ? 0 : unit->factor / CALENDAR_MEAN_MONTH;
        months += of_unit >= 1 && fabs(of_unit - round(of_unit)) < 1e-9 ? quantity->value * round(of_unit) : 0;
    }
    return months;
}

double measure_read_degrees(struct library *library, const struct quantity *quantity)
{
    double warmth = measure_read_only(library, quantity, DIMENSION_TEMPERATURE);
    return isnan(warmth) || !(quantity->value > 0) ? NAN : quantity->value * library_unit(library, quantity->unit)->factor;
}

double measure_sheet_area(struct library *library, const struct sheet_size *size)
{
    const struct unit *length = library_unit(library, size->unit != NULL ? size->unit : names_find(library->names, TEXT("in")));
    if (length == NULL || length->dimension != DIMENSION_LENGTH) {
        return NAN;
    }
    const double square_mm = 100; /* in a cm2 */
    return size->width * length->factor * size->height * length->factor / square_mm;
}
