/* What Cairo 1.16 writes and should not, mended in the document that it wrote. */
#ifndef POTASH_PAGE_PAGE_PDF_MEND_H
#define POTASH_PAGE_PAGE_PDF_MEND_H

#include <stddef.h>

/* Cairo 1.16 numbers an object for every sheet with links and never writes it, so that the table of cross references
 * (ISO 32000-1, 7.5.4) points to where no object begins.  Such entries are marked as free; nothing refers to them.  Bytes of
 * another shape are left alone. */
void pdf_mend_references(unsigned char *bytes, size_t length);

/* A document that is given no date would get the clock's from Cairo, so it is given one.  Its entry is overwritten by blanks, which the properties of a
 * document may hold anywhere (ISO 32000-1, 7.2.2). */
void pdf_mend_date(unsigned char *bytes, size_t length);

#endif
