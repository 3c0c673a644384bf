/* Taking the repair that a diagnostic offers. */
#ifndef POTASH_TESTS_REPAIRING_H
#define POTASH_TESTS_REPAIRING_H

#include <stddef.h>

/* The first repair of the diagnostic `id` on that line, applied to the text, which has `size` bytes.  The test fails where there is
 * none. */
void repair(char *text, size_t size, const char *id, int line);

#endif
