/* Uses: dilutions and mixtures, temperature, time, capacity. */
#include "formula/checking.h"

#include "base/number.h"

static struct use *open_use(struct checker *checker, const struct statement *statement)
{
    struct use *use = ARENA_NEW(checker->forms, struct use);
    use->span = statement->span;
    use->stock_parts = use->water_parts = use->water_parts_high = NAN;
    use->temperature = use->temperature_high = use->time[0] = use->time[1] = NAN;
    use->needs = use->needs_area = use->capacity = use->capacity_area = use->capacity_per = NAN;
    use->coefficient = use->coefficient_per = use->replenish = NAN;
    if (checker->use_count < CHECK_MOST_USES) {
        struct formula *formula = checker->formula;
        *(formula->uses == NULL ? &formula->uses : &formula->last_use->next) = use;
        formula->last_use = use;
        checker->use_count++;
    } else {
        check_say_too_many(checker, statement->span, "uses", CHECK_MOST_USES, &checker->too_many_uses);
    }
    checker->use = use;
    memset(checker->use_lines, 0, sizeof checker->use_lines);
    return use;
}

/* Of two lines of a use that say the same thing only one can be meant. */
static void note_line_of_use(struct checker *checker, const struct statement *statement)
{
    static const char *const what[] = {"the dilution is",    "the dilution is",      "the temperature is", NULL, NULL,
                                       "how to agitate is",  "what a roll needs is", "the capacity is",
                                       "the temperature coefficient is", "how to replenish is"};
    enum statement_kind kind = statement->kind == SAY_MIX ? SAY_DILUTE : statement->kind;
    const struct statement **first = &checker->use_lines[kind - SAY_DILUTE];
    if (*first == NULL || what[kind - SAY_DILUTE] == NULL) { /* of times there may be a table */
        *first = statement;
        return;
    }
    bool counted = kind == SAY_CAPACITY || kind == SAY_NEEDS;
    const struct quantity_statement *one = (const struct quantity_statement *)*first;
    const struct quantity_statement *other = (const struct quantity_statement *)statement;
    if (counted && (one->quantity->unit != other->quantity->unit || one->per->unit != other->per->unit)) {
        return; /* so many rolls, and so many sheets */
    }
    check_say_twice(checker, statement, what[kind - SAY_DILUTE], (*first)->span);
}

static void add_share(struct checker *checker, struct use *use, const struct mix_share *read)
{
    struct mix_share *share = ARENA_NEW(checker->forms, struct mix_share);
    *share = *read;
    *(use->mix == NULL ? &use->mix : &use->last_share->next) = share;
    use->last_share = share;
}

static const struct material *water(struct checker *checker)
{
    const struct material_reading *reading =
        library_material(checker->library, names_find(checker->library->names, TEXT("water")));
    return reading == NULL ? NULL : reading->material;
}

bool check_ratio(struct checker *checker, const struct ratio *ratio)
{
    for (size_t i = 0; i < ratio->count; i++) {
        bool stock = i == 0;
        if (ratio->figures[i] < 0 || (stock && ratio->figures[i] == 0) || ratio->figures[i] > 10000) {
            diagnostics_help(checker->diagnostics,
                             check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, ratio->span, "no bath is diluted so"),
                             "write parts of stock + parts of water, as in: dilute 1+3");
            return false;
        }
    }
    return true;
}

/* One of each part in their order, and water last, where there is a figure for it: 1+1+8. */
static void mix_by_ratio(struct checker *checker, struct use *use, const struct ratio *ratio)
{
    struct part *part = check_open_part(checker->formula->parts);
    for (size_t i = 0; i < ratio->count; i++) {
        struct mix_share share = {.amount = ratio->figures[i], .span = ratio->span, .part = part};
        if (part != NULL) {
            part->used = true;
            part = check_open_part(part->next);
        } else {
            share.material = water(checker);
        }
        add_share(checker, use, &share);
    }
}

/* The fewest whole parts that stand in the ratio of two volumes, as 150 mL in 1 L are 3+17; 1 and a fraction where none do. */
static void set_parts(struct use *use, double taken, double whole)
{
    enum { MOST = 20 };
    double water = whole / taken - 1;
    int parts = 1;
    while (parts < MOST && fabs(water * parts - round(water * parts)) > 1e-6) {
        parts++;
    }
    bool even = fabs(water * parts - round(water * parts)) <= 1e-6;
    use->stock_parts = even ? parts : 1;
    use->water_parts = even ? round(water * parts) : water;
}

static void check_volumes_dilution(struct checker *checker, struct use *use, const struct ratio_statement *statement)
{
    static const char example[] = "dilute 150 mL to make 1 L";
    struct measure taken = check_quantity_of(checker, statement->taken, DIMENSION_VOLUME, example);
    struct measure whole = check_quantity_of(checker, statement->whole, DIMENSION_VOLUME, example);
    if (taken.fault != MEASURE_GOOD || whole.fault != MEASURE_GOOD) {
        return;
    }
    if (!(taken.low > 0) || whole.low < taken.low || whole.low > 10000 * taken.low) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, statement->whole->span,
                                                  whole.low < taken.low ? "more stock is taken than it is to make" : "no bath is diluted so");
        diagnostics_help(checker->diagnostics, diagnostic, "write the volume of stock first: %s", example);
        return;
    }
    set_parts(use, taken.low, whole.low);
}

static void check_dilution(struct checker *checker, struct use *use, const struct ratio_statement *statement)
{
    const struct ratio *ratio = &statement->ratio;
    use->dilution_span = statement->base.span;
    if (statement->taken != NULL) {
        check_volumes_dilution(checker, use, statement);
        return;
    }
    use->ratio = ratio;
    if (!check_ratio(checker, ratio)) {
        return;
    }
    if (ratio->count == 2) {
        use->stock_parts = ratio->figures[0];
        use->water_parts = ratio->figures[1];
        if (statement->high.count == 2 && check_ratio(checker, &statement->high)) {
            use->water_parts_high = statement->high.figures[1] / statement->high.figures[0] * use->stock_parts;
        }
        return;
    }
    if (ratio->count != checker->formula->part_count + 1) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_SYNTAX, ratio->span, "%zu figures do not fit a formula of %zu part%s", ratio->count,
                      checker->formula->part_count, checker->formula->part_count == 1 ? "" : "s");
        diagnostics_help(checker->diagnostics, diagnostic, "name the parts: mix A 1 + B 1 + water 8");
        return;
    }
    mix_by_ratio(checker, use, ratio);
}

/* `mix 1+2` of two parts: shares of both, or one of them with water? */
static void say_two_figures(struct checker *checker, const struct ratio *ratio)
{
    const struct part *first = checker->formula->parts;
    struct diagnostic *diagnostic = check_say(checker, DIAG_SYNTAX, ratio->span, "this does not say whether the second figure is of a part or of water");
    const char *named = arena_format(checker->arena, "%.*s %s + %.*s %s", TEXT_ARGUMENTS(first->name->spelling),
                                     number_print(checker->arena, ratio->figures[0], 4), TEXT_ARGUMENTS(first->next->name->spelling),
                                     number_print(checker->arena, ratio->figures[1], 4));
    diagnostics_help(checker->diagnostics, diagnostic, "name the parts: mix %s", named);
    diagnostics_fix(checker->diagnostics, diagnostic, ratio->span, named, "shares of both parts: mix %s", named);
}

/* mix 1+1+100: the parts in their order, water last. */
static void check_mix_ratio(struct checker *checker, struct use *use, const struct ratio *ratio)
{
    size_t parts = checker->formula->part_count;
    use->dilution_span = ratio->span;
    if (ratio->doubtful || !check_ratio(checker, ratio)) {
        return;
    }
    if (parts < 2 && ratio->count == 2) {
        use->ratio = ratio;
        use->stock_parts = ratio->figures[0];
        use->water_parts = ratio->figures[1];
    } else if (parts == 2 && ratio->count == 2) {
        say_two_figures(checker, ratio);
    } else if (ratio->count == parts || ratio->count == parts + 1) {
        mix_by_ratio(checker, use, ratio);
    } else {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_SYNTAX, ratio->span, "%zu figures do not fit a formula of %zu part%s", ratio->count, parts,
                      parts == 1 ? "" : "s");
        diagnostics_help(checker->diagnostics, diagnostic, "the parts stand in their order and water last; or name them: mix A 1 + B 1 + water 8");
    }
}

void check_say_unknown_part(struct checker *checker, const struct name *name, struct span span)
{
    struct buffer list;
    buffer_start(&list, checker->arena);
    for (const struct part *part = checker->formula->parts; part != NULL; part = part->next) {
        if (part->name != NULL) {
            buffer_format(&list, "%s%.*s", list.length == 0 ? "" : ", ", TEXT_ARGUMENTS(part->name->spelling));
        }
    }
    struct diagnostic *diagnostic = check_say(checker, DIAG_PART_UNKNOWN, span, "the formula has no part \"%.*s\"",
                                              TEXT_ARGUMENTS(name->spelling));
    if (list.length == 0) {
        diagnostics_help(checker->diagnostics, diagnostic, "it has one part only; a part is opened with: part A");
        return;
    }
    diagnostics_help(checker->diagnostics, diagnostic, "its parts are: %s", buffer_finish(&list));
    for (const struct part *part = checker->formula->parts; part != NULL; part = part->next) {
        if (part->name != NULL && span.end - span.begin == name->spelling.length) {
            diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "%.*s", TEXT_ARGUMENTS(part->name->spelling));
        }
    }
}

/* A part of this formula that is named in quotes; NULL when there is none. */
static struct part *find_titled_part(struct checker *checker, struct text title)
{
    return check_find_part(checker->formula, checker->library->names, names_find(checker->library->names, title));
}

/* An ingredient of a mixture: a part, water, or another material.  False when it is unknown, which is reported. */
static bool share_of(struct checker *checker, struct mix_share *share, const struct mix_item *item)
{
    struct part *part = check_find_part(checker->formula, checker->library->names, item->what.name);
    if (part != NULL) {
        share->part = part;
        part->used = true;
        return true;
    }
    const struct material_reading *reading =
        isnan(item->number) ? library_material(checker->library, item->what.name) : NULL;
    if (reading == NULL) {
        check_say_unknown_part(checker, item->what.name, item->what.span);
        return false;
    }
    share->material = reading->material;
    share->form = reading->form != NULL ? reading->form : reading->material->usual;
    if (item->what.form != NULL) {
        double temperature;
        check_material(checker, &item->what, &share->material, &share->form, &temperature);
    }
    return true;
}

/* What is left for the last share of a mixture that is filled up to `whole` mL; NAN when the others are not volumes or leave nothing,
 * which is reported. */
static double rest_of_mixture(struct checker *checker, const struct use *use, const struct mix_item *item, double whole)
{
    double rest = whole;
    bool volumes = item->next == NULL;
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        volumes = volumes && share->by_volume;
        rest -= share->amount;
    }
    struct diagnostic *diagnostic = NULL;
    if (!volumes) {
        diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, item->span, "what is filled up comes last, after volumes of the others");
    } else if (!(rest > 0)) {
        diagnostic = check_say(checker, DIAG_OVER_VOLUME, item->span, "the others are more than the whole mixture");
    } else {
        return rest;
    }
    diagnostics_help(checker->diagnostics, diagnostic, "write it as in: mix A 10 mL + B 10 mL + water to make 1 L");
    return NAN;
}

/* `mix each 1 + water 10`: so much of every part. */
static bool add_each(struct checker *checker, struct use *use, const struct mix_item *item, const struct mix_share *read)
{
    bool each = item->what.name != NULL && text_is(names_folded(checker->library->names, item->what.name)->spelling, "each");
    if (!each || checker->formula->part_count < 2 || !isnan(item->number) || item->to_make) {
        return false;
    }
    for (struct part *part = check_open_part(checker->formula->parts); part != NULL; part = check_open_part(part->next)) {
        struct mix_share share = *read;
        share.part = part;
        part->used = true;
        add_share(checker, use, &share);
    }
    return true;
}

static void check_mix(struct checker *checker, struct use *use, const struct mix_statement *statement)
{
    if (statement->items == NULL) {
        check_mix_ratio(checker, use, &statement->ratio);
        return;
    }
    for (const struct mix_item *item = statement->items; item != NULL; item = item->next) {
        struct part *named = item->title.at == NULL ? NULL : find_titled_part(checker, item->title);
        if (item->title.at != NULL && named == NULL) {
            struct diagnostic *diagnostic = check_say(checker, DIAG_PART_UNKNOWN, item->span,
                                                      "a mixture is of this formula's parts and water");
            diagnostics_help(checker->diagnostics, diagnostic, "another formula is added with: solution \"%.*s\" 10 mL",
                             TEXT_ARGUMENTS(item->title));
            continue;
        }
        struct mix_share share = {.amount = item->quantity->value, .span = item->span};
        if (item->quantity->unit != NULL) {
            struct measure reading = check_quantity(checker, item->quantity, true);
            if (reading.fault != MEASURE_GOOD) {
                continue;
            }
            share.by_volume = reading.dimension == DIMENSION_VOLUME;
            share.amount = reading.low;
            if (!share.by_volume && reading.dimension != DIMENSION_PARTS) {
                diagnostics_help(checker->diagnostics,
                                 check_say(checker, DIAG_UNIT_MISMATCH, item->quantity->span,
                                           "a mixture is given in parts, or in volumes such as 200 mL"),
                                 "write it as in: mix A 1 + B 1 + water 8");
                continue;
            }
        }
        if (item->to_make && !isnan(share.amount)) {
            share.amount = rest_of_mixture(checker, use, item, share.by_volume ? share.amount : NAN);
            if (isnan(share.amount)) {
                continue;
            }
        }
        if (!(share.amount > 0)) {
            diagnostics_help(
                checker->diagnostics,
                check_say(checker, DIAG_AMOUNT_OUT_OF_RANGE, item->quantity->span, "a share must be more than nothing"),
                "leave it out, or write how many parts of it");
            continue;
        }
        if (named != NULL) {
            share.part = named;
            named->used = true;
        }
        if (add_each(checker, use, item, &share)) {
            continue;
        }
        if (named != NULL || share_of(checker, &share, item)) {
            add_share(checker, use, &share);
        }
    }
}

/* Area of one of the counted goods in cm2, from its size or its unit; NAN when it has none. */
static double counted_area(struct checker *checker, const struct quantity *quantity)
{
    if (quantity->size != NULL) {
        return measure_sheet_area(checker->library, quantity->size);
    }
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(checker->library, quantity->unit);
    return unit != NULL && unit->dimension == DIMENSION_AREA ? unit->factor : NAN;
}

static bool is_counted(struct checker *checker, const struct quantity *quantity)
{
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(checker->library, quantity->unit);
    return unit != NULL && (unit->dimension == DIMENSION_COUNT || unit->dimension == DIMENSION_AREA);
}

static void check_capacity(struct checker *checker, struct use *use, const struct quantity_statement *statement)
{
    struct measure per = check_quantity_of(checker, statement->per, DIMENSION_VOLUME, "capacity 12 rolls per L");
    if (per.fault != MEASURE_GOOD) {
        return;
    }
    if (!is_counted(checker, statement->quantity) || !(statement->quantity->value > 0)) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_UNIT_MISMATCH, statement->quantity->span, "a capacity is counted in rolls or sheets");
        diagnostics_help(checker->diagnostics, diagnostic, "write it as: capacity 12 rolls per L, or 40 sheets 8x10 in per L");
        return;
    }
    use->capacity = statement->quantity->value;
    use->capacity_of = statement->quantity->unit;
    use->capacity_size = statement->quantity->size;
    use->capacity_area = counted_area(checker, statement->quantity);
    use->capacity_per = per.low;
    use->capacity_span = statement->quantity->span;
}

static void check_needs(struct checker *checker, struct use *use, const struct quantity_statement *statement)
{
    struct measure needs = check_quantity_of(checker, statement->quantity, DIMENSION_VOLUME, "needs 10 mL per roll");
    if (needs.fault != MEASURE_GOOD) {
        return;
    }
    if (!is_counted(checker, statement->per) || !(needs.low > 0)) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_UNIT_MISMATCH, statement->per->span, "stock is needed by the roll or the sheet");
        diagnostics_help(checker->diagnostics, diagnostic, "write it as: needs 10 mL per roll");
        return;
    }
    use->needs = needs.low / statement->per->value;
    use->needs_per = statement->per->unit;
    use->needs_area = counted_area(checker, statement->per);
}

static void check_coefficient(struct checker *checker, struct use *use, const struct quantity_statement *statement)
{
    const struct quantity *quantity = statement->quantity;
    if (quantity->unit != NULL || quantity->high != NULL || !(quantity->value > 0)) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_UNIT_MISMATCH, quantity->span,
                                   "a temperature coefficient is a plain number such as 1.9"),
                         "write it as: coefficient 1.9 per 10 °C");
        return;
    }
    double degrees = measure_read_degrees(checker->library, statement->per);
    if (isnan(degrees)) {
        diagnostics_help(
            checker->diagnostics,
            check_say(checker, DIAG_UNIT_MISMATCH, statement->per->span, "write it as: coefficient 1.9 per 10 °C"),
            "the coefficient holds for a difference of temperature");
        return;
    }
    use->coefficient = quantity->value;
    use->coefficient_per = degrees;
}

static void check_replenishing(struct checker *checker, struct use *use, const struct replenish_statement *statement)
{
    static const char example[] = "replenish 30 mL of \"Film replenisher\" per roll";
    struct measure volume = check_quantity_of(checker, statement->quantity, DIMENSION_VOLUME, example);
    if (volume.fault != MEASURE_GOOD) {
        return;
    }
    if (!is_counted(checker, statement->per) || !(volume.low > 0)) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_UNIT_MISMATCH, statement->per->span,
                                                  "a bath is replenished for each roll or sheet");
        diagnostics_help(checker->diagnostics, diagnostic, "write it as: %s", example);
        return;
    }
    if (statement->title.at != NULL && formulary_find(checker->formulary, statement->title) == NULL) {
        struct diagnostic *diagnostic = check_say(checker, DIAG_FORMULA_UNKNOWN, statement->title_span,
                                                  "there is no formula \"%.*s\" in these files", TEXT_ARGUMENTS(statement->title));
        struct text near = formulary_near_title(checker->formulary, statement->title);
        diagnostics_help(checker->diagnostics, diagnostic, "give its title as its heading has it, and its file as well");
        if (near.length > 0) {
            diagnostics_fix_writing(checker->diagnostics, diagnostic, statement->title_span, "\"%.*s\"", TEXT_ARGUMENTS(near));
        }
    }
    use->replenish = volume.low / statement->per->value;
    use->replenish_per = statement->per;
    use->replenish_area = counted_area(checker, statement->per);
    use->replenisher = text_trim(statement->title);
}

/* Two uses of one name: a process or an option that names it could mean either. */
static void refuse_second_use(struct checker *checker, const struct use *use, const struct word *word)
{
    struct names *names = checker->library->names;
    const struct name *folded = names_folded(names, word->name);
    for (const struct use *other = checker->formula->uses; other != use && other != NULL; other = other->next) {
        if (names_folded(names, names_find(names, other->name)) != folded) {
            continue;
        }
        struct diagnostic *diagnostic = check_say(checker, DIAG_DECLARED_TWICE, word->span, "a use for %.*s stands here already",
                                                  TEXT_ARGUMENTS(use->name));
        diagnostics_relate(checker->diagnostics, diagnostic, other->span, "the other one is here");
        diagnostics_help(checker->diagnostics, diagnostic, "give it a name of its own, or write its time below the first: time 7 min at 24 °C");
        diagnostics_fix_writing(checker->diagnostics, diagnostic, word->span, "\"%.*s, another way\"", TEXT_ARGUMENTS(use->name));
        return;
    }
}

void check_use_statement(struct checker *checker, const struct statement *statement)
{
    const struct quantity_statement *quantity = (const struct quantity_statement *)statement;
    if (statement->kind == SAY_USE) {
        struct use *use = open_use(checker, statement);
        const struct word *word = ((const struct words_statement *)statement)->words;
        use->name = word->name->spelling;
        refuse_second_use(checker, use, word);
        return;
    }
    struct use *use = checker->use;
    if (use == NULL) {
        struct diagnostic *diagnostic =
            check_say(checker, DIAG_SYNTAX, statement->span, "this line belongs to a use, and no use is open");
        diagnostics_help(checker->diagnostics, diagnostic, "put a line above it such as: use for film");
        struct span front = {statement->span.begin, statement->span.begin};
        diagnostics_fix(checker->diagnostics, diagnostic, front, "use for film\n    ", "open a use for film");
        use = open_use(checker, statement); /* the lines that follow belong to the same forgotten use */
    }
    size_t errors = checker->diagnostics->errors;
    struct measure reading;
    switch (statement->kind) {
    case SAY_DILUTE:
        check_dilution(checker, use, (const struct ratio_statement *)statement);
        break;
    case SAY_MIX:
        check_mix(checker, use, (const struct mix_statement *)statement);
        break;
    case SAY_TEMPERATURE:
        reading = check_quantity_of(checker, quantity->quantity, DIMENSION_TEMPERATURE, "temperature 20 °C");
        use->temperature = reading.fault == MEASURE_GOOD ? reading.low : NAN;
        use->temperature_high = reading.fault == MEASURE_GOOD ? reading.high : NAN;
        use->temperature_words = quantity->quantity;
        break;
    case SAY_TIME:
        check_time(checker, use, (const struct time_statement *)statement);
        break;
    case SAY_POUR:
        check_pour(checker, use, (const struct pour_statement *)statement);
        break;
    case SAY_REPLENISH:
        check_replenishing(checker, use, (const struct replenish_statement *)statement);
        break;
    case SAY_AGITATE:
        use->agitation = ((const struct text_statement *)statement)->text;
        break;
    case SAY_NEEDS:
        check_needs(checker, use, quantity);
        break;
    case SAY_CAPACITY:
        check_capacity(checker, use, quantity);
        break;
    case SAY_COEFFICIENT:
        check_coefficient(checker, use, quantity);
        break;
    default:
        break;
    }
    if (checker->diagnostics->errors == errors) { /* a line that is refused says nothing */
        note_line_of_use(checker, statement);
    }
}

/* ---- what holds once all parts are known ---- */

static void refuse_solution(struct checker *checker, struct step *step, const char *why)
{
    const struct solution_statement *statement = (const struct solution_statement *)step->statement;
    bool titled = statement->title.at != NULL;
    check_say(checker, titled ? DIAG_FORMULA_UNKNOWN : DIAG_PART_UNKNOWN, titled ? statement->title_span : statement->part.span,
              "%s", why);
    step->solution = NULL;
    step->solution_of = NULL;
}

static void resolve_solution(struct checker *checker, struct part *within, struct step *step)
{
    const struct solution_statement *statement = (const struct solution_statement *)step->statement;
    bool titled = statement->title.at != NULL;
    struct part *part = titled ? find_titled_part(checker, statement->title)
                               : check_find_part(checker->formula, checker->library->names, statement->part.name);
    if (titled && part == NULL) {
        struct formula *other = formulary_find(checker->formulary, statement->title);
        if (other == NULL || other == checker->formula || other->being_checked) {
            struct diagnostic *diagnostic =
                check_say(checker, DIAG_FORMULA_UNKNOWN, statement->title_span,
                          other == NULL ? "there is no formula \"%.*s\" in these files"
                                        : "\"%.*s\" would be made of itself",
                          TEXT_ARGUMENTS(statement->title));
            diagnostics_help(checker->diagnostics, diagnostic, "give its title as its heading has it, and its file as well");
            return;
        }
        if (other->parts == NULL) {
            if (checker->formulary->depth > CHECK_DEEPEST) {
                refuse_solution(checker, step, "the solutions within solutions go too deep here");
                return;
            }
            check_formula(checker->formulary, other);
        }
        step->solution = other->parts;
        step->solution_of = other;
        return;
    }
    struct span span = titled ? statement->title_span : statement->part.span;
    if (part == NULL) {
        check_say_unknown_part(checker, statement->part.name, span);
    } else if (part == within) {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_PART_UNKNOWN, span, "part %.*s cannot be made of itself",
                                   TEXT_ARGUMENTS(part->name->spelling)),
                         "name another part, or another formula by its title in quotes");
    } else {
        part->used = true;
        step->solution = part;
        step->solution_of = checker->formula;
    }
}

/* More than anybody's formula has; what is counted through follows no more levels, and must come to an end. */
enum { MOST_LEVELS = 7, MOST_OPENED = 10000 /* additions */ };

static const size_t BEING_OPENED = SIZE_MAX;

/* Counts a part's additions with those of its solutions; a solution that leads round in a circle or without end is refused. */
static void open_part(struct checker *checker, struct part *part, int depth)
{
    size_t opened = 1;
    int levels = 0;
    part->opened = BEING_OPENED;
    for (const struct step *at = part->steps; at != NULL; at = at->next) {
        struct step *step = check_open_step(at);
        opened++;
        if (!step_is_addition(step) || step->how != ADD_SOLUTION || step->solution == NULL) {
            continue;
        }
        struct part *inner = check_open_part(step->solution);
        if (inner->opened == BEING_OPENED) {
            refuse_solution(checker, step, "this solution would be made of itself: it takes in the part that it is added to");
            continue;
        }
        if (inner->opened == 0 && depth < MOST_LEVELS) {
            open_part(checker, inner, depth + 1);
        }
        if (inner->opened == 0 || inner->levels >= MOST_LEVELS) {
            refuse_solution(checker, step, "the solutions within solutions go too deep here");
        } else if (opened + inner->opened > MOST_OPENED) {
            refuse_solution(checker, step, "with this solution there is no end to what the part holds");
        } else {
            opened += inner->opened;
            levels = inner->levels + 1 > levels ? inner->levels + 1 : levels;
        }
    }
    part->opened = opened;
    part->levels = levels;
}

/* "dilute 1+9" of a formula in several bottles, none of which is the bath that the others go into: nobody can tell what is
 * diluted, and nothing is reckoned of it. */
static void say_undecided_dilution(struct checker *checker, const struct use *use)
{
    const struct formula *formula = checker->formula;
    struct buffer list;
    buffer_start(&list, checker->arena);
    size_t left = formula->part_count;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        left--;
        buffer_format(&list, "%s%.*s", list.length == 0 ? "" : left == 0 ? " and " : ", ", TEXT_ARGUMENTS(part->name->spelling));
    }
    struct diagnostic *diagnostic = check_say(checker, DIAG_PART_UNUSED, use->ratio == NULL ? use->dilution_span : use->ratio->span,
                                              "this does not say which of the parts %s is diluted", buffer_finish(&list));
    const char *water_parts = number_print(checker->arena, use->water_parts, 3);
    const char *stock_parts = number_print(checker->arena, use->stock_parts, 3);
    struct text first = formula->parts->name->spelling;
    diagnostics_help(checker->diagnostics, diagnostic, "name what is mixed, such as: mix %.*s %s + water %s",
                     TEXT_ARGUMENTS(first), stock_parts, water_parts);
    for (const struct part *part = formula->parts; part != NULL && isnan(use->water_parts_high); part = part->next) {
        const char *line = arena_format(checker->arena, "mix %.*s %s + water %s", TEXT_ARGUMENTS(part->name->spelling),
                                        stock_parts, water_parts);
        diagnostics_fix(checker->diagnostics, diagnostic, use->dilution_span, line, "part %.*s is diluted",
                        TEXT_ARGUMENTS(part->name->spelling));
    }
}

static void check_dilutions_decided(struct checker *checker)
{
    const struct formula *formula = checker->formula;
    if (formula->part_count < 2 || formula->faulty || formula_bath_part(formula) != NULL) {
        return;
    }
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (part->name == NULL) { /* what stands before the first heading; that is told of elsewhere */
            return;
        }
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        if (use->mix == NULL && use->pours == NULL && use->water_parts > 0) {
            say_undecided_dilution(checker, use);
        }
    }
}

void check_mixtures(struct checker *checker)
{
    struct formula *formula = checker->formula;
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            if (step_is_addition(step) && step->how == ADD_SOLUTION) {
                resolve_solution(checker, check_open_part(part), check_open_step(step));
            }
        }
    }
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (part->opened == 0) {
            open_part(checker, check_open_part(part), 0);
        }
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        check_times(checker, check_open_use(use));
    }
    check_dilutions_decided(checker);
    bool mixes = false;
    bool dilutes = false;
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        mixes = mixes || use->mix != NULL || use->pours != NULL;
        dilutes = dilutes || !isnan(use->stock_parts);
    }
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        if (mixes && !dilutes && part->name != NULL && !part->used && !formula->faulty) {
            struct diagnostic *diagnostic =
                check_say(checker, DIAG_PART_UNUSED, part->span, "no use of this formula takes part %.*s",
                          TEXT_ARGUMENTS(part->name->spelling));
            diagnostics_help(checker->diagnostics, diagnostic, "name it in a mixture: mix A 1 + %.*s 1",
                             TEXT_ARGUMENTS(part->name->spelling));
        }
    }
}
