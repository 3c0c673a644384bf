/* Building JSON in which nothing is missing.
 *
 * jansson goes on without a word when a value could not be added: the member is simply not there.  Here the container becomes NULL
 * instead, and with it whatever it is put into (json_pack does so by itself), up to the one who asked, who says that memory ran
 * out.  A NULL container takes, and releases, whatever else is put into it. */
#ifndef POTASH_BASE_JSON_BUILD_H
#define POTASH_BASE_JSON_BUILD_H

#include <jansson.h>

/* Each takes the reference to `value`; a value of NULL is one that could not be made. */
static inline void put_member(json_t **object, const char *key, json_t *value)
{
    if (json_object_set_new(*object, key, value) != 0) {
        json_decref(*object);
        *object = NULL;
    }
}

static inline void put_item(json_t **array, json_t *value)
{
    if (json_array_append_new(*array, value) != 0) {
        json_decref(*array);
        *array = NULL;
    }
}

#endif
