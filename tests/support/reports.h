/* Reports of a text in memory. */
#ifndef POTASH_TESTS_REPORTS_H
#define POTASH_TESTS_REPORTS_H

#include "compiling.h"

/* A report of the public face. */
typedef enum potash_status report_of(struct potash *potash, enum potash_format format, struct potash_output *output);

/* The JSON that a report makes of a text; fails the test when it makes none.  The caller drops it. */
json_t *report_json_of(report_of *report, const struct potash_options *options, const char *text);

/* The text of a report in any format; the caller frees it. */
char *report_text_of(report_of *report, const struct potash_options *options, const char *text, enum potash_format format);

/* The first object in an array whose member `key` is that text; fails the test when there is none. */
const json_t *json_with(const json_t *array, const char *key, const char *value);

#endif
