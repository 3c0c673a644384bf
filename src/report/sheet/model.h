/* What the mixing sheet says, worked out once: its page and its JSON read it. */
#ifndef POTASH_REPORT_SHEET_MODEL_H
#define POTASH_REPORT_SHEET_MODEL_H

#include "chemistry/hazard.h"
#include "chemistry/solubility.h"
#include "chemistry/time_table.h"
#include "report/printing.h"
#include "report/show/model.h"

/* Share of the water that one starts with where a formula lists it last (common practice, no source). */
#define SHEET_FIRST_WATER 0.75

/* So near to 1 that the batch is the formula as written. */
#define SHEET_AS_WRITTEN 1e-9

/* What stands below a line: a warning, or what is only remarked. */
struct sheet_note {
    struct sheet_note *next;
    struct text title;             /* of a box; of what stands below a line it is empty */
    struct page_words words;
    struct page_when when;         /* the sizes of batch that it holds for */
    bool remark;
};

/* A step of mixing as it is printed.  Figures are those of the formula as it is written, with how they change (page/figure.h). */
struct sheet_line {
    const struct batch_step *at;
    struct text what;              /* the material with its form, or what is done between two additions */
    struct page_words amount;      /* of an addition */
    struct page_words how;         /* it is measured; may be empty */
    double per_litre;              /* g, or mL of what is measured; NAN for none */
    struct text written;           /* the amount as it was written, where that is in other units than are printed; else empty */
    struct text lots;              /* of the packs that it is taken from; may be empty */
    struct sheet_note *notes;
};

struct sheet_part {
    const struct batch_part *batch;
    struct sheet_line *lines;      /* as many as the batch has steps */
    double start_with;             /* mL of water of the formula as written; 0: its first line is the beginning */
    size_t dissolved;              /* how many are weighed, and how many of them with an amount */
    size_t weighed_count;
    struct page_words weighed;     /* what they come to, as they are printed */
    double weighed_one;            /* g of the formula as written */
    struct measured weighed_sum;   /* of the batch */
    struct coming_out coming_out;
    const struct mixture_safety *safety;
    struct text label;             /* … in a line or two */
};

/* Something of a working solution, and how much of it goes into each of the volumes that are shown. */
struct sheet_take {
    struct text what;
    double parts;
    double *millilitres;
    struct text *amounts;          /* as they are printed */
};

/* A time that was worked out: for the temperature, speed and contrast that are asked for, or without any, for temperatures nearby. */
struct sheet_use {
    const struct use *use;
    struct sheet_take *takes;      /* NULL where it is not diluted */
    size_t take_count;
    double whole;                  /* mL of working solution that the formula as written gives; NAN when it cannot be said */
    double does, enough_for;       /* goods by its capacity, and by what each needs, of the formula as written; NAN likewise */
    const struct time_answer *times; /* NULL where none was asked for, or is known */
    bool asked;                    /* … for them; else they are for temperatures nearby */
    struct sheet_note *warnings;   /* of the tank or tray in hand, and what the compiler has to say of its lines */
    const struct content *contents; /* of a litre */
    const struct mixture_safety *safety;
    struct text label;
};

struct sheet {
    const struct report_context *context;
    const struct batch *batch;
    const struct formula *formula; /* as it is written, in the forms that will be taken */
    struct page *page;             /* for what is printed into it */
    double scale;
    bool other_units;              /* something is written in units that the sheet does not print: it shows both */
    struct show_model show;        /* the checked form, with its estimates */
    struct solutions solutions;
    struct sheet_note *stocks;     /* that must stand ready before the mixing starts */
    struct sheet_note *warnings;   /* of the bath as a whole */
    struct text silenced;          /* what nothing is said of here; may be empty */
    struct sheet_note *cautions;   /* of the materials */
    struct sheet_part *parts;      /* as many as the batch has */
    struct sheet_use *uses;        /* those that it is about */
    size_t use_count;
    const double *volumes;         /* mL of working solution that are shown */
    size_t volume_count;
};

struct sheet sheet_model(const struct report_context *context, const struct batch *batch, struct page *page);

/* The mixing sheet for people, filled into the model's page; the same for programs. */
void sheet_page(const struct sheet *sheet);
json_t *sheet_json(const struct sheet *sheet);

/* ---- for the sheet's own files ---- */

/* A figure of the batch, from that of the formula as written: see print_figure. */
struct page_words sheet_figure(const struct sheet *sheet, enum page_figure_way way, double number);
struct page_words sheet_mass(const struct sheet *sheet, double grams);
struct page_words sheet_volume(const struct sheet *sheet, double millilitres);

/* Adds to the end of a list. */
struct sheet_note *sheet_note(const struct sheet *sheet, struct sheet_note **list, struct page_words words);
void sheet_note_when(const struct sheet *sheet, struct sheet_note **list, double from, double below, struct page_words words);

/* The lines of a part, and what their weights come to (sheet_lines.c). */
void sheet_fill_part(const struct sheet *sheet, struct sheet_part *part);

/* What the materials say to beware of (sheet_care.c). */
void sheet_find_cautions(struct sheet *sheet);

/* What the compiler warns of on a line, to the end of a list of boxes (sheet_warnings.c); of the bath as a whole, of a use. */
void sheet_warn_of_bath(struct sheet *sheet);
void sheet_warn_of_use(const struct sheet *sheet, struct sheet_use *use);

/* For an addition that cannot be weighed well (sheet_bench.c): per cent of the stock that a little less than `grams` of it is better
 * taken from than weighed, 0 for none; returns down to which weight, g, that holds.  Then: "; take 12 mL of a 1 % solution …". */
double sheet_stock_range(const struct sheet *sheet, const struct step *step, double grams, double *percent);
struct page_words sheet_stock_advice(const struct sheet *sheet, const struct step *step, double percent);
void sheet_note_dissolving(const struct sheet *sheet, struct sheet_line *line, const struct dissolving *dissolving);

/* Beside an addition: what is written, where the shelf has another form or less than is wanted (sheet_shelf.c). */
struct text sheet_lots(const struct sheet *sheet, const struct batch_step *step);
void sheet_note_taking(const struct sheet *sheet, struct sheet_line *line);
void sheet_note_shelf(const struct sheet *sheet);

/* Working solutions (sheet_uses.c, sheet_times.c). */
void sheet_fill_use(const struct sheet *sheet, struct sheet_use *use);
void sheet_fill_times(const struct sheet *sheet, struct sheet_use *use);

/* ---- and for its page ---- */

void sheet_add_head(const struct sheet *sheet);
void sheet_add_part(const struct sheet *sheet, const struct sheet_part *part);
void sheet_add_use(const struct sheet *sheet, const struct sheet_use *use);
void sheet_add_times(const struct sheet *sheet, const struct use *use);
void sheet_add_other_times(const struct sheet *sheet, const struct sheet_use *use, struct page_facts *facts);
void sheet_add_care(const struct sheet *sheet);
void sheet_add_boxes(const struct sheet *sheet, const struct sheet_note *notes);

/* A short label: signal word, signs, the weightiest statements in words and the rest as codes; what is not assessed before all. */
struct text sheet_short_label(struct page *page, const struct mixture_safety *safety);

#endif
