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

/* The additions of a part, in mixing order. */
void sheet_part(const struct sheet *sheet, const struct part *part);

/* Working solutions, one use after the other. */
void sheet_uses(const struct sheet *sheet);

/* What to take care of: the materials' cautions, gloves, dust. */
void sheet_care(const struct sheet *sheet);

#endif
