/* Gathers what there is to be typed. */
#include "workspace/offers.h"

#include "base/number.h"
#include "library/bath_kinds.h"
#include "syntax/keywords.h"

#include <math.h>

#include "notation.tab.h"

static void add(struct offers *offers, enum potash_completion_kind kind, const char *label, const char *detail, const char *text)
{
    *SNAPSHOT_ADD(offers->arena, struct potash_completion, offers->items, offers->count, offers->room) =
        (struct potash_completion){label, kind, detail, text};
}

static const char *kept(const struct offers *offers, struct text text)
{
    return arena_copy(offers->arena, text.at, text.length);
}

static const struct material *material_named(const struct offers *offers, struct text name)
{
    struct library *library = &offers->checked->session->library;
    struct text words = text_trim(name);
    struct name *found = names_find(library->names, (struct text){arena_copy(library->arena, words.at, words.length), words.length});
    const struct material_reading *reading = library_material(library, found);
    return reading == NULL ? NULL : reading->material;
}

bool is_known_name(const struct offers *offers, struct text name)
{
    return material_named(offers, name) != NULL;
}

const struct material *material_before(const struct offers *offers, const struct source_file *source, const struct text_token *tokens,
                                       size_t count, size_t offset)
{
    const struct material *material = NULL;
    for (size_t i = 0; i < count && material == NULL; i++) {
        struct span span = tokens[i].span;
        if (tokens[i].kind == T_WORDS && span.end - source->base <= offset) {
            material = material_named(offers, (struct text){source->bytes + (span.begin - source->base), span.end - span.begin});
        }
    }
    return material;
}

void offer_keyword(struct offers *offers, const char *words)
{
    size_t count;
    const struct keyword *keywords = syntax_keywords(&count);
    unsigned belongs_to = KEYWORD_OPENS | (offers->at.declaration == NULL ? 0 : 1u << offers->at.declaration->kind);
    const char *example = NULL;
    for (size_t i = 0; i < count && example == NULL; i++) {
        example = strcmp(keywords[i].words, words) == 0 && (keywords[i].belongs_to & belongs_to) != 0 ? keywords[i].example : NULL;
    }
    add(offers, POTASH_COMPLETE_KEYWORD, words, example, words);
}

/* What has a `stop` line is not offered by anybody. */
static void add_material(void *context, const struct material *material)
{
    struct offers *offers = context;
    if (material->stop.length > 0) {
        return;
    }
    const char *role = material->role_count > 0 ? kept(offers, material->roles[0]) : NULL;
    const char *name = kept(offers, material->name);
    add(offers, POTASH_COMPLETE_MATERIAL, name, role, name);
    for (size_t i = 0; i < material->form_count && material->form_count > 1; i++) {
        if (material->forms[i].label.length > 0) {
            const char *with = arena_format(offers->arena, "%s (%.*s)", name, TEXT_ARGUMENTS(material->forms[i].label));
            add(offers, POTASH_COMPLETE_MATERIAL, with, role, with);
        }
    }
}

void offer_materials(struct offers *offers)
{
    library_each_material(&offers->checked->session->library, add_material, offers);
}

void offer_forms(struct offers *offers)
{
    const struct material *material = offers->material;
    for (size_t i = 0; material != NULL && i < material->form_count; i++) {
        const struct form *form = &material->forms[i];
        if (form->label.length > 0) {
            const char *label = kept(offers, form->label);
            const char *detail = isnan(form->molar_mass)
                                     ? NULL
                                     : arena_format(offers->arena, "%.*s, %s g/mol", TEXT_ARGUMENTS(form->chemical), number_print(offers->arena, form->molar_mass, 2));
            add(offers, POTASH_COMPLETE_FORM, label, detail, label);
        }
    }
}

/* The ends of the range that is usual of the material in this kind of bath, for what the formula makes. */
void offer_amounts(struct offers *offers)
{
    const struct material *material = offers->material;
    const struct formula *formula = offers->at.formula;
    if (material == NULL || formula == NULL || formula->kind.length == 0) {
        return;
    }
    const struct part *part = offers->at.part != NULL ? offers->at.part : formula->parts;
    double litres = part == NULL || isnan(part->makes) ? 1 : part->makes / 1000;
    struct text kind = names_fold(offers->arena, formula->kind);
    for (size_t i = 0; i < material->typical_count; i++) {
        const struct typical_range *range = &material->typical[i];
        if (!text_equal(range->kind, kind) || range->strength == STRENGTH_WORKING || range->strength == STRENGTH_REPLENISHER) {
            continue;
        }
        const char *unit = range->by_volume ? "mL" : "g";
        const char *low = number_print_significant(offers->arena, range->low, 3);
        const char *high = number_print_significant(offers->arena, range->high, 3);
        const char *detail = arena_format(offers->arena, "usual: %s to %s %s/L", low, high, unit);
        const double ends[] = {range->low, range->high};
        for (size_t end = 0; end < 2; end++) {
            const char *amount = arena_format(offers->arena, "%s %s", number_print_significant(offers->arena, ends[end] * litres, 3), unit);
            add(offers, POTASH_COMPLETE_AMOUNT, amount, detail, amount);
        }
    }
}

void offer_units(struct offers *offers, unsigned dimensions)
{
    enum { MOST = 40 };
    const struct unit *units[MOST];
    size_t count = library_usual_units(&offers->checked->session->library, dimensions, units, MOST);
    for (size_t i = 0; i < count; i++) {
        const char *name = kept(offers, units[i]->name);
        add(offers, POTASH_COMPLETE_UNIT, name, dimension_names[units[i]->dimension], name);
    }
}

void offer_kinds(struct offers *offers)
{
    struct library *library = &offers->checked->session->library;
    size_t count = library_bath_kinds(library, NULL);
    const struct bath_kind **found = ARENA_ARRAY(offers->arena, const struct bath_kind *, count);
    library_bath_kinds(library, found);
    for (size_t i = 0; i < count; i++) {
        const char *name = kept(offers, found[i]->name);
        add(offers, POTASH_COMPLETE_VALUE, name, NULL, name);
    }
}

void offer_ids(struct offers *offers)
{
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        if (diagnostic_registry[id].severity == SEVERITY_WARNING) {
            add(offers, POTASH_COMPLETE_VALUE, diagnostic_registry[id].name, diagnostic_registry[id].summary, diagnostic_registry[id].name);
        }
    }
}

static void add_mention(void *context, const struct mention *mention)
{
    struct offers *offers = context;
    if (mention->kind == offers->wanted && mention->declares) {
        const char *name = kept(offers, mention->text);
        add(offers, offers->kind, name, NULL, offers->quoted ? arena_format(offers->arena, "\"%s\"", name) : name);
    }
}

void offer_mentions(struct offers *offers, enum mention_kind wanted, enum potash_completion_kind kind)
{
    offers->wanted = wanted;
    offers->kind = kind;
    for (size_t i = 0; i < offers->snapshot->texts.count; i++) {
        mentions_visit(text_tree(offers->snapshot->texts.items[i].file), add_mention, offers);
    }
}

/* The files of the workspace beside and below the text: that is where it may read from. */
void offer_files(struct offers *offers)
{
    const char *own = offers->text->file->path;
    const char *slash = strrchr(own, '/');
    size_t folder = slash == NULL ? 0 : (size_t)(slash + 1 - own);
    for (size_t i = 0; i < offers->snapshot->texts.count; i++) {
        const char *path = offers->snapshot->texts.items[i].file->path;
        if (strncmp(path, own, folder) == 0 && strcmp(path, own) != 0 && path[folder] != '/') {
            const char *name = path + folder;
            add(offers, POTASH_COMPLETE_FILE, name, NULL, offers->quoted ? arena_format(offers->arena, "\"%s\"", name) : name);
        }
    }
}

void offer_list(struct offers *offers, const char *words)
{
    while (*words != '\0') {
        size_t length = strcspn(words, ",");
        const char *word = arena_copy(offers->arena, words, length);
        add(offers, POTASH_COMPLETE_VALUE, word, NULL, word);
        words += length + (words[length] == ',' ? 2 : 0);
    }
}
