/* Files and outputs of programs as one piece of memory, for tests. */
#ifndef POTASH_TESTS_SUPPORT_WHOLE_FILE_H
#define POTASH_TESTS_SUPPORT_WHOLE_FILE_H

#include <stddef.h>

/* All bytes of a file with a NUL behind them; the caller frees them.  NULL when it cannot be read. */
char *whole_file_read(const char *path, size_t *length);

/* Puts bytes in the place of a file; 0 when that went well. */
int whole_file_write(const char *path, const char *bytes, size_t length);

/* What a shell command prints to its standard output; the caller frees it.  *status gets its exit status.  NULL when it cannot
 * be run. */
char *whole_output(const char *command, size_t *length, int *status);

/* The program under test: what POTASH names, or build/potash. */
const char *program_under_test(void);

#endif
