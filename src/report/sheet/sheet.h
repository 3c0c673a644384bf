/* The pieces of the mixing sheet, for its own files. */
#ifndef POTASH_REPORT_SHEET_SHEET_H
#define POTASH_REPORT_SHEET_SHEET_H

#include "chemistry/solubility.h"
#include "chemistry/time_table.h"
#include "report/printing.h"

/* Share of the water that one starts with where a formula lists it last (common practice, no source). */
#define SHEET_FIRST_WATER 0.75

struct sheet {
    const struct report_context *context;
    const struct batch *batch;
    const struct formula *formula; /* as it is written, in the forms that will be taken */
    struct page *page;
    double scale;
    bool other_units;   /* something is written in units that the sheet does not print: it shows both */
};

/* So near to 1 that the batch is the formula as written. */
#define SHEET_AS_WRITTEN 1e-9

/* A figure of the batch, from that of the formula as written: see print_figure. */
struct page_words sheet_figure(const struct sheet *sheet, enum page_figure_way way, double number);
struct page_words sheet_mass(const struct sheet *sheet, double grams);
struct page_words sheet_volume(const struct sheet *sheet, double millilitres);

/* The head of the page: what it is for, the batch and its size. */
void sheet_head(const struct sheet *sheet);

/* For the member other_units. */
bool sheet_in_other_units(const struct sheet *sheet);

/* The additions of a part, in mixing order. */
void sheet_part(const struct sheet *sheet, const struct batch_part *part);

/* Working solutions, one use after the other. */
void sheet_uses(const struct sheet *sheet);

/* The table of a use's times, with what was tried; the baths of its parts in their order. */
void sheet_times(const struct sheet *sheet, const struct use *use);
/* The time for the temperature, speed and contrast that are asked for; without any, for temperatures nearby. */
void sheet_other_times(const struct sheet *sheet, const struct use *use, struct page_facts *facts);

/* What to take care of: the materials' cautions, gloves, dust. */
void sheet_care(const struct sheet *sheet);

/* At the head of a sheet whose forms are the shelf's: that the shelf was asked for one size, on the other sizes. */
void sheet_note_shelf(const struct sheet *sheet);

/* Beside an addition: what is written, where the shelf has another form or less than is wanted (sheet_shelf.c). */
struct text sheet_lots(const struct sheet *sheet, const struct batch_step *step); /* of the packs that it is taken from; may be empty */
void sheet_note_taking(const struct sheet *sheet, struct page_row *row, const struct batch_step *step);

/* ---- sheet_warnings.c ---- */

/* What is warned of on lines that are no additions: of the bath as a whole at the head, of a use below its conditions.
 */
void sheet_warn_of_bath(const struct sheet *sheet);
void sheet_warn_of_use(const struct sheet *sheet, const struct use *use);

/* ---- sheet_bench.c: what the chemistry says beside the rows ---- */

/* Per cent of the stock that a little less than `grams` of an addition is better taken from than weighed, 0 for none; returns down
 * to which weight, g, that holds. */
double sheet_stock_range(const struct sheet *sheet, const struct step *step, double grams, double *percent);

/* For an addition that cannot be weighed well: "; take 12 mL of a 1 % solution …", empty for 0 %. */
struct page_words sheet_stock_advice(const struct sheet *sheet, const struct step *step, double percent);

/* The sum of what was weighed, with its error. */
void sheet_add_total(const struct sheet *sheet, struct page_table *table, const struct page_column *name,
                     const struct page_column *amount, const struct page_column *error, const struct batch_part *part);

/* How the additions of a part meet the water, and what to say of one that does not dissolve. */
struct dissolving *sheet_dissolving(const struct sheet *sheet, const struct part *part);
void sheet_note_dissolving(const struct sheet *sheet, struct page_row *row, const struct dissolving *list,
                           const struct step *step);

/* What crystallises first when the finished part cools. */
void sheet_add_coming_out(const struct sheet *sheet, struct page_facts *facts, const struct part *part);

/* What the pH of each part and working solution will be about. */
void sheet_add_estimates(const struct sheet *sheet, struct page_facts *facts);

#endif
