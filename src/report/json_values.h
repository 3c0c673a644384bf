/* Values for the JSON of the reports: what is not known is null. */
#ifndef POTASH_REPORT_JSON_VALUES_H
#define POTASH_REPORT_JSON_VALUES_H

#include "base/json_build.h"
#include "base/text.h"

#include <math.h>

static inline json_t *text_json(struct text text)
{
    return json_stringn(text.at == NULL ? "" : text.at, text.length);
}

static inline json_t *text_or_null(struct text text)
{
    return text.length == 0 ? json_null() : text_json(text);
}

static inline json_t *number_or_null(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

#endif
