/* Files of the repository that are made by a test: compared, or written anew when POTASH_ACCEPT is set. */
#ifndef POTASH_TESTS_ACCEPTED_H
#define POTASH_TESTS_ACCEPTED_H

#include <stddef.h>

/* Fails unless the file holds these bytes; with POTASH_ACCEPT=1 it is written instead. */
void assert_accepted(const char *path, const char *bytes, size_t length);

/* The file with `text` between the line that holds `opening` and the one that holds `closing`, for a part of a page that is made; to
 * be freed.  Fails the test where the lines are not there. */
char *file_with_part(const char *path, const char *opening, const char *closing, const char *text);

#endif
