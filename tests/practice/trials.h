/* Many small baths, compiled as one file, and which of them draw a warning of what meets in them. */
#ifndef POTASH_TESTS_TRIALS_H
#define POTASH_TESTS_TRIALS_H

#include "support/compiling.h"
#include "support/library_help.h"

#include "library/relation.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

struct trial {
    const char *lines;    /* of the formula, without its heading; each ends with a new line */
    const char *label;    /* for messages */
    const char *reaction; /* that is to speak; NULL: any */
    int line;             /* of the heading */
    bool answered;
};

struct trials {
    struct trial *items;
    size_t count;
    size_t room;
};

static inline struct trial *trials_add(struct trials *trials, const char *lines, const char *label, const char *reaction)
{
    if (trials->count == trials->room) {
        trials->room = trials->room == 0 ? 64 : trials->room * 2;
        struct trial *more = ARENA_ARRAY(&arena, struct trial, trials->room);
        for (size_t i = 0; i < trials->count; i++) {
            more[i] = trials->items[i];
        }
        trials->items = more;
    }
    trials->items[trials->count] = (struct trial){.lines = lines, .label = label, .reaction = reaction};
    return &trials->items[trials->count++];
}

/* Whether a diagnostic says what must not meet, by that reaction (NULL: by any). */
static inline bool is_meeting(const json_t *item, const char *reaction)
{
    const char *id = json_text_of(item, "id");
    const char *help = json_string_value(json_object_get(item, "help"));
    const char *sign = reaction == NULL ? NULL : arena_format(&arena, "(reaction %s)", reaction);
    bool of_kind = strcmp(id, "hazard-combination") == 0 || strcmp(id, "bath-spoils") == 0 || strcmp(id, "keeps-too-long") == 0;
    return of_kind && (sign == NULL || (help != NULL && strstr(help, sign) != NULL));
}

/* Compiles all of them, and notes which are answered. */
static inline void trials_run(struct trials *trials)
{
    struct buffer text;
    int line = 1;
    buffer_start(&text, &arena);
    for (size_t i = 0; i < trials->count; i++) {
        struct trial *trial = &trials->items[i];
        trial->line = line++;
        for (const char *at = trial->lines; (at = strchr(at, '\n')) != NULL; at++) {
            line++;
        }
        buffer_format(&text, "formula \"%zu\"\n%s", i, trial->lines);
    }
    struct compiled compiled = compile(buffer_finish(&text));
    assert_int_not_equal(compiled.status, POTASH_UNUSABLE);
    size_t trial = 0;
    size_t i;
    json_t *item;
    json_array_foreach(compiled.diagnostics, i, item) { /* in the order of their lines */
        while (trial + 1 < trials->count && trials->items[trial + 1].line <= (int)json_number_of(item, "line")) {
            trial++;
        }
        trials->items[trial].answered = trials->items[trial].answered || is_meeting(item, trials->items[trial].reaction);
    }
    compiled_free(&compiled);
}

/* How many are answered though they should not be, or the other way round; each is printed. */
static inline int trials_faults(const struct trials *trials, bool wanted)
{
    int faults = 0;
    for (size_t i = 0; i < trials->count; i++) {
        if (trials->items[i].answered != wanted) {
            print_error("%s: %s\n%s", wanted ? "no word of" : "a warning of", trials->items[i].label, trials->items[i].lines);
            faults++;
        }
    }
    return faults;
}

/* The strongest form of a liquid, the usual one of a solid. */
static inline const struct form *strongest(const struct material *material)
{
    const struct form *form = material->usual;
    for (size_t i = 0; material->liquid && i < material->form_count; i++) {
        form = material->forms[i].percent > form->percent ? &material->forms[i] : form;
    }
    return form;
}

static inline void add_line(struct buffer *text, const char *name, double grams_or_mL)
{
    const struct material *material = material_called(name);
    const struct form *form = strongest(material);
    if (form->label.length > 0) {
        buffer_format(text, "    %s (%.*s) %g %s\n", name, TEXT_ARGUMENTS(form->label), grams_or_mL, material->liquid ? "mL" : "g");
    } else {
        buffer_format(text, "    %s %g %s\n", name, grams_or_mL, material->liquid ? "mL" : "g");
    }
}

/* ---- tables: cells between tabs, `#` begins a comment ---- */

enum { COLUMNS = 8, MOST_ROWS = 500 };

struct row {
    char *cells[COLUMNS];
};

/* The rows of a file; those that are left out are empty texts. */
static inline size_t read_table(const char *path, struct row rows[MOST_ROWS])
{
    static char nothing[] = "";
    size_t length;
    size_t count = 0;
    char *at = file_bytes(path, &length);
    for (char *line; (line = strsep(&at, "\n")) != NULL;) {
        bool said = line[0] != '#' && line[0] != '\0' && count < MOST_ROWS;
        for (size_t i = 0; said && i < COLUMNS; i++) {
            char *cell = strsep(&line, "\t");
            rows[count].cells[i] = cell == NULL ? nothing : cell;
        }
        count += said;
    }
    return count;
}

#endif
