/* Square codes for cameras: QR codes (ISO/IEC 18004), by libqrencode.
 *
 * The library is loaded when the first code is asked for. */
#ifndef POTASH_PAGE_SQUARE_CODE_H
#define POTASH_PAGE_SQUARE_CODE_H

#include "base/arena.h"
#include "base/text.h"

#define SQUARE_CODE_QUIET 4 /* modules of white that the standard wants around it */

struct square_code {
    size_t width;              /* in modules, without the quiet zone */
    const unsigned char *dark; /* width x width, row by row; not 0: dark */
};

/* A code for `content` that can be read with 15 % of it stained (level M of the standard); NULL where the
 * library is missing or the text is longer than a code can hold. */
const struct square_code *square_code_make(struct arena *arena, struct text content);

#endif
