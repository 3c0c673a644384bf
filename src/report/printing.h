/* How amounts are printed: rounded once, to what the scale or the graduate can show. */
#ifndef POTASH_REPORT_PRINTING_H
#define POTASH_REPORT_PRINTING_H

#include "page/page.h"
#include "report/report.h"

/* From here on, g, a weight is given in kg. */
enum { PRINT_HEAVY = 10000 };

/* "30 g", "1.25 kg"; below the scale's step with two figures, so that nothing becomes zero. */
struct text print_mass(const struct report_context *context, struct page *page, double grams);

/* "750 mL", "1.2 L". */
struct text print_volume(const struct report_context *context, struct page *page, double millilitres);

/* A volume of a mixture whose finest share is measured in steps of `step` mL: rounded so, the shares add up to the whole. */
struct text print_share(struct page *page, double millilitres, double step);

/* What is printed for a relative standard uncertainty: sqrt 3 of it, which for one reading is its bounds, half a step of the
 * scale or the graduate (JCGM 100:2008, 4.3.7 and 6.2). */
double print_reading_bound(double standard);

/* A figure of the batch, printed (page/figure.h): `number` is that of the formula as written, `scale` times as much
 * is printed.  `high` is the upper end of a range, or 0. */
struct page_words print_figure(const struct report_context *context, struct page *page, enum page_figure_way way, double number,
                         double high, double scale);

/* A sum of weights as they are printed; start with {0}, so that whoever adds up the lines of a page gets what stands below them. */
struct print_sum {
    double low, high; /* g */
    int decimals;     /* as many as the finest of them */
    struct page_words words;
};

/* A weight of the formula as written, g; `high` is the upper end of a range, or 0. */
void print_sum_add(const struct report_context *context, struct page *page, struct print_sum *sum, double number, double high, double scale);
struct page_words print_sum(struct page *page, struct print_sum *sum);

/* What was written, without the leader dots of print. */
struct text print_written(struct page *page, struct text written);

/* "20 °C" to half a degree; "18 to 22 °C" for a range.  Fahrenheit is left to the reader. */
struct text print_temperature(struct page *page, double low, double high);

/* "90 s", "9 min", "6 months": in the largest unit that leaves no odd fraction. */
struct text print_time(struct page *page, double seconds);
struct text print_time_range(struct page *page, double low, double high);

/* A reckoned time as a clock is read: "7 min 55 s", to 5 s from two minutes on. */
struct text print_minutes(struct page *page, double seconds);

/* "6 months in full bottle". */
struct text print_keeping(struct page *page, const struct keeping *keeping);

/* "1+29". */
struct text print_ratio(struct page *page, double stock, double water);

/* What a time holds for, behind what `out` has: "speed 200, contrast 0.62, diluted 1+49"; the dilution only where it is asked for. */
void print_conditions(struct page *page, const struct time_row *row, bool dilution, struct buffer *out);

/* "7 min at 24 °C, speed 200, diluted 1+49". */
struct text print_time_row(struct page *page, const struct time_row *row);

/* "sodium sulfite (anhydrous)". */
struct text print_material(struct page *page, const struct material *material, const struct form *form);

/* The line at the foot of every page that is worked from. */
void report_caution(struct page *page);

#endif
