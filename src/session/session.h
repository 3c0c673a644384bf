/* What a session holds, and what its files ask of each other. */
#ifndef POTASH_SESSION_H
#define POTASH_SESSION_H

#include "base/json_build.h"
#include "base/version.h"
#include "formula/formula.h"
#include "library/measure.h"
#include "potash.h"
#include "report/cost.h"
#include "source/opening.h"
#include "store/drawing_down.h"
#include "store/on_shelf.h"
#include "store/processes.h"

/* Label stock in mm; what is 0 was not given. */
struct label_sheet {
    double width, height, columns, rows, left, top, across, down, start, copies;
};

struct potash {
    struct potash_options options;
    struct arena arena;
    struct arena forms;              /* of one formula after the other, where only diagnostics are asked for */
    struct arena trees;              /* of a few formulas after others, where their trees are not kept */
    struct arena aside;              /* what is made while one diagnostic is printed */
    jmp_buf failure;
    struct names names;
    struct source_set sources;
    struct diagnostics diagnostics;
    struct library library;
    struct formulary formulary;
    struct batches batches;
    struct store store;
    struct goods goods;              /* what a process is for; its unit is NULL when that was not given */
    double within;                   /* share by which amounts may differ; NAN: the rounding of print */
    long horizon;                    /* days that the shelf looks ahead */
    struct label_sheet label_sheet;
    struct measure_given against;    /* price of a litre that is bought */
    struct cost_terms terms;         /* what the cost is worked out for */
    bool held;                       /* a formula holds a material of the option `without` */
    struct processes processes;
    struct report_context context;
    struct syntax_list *files;       /* parsed, in order */
    struct syntax_list *last_file;
    bool whole;                      /* every file is to be parsed as a whole, since one holds more than formulas */
    size_t loose_errors;             /* outside any formula */
    bool strictly_faulty;            /* there were warnings, and they count as errors */
    bool checked;
    void (*look_at)(void *context, const struct formula *formula); /* each formula once it is checked, while its form is at hand; or NULL */
    void *look_at_context;
    struct opener opener;
    struct request *queue;           /* what is to be read next (files.c) */
    char over_limit[100];            /* the message when more memory would be needed than may be taken */
    size_t unread;                   /* files that could not be read; what they declare is not known */
    const char *named_unread;        /* why what was named last cannot be read, or NULL */
    const struct syntax_list *named_item; /* tidying.c: the file that was asked for last … */
    size_t named_index;              /* … and which it is of those that were named */
    struct drawn_down drawn_down;    /* what was taken off the shelf since it was counted */
    const char *message;
    json_t *building;                /* a list that is being filled; released when memory runs out */
};

struct syntax_list {
    struct syntax_file *file;        /* nothing but its source while it waits */
    bool waits;                      /* it looks as if it could be parsed and checked formula by formula */
    struct file_identity root;       /* folder that its reads stay inside */
    struct syntax_list *next;
};

/* Runs what follows with a way back for failing allocations:
 *     if (SESSION_GUARD(potash)) { return session_out_of_memory(potash); } */
#define SESSION_GUARD(potash) (setjmp((potash)->failure) != 0)

enum potash_status session_out_of_memory(struct potash *potash);

/* Lets so many bytes be read, and memory be taken for what comes of them. */
void session_allow(struct potash *potash, size_t bytes);
enum potash_status session_unusable(struct potash *potash, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* A library whose files have been read already. */
struct library_text {
    const char *path;
    struct text text;
};

/* What an editor's session has in place of files. */
struct session_texts {
    struct texts_at_hand at_hand;
    const struct library_text *library; /* NULL: as the options say */
    size_t library_count;
};

/* potash_open with texts in place of files. */
struct potash *session_open(const struct potash_options *options, const struct session_texts *texts);

/* On whose behalf a file is read. */
enum reading_for { READ_FOR_USER, READ_FOR_LIBRARY, READ_FOR_FILE /* that asks for it by `read` */, READ_FOR_SHELF /* reports are not about it */ };

/* Takes in a file, the files of a folder, or standard input ("-"), and what they read.  What cannot be read is among the diagnostics.
 * POTASH_UNUSABLE when it is `path` itself; so it is, with a message, of a library.  A file is shown as `known_as` unless that is NULL. */
enum potash_status session_read_named(struct potash *potash, const char *path, const char *known_as, enum reading_for purpose);

/* The same for a text in memory, called `name`; what it reads lies in that file's folder, or in `root` unless that is NULL. */
enum potash_status session_read_text(struct potash *potash, const char *name, struct text text, const struct file_identity *root);

/* What a file reads that was named, and that holds nothing but `read` lines, counts as named too. */
void session_name_reads(struct potash *potash);

/* Takes in a file of a library; false where it is no text, or too large. */
bool session_take_library(struct potash *potash, const struct library_text *text);

/* Parses the files that wait for it. */
enum potash_status session_parse_waiting(struct potash *potash);

/* The formulas that reports are about, one after the other; NULL at the end. */
const struct formula *session_next(struct potash *potash, const struct formula *before);

/* The declared stocks that reports are about, likewise. */
const struct stock *session_next_stock(struct potash *potash, const struct stock *before);

/* Whether the checked forms can be asked for: POTASH_UNUSABLE in a session for diagnostics only. */
enum potash_status session_has_forms(struct potash *potash);

/* Whether reports can be made: POTASH_FAULTY when a formula that they are about has errors. */
enum potash_status session_ready(struct potash *potash);

/* Whether the files have been checked. */
enum potash_status session_checked(struct potash *potash);

/* What the formulas say of themselves that reports are about: whose measures they are in (MEASURES_UNSTATED when one does not say,
 * or they differ), and whether all of them make a weight, so that an ounce is one of weight. */
struct stated {
    enum measures measures;
    bool dry;
};

/* The formula or variant of that title, and the one that a variant is of; NULL: there is none. */
const struct declaration *session_titled(const struct potash *potash, struct text title);
const struct declaration *session_parent(const struct potash *potash, const struct declaration *variant);

/* Marks formulas as faulty that have an error inside their lines, and counts the errors that lie in none. */
void session_attribute_errors(struct potash *potash);

/* A check of one formula says nothing of the others; POTASH_UNUSABLE when there is none of that title. */
enum potash_status session_leave_out_others(struct potash *potash);

/* The size of a batch in mL, or in g (*mass); NAN with a message when it is none. */
double session_read_make(struct potash *potash, const char *words, struct stated stated, bool *mass);

/* All options that hold texts, into values: ids to silence, amounts, materials.  POTASH_UNUSABLE with a message when one is none. */
enum potash_status session_read_options(struct potash *potash);

/* The list that was being filled, which is the caller's from now on. */
json_t *session_built(struct potash *potash);

#endif
