/* The registry of diagnostics: each entry's example gives its id, and the same repaired does not. */
#include "support/compiling.h"
#include "support/program.h"

#include "source/diagnostics.h"

#include <stdio.h>
#include <string.h>

/* The ids of the contract, sections 7 and 8. */
static const char *const errors[] = {
    "syntax",        "text-encoding",    "ratio-with-colon", "decimal-comma",  "unit-unknown", "unit-ambiguous",
    "unit-mismatch", "material-unknown", "form-unknown",     "water-missing",  "over-volume",  "makes-disagrees",
    "part-unknown",  "stock-unknown",    "formula-unknown",  "declared-twice", "reads-itself", "amount-out-of-range", "file-missing", "file-refused", "merge-conflict"};
static const char *const warnings[] = {
    "form-unstated",      "final-volume-assumed", "amount-unusual",      "order",        "role-missing",
    "added-twice",        "stock-too-strong",     "temperature-unusual", "part-unused",  "look-alike",
    "too-small-to-weigh", "drop-approximate",     "hazard-combination",  "not-on-shelf", "range-given"};
/* Warnings that came later. */
static const char *const later[] = {"form-unusual", "grave-danger", "bath-spoils", "keeps-too-long", "hidden-sign", "after-the-mark"};

#define COUNT(array) (sizeof(array) / sizeof *(array))

static void the_contract_and_the_registry_agree(void **state)
{
    (void)state;
    assert_int_equal(DIAGNOSTIC_IDS, COUNT(errors) + COUNT(warnings) + COUNT(later));
    for (size_t i = 0; i < COUNT(errors) + COUNT(warnings); i++) {
        bool error = i < COUNT(errors);
        const char *name = error ? errors[i] : warnings[i - COUNT(errors)];
        struct text view = {name, strlen(name)};
        enum diagnostic_id id = diagnostic_find(view);
        if (id == DIAGNOSTIC_IDS) {
            fail_msg("%s is not in the registry", name);
        }
        assert_int_equal(diagnostic_registry[id].severity, error ? SEVERITY_ERROR : SEVERITY_WARNING);
    }
}

static void entries_are_filled_in(void **state)
{
    (void)state;
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const struct diagnostic_entry *entry = &diagnostic_registry[id];
        assert_true(strlen(entry->summary) > 10);
        assert_null(strchr(entry->summary, '\n'));
        assert_true(strlen(entry->why) > 100);
        assert_true(strcmp(entry->wrong, entry->right) != 0);
        assert_int_equal(entry->right[strlen(entry->right) - 1], '\n');
    }
}

static void print_examples(const struct compiled *compiled)
{
    struct potash_output output;
    if (compiled->status == POTASH_UNUSABLE) {
        print_error("unusable: %s\n", potash_message(compiled->potash));
    } else if (potash_diagnostics(compiled->potash, POTASH_TEXT, false, &output) == POTASH_GOOD) {
        print_error("%.*s\n", (int)output.length, output.bytes);
    }
}

/* An example as a file; the one that reads itself says under which name it is saved. */
static struct compiled compile_example(const char *id, const char *example)
{
    if (strcmp(id, "reads-itself") != 0) {
        return compile(example);
    }
    const char *path = scratch_text("house.bath", example);
    struct compiled compiled = {.potash = potash_open(NULL), .text = example};
    assert_non_null(compiled.potash);
    compiled.status = potash_read(compiled.potash, path);
    if (compiled.status == POTASH_GOOD) {
        compiled.status = potash_check(compiled.potash);
    }
    struct potash_output output;
    if (compiled.status != POTASH_UNUSABLE &&
        potash_diagnostics(compiled.potash, POTASH_JSON, false, &output) == POTASH_GOOD) {
        json_t *root = json_loadb(output.bytes, output.length, 0, NULL);
        compiled.diagnostics = json_incref(json_object_get(root, "diagnostics"));
        json_decref(root);
    }
    scratch_remove();
    return compiled;
}

static void wrong_examples_give_their_id(void **state)
{
    (void)state;
    int faults = 0;
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const struct diagnostic_entry *entry = &diagnostic_registry[id];
        struct compiled compiled = compile_example(entry->name, entry->wrong);
        bool given = compiled.status != POTASH_UNUSABLE && compiled_count(&compiled, entry->name) > 0;
        if (!given) {
            print_error("%s: its example does not give it\n", entry->name);
            print_examples(&compiled);
            faults++;
        }
        /* One mistake gives one diagnostic: the example holds no other. */
        if (given && compiled_count(&compiled, NULL) != 1) {
            print_error("%s: its example gives %zu diagnostics\n", entry->name, compiled_count(&compiled, NULL));
            print_examples(&compiled);
            faults++;
        }
        compiled_free(&compiled);
    }
    assert_int_equal(faults, 0);
}

static void right_examples_are_clean(void **state)
{
    (void)state;
    int faults = 0;
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const struct diagnostic_entry *entry = &diagnostic_registry[id];
        struct compiled compiled = compile_example(entry->name, entry->right);
        if (compiled.status != POTASH_GOOD || compiled_count(&compiled, NULL) != 0) {
            print_error("%s: its repaired example is not clean\n", entry->name);
            print_examples(&compiled);
            faults++;
        }
        compiled_free(&compiled);
    }
    assert_int_equal(faults, 0);
}

static void why_explains_every_id(void **state)
{
    (void)state;
    struct potash *potash = potash_open(NULL);
    assert_non_null(potash);
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        const char *name = diagnostic_registry[id].name;
        struct potash_output output;
        assert_int_equal(potash_why(potash, name, POTASH_TEXT, &output), POTASH_GOOD);
        assert_non_null(strstr(output.bytes, name));
        assert_non_null(strstr(output.bytes, diagnostic_registry[id].summary));
        assert_int_equal(potash_why(potash, name, POTASH_JSON, &output), POTASH_GOOD);
        json_t *root = json_loadb(output.bytes, output.length, 0, NULL);
        assert_non_null(root);
        assert_string_equal(json_text_of(json_array_get(json_object_get(root, "diagnostics"), 0), "id"), name);
        json_decref(root);
    }
    potash_close(potash);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_contract_and_the_registry_agree),
        cmocka_unit_test(entries_are_filled_in),
        cmocka_unit_test(wrong_examples_give_their_id),
        cmocka_unit_test(right_examples_are_clean),
        cmocka_unit_test(why_explains_every_id),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
