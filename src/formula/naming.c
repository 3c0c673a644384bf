/* Names of materials and forms in a formula, and what to say of those that are not known. */
#include "formula/checking.h"

#include "base/number.h"
#include "base/slips.h"
#include "syntax/keywords.h"

/* "water make", "water too make": no water of that name, but the final volume. */
static bool offer_to_make(struct checker *checker, struct diagnostic *diagnostic, const struct material_words *words)
{
    static const char *const habits[] = {"to make", "make", "making", "made to", "fill to", "to fill"};
    struct text name = names_fold(checker->arena, words->name->spelling);
    const size_t water = strlen("water ");
    if (name.length <= water || memcmp(name.at, "water ", water) != 0) {
        return false;
    }
    struct text rest = text_trim((struct text){name.at + water, name.length - water});
    bool meant = false;
    for (size_t i = 0; i < sizeof habits / sizeof *habits && !meant; i++) {
        meant = rest.length <= SLIPS_LONGEST && text_slips(rest, text_from(habits[i]), 2) <= 2;
    }
    if (meant) {
        diagnostics_help(checker->diagnostics, diagnostic, "the final volume is written: water to make 1 L");
        diagnostics_fix_writing(checker->diagnostics, diagnostic, words->span, "water to make");
    }
    return meant;
}

/* `makse 1 L`, `tempreture 20 °C`: a misspelt line of the formula is read as an addition. */
static bool offer_keyword(struct checker *checker, struct diagnostic *diagnostic, const struct material_words *words,
                          struct text line)
{
    struct text slip;
    const struct keyword *meant = syntax_keyword(line, 1u << DECLARE_FORMULA, &slip);
    if (meant == NULL) {
        return false;
    }
    struct span span = {words->span.begin, words->span.begin + (uint32_t)slip.length};
    diagnostics_help(checker->diagnostics, diagnostic, "did you mean %s?", meant->words);
    diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "%s", meant->words);
    return true;
}

static void say_unknown_material(struct checker *checker, const struct material_words *words)
{
    enum { MOST = 8, MOST_NEAR = 3 };
    struct text near[MOST];
    struct text spelling = words->name->spelling;
    struct text grave;
    size_t count = library_abbreviated_materials(checker->library, spelling, near, MOST, &grave);
    bool cut_short = count > 1;
    if (count == 0 && grave.length == 0) {
        count = library_near_materials(checker->library, spelling, near, MOST_NEAR, &grave);
    }
    struct diagnostic *diagnostic = check_say(checker, DIAG_MATERIAL_UNKNOWN, words->span,
                                              "\"%.*s\" is not a known material", TEXT_ARGUMENTS(spelling));
    struct text rest = source_text(checker->formulary->sources, words->span);
    rest.length = strcspn(rest.at, "\r\n#"); /* to the end of the line: a source ends with a NUL */
    struct text line = text_trim(rest);
    if (grave.length > 0) {
        diagnostics_help(checker->diagnostics, diagnostic,
                         "the name is close to that of %.*s, one of the gravest poisons and explosives, so nothing is offered in its "
                         "place: compare the book letter by letter, and read the safety data sheet first",
                         TEXT_ARGUMENTS(grave));
        return;
    }
    if (count == 0 && (offer_to_make(checker, diagnostic, words) || offer_keyword(checker, diagnostic, words, line))) {
        return;
    }
    if (count == 0) {
        diagnostics_help(checker->diagnostics, diagnostic,
                         "look it up with: potash materials; or declare it in a file of your own: material %.*s",
                         TEXT_ARGUMENTS(spelling));
        return;
    }
    if (cut_short) {
        struct buffer list;
        buffer_start(&list, checker->arena);
        for (size_t i = 0; i < count; i++) {
            buffer_format(&list, "%s%.*s", i == 0 ? "" : i + 1 == count ? " or " : ", ", TEXT_ARGUMENTS(near[i]));
        }
        diagnostics_help(checker->diagnostics, diagnostic, "it may be short for %s", buffer_finish(&list));
    } else {
        diagnostics_help(checker->diagnostics, diagnostic, "did you mean %.*s?", TEXT_ARGUMENTS(near[0]));
    }
    for (size_t i = 0; i < count; i++) {
        diagnostics_fix_writing(checker->diagnostics, diagnostic, words->span, "%.*s", TEXT_ARGUMENTS(near[i]));
    }
}

static const char *list_forms(struct checker *checker, const struct material *material)
{
    struct buffer list;
    buffer_start(&list, checker->arena);
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        if (form->label.length > 0) {
            buffer_format(&list, "%s%.*s", list.length == 0 ? "" : ", ", TEXT_ARGUMENTS(form->label));
        }
    }
    return buffer_finish(&list);
}

/* A material that this one is mistaken for may be known in the form that is written: then the name is the slip. */
static void offer_look_alikes(struct checker *checker, struct diagnostic *diagnostic, const struct material *material,
                              const struct material_words *words)
{
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        const struct word *word = statement->kind == SAY_MISTAKEN ? ((const struct words_statement *)statement)->words : NULL;
        for (; word != NULL; word = word->next) {
            const struct material_reading *other = library_material(checker->library, word->name);
            if (other != NULL && other->material->stop.length == 0 && library_form(checker->library, other->material, words->form) != NULL) {
                diagnostics_fix_as(checker->diagnostics, diagnostic, words->span, "%s is meant", "%.*s",
                                   TEXT_ARGUMENTS(other->material->name));
            }
        }
    }
}

static void offer_form(struct checker *checker, struct diagnostic *diagnostic, const struct form *form, const struct form_words *words)
{
    diagnostics_fix_writing(checker->diagnostics, diagnostic, words->span, "%.*s", TEXT_ARGUMENTS(form->label));
}

static void say_unknown_form(struct checker *checker, const struct material *material, const struct material_words *named)
{
    const struct form_words *words = named->form;
    struct text written = source_text(checker->formulary->sources, words->span);
    struct diagnostic *diagnostic = check_say(checker, DIAG_FORM_UNKNOWN, words->span, "%.*s has no form \"%.*s\"",
                                              TEXT_ARGUMENTS(material->name), TEXT_ARGUMENTS(written));
    const char *forms = list_forms(checker, material);
    if (forms[0] == '\0') {
        diagnostics_help(checker->diagnostics, diagnostic, "it is known in one form only: leave the brackets out");
        struct span closing = {words->span.end, words->span.end + 1};
        if (words->span.end > named->span.end && text_is(source_text(checker->formulary->sources, closing), ")")) {
            struct span brackets = {named->span.end, closing.end};
            diagnostics_fix(checker->diagnostics, diagnostic, brackets, "", "leave the brackets out");
        }
        offer_look_alikes(checker, diagnostic, material, named);
        return;
    }
    diagnostics_help(checker->diagnostics, diagnostic, "its forms are: %s", forms);
    const struct form *near = library_near_form(checker->library, material, written);
    if (near != NULL) {
        offer_form(checker, diagnostic, near, words);
    }
    if (material->usual != near && material->usual->label.length > 0) {
        offer_form(checker, diagnostic, material->usual, words);
    }
    offer_look_alikes(checker, diagnostic, material, named);
}

/* What was left unsaid: `mass` g were taken as of `form`. */
struct unstated {
    const struct material *material;
    const struct form *form;
    double mass;
};

static bool weighs_the_same(const struct unstated *unstated, const struct form *form)
{
    return isnan(form->density) && fabs(form_equivalent(unstated->form, form, unstated->mass) - unstated->mass) <= 1e-9 * unstated->mass;
}

/* What the amount would be of the other forms, and a repair with each. */
static void explain_unstated(struct diagnostics *diagnostics, struct diagnostic *diagnostic, const void *arguments)
{
    const struct unstated *unstated = arguments;
    const struct material *material = unstated->material;
    struct buffer others;
    buffer_start(&others, diagnostics->arena);
    for (size_t i = 0; i < material->form_count && others.length < 100; i++) {
        const struct form *form = &material->forms[i];
        double grams = form_equivalent(unstated->form, form, unstated->mass);
        bool liquid = !isnan(form->density);
        if (form == unstated->form || isnan(grams) || weighs_the_same(unstated, form)) {
            continue;
        }
        bool figure = form->label.length > 0 && form->label.at[0] >= '0' && form->label.at[0] <= '9';
        buffer_format(&others, "%s%s %s %s%.*s", others.length == 0 ? "" : ", ",
                      number_print_significant(diagnostics->arena, liquid ? grams / form->density : grams, 3), liquid ? "mL" : "g",
                      figure ? "of " : "", TEXT_ARGUMENTS(form->label));
    }
    if (others.length > 0) {
        diagnostics_help(diagnostics, diagnostic, "the same amount would be %s", buffer_finish(&others));
    }
    struct span end = {diagnostic->span.end, diagnostic->span.end};
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        if (form->label.length > 0) {
            diagnostics_fix_writing(diagnostics, diagnostic, end, " (%.*s)", TEXT_ARGUMENTS(form->label));
        }
    }
}

void check_say_form_unstated(struct checker *checker, const struct step *step, const struct material_words *words)
{
    const struct unstated unstated = {step->material, step->form, step->mass};
    bool all_alike = true; /* crystals and powder of one salt weigh the same: there is nothing to choose */
    for (size_t i = 0; i < step->material->form_count; i++) {
        all_alike = all_alike && weighs_the_same(&unstated, &step->material->forms[i]);
    }
    if (all_alike) {
        return;
    }
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_FORM_UNSTATED, words->span, "the form of %.*s is not stated; %.*s is assumed",
                  TEXT_ARGUMENTS(step->material->name), TEXT_ARGUMENTS(step->form->label));
    diagnostics_explain_later(checker->diagnostics, diagnostic, explain_unstated, &unstated, sizeof unstated);
}

bool check_unit_first(struct checker *checker, const struct material_words *words, const struct amount_words *amount)
{
    const struct quantity *quantity = amount == NULL ? NULL : amount->quantity;
    if (quantity == NULL || quantity->unit != NULL || words->form != NULL || library_material(checker->library, words->name) != NULL) {
        return false;
    }
    struct text name = words->name->spelling;
    size_t end = name.length;
    while (end > 0 && name.at[end - 1] != ' ') {
        end--;
    }
    struct names *names = checker->library->names;
    struct text unit = {name.at + end, name.length - end};
    struct text rest = text_trim((struct text){name.at, end});
    if (rest.length == 0 || library_unit(checker->library, names_find(names, unit)) == NULL ||
        library_material(checker->library, names_find(names, rest)) == NULL) {
        return false;
    }
    struct span span = {words->span.end - (uint32_t)unit.length, quantity->span.end};
    struct text figure = source_text(checker->formulary->sources, quantity->span);
    const char *turned = arena_format(checker->arena, "%.*s %.*s", TEXT_ARGUMENTS(figure), TEXT_ARGUMENTS(unit));
    struct diagnostic *diagnostic = check_say(checker, DIAG_SYNTAX, span, "the unit stands before its figure");
    const struct unit *read = library_unit(checker->library, names_find(names, unit));
    if (read->unclear != NULL) { /* gr. 8 */
        struct buffer list;
        buffer_start(&list, checker->arena);
        for (const struct word *word = read->unclear; word != NULL; word = word->next) {
            const char *reading = arena_format(checker->arena, "%.*s %.*s", TEXT_ARGUMENTS(figure), TEXT_ARGUMENTS(word->name->spelling));
            buffer_format(&list, "%s%s", word == read->unclear ? "" : " or ", reading);
            diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "%s", reading);
        }
        diagnostics_help(checker->diagnostics, diagnostic, "the figure comes first, and %.*s is read in more than one way: %s",
                         TEXT_ARGUMENTS(read->name), buffer_finish(&list));
        return true;
    }
    diagnostics_help(checker->diagnostics, diagnostic, "the figure comes first: %s", turned);
    diagnostics_fix_writing(checker->diagnostics, diagnostic, span, "%s", turned);
    return true;
}

static bool is_of_figure(char c)
{
    return text_is_digit(c) || c == '.' || c == ',' || c == '/';
}

bool check_two_figures(struct checker *checker, const struct material_words *words)
{
    struct text name = words->name->spelling;
    size_t figure = name.length;
    while (figure > 0 && is_of_figure(name.at[figure - 1])) {
        figure--;
    }
    if (figure == name.length || figure == 0 || name.at[figure - 1] != ' ' || library_material(checker->library, words->name) != NULL) {
        return false;
    }
    struct span span = {words->span.end - (uint32_t)(name.length - figure), words->span.end};
    struct diagnostic *diagnostic = check_say(checker, DIAG_SYNTAX, span, "two numbers stand where one amount belongs");
    diagnostics_help(checker->diagnostics, diagnostic, "write thousands without a gap, and a form in brackets: (28 %%)");
    return true;
}

/* "Hypo (sodium thiosulphate)", "borax (Na2B4O7.10H2O)": another name of the material, or the chemical formula of one of its forms. */
static bool names_the_same(struct checker *checker, const struct material *material, const struct form_words *words, const struct form **form)
{
    const struct material_reading *other = words->words == NULL ? NULL : library_material(checker->library, words->words);
    if (other != NULL && other->material == material) {
        *form = other->form != NULL ? other->form : *form;
        return true;
    }
    struct text written = source_text(checker->formulary->sources, words->span);
    for (size_t i = 0; i < material->form_count; i++) {
        if (text_equal(written, material->forms[i].chemical) && written.length > 0) {
            *form = &material->forms[i];
            return true;
        }
    }
    return false;
}

bool check_material(struct checker *checker, const struct material_words *words, const struct material **material,
                    const struct form **form, double *temperature)
{
    const struct material_reading *reading = library_material(checker->library, words->name);
    if (reading == NULL) {
        say_unknown_material(checker, words);
        return false;
    }
    *material = reading->material;
    *form = reading->form;
    if (words->form == NULL) {
        return true;
    }
    if (words->form->temperature) { /* "Water (52 °C)" */
        const struct unit *unit = library_unit(checker->library, words->form->words);
        if (unit != NULL && unit->dimension == DIMENSION_TEMPERATURE) {
            *temperature = (words->form->number - unit->zero_at) * unit->factor;
            return true;
        }
    }
    const struct form *written = library_form(checker->library, *material, words->form);
    if (written == NULL && (*material)->is_water && words->form->words == NULL && !words->form->percent) { /* "Water (125)" */
        const struct quantity bare = {.value = words->form->number, .span = words->form->span};
        check_quantity_of(checker, &bare, DIMENSION_TEMPERATURE, "water 750 mL at 45 °C");
        return false;
    }
    if (written == NULL && (*material)->is_water) { /* "Water (distilled)": no form that matters */
        return true;
    }
    if (written == NULL && names_the_same(checker, *material, words->form, form)) {
        return true;
    }
    struct name *quality = written != NULL || words->form->words == NULL ? NULL : names_folded(checker->library->names, words->form->words);
    if (quality != NULL && library_is_quality(quality->spelling)) { /* "Sodium sulphite, pure" */
        return true;
    }
    if (written == NULL) {
        say_unknown_form(checker, *material, words);
        return false;
    }
    *form = written;
    return true;
}
