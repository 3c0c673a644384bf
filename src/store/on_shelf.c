/* Needs against what is left on the shelf. */
#include "store/on_shelf.h"

#include "base/number.h"
#include "library/replacement.h"

#include <math.h>

/* Weights are compared as closely as doubles are reckoned. */
#define CLOSE 1e-9

static double in_form(const struct form *from, const struct form *to, double grams)
{
    return from == to ? grams : form_equivalent(from, to, grams);
}

/* Grams of `as` that the usable packs of a form of a material stand for; any form when `form` is NULL. */
static double left_in_form(const struct store *store, const struct material *material, const struct form *form,
                           const struct form *as)
{
    double sum = 0;
    for (const struct pack *pack = store_usable(store, material); pack != NULL; pack = pack->next_usable) {
        if (form == NULL || pack->form == form) {
            double grams = in_form(pack->form, as, pack_grams(pack, pack->left));
            sum += isnan(grams) ? 0 : grams;
        }
    }
    return sum;
}

/* Takes up to `wanted` grams of `as` from the packs of a form, those to be used first before the others; what is still wanted. */
static double draw(const struct store *store, const struct material *material, const struct form *form, const struct form *as,
                   double wanted, struct drawn ***end)
{
    for (const struct pack *pack = store_usable(store, material); pack != NULL && wanted > 0; pack = pack->next_usable) {
        if (pack->form != form) {
            continue;
        }
        double there = in_form(pack->form, as, pack_grams(pack, pack->left));
        double taken = fmin(there, wanted);
        struct drawn *drawn = ARENA_NEW(store->arena, struct drawn);
        drawn->pack = pack;
        drawn->does_for = taken;
        drawn->grams = in_form(as, pack->form, taken);
        **end = drawn;
        *end = &drawn->next;
        wanted = wanted - taken > CLOSE * taken ? wanted - taken : 0;
    }
    return wanted;
}

/* The form other than `written` that suffices and of which least is left over; NULL when none suffices. */
static const struct form *sufficient_form(const struct store *store, const struct need *need)
{
    const struct form *found = NULL;
    double least = INFINITY;
    for (size_t i = 0; i < need->material->form_count; i++) {
        const struct form *form = &need->material->forms[i];
        double left = form == need->form ? 0 : left_in_form(store, need->material, form, need->form);
        if (left > 0 && left >= need->grams * (1 - CLOSE) && left < least) {
            least = left;
            found = form;
        }
    }
    return found;
}

/* ---- other materials ---- */

/* Whether a material consists of the ion that acts and of sodium, potassium, lithium and what makes it acid or alkaline. */
static bool is_plain_salt(const struct material *material, struct text acting)
{
    static const char *const bystanders[] = {"Na+", "K+", "Li+", "H+", "OH-"};
    double known = library_ion_count(material, acting);
    for (size_t i = 0; i < sizeof bystanders / sizeof *bystanders; i++) {
        bool counted = text_is(acting, bystanders[i]);
        known += counted ? 0 : library_ion_count(material, text_from(bystanders[i]));
    }
    double total = library_ion_total(material);
    return total > 0 && fabs(known - total) < CLOSE;
}

/* Grams of `to` that do for the need without changing how acid the bath is; NAN when they do not. */
static double grams_instead(const struct need *need, const struct material *to, const struct form *form)
{
    struct formed_material from = {need->material, need->form};
    struct formed_material other = {to, form};
    struct replacement replacement = material_replacement(&from, need->grams, &other, NULL);
    bool good = replacement.fault == REPLACEMENT_GOOD && !(fabs(replacement.acidity) > 0) && replacement.ion.length > 0 &&
                is_plain_salt(need->material, replacement.ion) && is_plain_salt(to, replacement.ion);
    return good ? replacement.grams : NAN;
}

static bool find_other_material(const struct store *store, struct found *found)
{
    const struct need *need = found->need;
    for (const struct supply *supply = store->supplies; supply != NULL; supply = supply->hh.next) {
        if (supply->material->entry == need->material->entry) {
            continue;
        }
        const struct form *tried = NULL;
        for (const struct pack *pack = supply->usable; pack != NULL; pack = pack->next_usable) {
            double grams = pack->form == tried ? NAN : grams_instead(need, supply->material, pack->form);
            tried = pack->form;
            if (!isnan(grams) && left_in_form(store, supply->material, pack->form, pack->form) >= grams * (1 - CLOSE)) {
                struct drawn **end = &found->drawn;
                draw(store, supply->material, pack->form, pack->form, grams, &end);
                for (struct drawn *drawn = found->drawn; drawn != NULL; drawn = drawn->next) {
                    drawn->does_for = need->grams * drawn->grams / grams;
                }
                found->how = FOUND_OTHER_MATERIAL;
                return true;
            }
        }
    }
    return false;
}

/* ---- a need ---- */

static bool has_old(const struct store *store, const struct need *need)
{
    for (const struct pack *pack = store_packs(store, need->material); pack != NULL; pack = pack->next_of_material) {
        if (!pack->sold && pack->left > 0 && pack_is_old(store, pack)) {
            return true;
        }
    }
    return false;
}

/* The same by the material itself, in whatever form. */
static struct found find_itself(const struct store *store, const struct need *need)
{
    struct found found = {.need = need, .how = FOUND_AS_WRITTEN};
    struct drawn **end = &found.drawn;
    double written = left_in_form(store, need->material, need->form, need->form);
    double enough = need->grams * (1 - CLOSE);
    if (written > 0 && written >= enough) {
        draw(store, need->material, need->form, need->form, need->grams, &end);
        return found;
    }
    found.how = FOUND_OTHER_FORM;
    const struct form *other = sufficient_form(store, need);
    if (other != NULL) {
        draw(store, need->material, other, need->form, need->grams, &end);
        return found;
    }
    double all = left_in_form(store, need->material, NULL, need->form);
    if (all > 0 && all >= enough) {
        double wanted = draw(store, need->material, need->form, need->form, need->grams, &end);
        for (size_t i = 0; i < need->material->form_count; i++) {
            const struct form *form = &need->material->forms[i];
            bool comparable = form != need->form && in_form(form, need->form, 1) > 0;
            wanted = comparable ? draw(store, need->material, form, need->form, wanted, &end) : wanted;
        }
        return found;
    }
    found.short_of = need->grams - all;
    found.how = all > 0 ? FOUND_TOO_LITTLE : has_old(store, need) ? FOUND_ONLY_OLD : FOUND_NOTHING;
    return found;
}

struct found store_find(const struct store *store, const struct need *need)
{
    struct found found = find_itself(store, need);
    if (!found_is_there(&found)) {
        find_other_material(store, &found);
    }
    return found;
}

struct found *store_find_all(const struct store *store, const struct need *needs)
{
    struct found *list = NULL;
    struct found **end = &list;
    for (const struct need *need = needs; need != NULL; need = need->next) {
        struct found *found = ARENA_NEW(store->arena, struct found);
        *found = store_find(store, need);
        *end = found;
        end = &found->next;
    }
    return list;
}

/* ---- the warning ---- */

static struct diagnostic *say(struct diagnostics *diagnostics, struct formula *formula, struct span span, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    struct diagnostic *diagnostic = formula_say(diagnostics, formula, DIAG_NOT_ON_SHELF, span, format, arguments);
    va_end(arguments);
    return diagnostic;
}

static void say_missing(const struct store *store, struct formula *formula, const struct need *need, const struct found *found)
{
    bool empty = false;
    for (const struct pack *pack = store_packs(store, need->material); pack != NULL; pack = pack->next_of_material) {
        empty = empty || !pack->sold;
    }
    struct text name = need->material->name;
    struct diagnostic *diagnostic =
        say(store->diagnostics, formula, need->span, found->how == FOUND_ONLY_OLD ? "all %.*s on the shelf is past its best before day"
                                                     : empty                      ? "no %.*s is left on the shelf"
                                                                                  : "%.*s is not on the shelf",
            TEXT_ARGUMENTS(name));
    if (found->how == FOUND_OTHER_MATERIAL) {
        const struct drawn *drawn = found->drawn;
        double grams = 0;
        for (const struct drawn *at = drawn; at != NULL; at = at->next) {
            grams += at->grams;
        }
        diagnostics_help(store->diagnostics, diagnostic, "%.*s is there: %s g of it do the same as %s g",
                         TEXT_ARGUMENTS(drawn->pack->material->name), number_print_significant(store->arena, grams, 3),
                         number_print_significant(store->arena, need->grams, 3));
    } else {
        diagnostics_help(
            store->diagnostics, diagnostic,
            "what to buy is listed by: potash shelf; what has come in is written on the shelf as: holds %.*s",
            TEXT_ARGUMENTS(name));
    }
}

void store_check_formula(const struct store *store, struct formula *formula)
{
    if (store_is_empty(store) || formula->faulty) {
        return;
    }
    for (const struct need *need = needs_of_formula(store->formulary, formula); need != NULL; need = need->next) {
        if (left_in_form(store, need->material, NULL, need->material->usual) > 0) {
            continue;
        }
        /* A form without a chemical formula cannot be compared with the usual one, and is there all the same. */
        struct found found = store_find(store, need);
        if (found.how != FOUND_AS_WRITTEN && found.how != FOUND_OTHER_FORM) {
            say_missing(store, formula, need, &found);
        }
    }
}
