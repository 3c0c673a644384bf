/* The cost of formulas, by the shelf's prices. */
#include "session/session.h"

#include "report/cost.h"

#include <math.h>

bool session_read_against(struct potash *potash)
{
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_MONEY) | DIMENSION_BIT(DIMENSION_NONE),
                                          .most = 1e9,
                                          .example = "4.80, or \"4.80 GBP\""};
    const char *words = potash->options.against;
    return words == NULL || !isnan(session_read_option(potash, "--against", words, &wanted, &potash->against));
}

/* `--against 4.80`, in the currency of the shelf. */
static enum potash_status read_against(struct potash *potash, struct cost_terms *terms)
{
    const char *words = potash->options.against;
    const struct unit *currency = potash->store.currency;
    const struct measure_given given = potash->against;
    if (words == NULL) {
        return POTASH_GOOD;
    }
    if (currency == NULL) {
        return session_unusable(potash, "--against: the shelf states no currency to compare in");
    }
    if (given.unit != NULL && given.unit != currency) {
        return session_unusable(potash, "--against: the shelf reckons in %.*s, and %.*s cannot be compared with it",
                                TEXT_ARGUMENTS(currency->name), TEXT_ARGUMENTS(given.unit->name));
    }
    long long coins;
    if (!money_read(currency, given.value, &coins)) {
        return session_unusable(potash, "--against: no coins of %.*s make up \"%.80s\"", TEXT_ARGUMENTS(currency->name), words);
    }
    terms->against = true;
    terms->bought = money_of_coins(coins);
    return POTASH_GOOD;
}

static enum potash_status read_terms(struct potash *potash, struct cost_terms *terms)
{
    *terms = (struct cost_terms){.by = potash->context.price_by, .goods = potash->goods};
    if (store_is_empty(&potash->store)) {
        return session_unusable(potash, "there is no shelf in these files to take prices from; name its file too, or give it with "
                                        "--shelf");
    }
    return read_against(potash, terms);
}

static const struct formula *next_sound(void *walker, const struct formula *before)
{
    const struct formula *formula = session_next(walker, before);
    while (formula != NULL && formula->faulty) {
        formula = session_next(walker, formula);
    }
    return formula;
}

static enum potash_status put_json(struct potash *potash, const struct cost_terms *terms, struct potash_output *output)
{
    potash->building = json_array();
    for (const struct formula *formula = next_sound(potash, NULL); formula != NULL; formula = next_sound(potash, formula)) {
        put_item(&potash->building, report_cost_json(&potash->context, terms, formula));
    }
    return session_put_json(potash, json_pack("{s:s, s:o}", "potash", POTASH_VERSION, "formulas", session_built(potash)), output);
}

enum potash_status potash_cost(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    *output = (struct potash_output){0};
    enum potash_status ready = session_ready(potash);
    struct cost_terms terms;
    if (ready == POTASH_UNUSABLE || read_terms(potash, &terms) != POTASH_GOOD) {
        return POTASH_UNUSABLE;
    }
    if (ready != POTASH_GOOD || (ready = session_know_use(potash)) != POTASH_GOOD) {
        return ready;
    }
    if (format == POTASH_JSON) {
        return put_json(potash, &terms, output);
    }
    struct page_set set;
    page_set_start(&set, &potash->arena);
    size_t count = 0;
    for (const struct formula *formula = next_sound(potash, NULL); formula != NULL; formula = next_sound(potash, formula)) {
        report_cost(&potash->context, &terms, formula, page_set_add(&set));
        count++;
    }
    if (count > 1) {
        report_costs_beside(&potash->context, &terms, page_set_add(&set), next_sound, potash);
    }
    return session_put_pages(potash, &set, "costs", format, output);
}
