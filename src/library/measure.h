/* Measures: what a number and its unit come to.  One function reads them, for the lines of formulas, rules, shelves and batches, for
 * bench sums, and for the options of a call.  It is pure: what is wrong comes back as a value, and the caller puts it in words. */
#ifndef POTASH_LIBRARY_MEASURE_H
#define POTASH_LIBRARY_MEASURE_H

#include "library/library.h"

enum measure_fault {
    MEASURE_GOOD,
    MEASURE_NO_UNIT,        /* nothing stands behind the number */
    MEASURE_UNKNOWN_UNIT,   /* no unit has that name */
    MEASURE_UNCLEAR_UNIT,   /* the name stands for more than one unit */
    MEASURE_UNIT_OF_TWO,    /* US and imperial measure differ, and neither is stated */
    MEASURE_MIXED,          /* a sum of things that cannot be added up */
    MEASURE_REFUSED         /* for the reader's own reasons; measure_read never says so */
};

struct measure {
    enum measure_fault fault : 8;
    enum dimension dimension : 8;
    enum dimension other : 8;      /* MEASURE_MIXED: of the number that does not go with the first */
    bool approximate;
    struct span unit_span;         /* of the first number's unit, without what is left over; quantity_number_span has the number's */
    double low;                    /* base units of the dimension */
    double high;                   /* low when it is no range */
    const struct unit *unit;       /* of the first number, as it applied: fl oz for the oz of a liquid */
    struct name *leftover;         /* words behind the unit that are no part of it, or NULL */
    const struct quantity *at;     /* the number that the fault is about */
    const struct quantity *second; /* the first of the numbers that say the same once more ("45 grains 3 g"), or NULL */
};

/* Reads what measure_read below leaves: sums, ranges, units that do not mean one thing to everybody, faults. */
struct measure measure_read_any(struct library *library, const struct quantity *quantity, enum measures measures, bool liquid);

/* Reads an amount of something that is liquid or not, in a formula with these measures. */
static inline struct measure measure_read(struct library *library, const struct quantity *quantity, enum measures measures, bool liquid)
{
    /* One number in a unit that means one thing to everybody, as nearly all are. */
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(library, quantity->unit);
    if (unit == NULL || quantity->more != NULL || quantity->high != NULL || !library_unit_is_plain(unit)) {
        return measure_read_any(library, quantity, measures, liquid);
    }
    double value = (quantity->value - unit->zero_at) * unit->factor + 0.0; /* which leaves no minus before a zero */
    return (struct measure){.dimension = unit->dimension,
                            .low = value,
                            .high = value,
                            .approximate = unit->approximate,
                            .unit = unit,
                            .unit_span = quantity->unit_span};
}

/* The same where it must be of one dimension and but one number; NAN where it is not. */
double measure_read_only(struct library *library, const struct quantity *quantity, enum dimension dimension);

/* The months in a time that was read, such as 14 in "1 year 2 months 3 days": what is written in units of whole mean months. */
double measure_months(struct library *library, const struct quantity *quantity);

/* A difference of temperature in °C: 10 °F are 5.6 °C here, whatever they are counted from.  NAN where it is none, or not above zero. */
double measure_read_degrees(struct library *library, const struct quantity *quantity);

/* The area of one sheet of that size, cm2; one without a unit is in inches (common practice, no source). */
double measure_sheet_area(struct library *library, const struct sheet_size *size);

/* The unit at the start of a run of words, as in "g anhydrous"; what stands behind it goes to *leftover.  NULL when there is none. */
const struct unit *measure_find_unit(struct library *library, struct name *words, struct name **leftover);

/* ---- measures outside of any file ---- */

/* What may be given. */
struct measure_wanted {
    unsigned dimensions;           /* DIMENSION_BIT of each that will do; that of DIMENSION_NONE: a number without a unit */
    double least;                  /* in base units; both bounds are allowed themselves … */
    double most;
    bool above_least;              /* … but not the least: more than zero */
    bool whole;                    /* no fraction */
    bool percent;                  /* "2 %" and "2" alike; the value is 2 */
    bool liquid;                   /* what a unit means that has one meaning for liquids and another for solids */
    enum measures measures;        /* whose pints and ounces they are, where the text does not say */
    const char *example;           /* "2 L": how it is written */
};

/* What was given: `reason` says in words why it will not do, without naming the option, as in "it is negative; write it as 2 L".
 * NULL: it will do, and `value` is in base units of `dimension`. */
struct measure_given {
    double value;
    enum dimension dimension;
    const struct unit *unit;       /* NULL: a number alone */
    const char *reason;            /* in the library's arena */
};

/* Reads the text of an option: "2 L", "0.1 g", "30 days", "2%", "22 °C", "20 imperial fl oz", "4.80".  One number or a sum ("1 pint 4
 * fl oz"), and nothing else; no exponent, no hexadecimal digits, no range. */
struct measure_given measure_read_text(struct library *library, const char *text, const struct measure_wanted *wanted);

/* Reads two numbers with one unit, "99.1x67.7 mm", into base units of the one dimension that is wanted; a unit need not be given, and
 * is then the base unit.  NULL, or the reason as above. */
const char *measure_read_pair(struct library *library, const char *text, const struct measure_wanted *wanted, double *first,
                              double *second);

/* The number with its unit, and the size of sheets where one follows; NULL where the text is anything else. */
const struct quantity *measure_parse(struct library *library, const char *text);

#endif
