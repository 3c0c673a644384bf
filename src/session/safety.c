/* The safety notes of a session. */
#include "session/session.h"

static enum potash_status put_json(struct potash *potash, struct potash_output *output)
{
    potash->building = json_array();
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        put_item(&potash->building, report_safety_json(&potash->context, formula));
    }
    for (const struct stock *stock = session_next_stock(potash, NULL); stock != NULL; stock = session_next_stock(potash, stock)) {
        const struct formula *formula = stock_formula(&potash->formulary, stock);
        if (formula != NULL) {
            put_item(&potash->building, report_safety_json(&potash->context, formula));
        }
    }
    return session_put_json(potash, json_pack("{s:s, s:o}", "potash", POTASH_VERSION, "formulas", session_built(potash)), output);
}

enum potash_status potash_safety(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    const struct stock *stocks = session_next_stock(potash, NULL);
    bool only_stocks = stocks != NULL && session_next(potash, NULL) == NULL && potash->diagnostics.errors == 0;
    enum potash_status status = only_stocks ? POTASH_GOOD : session_ready(potash);
    if (status != POTASH_GOOD || (status = session_know_use(potash)) != POTASH_GOOD) {
        return status;
    }
    if (format == POTASH_JSON) {
        return put_json(potash, output);
    }
    struct page_set set;
    page_set_start(&set, &potash->arena);
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        report_safety(&potash->context, formula, page_set_add(&set));
    }
    for (const struct stock *stock = stocks; stock != NULL; stock = session_next_stock(potash, stock)) {
        const struct formula *formula = stock_formula(&potash->formulary, stock);
        if (formula != NULL) {
            report_safety(&potash->context, formula, page_set_add(&set));
        }
    }
    return session_put_pages(potash, &set, "safety", format, output);
}
