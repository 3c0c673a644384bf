/* Bottle labels: of all formulas, or of a batch. */
#include "session/reports.h"

#include "report/label/model.h"

/* Sizes of label stock that are common, mm, with where they lie on the sheet: common practice, from memory; a sheet at hand is
 * measured with a ruler, and what differs is said by --grid, --margins and --pitch.  The first of a paper is taken when no size
 * is asked for. */
static const struct {
    enum potash_paper paper;
    struct page_labels labels;
} common[] = {
    {POTASH_A4, {99.1, 67.7, 4.65, 13.1, 101.6, 67.7, 2, 4, 1, 1}},
    {POTASH_A4, {99.1, 38.1, 4.65, 15.15, 101.6, 38.1, 2, 7, 1, 1}},
    {POTASH_A4, {99.1, 93.1, 4.65, 8.85, 101.6, 93.1, 2, 3, 1, 1}},
    {POTASH_A4, {99.1, 139, 4.65, 9.5, 101.6, 139, 2, 2, 1, 1}},
    {POTASH_A4, {63.5, 38.1, 7.2, 15.15, 66, 38.1, 3, 7, 1, 1}},
    {POTASH_A4, {63.5, 72, 7.2, 4.5, 66, 72, 3, 4, 1, 1}},
    {POTASH_A4, {105, 74, 0, 0.5, 105, 74, 2, 4, 1, 1}},
    {POTASH_A4, {70, 37, 0, 0.5, 70, 37, 3, 8, 1, 1}},
    {POTASH_LETTER, {101.6, 84.7, 4, 12.7, 106.4, 84.7, 2, 3, 1, 1}},
    {POTASH_LETTER, {101.6, 50.8, 4, 12.7, 106.4, 50.8, 2, 5, 1, 1}},
    {POTASH_LETTER, {101.6, 33.9, 4, 21.2, 106.4, 33.9, 2, 7, 1, 1}},
    {POTASH_LETTER, {66.7, 25.4, 4.8, 12.7, 69.9, 25.4, 3, 10, 1, 1}},
};

static bool is_near(double a, double b)
{
    double apart = a - b;
    return apart < 0.25 && apart > -0.25;
}

/* Labels of no common size fill the sheet, side by side in its middle. */
static struct page_labels fill_sheet(double width, double height, double paper_width, double paper_height)
{
    struct page_labels labels = {.width = width, .height = height, .pitch_across = width, .pitch_down = height};
    labels.columns = width <= paper_width ? (unsigned)((paper_width + 0.01) / width) : 1;
    labels.rows = height <= paper_height ? (unsigned)((paper_height + 0.01) / height) : 1;
    return labels;
}

static enum potash_status choose_labels(struct potash *potash, struct page_labels *labels)
{
    const struct label_sheet *wanted = &potash->label_sheet;
    enum potash_paper paper = potash->options.paper;
    double paper_width;
    double paper_height;
    session_paper_size(potash, &paper_width, &paper_height);
    bool found = false;
    for (size_t i = 0; i < sizeof common / sizeof *common && !found; i++) {
        const struct page_labels *one = &common[i].labels;
        found = common[i].paper == paper &&
                (!(wanted->width > 0) || (is_near(one->width, wanted->width) && is_near(one->height, wanted->height)));
        *labels = found ? *one : *labels;
    }
    if (!found) {
        *labels = fill_sheet(wanted->width, wanted->height, paper_width, paper_height);
    }
    bool moved = wanted->columns > 0 || wanted->across > 0;
    labels->columns = wanted->columns > 0 ? (unsigned)wanted->columns : labels->columns;
    labels->rows = wanted->rows > 0 ? (unsigned)wanted->rows : labels->rows;
    labels->pitch_across = wanted->across > 0 ? wanted->across : labels->pitch_across;
    labels->pitch_down = wanted->down > 0 ? wanted->down : labels->pitch_down;
    double across = labels->pitch_across * (labels->columns - 1) + labels->width;
    double down = labels->pitch_down * (labels->rows - 1) + labels->height;
    if (potash->options.label_sheet.margins != NULL) {
        labels->left = wanted->left;
        labels->top = wanted->top;
    } else if (!found || moved) {
        labels->left = (paper_width - across) / 2;
        labels->top = (paper_height - down) / 2;
    }
    labels->start = (unsigned)wanted->start;
    labels->copies = (unsigned)wanted->copies;
    if (labels->left < -0.01 || labels->top < -0.01 || labels->left + across > paper_width + 0.5 ||
        labels->top + down > paper_height + 0.5) {
        return session_unusable(potash, "%u x %u labels of %g x %g mm do not go on a sheet of %g x %g mm", labels->columns,
                                labels->rows, labels->width, labels->height, paper_width, paper_height);
    }
    if (labels->start > labels->columns * labels->rows) {
        return session_unusable(potash, "--start %u: the sheet has %u labels", labels->start, labels->columns * labels->rows);
    }
    return POTASH_GOOD;
}

/* Whether the batch that is asked for is there and sound; its formula may stand in a file that is only read. */
static enum potash_status batch_ready(struct potash *potash)
{
    const struct mixing *batch = batches_find(&potash->batches, text_from(potash->options.batch));
    if (batch == NULL) {
        return session_unusable(potash, "no batch is called \"%.80s\" in these files", potash->options.batch);
    }
    bool faulty = potash->loose_errors > 0 || potash->strictly_faulty;
    return faulty || batch->faulty || batch->formula == NULL || batch->formula->faulty ? POTASH_FAULTY : POTASH_GOOD;
}

enum potash_status session_labels_ready(struct potash *potash)
{
    return potash->options.batch != NULL ? batch_ready(potash) : session_baths_ready(potash);
}

/* Those that are asked for, one after the other. */
static enum potash_status each_label(struct potash *potash, void (*take)(void *context, struct label *label), void *context)
{
    const char *of = potash->options.label_of;
    const struct mixing *batch = potash->options.batch == NULL ? NULL : batches_find(&potash->batches, text_from(potash->options.batch));
    const struct formula *alone[] = {batch == NULL ? NULL : batch->formula, NULL};
    bool any = false;
    for (const struct formula **bath = batch != NULL ? alone : session_baths(potash, true); *bath != NULL; bath++) {
        for (struct label *label = label_model(&potash->context, *bath, of, batch); label != NULL; label = label->next) {
            any = true;
            take(context, label);
        }
    }
    return any ? POTASH_GOOD
               : session_unusable(potash, "there is no %s to make a label for",
                                  of == NULL && potash->options.use_for == NULL ? "formula" : "working solution");
}

static void add_label(void *set, struct label *label)
{
    label->page = page_set_add(set);
    label_page(label);
}

static void list_label(void *potash, struct label *label)
{
    put_item(&((struct potash *)potash)->building, label_json(label));
}

enum potash_status session_add_labels(struct potash *potash, struct page_set *set)
{
    struct page_labels *labels = ARENA_NEW(&potash->arena, struct page_labels);
    if (choose_labels(potash, labels) != POTASH_GOOD) {
        return POTASH_UNUSABLE;
    }
    set->labels = labels;
    return each_label(potash, add_label, set);
}

enum potash_status session_list_labels(struct potash *potash)
{
    return each_label(potash, list_label, potash);
}
