/* Compiling a text in memory, and asking what came of it. */
#ifndef POTASH_TESTS_COMPILING_H
#define POTASH_TESTS_COMPILING_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "potash.h"

#include <jansson.h>

/* A session over one text, checked. */
struct compiled {
    struct potash *potash;
    enum potash_status status; /* of potash_check, or of what failed before it */
    json_t *diagnostics;       /* the array of `check --as json`; NULL when the session is unusable */
    json_t *shown;             /* `show --as json`, made when first asked for; NULL when it cannot be shown */
    const char *text;          /* for messages of failing tests */
};

/* Compiles `text` as a file called "test.bath". */
struct compiled compile(const char *text);
struct compiled compile_with(const struct potash_options *options, const char *text, size_t length);
void compiled_free(struct compiled *compiled);

/* How many diagnostics have that id; NULL counts all. */
size_t compiled_count(const struct compiled *compiled, const char *id);

/* The first diagnostic with that id on that line (0: on any), or NULL. */
const json_t *compiled_find(const struct compiled *compiled, const char *id, int line);

/* The checked form of the formula at `index`; fails the test when it is not there. */
const json_t *compiled_formula(struct compiled *compiled, size_t index);

/* The addition at `index` (from 0) of part `part` (from 0) of the first formula. */
const json_t *compiled_addition(struct compiled *compiled, size_t part, size_t index);

/* The use at `index` of the first formula. */
const json_t *compiled_use(struct compiled *compiled, size_t index);

/* Members of a JSON object; they fail the test when the member is of another type. */
double json_number_of(const json_t *object, const char *key);
const char *json_text_of(const json_t *object, const char *key);

/* Fails unless `got` is `wanted` within a relative 1e-9 (or the tolerance given). */
void assert_near(double got, double wanted);
void assert_within(double got, double wanted, double relative);

/* ---- whole claims about a text ---- */

/* It compiles with nothing to remark. */
void expect_clean(const char *text);

/* It gives exactly one diagnostic: that one, on that line.  `column` 0: anywhere on it. */
void expect_one(const char *text, const char *id, int line, int column);

/* It gives exactly these diagnostics in this order: "id:line id:line …". */
void expect_list(const char *text, const char *wanted);

/* The body of a developer that is clean by itself, with `lines` put in before the final volume. */
char *formula_with(const char *lines);

/* The mass in g (of the form), or the volume in mL, that the addition written on one line comes to, in a formula with
 * `measures`; NAN when the checked form gives null. */
double mass_of(const char *measures, const char *addition);
double volume_of(const char *measures, const char *addition);

#endif
