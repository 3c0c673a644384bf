/* What the chemistry says beside the rows of the mixing sheet: how well an amount is weighed, whether it dissolves. */
#include "report/sheet/model.h"

#include "base/number.h"
#include "chemistry/measuring.h"
#include "chemistry/solubility.h"
#include "practice/practice.h"

#include <math.h>

/* A stock that an amount could be taken from. */
struct drawing {
    double percent; /* NAN: none */
    double volume;  /* mL of it */
    double share;   /* relative standard uncertainty of what is taken */
};

/* The best of the usual stocks: one that dissolves, and of which enough is taken to be measured. */
static struct drawing best_drawing(const struct sheet *sheet, const struct step *step, double grams)
{
    static const double usual[] = {10, 1, 0.1};
    const double least = 1; /* mL; less is not measured (common practice, no source) */
    double most = material_saturated_percent(step->material, step->form);
    struct drawing best = {.percent = NAN, .share = INFINITY};
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        double volume = grams * 100 / usual[i];
        if (volume < least || (isnan(most) ? usual[i] > 1 : usual[i] > most)) {
            continue;
        }
        double share = measured_stock_share(grams, usual[i], sheet->batch->scales->balance, scales_volume_step(sheet->batch->scales, 100),
                                            scales_volume_step(sheet->batch->scales, volume));
        if (share < best.share) {
            best = (struct drawing){usual[i], volume, share};
        }
    }
    return best;
}

/* Per cent of the stock that so little, g, is better taken from; 0: none is better than the scale. */
static double advised_percent(const struct sheet *sheet, const struct step *step, double grams)
{
    struct drawing stock = best_drawing(sheet, step, grams);
    double weighed = measured_share(measured_in_steps(grams, sheet->batch->scales->balance));
    return isnan(stock.percent) || stock.share >= weighed ? 0 : stock.percent;
}

double sheet_stock_range(const struct sheet *sheet, const struct step *step, double grams, double *percent)
{
    const double pace = 1.05;
    const double least = practice_least_weight(sheet->batch->scales->balance) / 1000;
    double good = grams * (1 - 1e-9); /* the range is open above */
    *percent = advised_percent(sheet, step, good);
    double other = good;
    while (other > least && advised_percent(sheet, step, other) == *percent) {
        good = other;
        other /= pace;
    }
    if (other <= least) {
        return 0;
    }
    for (int i = 0; i < 40; i++) {
        double middle = (good + other) / 2;
        bool same = advised_percent(sheet, step, middle) == *percent;
        good = same ? middle : good;
        other = same ? other : middle;
    }
    return good;
}

struct page_words sheet_stock_advice(const struct sheet *sheet, const struct step *step, double percent)
{
    struct page *page = sheet->page;
    if (percent == 0) {
        return page_plain((struct text){0});
    }
    double volume = step->mass * 100 / percent;
    struct page_words figure = page_plain(text_from(number_print(page->arena, percent, 1)));
    return page_compose(page, "; take {} of a {}\u00A0% solution ({}\u00A0g made up to 100\u00A0mL), measured to {}", sheet_volume(sheet, volume),
                        figure, figure, sheet_figure(sheet, PAGE_FIGURE_VOLUME_ERROR, volume));
}

/* ---- dissolving ---- */

/* So many times the water that is there would be no advice. */
enum { HOPELESS = 20 };

void sheet_note_dissolving(const struct sheet *sheet, struct sheet_line *line, const struct dissolving *list)
{
    while (list != NULL && list->step != line->at->one) {
        list = list->next;
    }
    /* A tenth over is within what other substances and the figures themselves may be off. */
    if (list == NULL || !(list->share > 1.1) || (list->dissolver != NULL && !list->dissolver_follows)) {
        return;
    }
    struct page *page = sheet->page;
    if (list->dissolver != NULL) {
        sheet_note(sheet, &line->notes,
                   page_plain(page_format(page, "Water alone does not dissolve all of it; the %.*s that follows does.",
                                          TEXT_ARGUMENTS(list->dissolver->material->name))));
        return;
    }
    struct page_words here = page_plain(text_from(number_print(page->arena, list->temperature, 0)));
    struct page_words water = sheet_volume(sheet, ceil(list->water_needed / 10) * 10);
    struct page_words words = page_plain(TEXT("Water does not dissolve nearly that much of it."));
    if (!(list->water_needed > HOPELESS * list->water)) {
        words = isnan(list->dissolves_at)
                    ? page_compose(page, "It will not all dissolve here: at {}\u00A0°C it takes about {} of water (estimate).", here, water)
                    : page_compose(page, "It will not all dissolve here at {}\u00A0°C: it takes about {} of water, or {}\u00A0°C (estimate).",
                                   here, water, page_plain(text_from(number_print(page->arena, list->dissolves_at, 0))));
    }
    sheet_note(sheet, &line->notes, words);
}

