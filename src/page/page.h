/* The page: what stands on a mixing sheet, a label or any other printed report, without a word on how it looks.
 *
 * A report fills a page by the calls below; a renderer reads the structures and sets them for its medium.  All texts
 * are copied into the page's arena when they are handed in, with white space of any kind made one blank: they are valid
 * UTF-8 in one line.  Signs that are not seen stay; a renderer gives them out through base/shown.h.  A text that is not there has length 0.
 *
 * A no-break space (U+00A0) is kept; renderers do not part a line there.  No call fails: memory that runs out jumps to
 * the place that arena_guard marked (base/arena.h). */
#ifndef POTASH_PAGE_PAGE_H
#define POTASH_PAGE_PAGE_H

#include "base/arena.h"
#include "base/buffer.h"
#include "base/text.h"
#include "page/figure.h"

#include <stdbool.h>
#include <stddef.h>

/* What a printed amount says to a program: not rounded for the eye. */
struct page_value {
    bool given;
    double number;
    struct text unit; /* "g", "mL", "GBP"; length 0 for a bare number */
};

/* A label and what stands for it: "batch", "2 L (2 x the formula)". */
struct page_fact {
    struct arena *arena;
    struct text label;
    struct text text;
    const struct page_figure *figures; /* of the text; NULL for none.  Likewise below */
    struct page_value value;
    struct page_when when;
    struct page_fact *next;        /* that holds for the batch at hand */
    struct page_fact *next_of_all; /* that holds for this or another batch */
};

struct page_facts {
    struct arena *arena;
    struct page_fact *first, *last;
    struct page_fact *first_of_all, *last_of_all;
};

/* ---- lists ---- */

enum page_marks {
    PAGE_POINTS,  /* things side by side */
    PAGE_NUMBERS, /* steps in order, numbered from 1 */
    PAGE_TICKS    /* things to tick off with a pencil */
};

struct page_item {
    struct text text;
    const struct page_figure *figures;
    bool aside; /* of a row's notes: said in passing, no warning */
    struct page_when when;
    struct page_item *next;        /* that holds for the batch at hand */
    struct page_item *next_of_all; /* that holds for this or another batch */
};

struct page_list {
    struct arena *arena;
    enum page_marks marks;
    struct page_item *first, *last;
};

/* ---- tables ---- */

enum page_alignment {
    PAGE_LEFT,
    PAGE_RIGHT,
    PAGE_DECIMAL, /* decimal points of the first figures stand in line */
    PAGE_CENTRE
};

enum page_column_kind {
    PAGE_COLUMN_TEXT,
    PAGE_COLUMN_AMOUNT, /* figures with their unit: never broken over lines while there is another way */
    PAGE_COLUMN_TICK,   /* a box to tick in every row */
    PAGE_COLUMN_BLANK   /* room in every row to write by hand */
};

struct page_column {
    struct text title;
    enum page_column_kind kind;
    enum page_alignment alignment;
    unsigned priority; /* 1: stands in the table on every medium; the higher, the sooner it gives way on a narrow one */
    bool record;       /* looked up afterwards, not while somebody works: may stand small below the row's first text … */
    struct text before, behind; /* … between these words */
    size_t index;      /* from 0 */
    struct page_column *next;
};

struct page_cell {
    struct text text; /* in a tick or blank column: stands in place of the box or the blank */
    const struct page_figure *figures;
    struct page_value value;
    bool emphasis; /* the eye should fall here: a changed amount, say */
    bool nothing;  /* neither box nor blank belongs here */
};

enum page_row_kind {
    PAGE_ROW_ORDINARY,
    PAGE_ROW_BETWEEN, /* a working step between rows, across the full width: "stand 12 h"; has a box where the table has
                       */
    PAGE_ROW_TOTAL    /* sums up the rows above */
};

struct page_row {
    struct page_table *table;
    enum page_row_kind kind;
    struct text text;        /* of a row between */
    struct page_cell *cells; /* by the index of the column; `cell_count` may be less than the table has columns */
    size_t cell_count;
    struct page_item *first_note, *last_note;
    struct page_item *first_note_of_all, *last_note_of_all;
    struct page_row *next;
};

struct page_table {
    struct arena *arena;
    bool bench; /* somebody measures out from it and reads it at arm's length: amounts stand large where there is room */
    struct page_column *first_column, *last_column;
    size_t column_count;
    struct page_row *first_row, *last_row;
};

/* ---- the other blocks ---- */

struct page_heading {
    unsigned level; /* 1 or 2 */
    struct text text;
    const struct page_figure *figures;
};

enum page_severity { PAGE_NOTE, PAGE_CAUTION };

struct page_warning {
    enum page_severity severity;
    struct text title; /* may be empty */
    struct text text;
};

/* How much a hand writes into a blank. */
enum page_room {
    PAGE_ROOM_FIGURE, /* a number: pH, a temperature */
    PAGE_ROOM_NAME,   /* a date, a name, a batch number */
    PAGE_ROOM_LINE    /* whatever fits on a line */
};

struct page_blank {
    struct text label;
    struct text unit; /* printed behind the blank; may be empty */
    enum page_room room;
    struct page_blank *next;
};

struct page_blanks {
    struct arena *arena;
    struct page_blank *first, *last;
};

struct page_pictogram {
    struct text code; /* of the UN GHS: "GHS07" */
    struct text name; /* what it shows or means, in words: "exclamation mark" */
    struct page_pictogram *next;
};

struct page_pictograms {
    struct arena *arena;
    struct page_pictogram *first, *last;
};

/* A square code for a camera (ISO/IEC 18004), and what stands beside it for people. */
struct page_code {
    struct text content; /* what the code says */
    struct text label;   /* "batch PD-014" */
};

/* One stage of a course of work: a bath, a wash. */
struct page_stage {
    struct text name;    /* "developer" */
    struct text detail;  /* "20 °C; 10 s every minute"; may be empty */
    double start;        /* s from the start of the course */
    double duration;     /* s; NAN: until it is done */
    struct page_stage *next;
};

/* Stages that follow one another by the clock. */
struct page_timeline {
    struct arena *arena;
    struct text label; /* what runs: "Roll film, one reel" */
    struct page_stage *first, *last;
};

/* A page that an entry of a table of contents or an index leads to, by its anchor. */
struct page_target {
    struct text anchor;
    struct page_target *next;
};

struct page_entry {
    struct page_contents *contents;
    unsigned level;     /* 1: a group, 2: what belongs to it, 3: what hangs on that (a variant) */
    struct text text;   /* "Tern film developer" */
    struct text detail; /* said in passing behind it; may be empty */
    struct page_target *first_target, *last_target;
    struct page_entry *next;
};

/* A table of contents or an index of the pages that go out together: a renderer that has page numbers prints them, one that has
 * links makes them. */
struct page_contents {
    struct arena *arena;
    struct page_entry *first, *last;
};

enum page_block_kind {
    PAGE_HEADING,
    PAGE_PARAGRAPH,
    PAGE_LIST,
    PAGE_FACTS,
    PAGE_TABLE,
    PAGE_WARNING,
    PAGE_BLANKS,
    PAGE_PICTOGRAMS,
    PAGE_CODE,
    PAGE_TIMELINE,
    PAGE_CONTENTS,
    PAGE_RULE,
    PAGE_BREAK /* what follows starts on a new sheet, where the medium has sheets */
};

struct page_block {
    enum page_block_kind kind;
    bool keep_with_next; /* no new sheet between this block and the one that follows; always so for headings */
    unsigned gives_way;  /* 0: stands on every medium; the higher, the sooner it is left out of one that is too small, such as a
                          * label */
    struct text gives_way_as; /* what is then said to be left out: "contents" */
    union {
        struct page_heading *heading;
        struct text paragraph;
        struct page_list *list;
        struct page_facts *facts;
        struct page_table *table;
        struct page_warning *warning;
        struct page_blanks *blanks;
        struct page_pictograms *pictograms;
        struct page_code *code;
        struct page_timeline *timeline;
        struct page_contents *contents;
    } as;
    const struct page_figure *figures; /* of a paragraph */
    struct page_block *next;
};

struct page {
    struct arena *arena;
    struct text title;
    struct text subtitle;
    struct page_facts facts; /* what the page is about: kind, batch, provenance */
    struct page_batch batch;
    struct text source;      /* the file that it was made from */
    struct text date;        /* when it was made, ISO 8601 */
    struct text anchor;      /* by which other pages of the set lead here; may be empty */
    struct text caution;     /* the line that every page carries at its foot */
    struct page_block *first, *last;
};

/* ---- filling a page ---- */

/* An empty page; all that is put on it lives in `arena`. */
struct page *page_start(struct arena *arena);

void page_set_title(struct page *page, struct text title);
void page_set_subtitle(struct page *page, struct text subtitle);
void page_set_source(struct page *page, struct text source);
void page_set_date(struct page *page, struct text date);
void page_set_caution(struct page *page, struct text caution);

/* Where the entries of contents and indexes lead to: letters, figures and '-', once in a set. */
void page_set_anchor(struct page *page, struct text anchor);

/* A fact at the head of the page. */
struct page_fact *page_add_fact(struct page *page, struct text label, struct text text);

/* The batch that the page is made for, in the unit that its size is best given in; to be said before anything that depends on
 * it.  Any unit may be offered beside that one. */
void page_set_batch(struct page *page, const struct page_batch *batch);
void page_batch_unit(struct page *page, struct text name, double factor);

/* What holds for a batch from `from` up to but without `below` times the formula as written.  It is put on the page whether or
 * not it holds for the batch at hand; renderers that show only that one do not meet it when it does not. */
struct page_fact *page_add_fact_words_when(struct page *page, double from, double below, struct text label, struct page_words words);

/* A heading; a level that is neither 1 nor 2 is taken as the nearer of them. */
void page_add_heading_words(struct page *page, unsigned level, struct page_words words);

/* Running text. */
void page_add_paragraph_words(struct page *page, struct page_words words);

/* A list, empty at first. */
struct page_list *page_add_list(struct page *page, enum page_marks marks);
void page_list_item_words(struct page_list *list, struct page_words words);

/* Facts in the body of the page: keeping times, a working solution. */
struct page_facts *page_add_facts(struct page *page);
struct page_fact *page_facts_add_words(struct page_facts *facts, struct text label, struct page_words words);
void page_fact_value(struct page_fact *fact, double number, struct text unit);
void page_fact_strong(struct page_fact *fact);

/* A box that stops the reader (PAGE_CAUTION) or says something aside (PAGE_NOTE). */
void page_add_warning(struct page *page, enum page_severity severity, struct text title, struct text text);

/* Blanks to fill in by hand. */
struct page_blanks *page_add_blanks(struct page *page);
void page_blank(struct page_blanks *blanks, struct text label, enum page_room room, struct text unit);

/* Hazard pictograms, side by side. */
struct page_pictograms *page_add_pictograms(struct page *page);
void page_pictogram(struct page_pictograms *pictograms, struct text code, struct text name);

/* A square code; renderers without graphics print its label and what it says. */
void page_add_code(struct page *page, struct text content, struct text label);

/* A course of work by the clock, empty at first; a renderer that can may run timers from it. */
struct page_timeline *page_add_timeline(struct page *page, struct text label);
void page_stage(struct page_timeline *timeline, struct text name, struct text detail, double start, double duration);

/* A table of contents or an index, empty at first. */
struct page_contents *page_add_contents(struct page *page);
struct page_entry *page_contents_entry(struct page_contents *contents, unsigned level, struct text text, struct text detail);
void page_entry_target(struct page_entry *entry, struct text anchor);

/* A line across, between parts of the page. */
void page_add_rule(struct page *page);

/* A new sheet from here on. */
void page_add_break(struct page *page);

/* The block added last stays on one sheet with the one that follows. */
void page_keep_with_next(struct page *page);

/* The block added last is left out where the medium is too small for all: those of the highest `order` go first, those of 0
 * never.  The medium says by `name` what was left out. */
void page_gives_way(struct page *page, unsigned order, struct text name);

/* A table, empty at first. */
struct page_table *page_add_table(struct page *page);

/* Its next column; see struct page_column for what the arguments mean. */
struct page_column *page_table_column(struct page_table *table, struct text title, enum page_column_kind kind,
                                      enum page_alignment alignment, unsigned priority);

/* Somebody measures out from the table. */
void page_table_at_bench(struct page_table *table);

/* What the column holds is for the record: "as written" is to stand `before` it, " per litre" `behind`. */
void page_column_for_record(struct page_column *column, struct text before, struct text behind);

/* Its next row; boxes and blanks stand in it by themselves. */
struct page_row *page_table_row(struct page_table *table);

/* A working step, or a remark on the order of work, between the rows. */
struct page_row *page_table_between(struct page_table *table, struct text text);

/* A row that sums up; boxes and blanks do not stand in it. */
struct page_row *page_table_total(struct page_table *table);

/* Puts text into a cell, replacing what was there.  The cell returned is good until another of its row is set. */
struct page_cell *page_row_cell_words(struct page_row *row, const struct page_column *column, struct page_words words);

/* The same with what it says to a program. */
struct page_cell *page_row_amount_words(struct page_row *row, const struct page_column *column, struct page_words words, double number,
                                        struct text unit);

/* Draws the eye to a cell. */
void page_row_emphasize(struct page_row *row, const struct page_column *column);

/* No box or blank in this row: nothing is to be ticked or written there. */
void page_row_without(struct page_row *row, const struct page_column *column);

/* A warning that belongs to the row and stands below it. */
void page_row_note_words(struct page_row *row, struct page_words words);

/* The same, for batches of that size alone: see page_add_fact_when. */
void page_row_note_words_when(const struct page *page, struct page_row *row, double from, double below, struct page_words words);

/* A remark that belongs to the row and warns of nothing. */
void page_row_remark_words(struct page_row *row, struct page_words words);

/* Where figures can stand, a text or words will do. */
#define page_add_heading(page, level, words) page_add_heading_words(page, level, PAGE_WORDS(words))
#define page_add_paragraph(page, words) page_add_paragraph_words(page, PAGE_WORDS(words))
#define page_list_item(list, words) page_list_item_words(list, PAGE_WORDS(words))
#define page_facts_add(facts, label, words) page_facts_add_words(facts, label, PAGE_WORDS(words))
#define page_add_fact_when(page, from, below, label, words) page_add_fact_words_when(page, from, below, label, PAGE_WORDS(words))
#define page_row_cell(row, column, words) page_row_cell_words(row, column, PAGE_WORDS(words))
#define page_row_amount(row, column, words, number, unit) page_row_amount_words(row, column, PAGE_WORDS(words), number, unit)
#define page_row_note(row, words) page_row_note_words(row, PAGE_WORDS(words))
#define page_row_note_when(page, row, from, below, words) page_row_note_words_when(page, row, from, below, PAGE_WORDS(words))
#define page_row_remark(row, words) page_row_remark_words(row, PAGE_WORDS(words))

/* ---- for those who fill and those who render ---- */

/* A time of the running clock: "0:30", "12:00", "1:02:30". */
struct text page_clock(struct arena *arena, double seconds);

/* Text put together as by printf, in the page's arena. */
struct text page_format(struct page *page, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* The cell of a column, or an empty one where none was set; never NULL. */
const struct page_cell *page_cell_at(const struct page_row *row, size_t index);

/* Whether the box of a tick column, or the blank of a blank column, stands in the row. */
bool page_row_has_box(const struct page_row *row, const struct page_column *column);

/* ---- renderers ---- */

/* As plain text in UTF-8, for a terminal or a line printer `width` columns wide (0: 80; less than 20 is taken as 20).
 * Every line ends with a newline, none has a tab or a blank at its end, none is wider than `width`. */
void page_render_text(const struct page *page, struct buffer *out, size_t width);

#endif
