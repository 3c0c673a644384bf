/* The rules of classification, for their own files: each adds the results of some families.
 *
 * "Annex I" is that of Regulation (EC) No 1272/2008; its tables were read in the consolidated text of 2026. */
#ifndef POTASH_CHEMISTRY_HAZARD_RULES_H
#define POTASH_CHEMISTRY_HAZARD_RULES_H

#include "chemistry/hazard.h"

struct classification {
    struct arena *arena;
    const struct ingredient *ingredients;
    size_t count;
    struct hazard_acidity acidity;
    bool liquid;
    struct hazard_result *results;
};

const struct hazard_class *hazard_class_called(const char *hazard, const char *code);


/* Whether a result is about the same as a class: of one family only the most severe counts, but a carcinogen by inhalation alone
 * (H350i) does not stand for one by every way. */
bool hazard_same_subject(const struct hazard_result *result, const struct hazard_class *class, struct text code);

/* Where a result of that class goes in a list; a less severe one of its subject leaves it.  NULL when a more severe one is there. */
struct hazard_result **hazard_place(struct hazard_result **list, const struct hazard_class *class, struct text code);

/* A result in its place; more of one subject leave the most severe.  NULL when a more severe one is there. */
struct hazard_result *hazard_add(struct classification *classification, const struct hazard_class *class, struct text code,
                                 const char *rule, ...) __attribute__((format(printf, 4, 5)));
void hazard_blame(struct classification *classification, struct hazard_result *result, const struct ingredient *ingredient);

/* The entry of the family, NULL when the substance is not in it; the most severe where there are several. */
const struct hazard_entry *hazard_entry_of(const struct hazard_data *data, enum hazard_family family);

/* The lowest specific limit of the family with a rank of `best` to `worst`; NAN when there is none. */
double hazard_limit_of(const struct hazard_data *data, enum hazard_family family, int best, int worst);

/* "12.3": per cent with three figures. */
const char *hazard_percent(struct arena *arena, double percent);

/* The estimate of a mixture in the unit of the route, by the formulas of 3.1.3.6, from percentages and estimates of the
 * ingredients that count; INFINITY without any.  Its category, 0 for none. */
double hazard_acute_estimate(const double *percents, const double *estimates, size_t count, double unknown_percent);
int hazard_acute_category(enum hazard_route route, double estimate);

void hazard_acute(struct classification *classification);
void hazard_contact(struct classification *classification);   /* skin and eyes */
void hazard_single(struct classification *classification);    /* what one ingredient is enough for */
void hazard_organs(struct classification *classification);    /* target organs, aspiration */
void hazard_aquatic(struct classification *classification);
void hazard_supplement(struct classification *classification);

#endif
