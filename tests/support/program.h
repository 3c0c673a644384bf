/* Running the program under test ($POTASH) as a person would, with a time limit. */
#ifndef POTASH_TESTS_PROGRAM_H
#define POTASH_TESTS_PROGRAM_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

struct run {
    int status;   /* exit status; 128 + the signal when it was killed; -1 when it took too long */
    char *output; /* standard output, NUL-terminated */
    size_t output_length;
    char *error; /* standard error */
    size_t error_length;
    double seconds; /* of the processor's time, whatever else the machine does */
};

/* Seconds that a run may take before it counts as a hang. */
enum { RUN_LIMIT = 60 };

/* Runs `program` with arguments up to NULL; `input` may be NULL for no standard input. */
struct run run_program(const char *program, const char *const *arguments, const char *input, size_t input_length);

/* The program under test with arguments up to NULL. */
struct run run_potash(const char *first, ...) __attribute__((sentinel));
struct run run_potash_input(const char *input, size_t length, const char *first, ...) __attribute__((sentinel));
void run_free(struct run *run);

/* Fails unless the status is that; shows what was said. */
void assert_status(const struct run *run, int status);
void assert_says(const struct run *run, const char *error);    /* somewhere on standard error */
void assert_prints(const struct run *run, const char *output); /* somewhere on standard output */

/* The path of the program under test. */
const char *program_under_test(void);

/* A fresh folder for a test, and files in it; gone with scratch_remove.  The paths live until then. */
const char *scratch_folder(void);
const char *scratch_path(const char *name);
const char *scratch_file(const char *name, const char *bytes, size_t length);
const char *scratch_text(const char *name, const char *text);
size_t scratch_count(void); /* how many entries it holds */
void scratch_remove(void);

/* A file's bytes, NUL-terminated; NULL when it cannot be read. */
char *file_bytes(const char *path, size_t *length);

#endif
