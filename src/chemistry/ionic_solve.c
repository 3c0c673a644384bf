/* The balances of charge and of matter, with activity coefficients.
 *
 * Why it always ends.  Let the activity coefficients be fixed for the moment.  Write y for the decimal logarithm of the activity
 * of the hydrogen ion and x for that of a family's first species.  A species with n units and p protons has the molality
 * c = 10^(k + n x + p y).  For a family, F(x, y) = sum of c / ln 10 is a sum of exponentials of linear functions, so it is convex;
 * its total is T = F_x = sum of n c, and its protons are P = F_y = sum of p c.
 *   - At fixed y, T grows strictly with x from 0 to infinity, since all n > 0: there is one x for a total, and x lies between
 *     bounds that are known at once (see `find_first`).
 *   - At fixed T, dP/dy = F_yy - F_xy^2 / F_xx, which is never negative, for the matrix of second derivatives of a convex function
 *     has no negative determinant.  A family's charge is P plus a multiple of T, so it never falls as y rises.
 *   - The charge of the free hydrogen ion grows strictly with y from 0 to infinity, that of the hydroxide ion grows from minus
 *     infinity to 0, and inert ions do not change.
 * So the charge of the whole solution grows strictly with y, from minus to plus infinity: it is zero for one pH, which bisection
 * finds.  Activity coefficients are then reckoned from what was found, and so on, until they change no more.  They are bounded
 * continuous functions of it (the interaction terms are held beyond IONIC_STRENGTH_MOST), so a fixed point exists; that the rounds
 * come to it is not proved: when they have not after ROUNDS_MOST, the state says so. */
#include "chemistry/ionic.h"

#include "chemistry/water.h"

#include <math.h>

enum {
    ROUNDS_MOST = 400,
    ROUNDS_FULL = 25, /* rounds that take the new coefficients whole; later ones go part of the way */
    HALVINGS = 200
};

static const double SETTLED = 1e-9;     /* change of a decimal logarithm of an activity coefficient */
static const double ION_SIZE = 1.5;     /* (kg/mol)^(1/2): of the specific ion interaction theory, and of the convention of Bates and
                                           Guggenheim on which the published standards of pH rest */

struct kind_of_ion {
    const struct species *species; /* NULL for the hydrogen ion */
    double charge;
    double units;
    double protons;
    double log_constant;   /* of its formation from the first species and hydrogen ions */
    double log_coefficient;
    double molality;
};

struct group {
    size_t from; /* kinds [from, upto) */
    size_t upto;
    double total;
};

struct solution {
    const struct equilibria *equilibria;
    struct kind_of_ion *kinds; /* hydrogen ion, hydroxide ion, inert ions, then the families */
    size_t kind_count;
    size_t inert_upto;         /* kinds [2, inert_upto) are inert */
    struct group *groups;
    size_t group_count;
    double *interactions;      /* kind_count x kind_count */
    double pk_water;
    double slope;
    double ionic_strength;
};

static double power(double exponent)
{
    return exp(exponent * M_LN10);
}

/* ---- setting up ---- */

/* Logarithms of the constants of formation, from the first species on along the steps. */
static void find_constants(struct solution *solution, const struct equilibrium *family, size_t from, double celsius,
                           const struct acid_step *shifted, double shift)
{
    struct kind_of_ion *kinds = &solution->kinds[from];
    for (size_t i = 1; i < family->count; i++) {
        kinds[i].log_constant = NAN;
    }
    for (bool changed = true; changed;) {
        changed = false;
        for (size_t i = 0; i < family->step_count; i++) {
            const struct acid_step *step = &family->steps[i];
            double pk = ionic_pk(step, celsius) + (step == shifted ? shift : 0);
            double *acid = &kinds[step->acid - family->first].log_constant;
            double *gives = &kinds[step->gives - family->first].log_constant;
            if (!isnan(*acid) && isnan(*gives) && !isnan(pk)) {
                *gives = step->count * *acid - pk;
                changed = true;
            } else if (isnan(*acid) && !isnan(*gives) && !isnan(pk)) {
                *acid = (*gives + pk) / step->count;
                changed = true;
            }
        }
    }
}

static size_t add_kind(struct solution *solution, const struct species *species, double charge)
{
    solution->kinds[solution->kind_count] = (struct kind_of_ion){
        .species = species, .charge = charge, .units = species == NULL ? 0 : species->units,
        .protons = species == NULL ? 0 : species->protons};
    return solution->kind_count++;
}

static void add_inert(struct solution *solution, const struct ionic_amount *amount)
{
    for (size_t i = 2; i < solution->kind_count; i++) {
        if (solution->kinds[i].species == amount->species) {
            solution->kinds[i].molality += amount->molality;
            return;
        }
    }
    solution->kinds[add_kind(solution, amount->species, amount->species->charge)].molality = amount->molality;
}

static void add_family(struct solution *solution, const struct equilibrium *family, double total, double celsius,
                       const struct acid_step *shifted, double shift)
{
    size_t from = solution->kind_count;
    for (size_t i = 0; i < family->count; i++) {
        add_kind(solution, &family->first[i], family->first[i].charge);
    }
    find_constants(solution, family, from, celsius, shifted, shift);
    size_t kept = from;
    for (size_t i = from; i < solution->kind_count; i++) { /* what no constant leads to has been reported */
        if (!isnan(solution->kinds[i].log_constant) && solution->kinds[i].units > 0) {
            solution->kinds[kept++] = solution->kinds[i];
        }
    }
    solution->kind_count = kept;
    solution->groups[solution->group_count++] = (struct group){from, kept, total};
}

static void set_up(struct solution *solution, struct arena *arena, const struct equilibria *equilibria,
                   const struct ionic_amount *amounts, size_t count, double celsius, const struct acid_step *shifted, double shift)
{
    *solution = (struct solution){.equilibria = equilibria, .slope = water_limiting_slope(celsius)};
    solution->kinds = ARENA_ARRAY(arena, struct kind_of_ion, equilibria->species_count + 2);
    solution->groups = ARENA_ARRAY(arena, struct group, equilibria->family_count + 1);
    add_kind(solution, NULL, 1);
    const struct acid_step *ionisation = &equilibria->water->steps[0];
    add_kind(solution, ionisation->gives, -1);
    solution->pk_water = ionic_pk(ionisation, celsius) + (ionisation == shifted ? shift : 0);
    for (size_t i = 0; i < count; i++) {
        if (amounts[i].species->family == NULL && amounts[i].molality > 0) {
            add_inert(solution, &amounts[i]);
        }
    }
    solution->inert_upto = solution->kind_count;
    for (size_t f = 0; f < equilibria->family_count; f++) {
        const struct equilibrium *family = &equilibria->families[f];
        double total = 0;
        for (size_t i = 0; i < count; i++) {
            total += amounts[i].species->family == family ? amounts[i].molality * amounts[i].species->units : 0;
        }
        if (total > 0 && !family->is_water) {
            add_family(solution, family, total, celsius, shifted, shift);
        }
    }
    size_t n = solution->kind_count;
    solution->interactions = ARENA_ARRAY(arena, double, n * n);
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < i; j++) {
            const struct kind_of_ion *a = &solution->kinds[i];
            const struct kind_of_ion *b = &solution->kinds[j];
            if (a->charge * b->charge < 0) {
                struct text one = a->species == NULL ? TEXT("H+") : a->species->formula;
                struct text other = b->species == NULL ? TEXT("H+") : b->species->formula;
                double coefficient = equilibria_interaction(equilibria, one, other);
                solution->interactions[i * n + j] = solution->interactions[j * n + i] = coefficient;
            }
        }
    }
}

/* ---- one pH ---- */

/* The logarithm of the activity of a family's first species for its total.  With l the logarithm of a species' molality at x = 0,
 * no term n 10^(l + n x) may exceed the total, which bounds x above; where x is so far below that bound that each term is at most
 * the total's share of it, the sum does not exceed the total. */
static double find_first(const struct kind_of_ion *kinds, const double *logs, size_t count, double total)
{
    double high = INFINITY;
    double least_units = INFINITY;
    double most_units = 0;
    for (size_t i = 0; i < count; i++) {
        high = fmin(high, (log10(total / kinds[i].units) - logs[i]) / kinds[i].units);
        least_units = fmin(least_units, kinds[i].units);
        most_units = fmax(most_units, kinds[i].units);
    }
    double low = high - log10((double)count) / least_units;
    if (least_units == most_units) { /* no larger ions: the sum is a plain multiple */
        double sum = 0;
        for (size_t i = 0; i < count; i++) {
            sum += kinds[i].units * power(logs[i] + kinds[i].units * high);
        }
        return high - log10(sum / total) / least_units;
    }
    /* The logarithm of the sum is convex and rises, and at `high` it is not below the total's: from there Newton's method comes down
     * to the root without passing it, in a few rounds where halving takes fifty. */
    double at = high;
    for (int round = 0; round < HALVINGS; round++) {
        double sum = 0;
        double slope = 0;
        for (size_t i = 0; i < count; i++) {
            double part = kinds[i].units * power(logs[i] + kinds[i].units * at);
            sum += part;
            slope += kinds[i].units * part;
        }
        double step = log10(sum / total) * sum / slope;
        at = fmax(at - step, low);
        if (!(step > 1e-15 * fmax(1, fabs(at)))) {
            break;
        }
    }
    return at;
}

/* Fills in the molalities at that pH; returns the sum of charges, mol/kg. */
static double distribute(struct solution *solution, double pH, double *logs)
{
    struct kind_of_ion *kinds = solution->kinds;
    kinds[0].molality = power(-pH - kinds[0].log_coefficient);
    kinds[1].molality = power(pH - solution->pk_water - kinds[1].log_coefficient);
    double charge = kinds[0].molality - kinds[1].molality;
    for (size_t i = 2; i < solution->inert_upto; i++) {
        charge += kinds[i].charge * kinds[i].molality;
    }
    for (size_t g = 0; g < solution->group_count; g++) {
        const struct group *group = &solution->groups[g];
        for (size_t i = group->from; i < group->upto; i++) {
            logs[i] = kinds[i].log_constant - kinds[i].protons * pH - kinds[i].log_coefficient;
        }
        double first = find_first(&kinds[group->from], &logs[group->from], group->upto - group->from, group->total);
        for (size_t i = group->from; i < group->upto; i++) {
            kinds[i].molality = power(logs[i] + kinds[i].units * first);
            charge += kinds[i].charge * kinds[i].molality;
        }
    }
    return charge;
}

/* The charge on a scale on which it is nearly straight in pH, for the false position method. */
static double straightened(double charge)
{
    return asinh(charge / 1e-9);
}

/* The pH at which the charges cancel: an interval that holds it is made narrower by false positions (the Illinois method) and, when
 * they are slow, halved. */
static double balance(struct solution *solution, double near, double *logs)
{
    double low = near - 0.05;
    double high = near + 0.05;
    double at_low = straightened(distribute(solution, low, logs));
    double at_high = straightened(distribute(solution, high, logs));
    for (double step = 0.2; at_low < 0; step *= 2) { /* too basic: the charge is below zero, so the pH lies lower */
        high = low;
        at_high = at_low;
        low -= step;
        at_low = straightened(distribute(solution, low, logs));
    }
    for (double step = 0.2; at_high > 0; step *= 2) {
        low = high;
        at_low = at_high;
        high += step;
        at_high = straightened(distribute(solution, high, logs));
    }
    int side = 0;
    for (int round = 0; round < HALVINGS && high - low > 1e-13 && at_low != 0 && at_high != 0; round++) {
        bool halve = round % 8 == 7;
        double pH = halve ? (low + high) / 2 : (low * at_high - high * at_low) / (at_high - at_low);
        if (!(pH > low && pH < high)) {
            pH = (low + high) / 2;
        }
        if (pH <= low || pH >= high) { /* neighbouring numbers */
            break;
        }
        double charge = straightened(distribute(solution, pH, logs));
        if (charge > 0) {
            low = pH;
            at_low = charge;
            at_high = side > 0 && !halve ? at_high / 2 : at_high;
            side = 1;
        } else {
            high = pH;
            at_high = charge;
            at_low = side < 0 && !halve ? at_low / 2 : at_low;
            side = -1;
        }
        if (charge == 0) {
            return pH;
        }
    }
    return at_low == 0 ? low : at_high == 0 ? high : (low + high) / 2;
}

/* ---- activity coefficients ---- */

/* Specific ion interaction theory: log g = -z^2 A sqrt(I) / (1 + 1.5 sqrt(I)) + sum of e(i,k) m(k); Ciavatta, Ann. Chim. (Rome) 70
 * (1980) 551; Grenthe and Plyasunov, Pure Appl. Chem. 69 (1997) 951.  Neutral molecules: 1.  Returns the largest change. */
static double renew_coefficients(struct solution *solution, double share)
{
    size_t n = solution->kind_count;
    double strength = 0;
    for (size_t i = 0; i < n; i++) {
        strength += solution->kinds[i].charge * solution->kinds[i].charge * solution->kinds[i].molality / 2;
    }
    solution->ionic_strength = strength;
    double held = strength > IONIC_STRENGTH_MOST ? IONIC_STRENGTH_MOST / strength : 1;
    double root = sqrt(strength * held);
    double term = solution->slope * root / (1 + ION_SIZE * root);
    double largest = 0;
    for (size_t i = 0; i < n; i++) {
        struct kind_of_ion *kind = &solution->kinds[i];
        double sum = 0;
        for (size_t j = 0; kind->charge != 0 && j < n; j++) {
            sum += solution->interactions[i * n + j] * solution->kinds[j].molality;
        }
        double change = -kind->charge * kind->charge * term + sum * held - kind->log_coefficient;
        largest = fmax(largest, fabs(change));
        kind->log_coefficient += share * change;
    }
    return largest;
}

/* Moles of strong base in a kilogram of water for a unit of pH, the coefficients held. */
static double capacity(struct solution *solution, double pH, double *logs)
{
    static const double step = 0.005;
    double above = distribute(solution, pH - step, logs);
    double below = distribute(solution, pH + step, logs);
    return (above - below) / (2 * step);
}

/* Moles of strong acid in a kilogram of water that bring it down to pH 10, or of strong base up to pH 4, the coefficients held: the
 * ends of the titration by Young, How, Walker and Worth, Toxicology in Vitro 2 (1988) 19. */
static double reserve(struct solution *solution, double pH, double *logs)
{
    return pH > 10 ? distribute(solution, 10, logs) : pH < 4 ? -distribute(solution, 4, logs) : 0;
}

/* The coefficients of a mixture that differs in little: only where it is to start from, so that nothing depends on them. */
static void start_from(struct solution *solution, const struct ionic_state *near)
{
    for (size_t i = 0; i < solution->kind_count; i++) {
        for (size_t s = 0; s < near->share_count; s++) {
            if (near->shares[s].species == solution->kinds[i].species && near->shares[s].charge == solution->kinds[i].charge) {
                solution->kinds[i].log_coefficient = near->shares[s].log_activity_coefficient;
            }
        }
    }
}

struct ionic_state ionic_solve(struct arena *arena, const struct equilibria *equilibria, const struct ionic_amount *amounts,
                               size_t count, double celsius, const struct acid_step *shifted, double shift)
{
    return ionic_solve_near(arena, equilibria, amounts, count, celsius, shifted, shift, NULL);
}

struct ionic_state ionic_solve_near(struct arena *arena, const struct equilibria *equilibria, const struct ionic_amount *amounts,
                                    size_t count, double celsius, const struct acid_step *shifted, double shift,
                                    const struct ionic_state *near)
{
    struct solution solution;
    set_up(&solution, arena, equilibria, amounts, count, celsius, shifted, shift);
    double *logs = ARENA_ARRAY(arena, double, solution.kind_count);
    struct ionic_state state = {.status = IONIC_UNSETTLED, .pH = 7};
    if (near != NULL && near->status == IONIC_SOLVED) {
        state.pH = near->pH;
        start_from(&solution, near);
    }
    while (state.status == IONIC_UNSETTLED && state.rounds < ROUNDS_MOST) {
        state.rounds++;
        state.pH = balance(&solution, state.pH, logs);
        distribute(&solution, state.pH, logs);
        double share = state.rounds <= ROUNDS_FULL ? 1 : state.rounds <= 4 * ROUNDS_FULL ? 0.4 : 0.1;
        if (renew_coefficients(&solution, share) < SETTLED) {
            state.status = IONIC_SOLVED;
        }
    }
    state.buffer_capacity = capacity(&solution, state.pH, logs);
    state.reserve = reserve(&solution, state.pH, logs);
    state.residual = distribute(&solution, state.pH, logs);
    state.ionic_strength = solution.ionic_strength;
    struct ionic_share *shares = ARENA_ARRAY(arena, struct ionic_share, solution.kind_count);
    for (size_t i = 0; i < solution.kind_count; i++) {
        const struct kind_of_ion *kind = &solution.kinds[i];
        shares[i] = (struct ionic_share){kind->species, kind->charge, kind->molality, kind->log_coefficient};
        state.total_ions += kind->charge != 0 ? kind->molality : 0;
    }
    state.shares = shares;
    state.share_count = solution.kind_count;
    return state;
}
