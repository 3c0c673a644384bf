/* What the tests of comparison share: two texts against each other, and what is said of them. */
#ifndef POTASH_TESTS_COMPARE_HELP_H
#define POTASH_TESTS_COMPARE_HELP_H

#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* memmem */
#endif

#include "support/compiling.h"

#include <math.h>
#include <string.h>

struct compared {
    struct potash *a;
    struct potash *b;
    enum potash_status status;
    bool same;
    json_t *json;       /* NULL unless the status is good */
    char *page;         /* the text */
};

static inline struct potash *open_text(const char *text, const char *name, const char *within)
{
    struct potash *potash = potash_open(&(struct potash_options){.within = within});
    assert_non_null(potash);
    if (potash_read_text(potash, name, text, strlen(text)) != POTASH_UNUSABLE) {
        potash_check(potash);
    }
    return potash;
}

static inline struct compared compare_within(const char *a, const char *b, const char *within)
{
    struct compared compared = {open_text(a, "a.bath", within), open_text(b, "b.bath", within), POTASH_GOOD, false, NULL, NULL};
    struct potash_output output;
    compared.status = potash_compare(compared.a, compared.b, POTASH_JSON, &output, &compared.same);
    if (compared.status == POTASH_GOOD) {
        compared.json = json_loadb(output.bytes, output.length, 0, NULL);
        assert_non_null(compared.json);
        assert_int_equal(json_is_true(json_object_get(compared.json, "same")), compared.same);
        bool same;
        assert_int_equal(potash_compare(compared.a, compared.b, POTASH_TEXT, &output, &same), POTASH_GOOD);
        assert_int_equal(same, compared.same);
        compared.page = strndup(output.bytes, output.length);
    }
    return compared;
}

static inline struct compared compare_texts(const char *a, const char *b)
{
    return compare_within(a, b, NULL);
}

static inline void compared_free(struct compared *compared)
{
    json_decref(compared->json);
    free(compared->page);
    potash_close(compared->a);
    potash_close(compared->b);
}

static inline const json_t *changes_of(const struct compared *compared)
{
    if (compared->status != POTASH_GOOD) {
        struct potash_output output = {0};
        potash_diagnostics(compared->a, POTASH_TEXT, false, &output);
        fail_msg("status %d: %s\n%.*s", (int)compared->status, potash_message(compared->a), (int)output.length, output.bytes);
    }
    return json_object_get(compared->json, "changes");
}

/* The change of that kind and material (NULL: any); NULL when there is none. */
static inline const json_t *find_change(const struct compared *compared, const char *what, const char *material)
{
    const json_t *changes = changes_of(compared);
    for (size_t i = 0; i < json_array_size(changes); i++) {
        const json_t *change = json_array_get(changes, i);
        const char *name = json_string_value(json_object_get(change, "material"));
        if (strcmp(json_string_value(json_object_get(change, "what")), what) == 0 &&
            (material == NULL || (name != NULL && strcmp(name, material) == 0))) {
            return change;
        }
    }
    return NULL;
}

/* Fails unless the two are the same and nothing at all is said of them. */
static inline void expect_same(const char *a, const char *b)
{
    struct compared compared = compare_texts(a, b);
    char *said = json_dumps(changes_of(&compared), JSON_COMPACT);
    if (!compared.same || strcmp(said, "[]") != 0) {
        fail_msg("not the same: %s", said);
    }
    free(said);
    assert_non_null(strstr(compared.page, "The two are the same."));
    compared_free(&compared);
}

/* Fails unless they are the same but for `count` remarks. */
static inline void expect_same_but(const char *a, const char *b, size_t count)
{
    struct compared compared = compare_texts(a, b);
    const json_t *changes = changes_of(&compared);
    char *said = json_dumps(changes, JSON_COMPACT);
    if (!compared.same || json_array_size(changes) != count) {
        fail_msg("expected the same and %zu remarks: %s", count, said);
    }
    free(said);
    compared_free(&compared);
}

/* A copy of `text` with the first `from` in it turned into `to`; fails when there is none. */
static inline char *with(const char *text, const char *from, const char *to)
{
    const char *at = strstr(text, from);
    if (at == NULL) {
        fail_msg("\"%s\" is not in the text", from);
        return NULL;
    }
    size_t before = (size_t)(at - text);
    size_t size = strlen(text) + strlen(to) + 1;
    char *changed = malloc(size);
    assert_non_null(changed);
    snprintf(changed, size, "%.*s%s%s", (int)before, text, to, at + strlen(from));
    return changed;
}

#endif
