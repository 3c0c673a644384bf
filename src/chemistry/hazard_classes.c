/* Classes of the Regulation by name and code; what the library says of a substance. */
#define _GNU_SOURCE /* memmem */

#include "library/groups.h"
#include "chemistry/hazard_rules.h"

#include <math.h>

static const struct hazard_class classes[] = {
#define CLASS(name, code, family, rank, pictogram, signal) {name, code, FAMILY_##family, rank, pictogram, SIGNAL_##signal},
#include "chemistry/hazard_classes.def"
#undef CLASS
};

const struct hazard_class *hazard_class_find(struct text hazard, struct text code)
{
    for (size_t i = 0; i < sizeof classes / sizeof *classes; i++) {
        size_t length = strlen(classes[i].code);
        bool code_fits = code.length >= length && memcmp(code.at, classes[i].code, length) == 0;
        if (code_fits && text_is(hazard, classes[i].hazard)) {
            return &classes[i];
        }
    }
    return NULL;
}

const struct hazard_class *hazard_class_called(const char *hazard, const char *code)
{
    return hazard_class_find(text_from(hazard), text_from(code));
}

/* ---- where it comes from ---- */

struct text hazard_basis_words(enum hazard_basis basis)
{
    static const char *const words[] = {"", "Annex VI", "published list", "supplier's sheet", "likeness", "common practice", "memory"};
    return text_from(words[basis]);
}

/* A source says so in its first words, and "memory" anywhere. */
static enum hazard_basis basis_of(struct text source)
{
    static const struct {
        const char *words;
        enum hazard_basis basis;
    } kinds[] = {{"memory", BASIS_MEMORY},
                 {"by likeness to", BASIS_LIKENESS},
                 {"common practice", BASIS_PRACTICE},
                 {"Regulation (EC) No 1272/2008", BASIS_REGULATION},
                 {"supplier", BASIS_SUPPLIER}};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        if (source.length > 0 && memmem(source.at, source.length, kinds[i].words, strlen(kinds[i].words)) != NULL) {
            return kinds[i].basis;
        }
    }
    return source.length > 0 ? BASIS_LIST : BASIS_NONE;
}

/* ---- the library's data of a substance ---- */

static enum hazard_route read_route(struct text word)
{
    static const struct {
        const char *word;
        enum hazard_route route;
    } routes[] = {{"oral", ROUTE_ORAL},
                  {"dermal", ROUTE_DERMAL},
                  {"inhalation gas", ROUTE_GAS},
                  {"inhalation vapour", ROUTE_VAPOUR},
                  {"inhalation dust", ROUTE_DUST},
                  {"inhalation mist", ROUTE_DUST}};
    for (size_t i = 0; i < sizeof routes / sizeof *routes; i++) {
        if (text_is(word, routes[i].word)) {
            return routes[i].route;
        }
    }
    return ROUTES;
}

static void add_entry(struct hazard_data *data, const struct figure_statement *figure)
{
    struct text code = figure->word->name->spelling;
    if (text_is(code, "unknown")) { /* nobody has said: it stays unassessed */
        return;
    }
    data->stated = true;
    data->basis = basis_of(figure->source);
    const struct hazard_class *class = hazard_class_find(figure->text, code);
    if (class != NULL) {
        data->entries[data->entry_count++] = (struct hazard_entry){class, code, basis_of(figure->source)};
    } else if (!text_is(code, "none")) {
        data->not_understood = code;
    }
}

static void add_limit(struct hazard_data *data, const struct figure_statement *figure)
{
    struct text code = figure->word->name->spelling;
    const struct hazard_class *class = hazard_class_find(figure->text, code);
    if (class != NULL) {
        data->limits[data->limit_count++] =
            (struct hazard_limit){class, code, basis_of(figure->source), isnan(figure->from_percent) ? 0 : figure->from_percent,
                                  isnan(figure->to_percent) ? INFINITY : figure->to_percent};
    }
}

static void read_statement(struct hazard_data *data, const struct statement *statement)
{
    const struct figure_statement *figure = (const struct figure_statement *)statement;
    enum hazard_route route;
    switch (statement->kind) {
    case SAY_HAZARD:
        add_entry(data, figure);
        break;
    case SAY_LIMIT:
        add_limit(data, figure);
        break;
    case SAY_FACTOR:
        if (text_is(figure->word->name->spelling, "acute")) {
            data->m_acute = figure->quantity->value;
        } else if (text_is(figure->word->name->spelling, "chronic")) {
            data->m_chronic = figure->quantity->value;
        } else if (text_is(figure->word->name->spelling, "heat")) {
            data->heat = figure->quantity->value;
        }
        break;
    case SAY_TOXICITY:
        route = read_route(figure->word->name->spelling);
        if (route < ROUTES) { /* in mg/kg, mg/L or ppm, as the library writes it */
            data->toxicity[route] = figure->quantity->value;
            data->inhaled = route >= ROUTE_GAS ? route : data->inhaled;
        }
        break;
    default:
        break;
    }
}

const struct hazard_data *hazard_data_of(struct arena *arena, struct library *library, const struct material *material)
{
    struct hazard_data *data = ARENA_NEW(arena, struct hazard_data);
    data->name = material->name;
    data->stop = material->stop;
    data->m_acute = data->m_chronic = 1;
    data->heat = NAN;
    /* A category by inhalation without a figure: of a powder, its dust; of a liquid, its vapour. */
    data->inhaled = material->liquid ? ROUTE_VAPOUR : ROUTE_DUST;
    for (size_t i = 0; i < ROUTES; i++) {
        data->toxicity[i] = NAN;
    }
    size_t entries = 0;
    size_t limits = 0;
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        entries += statement->kind == SAY_HAZARD;
        limits += statement->kind == SAY_LIMIT;
    }
    data->entries = ARENA_ARRAY(arena, struct hazard_entry, entries);
    data->limits = ARENA_ARRAY(arena, struct hazard_limit, limits);
    for (const struct statement *statement = material->declaration->statements; statement != NULL; statement = statement->next) {
        read_statement(data, statement);
    }
    data->extreme_ph = material_in_group(library, material, TEXT("acids of extreme ph")) ||
                       material_in_group(library, material, TEXT("alkalis of extreme ph"));
    data->acid = material_has_role(material, TEXT("acid"));
    data->alkali = material_has_role(material, TEXT("alkali"));
    data->boron = material_in_group(library, material, TEXT("boron compounds"));
    return data;
}
