/* The hazard classes of substances against Annex VI, and every class, group, statement and piece of advice against what it
 * refers to. */
#include "support/library_help.h"

#include "base/number.h"
#include "chemistry/hazard.h"
#include "library/relation.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS = 7, LINE = 1000 };

static void add_entry(struct buffer *list, struct text hazard, struct text code, const char *limits)
{
    buffer_format(list, "%s%.*s%s%.*s%s", list->length == 0 ? "" : "; ", TEXT_ARGUMENTS(hazard), hazard.length > 0 ? " " : "",
                  TEXT_ARGUMENTS(code), limits);
}

/* "Acute Tox. 4 H302; EUH031" of the library, in the order of the file; what is there by likeness, or from memory, is left out where
 * only the Regulation's is asked for. */
static const char *library_classes(const struct hazard_data *data, bool of_regulation)
{
    struct buffer list;
    buffer_start(&list, &arena);
    buffer_string(&list, "");
    for (size_t i = 0; i < data->entry_count; i++) {
        if (of_regulation && data->entries[i].basis != BASIS_REGULATION) {
            continue;
        }
        add_entry(&list, text_from(data->entries[i].class->hazard), data->entries[i].code, "");
    }
    return buffer_finish(&list);
}

static const char *library_limits(const struct hazard_data *data)
{
    struct buffer list;
    buffer_start(&list, &arena);
    buffer_string(&list, "");
    for (size_t i = 0; i < data->limit_count; i++) {
        const struct hazard_limit *limit = &data->limits[i];
        struct buffer bounds;
        buffer_start(&bounds, &arena);
        buffer_string(&bounds, "");
        if (limit->from > 0) {
            buffer_format(&bounds, " from %s", number_print(&arena, limit->from, 4));
        }
        if (isfinite(limit->to)) {
            buffer_format(&bounds, " to %s", number_print(&arena, limit->to, 4));
        }
        add_entry(&list, text_from(limit->class->hazard), limit->code, buffer_finish(&bounds));
    }
    return buffer_finish(&list);
}

/* Whether every piece of `wanted` ("a; b") is one of `got`; what is missing is printed. */
static bool holds_all(const char *material, const char *what, const char *wanted, const char *got)
{
    bool good = true;
    const char *fence = arena_format(&arena, "; %s; ", got);
    for (const char *at = wanted; strcmp(wanted, "-") != 0 && *at != '\0';) {
        size_t length = strcspn(at, ";");
        const char *piece = arena_format(&arena, "; %.*s; ", (int)length, at);
        if (strstr(fence, piece) == NULL) {
            print_error("%s: %s \"%.*s\" of Annex VI is not among \"%s\"\n", material, what, (int)length, at, got);
            good = false;
        }
        at += length + (at[length] == ';') + (at[length] == ';' && at[length + 1] == ' ');
    }
    return good;
}

/* Where the entry has none ("-"), a published toxicity or 1 is taken, which test_completeness.c asks for. */
static bool m_factor_is(const char *material, const char *wanted, double got)
{
    bool good = strcmp(wanted, "-") == 0 || atof(wanted) == got;
    if (!good) {
        print_error("%s: M factor %g instead of %s\n", material, got, wanted);
    }
    return good;
}

static bool row_holds(char *line)
{
    char *columns[COLUMNS];
    size_t count = 0;
    for (char *at = strtok(line, "\t\n"); at != NULL && count < COLUMNS; at = strtok(NULL, "\t\n")) {
        columns[count++] = at;
    }
    assert_int_equal(count, COLUMNS);
    const struct material *material = material_called(columns[0]);
    const struct hazard_data *data = hazard_data_of(&arena, &library, material);
    bool has_cas = false;
    for (size_t i = 0; i < material->form_count; i++) {
        has_cas = has_cas || text_is(material->forms[i].cas, columns[1]);
    }
    assert_true(has_cas);
    bool good = holds_all(columns[0], "the class", columns[3], library_classes(data, false));
    good = holds_all(columns[0], "more than the classes:", library_classes(data, true), columns[3]) && good;
    good = holds_all(columns[0], "the limit", columns[4], library_limits(data)) && good;
    good = m_factor_is(columns[0], columns[5], data->m_acute) && good;
    return m_factor_is(columns[0], columns[6], data->m_chronic) && good;
}

static void classes_of_annex_vi(void **state)
{
    (void)state;
    FILE *file = fopen("tests/library/annex-vi.tsv", "r");
    assert_non_null(file);
    char line[LINE];
    int wrong = 0;
    int rows = 0;
    while (fgets(line, sizeof line, file) != NULL) {
        if (line[0] != '#') {
            wrong += !row_holds(line);
            rows++;
        }
    }
    fclose(file);
    assert_true(rows >= 115);
    assert_int_equal(wrong, 0);
}

/* ---- what refers to something that is not there ---- */

static void look_at_classes(void *context, const struct material *material)
{
    int *wrong = context;
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        const struct figure_statement *figure = (const struct figure_statement *)statement;
        if (statement->kind != SAY_HAZARD && statement->kind != SAY_LIMIT) {
            continue;
        }
        struct text code = figure->word->name->spelling;
        bool none = text_is(code, "none") || text_is(code, "unknown");
        if (!none && (hazard_class_find(figure->text, code) == NULL || library_phrase(&library, code) == NULL)) {
            print_error("%.*s: \"%.*s\" %.*s is no class, or has no words\n", TEXT_ARGUMENTS(material->name),
                        TEXT_ARGUMENTS(figure->text), TEXT_ARGUMENTS(code));
            ++*wrong;
        }
    }
}

static void every_class_has_words(void **state)
{
    (void)state;
    int wrong = 0;
    library_each_material(&library, look_at_classes, &wrong);
    assert_int_equal(wrong, 0);
}

struct known {
    struct text name;
    bool found;
};

static void look_for_role(void *context, const struct material *material)
{
    struct known *known = context;
    known->found = known->found || material_has_role(material, known->name);
}

static bool is_known(struct name *name)
{
    struct text folded = names_folded(&names, name)->spelling;
    struct known known = {folded, library_material_entry(&library, folded) != NULL || library_group(&library, folded) != NULL ||
                                      text_is(folded, "anything") || text_is(folded, "solids")};
    if (!known.found) {
        library_each_material(&library, look_for_role, &known);
    }
    return known.found;
}

static void look_at_group(void *context, const struct declaration *declaration)
{
    int *wrong = context;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        bool named = statement->kind == SAY_HOLDS || statement->kind == SAY_LEAVE_OUT;
        const struct word *word = named ? ((const struct words_statement *)statement)->words : NULL;
        for (; word != NULL; word = word->next) {
            if (!is_known(word->name)) {
                print_error("group %.*s: %.*s is not known\n", TEXT_ARGUMENTS(declaration->name.name->spelling),
                            TEXT_ARGUMENTS(word->name->spelling));
                ++*wrong;
            }
        }
    }
}

static bool is_code(struct text word)
{
    return word.length >= 4 && (word.at[0] == 'H' || memcmp(word.at, "EUH", 3) == 0) && word.at[word.length - 1] >= '0' &&
           word.at[1] != 'e';
}

static void look_at_phrase(void *context, const struct declaration *declaration)
{
    int *wrong = context;
    for (const struct word *word = declaration->phrase == NULL ? NULL : declaration->phrase->codes; word != NULL; word = word->next) {
        bool known = is_code(word->name->spelling) ? library_phrase(&library, word->name->spelling) != NULL : is_known(word->name);
        if (!known) {
            print_error("phrase %.*s: %.*s is not known\n", TEXT_ARGUMENTS(declaration->name.name->spelling),
                        TEXT_ARGUMENTS(word->name->spelling));
            ++*wrong;
        }
    }
    if (declaration->title.length == 0 || declaration->source.length == 0) {
        print_error("phrase %.*s lacks words or a source\n", TEXT_ARGUMENTS(declaration->name.name->spelling));
        ++*wrong;
    }
}

static bool names_are_known(struct text names_of_line)
{
    struct text rest = names_of_line;
    for (size_t i = 0; i <= rest.length; i++) {
        bool end = i == rest.length;
        bool joint = !end && rest.length - i > 4 && (memcmp(rest.at + i, " or ", 4) == 0 || memcmp(rest.at + i, " exc", 4) == 0);
        if (!end && !joint) {
            continue;
        }
        if (!is_known(names_find(&names, (struct text){rest.at, i}))) {
            print_error("%.*s is not known\n", (int)i, rest.at);
            return false;
        }
        if (end) {
            return true;
        }
        size_t skip = i + (rest.at[i + 1] == 'o' ? 4 : 8); /* " or ", " except " */
        rest = (struct text){rest.at + skip, rest.length - skip};
        i = 0;
    }
    return true;
}

static bool measure_is_known(const struct bound *bound)
{
    struct text words = bound == NULL || bound->quantity->unit == NULL ? (struct text){0} : bound->quantity->unit->spelling;
    bool times = words.length > 6 && memcmp(words.at, "times ", 6) == 0;
    return !times || names_are_known(names_fold(&arena, (struct text){words.at + 6, words.length - 6}));
}

static void look_at_reaction(void *context, const struct declaration *declaration)
{
    int *wrong = context;
    unsigned said = 0;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct condition_statement *line = (const struct condition_statement *)statement;
        said |= statement->kind == SAY_WARN ? 1u : statement->kind == SAY_ADVISE ? 2u : statement->kind == SAY_SOURCE ? 4u : 0;
        if (statement->kind == SAY_OF || statement->kind == SAY_MEETS || statement->kind == SAY_BESIDE ||
            statement->kind == SAY_UNLESS) {
            *wrong += !names_are_known(names_folded(&names, line->subject->name)->spelling) || !measure_is_known(line->bound);
        }
    }
    if (said != 7) {
        print_error("reaction %.*s lacks what it gives, what to do instead, or a source\n",
                    TEXT_ARGUMENTS(declaration->name.name->spelling));
        ++*wrong;
    }
}

static void what_is_named_is_there(void **state)
{
    (void)state;
    int wrong = 0;
    library_each_declaration(&library, DECLARE_GROUP, look_at_group, &wrong);
    library_each_declaration(&library, DECLARE_PHRASE, look_at_phrase, &wrong);
    library_each_declaration(&library, DECLARE_REACTION, look_at_reaction, &wrong);
    library_relation(&library);
    assert_int_equal(wrong, 0);
    assert_int_equal(diagnostics.count, 0);
}

/* UN GHS, Annex 3, and Regulation (EC) No 1272/2008, Annex III: a few whose words are easily got wrong. */
static void words_of_statements(void **state)
{
    (void)state;
    static const char *const words[][2] = {
        {"H302", "Harmful if swallowed"},
        {"H314", "Causes severe skin burns and eye damage"},
        {"H317", "May cause an allergic skin reaction"},
        {"H334", "May cause allergy or asthma symptoms or breathing difficulties if inhaled"},
        {"H360FD", "May damage fertility. May damage the unborn child"},
        {"H410", "Very toxic to aquatic life with long lasting effects"},
        {"EUH031", "Contact with acids liberates toxic gas"},
        {"P305+P351+P338", "IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and "
                           "easy to do. Continue rinsing"}};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        const struct declaration *phrase = library_phrase(&library, text_from(words[i][0]));
        assert_non_null(phrase);
        assert_text(phrase_words(phrase), words[i][1]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_LIBRARY(classes_of_annex_vi),
        WITH_LIBRARY(every_class_has_words),
        WITH_LIBRARY(what_is_named_is_there),
        WITH_LIBRARY(words_of_statements),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
