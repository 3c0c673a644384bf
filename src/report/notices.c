/* Notices of the gravest and of the unknown, for sheets, labels and safety notes. */
#include "report/notices.h"

#include "base/number.h"

#include <math.h>

void notice_stops(struct page *page, const struct mixture_safety *safety)
{
    for (const struct hazard_stop *stop = safety == NULL ? NULL : safety->stops; stop != NULL; stop = stop->next) {
        page_add_warning(page, PAGE_CAUTION, page_format(page, "STOP: %.*s", TEXT_ARGUMENTS(stop->material)),
                         page_format(page, "%.*s. For people trained and licensed for it, by its safety data sheet, or not at all.",
                                     TEXT_ARGUMENTS(stop->words)));
    }
}

bool notice_is_strong(const struct mixture_safety *safety)
{
    bool burns = false;
    for (const struct hazard_result *result = safety->classes; result != NULL; result = result->next) {
        burns = burns || text_is(result->code, "H314");
    }
    return hazard_acidity_is_extreme(safety->acidity) && !burns;
}

struct text notice_names(struct arena *arena, const struct hazard_cause *unassessed)
{
    struct buffer names;
    buffer_start(&names, arena);
    for (const struct hazard_cause *cause = unassessed; cause != NULL; cause = cause->next) {
        buffer_format(&names, "%s%.*s", cause == unassessed ? "" : ", ", TEXT_ARGUMENTS(cause->material));
        if (isnan(cause->percent)) {
            buffer_string(&names, " in an amount that is not stated");
        } else {
            buffer_format(&names, "\u00A0%s\u00A0%%", number_print_significant(arena, cause->percent, 2));
        }
    }
    return text_from(buffer_finish(&names));
}

void notice_unassessed(struct page *page, const struct mixture_safety *safety)
{
    if (safety == NULL || safety->unassessed == NULL) {
        return;
    }
    page_add_warning(page, PAGE_CAUTION, TEXT("NOT ASSESSED"),
                     page_format(page,
                                 "It holds %.*s: how dangerous that makes it is not known. Treat it as poisonous and corrosive until the "
                                 "safety data sheet of each says otherwise.",
                                 TEXT_ARGUMENTS(notice_names(page->arena, safety->unassessed))));
}
