/* Rules from their declarations. */
#include "practice/rules/rules.h"

#include <math.h>

/* Reads declarations into `rules`. */
struct rule_reader {
    struct rule_subject subjects[MOST_SUBJECTS];
    const struct rule **rules;
    const struct rule **classes;
    const struct rule **usages;
    size_t room;
};

/* A rule that is being read. */
struct draft {
    struct rule *rule;
    struct rule_condition *conditions;
    struct class_item *items;
    unsigned char *item_of_subject;
    struct text *kinds;
    struct usual_value *usuals;
};

struct role_search {
    struct text role;
    bool found;
};

static void look_for_role(void *context, const struct material *material)
{
    struct role_search *search = context;
    for (size_t i = 0; i < material->role_count; i++) {
        search->found = search->found || text_equal(material->roles[i], search->role);
    }
}

static bool role_exists(struct library *library, struct text role)
{
    struct role_search search = {role, false};
    library_each_material(library, look_for_role, &search);
    return search.found;
}

/* One name of a subject; NULL when it is neither a material nor a role. */
static struct rule_name *read_name(struct rules *rules, const struct material_words *words, struct text folded)
{
    struct library *library = rules->library;
    struct rule_name *name = ARENA_NEW(library->arena, struct rule_name);
    const struct library_entry *entry = library_material_entry(library, folded);
    if (entry != NULL) {
        name->entry = (long)library_entry_number(entry);
        return name;
    }
    name->entry = NO_MATERIAL;
    /* Roles of the library's own rules are tested (tests/practice); only a user's are worth the search. */
    const struct source_file *file = source_file_at(library->sources, words->span.begin);
    if (!file->of_library && !role_exists(library, folded)) {
        struct diagnostic *diagnostic = diagnostics_add(library->diagnostics, DIAG_MATERIAL_UNKNOWN, words->span,
                                                        "\"%.*s\" is neither a material nor a role", TEXT_ARGUMENTS(folded));
        diagnostics_help(library->diagnostics, diagnostic, "roles are: developing agent, alkali, preservative, restrainer, acid …");
        return NULL;
    }
    name->role = folded;
    return name;
}

/* Cuts the next name off "metol or phenidone except amidol". */
static struct text cut_name(struct text *rest, bool *excepted)
{
    static const char or_word[] = " or ";
    static const char except_word[] = " except ";
    struct text all = *rest;
    for (size_t i = 0; i < all.length; i++) {
        size_t left = all.length - i;
        bool is_or = left > sizeof or_word - 1 && memcmp(all.at + i, or_word, sizeof or_word - 1) == 0;
        bool is_except = left > sizeof except_word - 1 && memcmp(all.at + i, except_word, sizeof except_word - 1) == 0;
        if (is_or || is_except) {
            size_t skip = i + (is_or ? sizeof or_word : sizeof except_word) - 1;
            *rest = (struct text){all.at + skip, all.length - skip};
            *excepted = *excepted || is_except;
            return (struct text){all.at, i};
        }
    }
    *rest = (struct text){all.at + all.length, 0};
    return all;
}

/* A role is named as such ("developing agent"), a material by any of its names.  MOST_SUBJECTS when a name is neither. */
static size_t read_subject(struct rules *rules, const struct material_words *words)
{
    struct library *library = rules->library;
    struct rule_subject subject = {.words = names_folded(library->names, words->name)->spelling};
    if (words->form != NULL && words->form->words != NULL) {
        subject.form = names_folded(library->names, words->form->words)->spelling;
    } else if (words->form != NULL && words->form->percent) {
        subject.form = text_from(arena_format(library->arena, "%g %%", words->form->number)); /* as its label is */
    }
    for (size_t i = 0; i < rules->subject_count; i++) {
        if (text_equal(rules->subjects[i].words, subject.words) && text_equal(rules->subjects[i].form, subject.form)) {
            return i;
        }
    }
    if (rules->subject_count == MOST_SUBJECTS) {
        diagnostics_add(library->diagnostics, DIAG_SYNTAX, words->span, "the rules speak of more than %d things", MOST_SUBJECTS);
        return MOST_SUBJECTS;
    }
    bool excepted = false;
    for (struct text rest = subject.words; rest.length > 0;) {
        bool of_this = excepted; /* "except" stands before the next name */
        struct rule_name *name = read_name(rules, words, cut_name(&rest, &excepted));
        if (name == NULL) {
            return MOST_SUBJECTS;
        }
        name->excepted = of_this;
        name->form = name->entry != NO_MATERIAL ? subject.form : (struct text){0};
        name->next = subject.names;
        subject.names = name;
    }
    rules->reader->subjects[rules->subject_count] = subject;
    return rules->subject_count++;
}

static enum diagnostic_id id_of(enum relation relation)
{
    switch (relation) {
    case RELATION_AFTER:
    case RELATION_BEFORE:
    case RELATION_MISSING_BEFORE:
        return DIAG_ORDER;
    case RELATION_AT:
        return DIAG_TEMPERATURE_UNUSUAL;
    case RELATION_MISSING:
        return DIAG_ROLE_MISSING;
    case RELATION_MEETS:
        return DIAG_HAZARD_COMBINATION;
    case RELATION_THERE:
    default:
        return DIAG_AMOUNT_UNUSUAL;
    }
}

/* "2 times hydroquinone": the words behind the number are a subject.  MOST_SUBJECTS when they are none. */
static size_t read_measure(struct rules *rules, const struct quantity *quantity)
{
    static const char times[] = "times ";
    struct text words = quantity->unit == NULL ? (struct text){0} : quantity->unit->spelling;
    if (words.length < sizeof times || memcmp(words.at, times, sizeof times - 1) != 0) {
        return MOST_SUBJECTS;
    }
    struct text rest = text_trim((struct text){words.at + sizeof times - 1, words.length - sizeof times + 1});
    const struct material_words name = {.name = names_find(rules->library->names, rest), .span = quantity->span};
    return read_subject(rules, &name);
}

/* The bound in g/L or °C; false when it is neither, which is reported. */
static bool read_bound(struct rules *rules, struct rule_condition *condition, const struct bound *bound)
{
    condition->bound = NAN;
    condition->measured_by = MOST_SUBJECTS;
    if (bound == NULL) {
        return true;
    }
    if (condition->relation == RELATION_THERE) {
        condition->measured_by = read_measure(rules, bound->quantity);
        condition->bound = bound->quantity->value;
        condition->over = bound->over;
        if (condition->measured_by != MOST_SUBJECTS) {
            return true;
        }
    }
    bool hot = condition->relation == RELATION_AT;
    condition->over = bound->over;
    condition->bound = measure_read_only(rules->library, bound->quantity, hot ? DIMENSION_TEMPERATURE : DIMENSION_CONCENTRATION);
    if (isnan(condition->bound)) {
        struct diagnostic *diagnostic = diagnostics_add(rules->library->diagnostics, DIAG_UNIT_MISMATCH, bound->quantity->span,
                                                        hot ? "this limit is a temperature" : "a rule's limit is a concentration");
        diagnostics_help(rules->library->diagnostics, diagnostic, "write it as: %s", hot ? "at over 50 °C" : "over 10 g/L");
        return false;
    }
    return true;
}

static bool read_condition(struct rules *rules, struct draft *draft, const struct condition_statement *statement)
{
    struct rule *rule = draft->rule;
    struct rule_condition *condition = &draft->conditions[rule->condition_count];
    condition->relation = statement->relation;
    condition->subject = read_subject(rules, statement->subject);
    condition->object = statement->object == NULL ? condition->subject : read_subject(rules, statement->object);
    if (condition->subject == MOST_SUBJECTS || condition->object == MOST_SUBJECTS ||
        !read_bound(rules, condition, statement->bound)) {
        return false;
    }
    if (rule->condition_count == 0) {
        rule->id = id_of(condition->relation);
    }
    rule->condition_count++;
    if (condition->relation == RELATION_MISSING) {
        if (rules->subjects[condition->subject].form.length == 0) {
            subject_set_put(&rule->lacks, condition->subject);
        }
        return true;
    }
    if (condition->relation != RELATION_MISSING_BEFORE) {
        subject_set_put(&rule->needs, condition->subject);
    }
    subject_set_put(&rule->needs, condition->object);
    if (condition->measured_by != MOST_SUBJECTS) {
        subject_set_put(&rule->needs, condition->measured_by);
    }
    return true;
}

/* ---- classes of baths ---- */

static const double LEAST_SPREAD = 0.12;
static const double ORDINARY_SPREAD = 0.25; /* a narrower class says more when it fits */

static bool read_item(struct rules *rules, struct draft *draft, const struct usual_statement *statement)
{
    struct rule *rule = draft->rule;
    const struct quantity *range = statement->range;
    struct measure measure = measure_read(rules->library, range, MEASURES_UNSTATED, false);
    struct class_item *item = &draft->items[rule->item_count];
    if (measure.fault != MEASURE_GOOD || !(measure.low > 0) || !(measure.high > measure.low) ||
        (measure.dimension != DIMENSION_CONCENTRATION && measure.dimension != DIMENSION_VOLUME_RATIO)) {
        struct diagnostic *diagnostic = diagnostics_add(rules->library->diagnostics, DIAG_UNIT_MISMATCH, range->span,
                                                        "what a class of baths holds is a range of concentrations");
        diagnostics_help(rules->library->diagnostics, diagnostic, "write it as: holds metol 1 to 4 g/L");
        return false;
    }
    if (rule->item_count == MOST_ITEMS) {
        diagnostics_add(rules->library->diagnostics, DIAG_SYNTAX, range->span, "a class of baths holds no more than %d materials",
                        (int)MOST_ITEMS);
        return false;
    }
    item->subject = read_subject(rules, statement->material);
    if (item->subject == MOST_SUBJECTS) {
        return false;
    }
    item->optional = statement->optional;
    item->by_volume = measure.dimension == DIMENSION_VOLUME_RATIO;
    item->low = measure.low;
    item->high = measure.high;
    item->middle = (log10(item->low) + log10(item->high)) / 2;
    item->spread = fmax((log10(item->high) - log10(item->low)) / 2 / DEVIATIONS, LEAST_SPREAD);
    item->precision = 1 / (item->spread * item->spread);
    item->width = log(item->spread / ORDINARY_SPREAD);
    if (draft->item_of_subject == NULL) {
        rule->item_of_subject = draft->item_of_subject = ARENA_ARRAY(rules->library->arena, unsigned char, MOST_SUBJECTS);
    }
    if (!subject_set_has(&rule->knows, item->subject)) {
        draft->item_of_subject[item->subject] = (unsigned char)rule->item_count;
    }
    subject_set_put(&rule->knows, item->subject);
    if (!item->optional) {
        subject_set_put(&rule->needs, item->subject);
        rule->needed_items |= (uint64_t)1 << rule->item_count;
    }
    rule->item_count++;
    return true;
}

static void count(const struct declaration *declaration, size_t *conditions, size_t *kinds, size_t *items)
{
    *conditions = *kinds = *items = 0;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        *conditions += statement->kind == SAY_WHEN;
        *items += statement->kind == SAY_HOLDS;
        const struct word *word = statement->kind == SAY_FOR ? ((const struct words_statement *)statement)->words : NULL;
        for (; word != NULL; word = word->next) {
            ++*kinds;
        }
    }
}

/* The id that a rule gives, where its conditions do not tell; false when there is no such warning. */
static bool read_id(struct rules *rules, struct rule *rule, const struct word *word)
{
    rule->id = diagnostic_find(word->name->spelling);
    if (rule->id == DIAGNOSTIC_IDS || diagnostic_registry[rule->id].severity != SEVERITY_WARNING) {
        diagnostics_add(rules->library->diagnostics, DIAG_SYNTAX, word->span, "\"%.*s\" is the id of no warning",
                        TEXT_ARGUMENTS(word->name->spelling));
        return false;
    }
    return true;
}

static struct text *read_words(struct rules *rules, const struct word *words, size_t *count)
{
    *count = 0;
    for (const struct word *word = words; word != NULL; word = word->next) {
        ++*count;
    }
    struct text *texts = ARENA_ARRAY(rules->library->arena, struct text, *count);
    *count = 0;
    for (const struct word *word = words; word != NULL; word = word->next) {
        texts[(*count)++] = names_folded(rules->library->names, word->name)->spelling;
    }
    return texts;
}

static void append(struct rules *rules, struct rule_list *list, const struct rule ***own, const struct rule *rule)
{
    struct rule_reader *reader = rules->reader;
    struct rule_list *lists[] = {&rules->list, &rules->classes, &rules->usages};
    const struct rule ***places[] = {&reader->rules, &reader->classes, &reader->usages};
    enum { LISTS = sizeof lists / sizeof *lists, FIRST_ROOM = 256 };
    if (list->count == reader->room) {
        reader->room = reader->room == 0 ? FIRST_ROOM : 2 * reader->room;
        for (size_t i = 0; i < LISTS; i++) {
            const struct rule **more = ARENA_ARRAY(rules->library->arena, const struct rule *, reader->room);
            for (size_t j = 0; j < lists[i]->count; j++) {
                more[j] = lists[i]->rules[j];
            }
            lists[i]->rules = *places[i] = more;
        }
    }
    (*own)[list->count++] = rule;
}

static void append_usage(struct rules *rules, const struct rule *rule)
{
    append(rules, &rules->usages, &rules->reader->usages, rule);
}

static void append_rule(struct rules *rules, const struct rule *rule)
{
    append(rules, &rules->list, &rules->reader->rules, rule);
}

static void append_class(struct rules *rules, const struct rule *rule)
{
    append(rules, &rules->classes, &rules->reader->classes, rule);
}

/* ---- how baths are used ---- */

static double counted_area(struct library *library, const struct quantity *quantity)
{
    const struct unit *unit = quantity->unit == NULL ? NULL : library_unit(library, quantity->unit);
    return quantity->size != NULL ? measure_sheet_area(library, quantity->size)
           : unit != NULL && unit->dimension == DIMENSION_AREA ? unit->factor
                                                                : NAN;
}

static bool read_usual(struct rules *rules, struct draft *draft, const struct usual_use_statement *statement)
{
    static const char *const names[USUAL_WHATS] = {"time", "dilution", "capacity", "keeps"};
    struct library *library = rules->library;
    struct text name = names_folded(library->names, statement->what->name)->spelling;
    struct usual_value value = {.what = USUAL_WHATS, .low = NAN, .high = NAN};
    for (unsigned i = 0; i < USUAL_WHATS; i++) {
        value.what = text_is(name, names[i]) ? (enum usual_what)i : value.what;
    }
    const struct quantity *range = statement->range;
    bool ratios = statement->low.count == 2 && statement->high.count == 2;
    struct measure measure = range == NULL ? (struct measure){.fault = MEASURE_REFUSED} : measure_read(library, range, MEASURES_UNSTATED, false);
    if (value.what == USUAL_DILUTION && ratios) {
        value.low = statement->low.figures[1] / statement->low.figures[0];
        value.high = statement->high.figures[1] / statement->high.figures[0];
    } else if (value.what == USUAL_CAPACITY && range != NULL && range->high != NULL && statement->per != NULL) {
        double area = counted_area(library, range->high) / measure_read_only(library, statement->per, DIMENSION_VOLUME);
        value.low = range->value * area;
        value.high = range->high->value * area;
        value.by_sheets = range->high->size != NULL;
    } else if ((value.what == USUAL_TIME || value.what == USUAL_KEEPS) && measure.fault == MEASURE_GOOD && measure.dimension == DIMENSION_TIME) {
        value.low = measure.low;
        value.high = measure.high;
        value.in = statement->in == NULL ? (struct text){0} : names_folded(library->names, statement->in->name)->spelling;
    }
    if (!(value.low > 0) || !(value.high > value.low)) {
        struct diagnostic *diagnostic = diagnostics_add(library->diagnostics, DIAG_SYNTAX, statement->base.span, "this is not usual of any use");
        diagnostics_help(library->diagnostics, diagnostic,
                         "write a range, as in: usual time 2 to 30 min, usual dilution 1+1 to 1+100, usual capacity 1 to 60 rolls per L, usual keeps "
                         "1 to 36 months in bottle");
        return false;
    }
    draft->usuals[draft->rule->usual_count++] = value;
    return true;
}

static void read_rule(void *context, const struct declaration *declaration)
{
    struct rules *rules = context;
    struct library *library = rules->library;
    struct rule *rule = ARENA_NEW(library->arena, struct rule);
    size_t conditions;
    size_t kinds;
    size_t items;
    size_t usuals = 0;
    count(declaration, &conditions, &kinds, &items);
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        usuals += statement->kind == SAY_USUAL;
    }
    struct draft draft = {.rule = rule,
                          .conditions = ARENA_ARRAY(library->arena, struct rule_condition, conditions),
                          .items = ARENA_ARRAY(library->arena, struct class_item, items),
                          .kinds = ARENA_ARRAY(library->arena, struct text, kinds),
                          .usuals = ARENA_ARRAY(library->arena, struct usual_value, usuals)};
    rule->of_library = declaration->file->of_library;
    rule->shown = declaration->name.name->spelling;
    rule->name = names_folded(library->names, declaration->name.name)->spelling;
    rule->conditions = draft.conditions;
    rule->items = draft.items;
    rule->kinds = draft.kinds;
    rule->usuals = draft.usuals;
    bool good = true;
    const struct word *says = NULL;
    for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
        const struct text_statement *text = (const struct text_statement *)statement;
        switch (statement->kind) {
        case SAY_FOR:
            for (const struct word *word = ((const struct words_statement *)statement)->words; word != NULL; word = word->next) {
                draft.kinds[rule->kind_count++] = names_folded(library->names, word->name)->spelling;
            }
            break;
        case SAY_PURPOSE:
            rule->purposes = read_words(rules, ((const struct words_statement *)statement)->words, &rule->purpose_count);
            break;
        case SAY_WHEN:
            good = read_condition(rules, &draft, (const struct condition_statement *)statement) && good;
            break;
        case SAY_HOLDS:
            good = read_item(rules, &draft, (const struct usual_statement *)statement) && good;
            break;
        case SAY_USUAL:
            good = read_usual(rules, &draft, (const struct usual_use_statement *)statement) && good;
            break;
        case SAY_SAYS:
            says = ((const struct words_statement *)statement)->words;
            break;
        case SAY_WARN:
            rule->warn = text->text;
            break;
        case SAY_ADVISE:
            rule->advise = text->text;
            break;
        case SAY_SOURCE:
            rule->source = text->text;
            break;
        default:
            break;
        }
    }
    if (usuals > 0 && items == 0 && conditions == 0) {
        if (good) {
            append_usage(rules, rule);
        }
        return;
    }
    if (items > 0 && conditions == 0) { /* it describes what baths of a class hold */
        if (good) {
            append_class(rules, rule);
        }
        return;
    }
    if (rule->condition_count == 0 || rule->warn.length == 0 || items > 0) {
        if (good) {
            diagnostics_add(library->diagnostics, DIAG_SYNTAX, declaration->span,
                            items > 0 ? "a rule has lines \"when …\" or lines \"holds …\", not both"
                                      : "a rule needs a line \"when …\" and a line \"warn …\"");
        }
        return;
    }
    if ((says == NULL || read_id(rules, rule, says)) && good) {
        append_rule(rules, rule);
    }
}

/* What is built in, where nothing stands in its place. */
static void take_built_in(struct rules *rules)
{
    rules->subject_count = built_in_rules.subject_count;
    memcpy(rules->reader->subjects, built_in_rules.subjects, rules->subject_count * sizeof *rules->subjects);
    const struct rule_list *const lists[] = {&built_in_rules.list, &built_in_rules.classes, &built_in_rules.usages};
    void (*const append_to[])(struct rules *, const struct rule *) = {append_rule, append_class, append_usage};
    for (size_t l = 0; l < sizeof lists / sizeof *lists; l++) {
        for (size_t i = 0; i < lists[l]->count; i++) {
            const struct rule *rule = lists[l]->rules[i];
            const struct declaration *replacement = library_replacement(rules->library, (size_t)rule->entry);
            if (replacement != NULL) {
                read_rule(rules, replacement);
            } else {
                append_to[l](rules, rule);
            }
        }
    }
}

void rules_start(struct rules *rules, struct library *library)
{
    *rules = (struct rules){.library = library};
    rules->of_material = ARENA_ARRAY(library->arena, const struct subject_set *, library_entry_count(library));
    if (library->tables != NULL && !library_declares(library, DECLARE_RULE)) {
        rules->list = built_in_rules.list;
        rules->classes = built_in_rules.classes;
        rules->usages = built_in_rules.usages;
        rules->subjects = built_in_rules.subjects;
        rules->subject_count = built_in_rules.subject_count;
        return;
    }
    rules->reader = ARENA_NEW(library->arena, struct rule_reader);
    rules->subjects = rules->reader->subjects;
    if (library->tables != NULL) {
        take_built_in(rules);
    }
    library_each_added(library, DECLARE_RULE, read_rule, rules);
}
