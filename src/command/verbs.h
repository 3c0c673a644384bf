/* The tables that the command line is read by, and that `--help`, the manual pages, the README's table and the completions of shells
 * are made of: what a verb or an option is called, takes and does is said here and nowhere else. */
#ifndef POTASH_COMMAND_VERBS_H
#define POTASH_COMMAND_VERBS_H

#include "potash.h"

struct command_line;

/* In the order in which people meet them. */
enum verb_id {
    VERB_SHEET, VERB_PROCESS, VERB_LABEL, VERB_RECKON, VERB_CHECK, VERB_COMPARE, VERB_TIDY, VERB_SHOW, VERB_BOOK, VERB_SHELF, VERB_COST,
    VERB_SAFETY, VERB_MATERIALS, VERB_WHY, VERB_EDITOR, VERBS
};

#define VERB_BIT(name) (1u << VERB_##name)
#define FORMAT_BIT(name) (1u << POTASH_##name)

struct verb {
    enum verb_id id;
    const char *name;
    const char *arguments;       /* for the usage line; "PATH…" where files are read */
    const char *summary;         /* for lists of verbs */
    const char *manual;          /* whole sentences; a line that starts with blanks stands as it is */
    unsigned formats;            /* FORMAT_BIT of each that it gives; 0: it prints no report */
    enum potash_format usual;    /* the one that it gives unasked */
    const char *heading;         /* of the list of verbs, above this one; NULL: as the one before */
    struct {
        const char *call;        /* works from the top of the repository */
        const char *does;
    } examples[2];
    int (*run)(const struct command_line *line);
};

enum value_kind {
    VALUE_NONE,
    VALUE_TEXT,
    VALUE_PATH,
    VALUE_CHOICE,                /* one of `choices`; capitals do not matter */
    VALUE_DATE,                  /* ISO 8601 */
    VALUE_MEASURE,               /* a number with a unit, which may be the next word of the shell */
    VALUE_COUNT,
    VALUE_SHEETS,                /* a count, and the size of a sheet as the next word */
};

enum option_group { GROUP_MATTER /* what a verb is about */, GROUP_LABELS, GROUP_CHECKING, GROUP_OUTPUT, OPTION_GROUPS };

struct option {
    const char *name;
    const char *also;            /* another spelling, or NULL */
    const char *old;             /* a spelling of former days, good where a verb takes this option and none of that name */
    const char *value;           /* an example of it; NULL when it takes none */
    const char *bounds;          /* of numbers: "1 to 999"; NULL: none, or see `choices` */
    const char *choices[8];
    const char *help;            /* for lists of options */
    const char *manual;          /* more of it in whole sentences, or NULL */
    size_t field;                /* where it goes in struct command_line: bool, const char * or struct text_list */
    unsigned verbs;              /* VERB_BIT of each that takes it */
    unsigned formats;            /* FORMAT_BIT of each that it has an effect on; 0: all */
    enum value_kind kind;
    enum option_group group;
    bool repeats;
};

/* What does not go together. */
struct option_pair {
    const char *one, *others[6];
    const char *why;
};

/* What has no effect on a verb unless one of the others is given. */
struct option_need {
    enum verb_id verb;
    const char *option, *others[3];
};

extern const struct verb verbs[VERBS];
extern const struct option option_table[];
extern const size_t option_count;
extern const struct option_pair option_pairs[];
extern const size_t option_pair_count;
extern const struct option_need option_needs[];
extern const size_t option_need_count;
extern const char *const format_names[];  /* by enum potash_format, as --as takes them */
enum { FORMATS = POTASH_ICAL + 1 };

/* Prints how a verb is called, or, for NULL, which verbs there are; no line is wider than `columns`. */
void command_print_help(const struct verb *verb, size_t columns);

/* The name of the first of those FORMAT_BITs. */
const char *command_first_format(unsigned formats);

/* Columns of the terminal (or $COLUMNS), 80 where there is none. */
size_t command_columns(void);

#endif
