/* The pieces of the mixing sheet, for its own files. */
#ifndef POTASH_REPORT_SHEET_H
#define POTASH_REPORT_SHEET_H

#include "report/printing.h"

struct sheet {
    const struct report_context *context;
    const struct formula *formula;
    struct page *page;
    double scale;
};

/* So near to 1 that the batch is the formula as written. */
#define SHEET_AS_WRITTEN 1e-9

/* A figure of the batch, from that of the formula as written: see print_figure. */
struct text sheet_figure(const struct sheet *sheet, enum page_figure_way way, double number);
struct text sheet_mass(const struct sheet *sheet, double grams);
struct text sheet_volume(const struct sheet *sheet, double millilitres);

/* The head of the page: what it is for, the batch and its size. */
void sheet_head(const struct sheet *sheet);

/* The additions of a part, in mixing order. */
void sheet_part(const struct sheet *sheet, const struct part *part);

/* Working solutions, one use after the other. */
void sheet_uses(const struct sheet *sheet);

/* What to take care of: the materials' cautions, gloves, dust. */
void sheet_care(const struct sheet *sheet);

#endif
