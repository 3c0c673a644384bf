/* Words for what is known of materials and formulas. */
#include "workspace/facts.h"

#include "base/chemical.h"
#include "chemistry/hazard.h"
#include "chemistry/solubility.h"

#include <math.h>

static const char *figure(const struct facts *facts, double value, int digits)
{
    struct buffer out;
    buffer_start(&out, facts->arena);
    number_add_significant(&out, value, digits);
    return buffer_finish(&out);
}

static void add(const struct facts *facts, const char *words)
{
    buffer_string(facts->out, words);
}

/* ---- materials ---- */

static void add_form(const struct facts *facts, const struct material *material, const struct form *form)
{
    struct text label = form->label.length > 0 ? form->label : TEXT("as sold");
    buffer_format(facts->out, "- %.*s%s", TEXT_ARGUMENTS(label), form == material->usual && material->form_count > 1 ? " (usual)" : "");
    if (form->chemical.length > 0) {
        struct text chemical = chemical_print(facts->arena, form->chemical);
        buffer_format(facts->out, ": %.*s", TEXT_ARGUMENTS(chemical));
    }
    if (!isnan(form->molar_mass)) {
        buffer_format(facts->out, ", %s g/mol", number_print(facts->arena, form->molar_mass, 2));
    }
    if (!isnan(form->density)) {
        buffer_format(facts->out, ", %s %% by weight, %s g/mL", number_print(facts->arena, form->percent, 1), number_print(facts->arena, form->density, 3));
    }
}

/* Each form with its formula, and what as much of the substance weighs in it. */
static void add_forms(const struct facts *facts, const struct material *material, const struct step *step)
{
    for (size_t i = 0; i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        add_form(facts, material, form);
        bool weighed = step != NULL && step->form != NULL && !isnan(step->mass);
        double grams = weighed ? form_equivalent(step->form, form, step->mass) : form_equivalent(material->usual, form, 1);
        if (!isnan(grams) && material->form_count > 1) {
            buffer_format(facts->out, weighed ? "; here %s g" : "; %s times the usual weight", figure(facts, grams, weighed ? 4 : 3));
        }
        add(facts, "\n");
    }
}

static void add_solubility(const struct facts *facts, const struct material *material, const struct part *part, const struct step *step)
{
    double temperature = 20;
    const struct dissolving *dissolving =
        step == NULL || isnan(step->mass) ? NULL : part_dissolving(facts->arena, &facts->checked->session->library, part, 1);
    for (; dissolving != NULL; dissolving = dissolving->next) {
        temperature = dissolving->step == step ? dissolving->temperature : temperature;
    }
    double grams = material_solubility(material, temperature);
    if (isinf(grams)) {
        add(facts, "\nMixes with water in every proportion.\n");
    } else if (!isnan(grams)) {
        struct text label = material->usual->label;
        buffer_format(facts->out, "\n100 mL of water dissolve %s g%s%.*s%s at %s °C.\n", figure(facts, grams, 3), label.length > 0 ? " (" : "",
                      TEXT_ARGUMENTS(label), label.length > 0 ? ")" : "", number_print(facts->arena, temperature, 0));
    }
}

static void add_hazards(const struct facts *facts, const struct material *material)
{
    const struct hazard_data *data = hazard_data_of(facts->arena, &facts->checked->session->library, material);
    if (material->stop.length > 0) {
        buffer_format(facts->out, "\n**STOP**: %.*s\n", TEXT_ARGUMENTS(material->stop));
    }
    add(facts, "\nHazard: ");
    for (size_t i = 0; i < data->entry_count; i++) {
        const struct hazard_entry *entry = &data->entries[i];
        const char *class = entry->class == NULL ? "" : entry->class->hazard;
        buffer_format(facts->out, "%s%s%s%.*s", i == 0 ? "" : "; ", class, class[0] == '\0' ? "" : " ", TEXT_ARGUMENTS(entry->code));
    }
    add(facts, data->entry_count > 0 ? ". " : data->stated ? "no class is known to be needed. " : "not assessed. ");
    add(facts, "Check the supplier's safety data sheet.\n");
}

/* An amount of the bath: in a litre, and in moles. */
static void add_share(const struct facts *facts, const struct material *material, const struct part *part, const struct step *step)
{
    double substance = step_substance(step);
    double moles = step_moles(step);
    double per_litre = part_per_litre(part, isnan(step->mass) ? step->volume : step->mass);
    if (isnan(per_litre) && isnan(moles)) {
        return;
    }
    add(facts, "\nHere: ");
    if (!isnan(per_litre)) {
        buffer_format(facts->out, "%s %s/L", figure(facts, per_litre, 3), isnan(step->mass) ? "mL" : "g");
    }
    if (!isnan(moles)) {
        double molar = part_per_litre(part, moles);
        buffer_format(facts->out, "%s%s mol", isnan(per_litre) ? "" : "; ", figure(facts, moles, 3));
        if (!isnan(molar)) {
            buffer_format(facts->out, ", %s mol/L", figure(facts, molar, 3));
        }
    }
    if (material->liquid && !isnan(substance) && !isnan(step->mass)) {
        buffer_format(facts->out, "; %s g of the pure substance", figure(facts, substance, 3));
    }
    add(facts, ".\n");
}

void fact_material(const struct facts *facts, const struct material *material, const struct formula *formula, const struct part *part,
                   const struct step *step)
{
    buffer_format(facts->out, "**%.*s**", TEXT_ARGUMENTS(material->name));
    for (size_t i = 0; i < material->role_count; i++) {
        buffer_format(facts->out, "%s%.*s", i == 0 ? ", " : "/", TEXT_ARGUMENTS(material->roles[i]));
    }
    add(facts, "\n\n");
    add_forms(facts, material, step);
    if (step != NULL && formula != NULL) {
        add_share(facts, material, part, step);
    }
    if (!material->is_water) {
        add_solubility(facts, material, part, step);
        add_hazards(facts, material);
    }
}

void fact_amount(const struct facts *facts, const struct step *step)
{
    bool weighed = !isnan(step->mass) && isnan(step->volume);
    double amount = weighed ? step->mass : step->volume;
    if (isnan(amount)) {
        return;
    }
    const char *unit = weighed ? "g" : "mL";
    buffer_format(facts->out, "\n\nHere: %s", figure(facts, amount, 4));
    if (step->high > 1) {
        buffer_format(facts->out, " to %s", figure(facts, amount * step->high, 4));
    }
    buffer_format(facts->out, " %s%s", unit, step->approximate ? ", about" : "");
}

/* ---- formulas ---- */

static void add_use(const struct facts *facts, const struct use *use)
{
    buffer_format(facts->out, "- %.*s", TEXT_ARGUMENTS(use->name));
    if (!isnan(use->stock_parts) && !isnan(use->water_parts)) {
        buffer_format(facts->out, use->water_parts == 0 ? ": undiluted" : ": %s+%s", figure(facts, use->stock_parts, 4), figure(facts, use->water_parts, 4));
    }
    if (!isnan(use->temperature)) {
        buffer_format(facts->out, ", %s °C", figure(facts, use->temperature, 3));
    }
    if (!isnan(use->time[0])) {
        bool minutes = use->time[0] >= 120;
        buffer_format(facts->out, ", %s", figure(facts, minutes ? use->time[0] / 60 : use->time[0], 3));
        if (use->time[1] > use->time[0]) {
            buffer_format(facts->out, " to %s", figure(facts, minutes ? use->time[1] / 60 : use->time[1], 3));
        }
        add(facts, minutes ? " min" : " s");
    }
    add(facts, "\n");
}

void fact_formula(const struct facts *facts, const struct formula *formula)
{
    buffer_format(facts->out, "**%.*s**", TEXT_ARGUMENTS(formula->title));
    if (formula->kind.length > 0) {
        buffer_format(facts->out, ", %.*s", TEXT_ARGUMENTS(formula->kind));
    }
    const struct part *part = formula->parts;
    if (part != NULL && part->next == NULL && !formula->faulty) {
        bool dry = isnan(part->makes);
        double makes = dry ? part->makes_mass : part->makes;
        if (!isnan(makes)) {
            buffer_format(facts->out, ", makes %s %s", figure(facts, makes, 4), dry ? "g" : "mL");
        }
    }
    add(facts, formula->faulty ? ": it has errors\n\n" : "\n\n");
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        add_use(facts, use);
    }
    if (formula->source.length > 0) {
        buffer_format(facts->out, "\n_after %.*s_\n", TEXT_ARGUMENTS(formula->source));
    }
}
