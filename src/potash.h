/* libpotash: a compiler for photographic formulas kept as text files.
 *
 * A session takes in files, checks them once, and makes reports: open, read, check, report, close.  docs/example.c is a whole program.
 *
 * What is returned belongs to the session and lives until potash_close.  No call exits the program or prints, and a session is used by
 * one thread at a time; sessions share nothing.
 *
 * Every call that returns a status can be POTASH_UNUSABLE because memory ran out, or because an earlier call was (a session stays so);
 * potash_message then has the reason.  What else makes a call fail stands beside it. */
#ifndef POTASH_H
#define POTASH_H

#include <stdbool.h>
#include <stddef.h>

enum potash_status {
    POTASH_GOOD = 0,     /* done */
    POTASH_FAULTY = 1,   /* the formulas have errors */
    POTASH_UNUSABLE = 2  /* the call or the files could not be used: see potash_message */
};

enum potash_format { POTASH_TEXT, POTASH_JSON, POTASH_SARIF, POTASH_HTML, POTASH_PDF, POTASH_CSV, POTASH_ICAL };

enum potash_paper { POTASH_A4, POTASH_LETTER };

const char *potash_version(void);

/* ---- options ---- */

/* Label stock, in mm where no unit is written; what is NULL is chosen: a common size of the paper, or as many as go on the sheet. */
struct potash_label_sheet {
    const char *size;             /* of a label, such as "99.1x67.7" */
    const char *grid;             /* columns and rows, such as "2x4" */
    const char *margins;          /* left of and above the first label */
    const char *pitch;            /* from the start of one label to the next */
    const char *start;            /* place of the first label that is printed, from 1, row by row */
    const char *copies;           /* of each label */
};

/* All zero is right for a start.  Texts are read by potash_check, lists end with NULL, and both must live as long as the session. */
struct potash_options {
    /* Reading. */
    const char *library;          /* folder of a library in place of the built-in one, or NULL */
    bool allow_reads;             /* `read` may leave the folder of the file that was named */
    bool no_reads;                /* `read` is not followed, to lay a file out by itself */
    size_t memory;                /* bytes that may be taken for what was read; 0: 1 GB and 1000 for each byte that is read, twice what
                                     the largest report of a formula takes, so that a small file cannot use up the machine */
    long fail_after;              /* tests: fail at that allocation; 0 or less: never */

    /* Checking. */
    const char *const *silence;   /* ids of warnings, and names of rules, that are turned off; may be NULL */
    bool strict;                  /* warnings count as errors */
    bool diagnostics_only;        /* no report will be asked for but the diagnostics: memory is not taken for more */
    bool diagnostics_as_text;     /* and they only as text: repairs are not looked for where the help says enough */
    const char *balance;          /* what the scale shows, such as "0.1 g", or NULL for the shelf's, or 0.01 g */
    const char *graduate;         /* what the smallest graduate shows, such as "0.5 mL", or NULL for the shelf's, or 0.1 mL */
    const char *const *without;   /* materials that somebody must not touch: see potash_without; may be NULL */

    /* What reports are about. */
    const char *title;            /* the one formula, or NULL for all in the files that were named */
    const char *make;             /* batch size such as "2 L", or NULL for the formula's own */
    const char *use_for;          /* the one use, such as "film", or NULL for all */
    const char *working;          /* working solution wanted, such as "300 mL", or NULL for usual sizes */
    const char *temperature;      /* of the bath in hand, such as "22 °C", or NULL: times are given for it */
    const char *speed;            /* film speed index that a time is wanted for, such as "200", or NULL; likewise the next two */
    const char *contrast;         /* contrast index of the negative, such as "0.62" */
    const char *grade;            /* of the paper, such as "2" */
    const char *goods;            /* what a process is for, such as "10 rolls" or "12 sheets 8x10 in", or NULL for one load */
    const char *within;           /* compare: by how much amounts may differ, such as "2 %", or NULL for the rounding of print */
    const char *date;             /* ISO 8601 date that is printed, or NULL for none */

    /* Shelf and money. */
    bool lists_missing;           /* a report is wanted that says itself what the shelf lacks: no warning does */
    bool using_shelf;             /* sheets take the forms that stand on the shelf */
    const char *const *mix;       /* what the shelf's shopping list is for, such as "5 L of Saltmarsh brine", or a title; may be NULL */
    const char *counted;          /* the day on which the shelf was counted, ISO 8601, in place of what the shelf says; or NULL */
    const char *horizon;          /* how far ahead the shelf looks for what expires, such as "30 days", or NULL for 90 */
    const char *price_by;         /* "cheapest" (also NULL), "oldest" or "average" */
    const char *against;          /* price of a litre bought ready made, such as "4.80", or NULL */

    /* Paper: books, labels, text. */
    enum potash_paper paper;      /* that PDF is made for */
    size_t columns;               /* width of text output; 0 for 80 */
    const char *book_title;       /* what a book is called, or NULL */
    bool book_with_safety;        /* in a book, every formula's safety notes stand behind its sheet */
    const char *label_of;         /* labels: "stock" (or NULL) or "working"; use_for names one working solution */
    const char *by;               /* records: who mixed the batch, or NULL */
    const char *batch;            /* labels: the batch that they are for, or NULL for blanks to fill in */
    struct potash_label_sheet label_sheet;

    /* Long work. */
    void (*progress)(void *context, size_t done, size_t of); /* called now and then; may be NULL */
    void *progress_context;
};

/* ---- a session ---- */

struct potash;

/* Opens a session; NULL options are all zero.  NULL when there is no memory for it.  A library that cannot be read makes the session
 * unusable from the start, which the next call says. */
struct potash *potash_open(const struct potash_options *options);
void potash_close(struct potash *potash);

/* Why the last call was POTASH_UNUSABLE; "" when none was. */
const char *potash_message(const struct potash *potash);

/* ---- reading ---- */

/* Takes in a file, all `.bath` files below a folder, or standard input ("-"), and what they `read`.  A file that cannot be read is an
 * error among the diagnostics, and everything else is checked all the same.  POTASH_UNUSABLE when it is `path` itself that cannot be
 * read: not there, not allowed, a pipe, a device, no text, larger than 1 GB, a folder without formulas. */
enum potash_status potash_read(struct potash *potash, const char *path);

/* The same of a file only for its shelves: reports are not about the formulas in it. */
enum potash_status potash_read_shelf(struct potash *potash, const char *path);

/* The same of the file `path` as though it were `known_as`: that name is shown, and its `read`s start from there. */
enum potash_status potash_read_as(struct potash *potash, const char *path, const char *known_as);

/* Takes in text, which is copied.  `name` is shown as its file; what it reads is looked for in that file's folder, or in the current
 * one where the name has none.  POTASH_UNUSABLE when it is no text. */
enum potash_status potash_read_text(struct potash *potash, const char *name, const char *text, size_t length);

/* ---- checking ---- */

/* Checks what was taken in; to be called once, before any report.  POTASH_FAULTY when there are errors, POTASH_UNUSABLE when an option
 * is none: a text that is no amount or out of bounds, an unknown id, material or date. */
enum potash_status potash_check(struct potash *potash);

size_t potash_errors(const struct potash *potash);
size_t potash_warnings(const struct potash *potash);
size_t potash_formulas(const struct potash *potash);

/* Files that could not be read. */
size_t potash_unread(const struct potash *potash);

/* ---- output ---- */

/* Output of a report: bytes and how many. */
struct potash_output {
    const char *bytes;
    size_t length;
};

/* Takes output while it is made, piece by piece; false when it cannot, after which no more comes. */
struct potash_sink {
    bool (*take)(void *context, const char *bytes, size_t length);
    void *context;
};

/* The diagnostics given to a sink, as text, JSON or SARIF, so that not all of it is held in memory at once.  As text: `colour` for a
 * terminal, and at most `most` of one id, 0 for all; the others are counted.  POTASH_FAULTY when the sink could not take it,
 * POTASH_UNUSABLE for another format. */
enum potash_status potash_write_diagnostics(struct potash *potash, enum potash_format format, bool colour, size_t most,
                                            const struct potash_sink *sink);

/* The same as bytes, all of them. */
enum potash_status potash_diagnostics(struct potash *potash, enum potash_format format, bool colour,
                                      struct potash_output *output);

/* ---- reports of what was checked ----
 *
 * They come as text, JSON, HTML and PDF, and as what else is said.  POTASH_FAULTY, and no output, when a formula that they are about has
 * errors.  POTASH_UNUSABLE when the report does not come in that format, when the session was opened for diagnostics only, when no
 * formula (for some: no stock either) was read or none has the title, the use or the batch that was asked for, when a formula makes a
 * volume and a weight is asked for, or the other way round; in PDF, when a library that makes it is not there. */

/* The checked form: as JSON for programs, else in words. */
enum potash_status potash_show(struct potash *potash, enum potash_format format, struct potash_output *output);

/* The mixing sheets.  POTASH_UNUSABLE also when the shelf is to be used and none was read. */
enum potash_status potash_sheet(struct potash *potash, enum potash_format format, struct potash_output *output);

/* Bottle labels.  POTASH_UNUSABLE also when they do not go on the sheet, or there is no solution to label. */
enum potash_status potash_label(struct potash *potash, enum potash_format format, struct potash_output *output);

/* The working sheet of each process, or of the one whose title was given. */
enum potash_status potash_process(struct potash *potash, enum potash_format format, struct potash_output *output);

/* The safety notes: classes of each solution with the rule and the ingredients behind them, label, handling. */
enum potash_status potash_safety(struct potash *potash, enum potash_format format, struct potash_output *output);

/* All formulas as one book: contents, sheets by kind, indexes, safety, sources. */
enum potash_status potash_book(struct potash *potash, enum potash_format format, struct potash_output *output);

/* What the formulas cost by the prices on the shelf; several of them are set side by side as well.  POTASH_UNUSABLE also when there is no
 * shelf, or `against` is in another currency. */
enum potash_status potash_cost(struct potash *potash, enum potash_format format, struct potash_output *output);

/* What is left on the shelf, what can be mixed with it, what to buy and what expires; also as CSV (RFC 4180) and iCalendar (RFC 5545).
 * POTASH_FAULTY with an output where something in the files has errors: the rest is there all the same.  POTASH_UNUSABLE also when there
 * is no shelf, when what `mix` names is not there or has errors, and as a calendar without a date. */
enum potash_status potash_shelf(struct potash *potash, enum potash_format format, struct potash_output *output);

/* Which formulas hold the materials of the option `without`; *held tells whether any does.  Formulas with errors count as though
 * they did.  As text and JSON.  POTASH_UNUSABLE also before potash_check. */
enum potash_status potash_without(struct potash *potash, enum potash_format format, bool *held, struct potash_output *output);

/* The declaration of a batch of the one formula that reports are about, mixed on the session's day, with what it takes of the lots and
 * bottles that were read: text to be pasted into a diary, or added to it.  Its name is the day and a letter, clear of the batches that were
 * read and of those in `diary`, a text that may be NULL.  POTASH_UNUSABLE
 * also without a date, and when there are several formulas or its title holds a sign that is not seen. */
enum potash_status potash_record(struct potash *potash, const char *diary, size_t length, struct potash_output *output);

/* The files that were read, as what `target` depends on: a rule of Make.  POTASH_UNUSABLE also when a name holds a sign that is not seen. */
enum potash_status potash_depends(struct potash *potash, const char *target, struct potash_output *output);

/* What differs between the formulas of two checked sessions, which may hold the same titles: one against one, or those of
 * one title against each other.  A side without any formula counts as a file that is not there.  Amounts may differ by what
 * the options of `a` say.  Output and message belong to `a`.  POTASH_UNUSABLE also when it cannot be told which formulas are meant. */
enum potash_status potash_compare(struct potash *a, struct potash *b, enum potash_format format, struct potash_output *output, bool *same);

/* ---- what is known without any file ----
 *
 * As text and JSON; a material also as HTML and PDF.  POTASH_UNUSABLE for another format. */

/* What the library knows: all materials, or one.  POTASH_UNUSABLE also when none has that name. */
enum potash_status potash_materials(struct potash *potash, const char *name, enum potash_format format,
                                    struct potash_output *output);

/* What may stand in for a material: the others of its role, with what differs.  POTASH_UNUSABLE also when none has that name. */
enum potash_status potash_materials_like(struct potash *potash, const char *name, enum potash_format format,
                                         struct potash_output *output);

/* A diagnostic or, as text, a rule of practice explained; all diagnostics when `id` is NULL.  POTASH_UNUSABLE also when there is none. */
enum potash_status potash_why(struct potash *potash, const char *id, enum potash_format format,
                              struct potash_output *output);

/* One bench sum, such as "1+29 for 300 mL", with its working.  POTASH_UNUSABLE also when it cannot be reckoned:
 * potash_diagnostics then gives the reasons, with the place in the sum. */
enum potash_status potash_reckon(struct potash *potash, const char *text, enum potash_format format,
                                 struct potash_output *output);

/* ---- texts ---- */

/* The path of a file that was named, or found below a folder that was named, from 0 on; NULL behind the last. */
const char *potash_file_name(struct potash *potash, size_t index);

/* The bytes of such a file, as they were read. */
struct potash_output potash_file_text(struct potash *potash, size_t index);

/* Such a file's text in canonical layout, with lines of the notation in the place of those that a wording reads; *tidy tells whether it
 * stands so already.  Needs no potash_check.  POTASH_FAULTY when the file has errors of syntax or encoding, which potash_diagnostics then
 * gives.  POTASH_UNUSABLE when there is no such file, and when the tidied text would not say the same: then it is held back. */
enum potash_status potash_tidy(struct potash *potash, size_t index, bool *tidy, struct potash_output *output);

/* A text in one line as a terminal may be given it, such as the name of a file or a value that somebody typed: signs that control the
 * terminal, turn the direction of writing or are not seen are U+FFFD in it.  The caller frees it; NULL when there is no memory. */
char *potash_shown(const char *text, size_t length);

/* Whether a text of many lines holds none of these signs. */
bool potash_is_plain(const char *text, size_t length);

#endif
