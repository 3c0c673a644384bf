/* Skin and eyes: Regulation (EC) No 1272/2008, Annex I, 3.2.3 and 3.3.3 (UN GHS, 3.2.3 and 3.3.3).
 *
 * Both are sums of percentages over limits, C/L, which reach 1.  L is the substance's specific limit where it has one, else
 * the generic one: the specific limits of one mixture add up in the same way (ECHA, Guidance on the Application of the CLP
 * Criteria, 3.2.3.3.4).  Acids and bases of extreme pH do not add up but are enough by themselves from 1 % (tables 3.2.4
 * and 3.3.4), which is the same sum with a limit of 1. */
#include "chemistry/hazard_rules.h"

#include <math.h>

enum { RANK_CORROSIVE = 1, RANK_1A = 2, RANK_1B = 3, RANK_1C = 4, RANK_IRRITANT = 5, RANK_DAMAGE = 1, RANK_EYE_IRRITANT = 2 };

/* The limit of an ingredient for a result; NAN where it has no part in it. */
typedef double limit_function(const struct hazard_data *data);

static int skin_rank(const struct hazard_data *data)
{
    const struct hazard_entry *entry = hazard_entry_of(data, FAMILY_SKIN);
    return entry == NULL ? 0 : entry->class->rank;
}

static bool is_corrosive(const struct hazard_data *data)
{
    int rank = skin_rank(data);
    return rank >= RANK_CORROSIVE && rank <= RANK_1C;
}

static bool damages_eyes(const struct hazard_data *data)
{
    const struct hazard_entry *entry = hazard_entry_of(data, FAMILY_EYE);
    return is_corrosive(data) || (entry != NULL && entry->class->rank == RANK_DAMAGE);
}

static double or_generic(double specific, double generic)
{
    return isnan(specific) ? generic : specific;
}

static double corrosion_limit(const struct hazard_data *data)
{
    return is_corrosive(data) ? or_generic(hazard_limit_of(data, FAMILY_SKIN, RANK_CORROSIVE, RANK_1C), data->extreme_ph ? 1 : 5)
                              : NAN;
}

/* As a subcategory: 1A alone, 1A and 1B, all three. */
static double subcategory_limit(const struct hazard_data *data, int worst)
{
    double any = hazard_limit_of(data, FAMILY_SKIN, RANK_CORROSIVE, RANK_1C);
    if (!isnan(any)) {
        return hazard_limit_of(data, FAMILY_SKIN, RANK_1A, worst);
    }
    int rank = skin_rank(data);
    return rank >= RANK_1A && rank <= worst ? 5 : NAN;
}

static double limit_1a(const struct hazard_data *data)
{
    return subcategory_limit(data, RANK_1A);
}

static double limit_1b(const struct hazard_data *data)
{
    return subcategory_limit(data, RANK_1B);
}

static double limit_1c(const struct hazard_data *data)
{
    return subcategory_limit(data, RANK_1C);
}

static double skin_irritation_limit(const struct hazard_data *data)
{
    double specific = hazard_limit_of(data, FAMILY_SKIN, RANK_IRRITANT, RANK_IRRITANT);
    return is_corrosive(data)                   ? or_generic(specific, 1) /* counts tenfold */
           : skin_rank(data) == RANK_IRRITANT   ? or_generic(specific, 10)
                                                : specific;
}

static double eye_damage_limit(const struct hazard_data *data)
{
    if (!damages_eyes(data)) {
        return hazard_limit_of(data, FAMILY_EYE, RANK_DAMAGE, RANK_DAMAGE);
    }
    /* Annex VI prints no limit for the eyes where the one for the skin covers them. */
    double skin = hazard_limit_of(data, FAMILY_SKIN, RANK_CORROSIVE, RANK_1C);
    double specific = hazard_limit_of(data, FAMILY_EYE, RANK_DAMAGE, RANK_DAMAGE);
    return or_generic(or_generic(specific, skin), data->extreme_ph ? 1 : 3);
}

static double eye_irritation_limit(const struct hazard_data *data)
{
    double specific = hazard_limit_of(data, FAMILY_EYE, RANK_EYE_IRRITANT, RANK_EYE_IRRITANT);
    if (damages_eyes(data)) {
        return or_generic(specific, 1);
    }
    return hazard_entry_of(data, FAMILY_EYE) != NULL ? or_generic(specific, 10) : specific;
}

/* An ingredient below 1 %, or below a limit of its own that is lower, is not counted (table 1.1 and 1.1.2.2.2). */
static bool counts(const struct ingredient *ingredient, double limit)
{
    return !isnan(limit) && limit > 0 && ingredient->percent >= fmin(1, limit);
}

static double sum(const struct classification *classification, limit_function *limit_of)
{
    double total = 0;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        double limit = limit_of(ingredient->data);
        total += counts(ingredient, limit) ? ingredient->percent / limit : 0;
    }
    return total;
}

static const double EDGE = 1e-9; /* 0.1 + 0.2 is to reach 0.3 */

static void add_result(struct classification *classification, const struct hazard_class *class, double total,
                       limit_function *limit_of, const char *place)
{
    struct buffer terms;
    buffer_start(&terms, classification->arena);
    size_t count = 0;
    const struct ingredient *only = NULL;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        double limit = limit_of(ingredient->data);
        if (counts(ingredient, limit)) {
            buffer_format(&terms, "%s%s/%s", count++ == 0 ? "" : " + ", hazard_percent(classification->arena, ingredient->percent),
                          hazard_percent(classification->arena, limit));
            only = ingredient;
        }
    }
    struct hazard_result *result =
        count == 1 ? hazard_add(classification, class, (struct text){0}, "%s %%, from %s %% on (%s)",
                                hazard_percent(classification->arena, only->percent),
                                hazard_percent(classification->arena, limit_of(only->data)), place)
                   : hazard_add(classification, class, (struct text){0}, "per cent over the limit of each: %s = %s, from 1 on (%s)",
                                buffer_finish(&terms), hazard_percent(classification->arena, total), place);
    for (size_t i = 0; result != NULL && i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        if (counts(ingredient, limit_of(ingredient->data))) {
            hazard_blame(classification, result, ingredient);
        }
    }
}

/* Whether every corrosive ingredient that counts has a subcategory. */
static bool all_have_subcategories(const struct classification *classification)
{
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        bool without = skin_rank(ingredient->data) == RANK_CORROSIVE ||
                       (ingredient->data->extreme_ph && isnan(hazard_limit_of(ingredient->data, FAMILY_SKIN, RANK_CORROSIVE, RANK_1C)));
        if (without && counts(ingredient, corrosion_limit(ingredient->data))) {
            return false;
        }
    }
    return true;
}

static void classify_skin(struct classification *classification)
{
    static const struct {
        const char *hazard;
        limit_function *limit_of;
    } subcategories[] = {{"Skin Corr. 1A", limit_1a}, {"Skin Corr. 1B", limit_1b}, {"Skin Corr. 1C", limit_1c}};
    double corrosion = sum(classification, corrosion_limit);
    if (corrosion >= 1 - EDGE) {
        for (size_t i = 0; all_have_subcategories(classification) && i < 3; i++) {
            double total = sum(classification, subcategories[i].limit_of);
            if (total >= 1 - EDGE) {
                add_result(classification, hazard_class_called(subcategories[i].hazard, "H314"), total,
                           subcategories[i].limit_of, "Annex I, 3.2.3.3, Table 3.2.3");
                return;
            }
        }
        add_result(classification, hazard_class_called("Skin Corr. 1", "H314"), corrosion, corrosion_limit,
                   "Annex I, 3.2.3.3, Tables 3.2.3 and 3.2.4");
        return;
    }
    double irritation = sum(classification, skin_irritation_limit);
    if (irritation >= 1 - EDGE) {
        add_result(classification, hazard_class_called("Skin Irrit. 2", "H315"), irritation, skin_irritation_limit,
                   "Annex I, 3.2.3.3, Table 3.2.3");
    }
}

static void classify_eyes(struct classification *classification)
{
    double damage = sum(classification, eye_damage_limit);
    double irritation = sum(classification, eye_irritation_limit);
    if (damage >= 1 - EDGE) {
        add_result(classification, hazard_class_called("Eye Dam. 1", "H318"), damage, eye_damage_limit,
                   "Annex I, 3.3.3.3, Tables 3.3.3 and 3.3.4");
    } else if (irritation >= 1 - EDGE) {
        add_result(classification, hazard_class_called("Eye Irrit. 2", "H319"), irritation, eye_irritation_limit,
                   "Annex I, 3.3.3.3, Table 3.3.3");
    }
}

/* An acid, or alkali, that may be behind an extreme pH.  One that is classed and not as corrosive (sodium carbonate, citric
 * acid) is not: its classification is the other data that 3.2.3.1.2 and 3.3.3.1.2 ask for. */
static bool may_corrode(const struct hazard_data *data, bool acid)
{
    return (acid ? data->acid : data->alkali) && (!data->stated || data->extreme_ph || is_corrosive(data));
}

bool hazard_acidity_is_extreme(struct hazard_acidity acidity)
{
    return acidity.ph <= 2 || acidity.ph >= 11.5;
}

/* pH + reserve/share of an alkaline mixture, pH - reserve/share of an acid one; NAN without a reserve. */
static double sum_of(struct hazard_acidity acidity, double share)
{
    return acidity.ph + (acidity.ph < 7 ? -1 : 1) * acidity.reserve / share;
}

bool hazard_acidity_corrodes(struct hazard_acidity acidity, double *sum)
{
    *sum = sum_of(acidity, 12);
    return hazard_acidity_is_extreme(acidity) && !(*sum > -0.5 && *sum < 14.5); /* where no reserve is known as well */
}

/* The same authors' limit for what irritates: pH + reserve/6 from 13 on, pH - reserve/6 down to 1 (memory, to be checked against
 * the paper). */
static bool acidity_irritates(struct hazard_acidity acidity)
{
    double sum = sum_of(acidity, 6);
    return sum <= 1 || sum >= 13;
}

/* The most of the acids, or alkalis, that may be behind it; NULL where all are known to do less. */
static const struct ingredient *corroding(const struct classification *classification)
{
    const struct ingredient *most = NULL;
    for (size_t i = 0; i < classification->count; i++) {
        const struct ingredient *ingredient = &classification->ingredients[i];
        bool guilty = may_corrode(ingredient->data, classification->acidity.ph < 7);
        most = guilty && (most == NULL || ingredient->percent > most->percent) ? ingredient : most;
    }
    return most;
}

/* 3.2.3.1.2 and 3.3.3.1.2, with the acid or alkali reserve. */
static void classify_ph(struct classification *classification)
{
    struct hazard_acidity acidity = classification->acidity;
    double sum;
    bool corrodes = hazard_acidity_corrodes(acidity, &sum);
    bool counts = corrodes || (hazard_acidity_is_extreme(acidity) && acidity_irritates(acidity));
    const struct ingredient *most = counts ? corroding(classification) : NULL;
    static const char *const results[][2][2] = {{{"Skin Irrit. 2", "H315"}, {"Eye Irrit. 2", "H319"}},
                                                {{"Skin Corr. 1", "H314"}, {"Eye Dam. 1", "H318"}}};
    for (size_t r = 0; most != NULL && r < 2; r++) {
        const struct hazard_class *class = hazard_class_called(results[corrodes][r][0], results[corrodes][r][1]);
        bool so_already = false; /* by its ingredients: their subcategory says more */
        for (const struct hazard_result *other = classification->results; other != NULL; other = other->next) {
            so_already = so_already || strcmp(other->class->code, class->code) == 0;
        }
        struct hazard_result *result =
            so_already ? NULL
            : isnan(sum)
                ? hazard_add(classification, class, (struct text){0}, "estimated pH %.1f, %s (Annex I, %s)", acidity.ph,
                             acidity.ph < 7 ? "2 or less" : "11.5 or more", r == 0 ? "3.2.3.1.2" : "3.3.3.1.2")
                : hazard_add(classification, class, (struct text){0},
                             "estimated pH %.1f with a reserve of %s g of hydroxide in 100 g (Annex I, %s; Young and others, 1988)",
                             acidity.ph, hazard_percent(classification->arena, acidity.reserve), r == 0 ? "3.2.3.1.2" : "3.3.3.1.2");
        hazard_blame(classification, result, most);
    }
}

void hazard_contact(struct classification *classification)
{
    classify_skin(classification);
    classify_eyes(classification);
    classify_ph(classification);
}
