/* Figures on a page that change with the size of the batch.
 *
 * A text on a page is words with figures in them: each a value with what it is, which says its unit, how it is rounded and how it goes
 * with the size of the batch.  A renderer that shows one batch prints the text; one that can reckon shows any other batch from the
 * figures. */
#ifndef POTASH_PAGE_FIGURE_H
#define POTASH_PAGE_FIGURE_H

#include "base/arena.h"
#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>

/* What a figure is, which says how it is printed (src/report/printing.h). */
enum page_figure_way {
    PAGE_FIGURE_MASS,         /* g, to what the scale shows */
    PAGE_FIGURE_VOLUME,       /* mL, to what the graduate shows */
    PAGE_FIGURE_COUNT,        /* whole things, rounded down */
    PAGE_FIGURE_TIMES,        /* a bare factor */
    PAGE_FIGURE_MASS_ERROR,   /* of so many g: half a step of the scale, in per cent of them */
    PAGE_FIGURE_VOLUME_ERROR, /* of so many mL: half a step of the graduate */
    PAGE_FIGURE_ADDEND,       /* g that stand in a row of their own: nothing is printed, and the sum that follows holds them */
    PAGE_FIGURE_SUM,          /* of the addends before it, as they are printed; no figure of its own */
    PAGE_FIGURE_WAYS
};

extern const char *const page_figure_ways[PAGE_FIGURE_WAYS];

struct page_figure {
    enum page_figure_way way;
    double number;     /* for the formula as written; the batch's is this times its scale */
    double high;       /* the upper end of a range, likewise; 0: there is none */
    size_t at, length; /* where the figure stands in the text, with its unit, in bytes */
    const struct page_figure *next; /* further behind in the text */
};

/* A text and its figures, in order. */
struct page_words {
    struct text text;
    const struct page_figure *figures; /* NULL for none */
};

/* Words without figures, and words as they are: for PAGE_WORDS, which takes either. */
static inline struct page_words page_plain(struct text text)
{
    return (struct page_words){text, NULL};
}

static inline struct page_words page_same(struct page_words words)
{
    return words;
}

#define PAGE_WORDS(either) _Generic((either), struct text: page_plain, struct page_words: page_same)(either)

/* A figure as it is printed for the batch at hand. */
struct page_words page_figure(struct arena *arena, enum page_figure_way way, double number, double high, struct text printed);

/* `pattern` with the next of the words in the place of each "{}". */
struct page_words page_join(struct arena *arena, const char *pattern, const struct page_words *words, size_t count);

#define page_compose(page, pattern, ...)                                                                                       \
    page_join((page)->arena, pattern, (const struct page_words[]){__VA_ARGS__},                                                \
              sizeof((const struct page_words[]){__VA_ARGS__}) / sizeof(struct page_words))

/* The part of the formula's batch, from `from` up to but without `below` times the formula as written, for which something on
 * the page holds. */
struct page_when {
    bool bounded;
    double from, below;
};

/* A step that amounts up to `up_to` are rounded to. */
struct page_step {
    double up_to;
    double step;
};

/* A unit that the size of the batch may be given in. */
struct page_batch_unit {
    struct text name;
    double factor; /* mL, or g of a dry mix */
    struct page_batch_unit *next;
};

/* The batch that a page is made for. */
struct page_batch {
    double makes;  /* mL, or g of a dry mix, of the formula as written; 0: the page is about no batch */
    bool by_mass;  /* a dry mix */
    struct text of;   /* what the size is the size of, "part A"; empty: all that is mixed */
    double scale;  /* of this batch against the formula as written */
    struct text unit; /* the one of the units that the size is best given in */
    double balance;   /* g that the scale shows */
    double graduate;  /* mL that the smallest graduate shows: no volume is rounded finer */
    double rough;     /* share that a reading may be off by before the eye is drawn to it */
    double heavy;     /* g from which a weight is given in kg */
    const struct page_step *volume_steps; /* mL, the finest first */
    size_t volume_step_count;
    struct page_batch_unit *first_unit, *last_unit;
};

#endif
