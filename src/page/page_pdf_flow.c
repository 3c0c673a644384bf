/* Pieces flow into columns and sheets. */
#include "page/page_pdf_layout.h"

#include <math.h>

struct flow {
    struct arena *arena;
    const struct pdf_frame *frame;
    struct pdf_sheets *sheets;
    double used; /* of the sheet at hand */
};

#define LEAST_TO_START 60.0 /* pt: less is left empty rather than begun in two columns */
#define NEARLY 0.01         /* sums of lengths are not exact */

static double top_of_sheet(const struct flow *flow)
{
    return flow->sheets->count <= 1 ? flow->frame->top : flow->frame->later_top;
}

static double height_of_sheet(const struct flow *flow)
{
    if (flow->frame->one_sheet) {
        return INFINITY;
    }
    return flow->sheets->count <= 1 ? flow->frame->height : flow->frame->later_height;
}

static void next_sheet(struct flow *flow)
{
    struct pdf_sheet *sheet = ARENA_NEW(flow->arena, struct pdf_sheet);
    if (flow->sheets->last == NULL) {
        flow->sheets->first = sheet;
    } else {
        flow->sheets->last->next = sheet;
    }
    flow->sheets->last = sheet;
    flow->sheets->count++;
    flow->used = 0;
}

static void put_piece(struct flow *flow, const struct pdf_piece *piece, double x, double y)
{
    for (const struct pdf_mark *mark = piece->first; mark != NULL; mark = mark->next) {
        pdf_put_mark(flow->arena, flow->sheets->last, mark, flow->frame->left + x, top_of_sheet(flow) + y);
    }
}

/* The piece behind those that stay together with `first`. */
static struct pdf_piece *end_of_group(const struct pdf_piece *first)
{
    while (first->keep_with_next && first->next != NULL && first->next->wide == first->wide && !first->next->new_sheet) {
        first = first->next;
    }
    return first->next;
}

/* Height of the pieces up to `end`, set from `used` on. */
static double height_of_group(const struct pdf_piece *first, const struct pdf_piece *end, double used)
{
    double height = used <= 0 && first->repeat != NULL ? first->repeat->height : 0;
    for (const struct pdf_piece *piece = first; piece != end; piece = piece->next) {
        height += (used + height > 0 ? piece->before : 0) + piece->height;
    }
    return height;
}

/* Sets pieces from `first` to before `end` into a column that is `height` high and filled up to *used; the first that did not
 * fit.  Without `flow` it is only reckoned.  At least one piece goes into an empty column. */
static struct pdf_piece *fill_column(struct flow *flow, struct pdf_piece *first, const struct pdf_piece *end, double x, double y,
                                     double height, double *used)
{
    struct pdf_piece *piece = first;
    while (piece != end) {
        struct pdf_piece *group_end = end_of_group(piece);
        double wanted = height_of_group(piece, group_end, *used);
        if (*used + wanted > height + NEARLY) {
            if (*used > 0) {
                return piece;
            }
            group_end = piece->next; /* more than a column can hold: it has to part */
        }
        if (*used <= 0 && piece->repeat != NULL) {
            if (flow != NULL) {
                put_piece(flow, piece->repeat, x, y + *used);
            }
            *used += piece->repeat->height;
        }
        for (; piece != group_end; piece = piece->next) {
            *used += *used > 0 ? piece->before : 0;
            if (flow != NULL) {
                put_piece(flow, piece, x, y + *used);
            }
            *used += piece->height;
        }
    }
    return piece;
}

static bool fits_in_two(struct pdf_piece *first, const struct pdf_piece *end, double height)
{
    double used = 0;
    struct pdf_piece *rest = fill_column(NULL, first, end, 0, 0, height, &used);
    bool fits = used <= height + NEARLY;
    used = 0;
    return fill_column(NULL, rest, end, 0, 0, height, &used) == end && fits && used <= height + NEARLY;
}

/* The least height in which two columns hold the pieces, up to `most`, which does. */
static double balanced_height(struct pdf_piece *first, const struct pdf_piece *end, double most)
{
    double least = 0;
    while (most - least > 0.5) {
        double middle = (least + most) / 2;
        if (fits_in_two(first, end, middle)) {
            most = middle;
        } else {
            least = middle;
        }
    }
    return most;
}

static void set_columns(struct flow *flow, struct pdf_piece *first, const struct pdf_piece *end)
{
    double across = (flow->frame->width + flow->frame->gutter) / 2;
    while (first != end) {
        double start = flow->used + (flow->used > 0 ? first->before : 0);
        double left = height_of_sheet(flow) - start;
        if (left < LEAST_TO_START && flow->used > 0) {
            next_sheet(flow);
            continue;
        }
        double most = isfinite(left) ? left : 1e5;
        bool all = fits_in_two(first, end, most);
        double height = all ? balanced_height(first, end, most) : most;
        double used[2] = {0, 0};
        first = fill_column(flow, first, end, 0, start, height, &used[0]);
        first = fill_column(flow, first, end, across, start, height, &used[1]);
        flow->used = start + fmax(used[0], used[1]);
        if (first != end) {
            next_sheet(flow);
        }
    }
}

static void set_wide(struct flow *flow, struct pdf_piece *first, const struct pdf_piece *end)
{
    while (first != end) {
        first = fill_column(flow, first, end, 0, 0, height_of_sheet(flow), &flow->used);
        if (first != end) {
            next_sheet(flow);
        }
    }
}

double pdf_flow(struct arena *arena, const struct pdf_frame *frame, struct pdf_piece *first, struct pdf_sheets *sheets)
{
    struct flow flow = {arena, frame, sheets, 0};
    next_sheet(&flow);
    while (first != NULL) {
        if (first->new_sheet && flow.used > 0 && !frame->one_sheet) {
            next_sheet(&flow);
        }
        struct pdf_piece *end = first->next;
        while (end != NULL && end->wide == first->wide && !end->new_sheet) {
            end = end->next;
        }
        if (first->wide) {
            set_wide(&flow, first, end);
        } else {
            set_columns(&flow, first, end);
        }
        first = end;
    }
    return flow.used;
}
