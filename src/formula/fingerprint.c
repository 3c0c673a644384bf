/* The canonical text of a checked form, and its digest. */
#include "formula/fingerprint.h"

#include <math.h>
#include <nettle/sha2.h>

/* Nine figures: more than any balance shows, fewer than the noise of converting units. */
static void put_number(struct buffer *out, const char *name, double number)
{
    if (!isnan(number)) {
        buffer_format(out, " %s %.9g", name, number);
    }
}

static void put_name(struct buffer *out, const char *name, struct text text)
{
    if (text.length > 0) {
        buffer_format(out, " %s \"%.*s\"", name, TEXT_ARGUMENTS(text));
    }
}

static void put_material(struct buffer *out, const struct material *material, const struct form *form)
{
    if (material != NULL) {
        put_name(out, "of", material->name);
    }
    if (form != NULL && form->name != NULL) {
        put_name(out, "form", form->name->spelling);
    }
}

static void put_step(struct buffer *out, const struct step *step)
{
    static const char *const kinds[] = {"add", "pinch", "cool", "warm", "stand", "filter", "do"};
    static const char *const ways[] = {"mass", "volume", "stock", "water", "make", "needed", "solution"};
    buffer_string(out, kinds[step->kind]);
    if (step->kind == STEP_DO) {
        put_name(out, "this", step->text);
    } else if (step->kind == STEP_ADDITION) {
        buffer_format(out, " by %s", ways[step->how]);
        if (step->how == ADD_SOLUTION && step->solution_of != NULL) {
            bool own = step->solution != NULL && step->solution->name != NULL;
            put_name(out, "from", own ? step->solution->name->spelling : step->solution_of->title);
        }
    }
    put_material(out, step->material, step->form);
    put_number(out, "g", step->mass);
    put_number(out, "mL", step->volume);
    put_number(out, "percent", step->stock_percent);
    put_number(out, "C", step->temperature);
    put_number(out, "s", step->kind == STEP_STAND ? step->duration : NAN);
    put_number(out, "times", step->high > 1 ? step->high : NAN);
    buffer_string(out, step->tails != NULL && step->tails->optional ? " optional\n" : "\n");
}

static void put_row(struct buffer *out, const char *what, const struct time_row *row)
{
    buffer_string(out, what);
    put_number(out, "C", row->temperature);
    put_number(out, "to", row->temperature_high);
    put_number(out, "s", row->time[0]);
    put_number(out, "to", row->time[1]);
    put_number(out, "speed", row->speed);
    put_number(out, "contrast", row->contrast);
    put_number(out, "grade", row->grade);
    put_number(out, "stock", row->stock_parts);
    put_number(out, "water", row->water_parts);
    buffer_character(out, '\n');
}

static void put_use(struct buffer *out, const struct use *use)
{
    buffer_string(out, "use");
    put_name(out, "for", use->name);
    put_number(out, "stock", use->stock_parts);
    put_number(out, "water", use->water_parts);
    put_number(out, "to", use->water_parts_high);
    put_number(out, "C", use->temperature);
    put_number(out, "to", use->temperature_high);
    put_number(out, "s", use->time[0]);
    put_number(out, "to", use->time[1]);
    buffer_character(out, '\n');
    for (const struct time_row *row = use->times; row != NULL; row = row->next) {
        bool plain = row == use->times && isnan(row->speed) && isnan(row->contrast) && isnan(row->grade);
        if (!plain) { /* the first time stands above, as it did before there were tables */
            put_row(out, "time", row);
        }
    }
    for (const struct pour *pour = use->pours; pour != NULL; pour = pour->next) {
        put_row(out, "bath", &pour->of);
        put_name(out, "part", pour->part->name == NULL ? (struct text){0} : pour->part->name->spelling);
        buffer_character(out, '\n');
    }
    for (const struct mix_share *share = use->mix; share != NULL; share = share->next) {
        buffer_string(out, "mix");
        if (share->part != NULL && share->part->name != NULL) {
            put_name(out, "part", share->part->name->spelling);
        }
        put_material(out, share->material, share->form);
        put_number(out, share->by_volume ? "mL" : "parts", share->amount);
        buffer_character(out, '\n');
    }
}

void formula_canonical_text(struct buffer *out, const struct formula *formula)
{
    buffer_string(out, "formula 1");
    put_name(out, "kind", formula->kind);
    buffer_character(out, '\n');
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        buffer_string(out, "part");
        put_name(out, "name", part->name == NULL ? (struct text){0} : part->name->spelling);
        put_number(out, "mL", part->makes);
        put_number(out, "g", part->makes_mass);
        buffer_character(out, '\n');
        for (const struct step *step = part->steps; step != NULL; step = step->next) {
            put_step(out, step);
        }
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        put_use(out, use);
    }
}

static void put_remarks(struct buffer *out, const struct remark *notes)
{
    for (; notes != NULL; notes = notes->next) {
        put_name(out, "note", notes->text);
    }
}

static void put_keeps(struct buffer *out, const struct keeping *keeps)
{
    for (; keeps != NULL; keeps = keeps->next) {
        put_number(out, "keeps", keeps->duration);
        put_name(out, "in", keeps->in);
    }
}

static void put_rest_of_part(struct buffer *out, const struct part *part)
{
    buffer_format(out, "\nrest %d", part->makes_assumed);
    put_remarks(out, part->notes);
    put_keeps(out, part->keeps);
    for (const struct step *step = part->steps; step != NULL; step = step->next) {
        buffer_format(out, " %d%d", step->form_assumed, step->approximate);
        put_name(out, "note", step->tails == NULL ? (struct text){0} : step->tails->note);
    }
}

static void put_rest_of_use(struct buffer *out, const struct use *use)
{
    put_name(out, "\nagitate", use->agitation);
    put_number(out, "needs", use->needs);
    put_name(out, "per", use->needs_per == NULL ? (struct text){0} : use->needs_per->spelling);
    put_number(out, "capacity", use->capacity);
    put_name(out, "of", use->capacity_of == NULL ? (struct text){0} : use->capacity_of->spelling);
    put_number(out, "cm2", use->capacity_area);
    put_number(out, "mL", use->capacity_per);
    put_number(out, "replenish", use->replenish);
    put_name(out, "per", use->replenish_per == NULL ? (struct text){0} : use->replenish_per->unit->spelling);
    put_name(out, "of", use->replenisher);
    put_number(out, "factor", use->coefficient);
    put_number(out, "C", use->coefficient_per);
    put_remarks(out, use->notes);
    put_keeps(out, use->keeps);
}

/* Takes blanks, leader dots and their like out of what stands in quotes: a name is kept as it was typed, "full .... bottle". */
static void close_gaps(struct buffer *out, size_t from)
{
    bool quoted = false;
    size_t kept = from;
    for (size_t i = from; i < out->length; i++) {
        const char *at = out->bytes + i;
        bool no_break = i + 1 < out->length && memcmp(at, "\u00A0", 2) == 0;
        bool leader = i + 2 < out->length && memcmp(at, "\u2026", 3) == 0;
        quoted = quoted != (*at == '"');
        if (quoted && (no_break || leader)) {
            i += leader ? 2 : 1;
        } else if (!quoted || strchr(" \t.", *at) == NULL) {
            out->bytes[kept++] = *at;
        }
    }
    out->length = kept;
}

void formula_meaning_text(struct buffer *out, const struct formula *formula)
{
    const size_t from = out->length;
    put_name(out, "title", formula->title);
    put_name(out, "variant of", formula->variant_of == NULL ? (struct text){0} : formula->variant_of->title);
    for (const struct word *word = formula->purposes; word != NULL; word = word->next) {
        put_name(out, "for", word->name->spelling);
    }
    put_name(out, "after", formula->source);
    put_remarks(out, formula->notes);
    put_keeps(out, formula->keeps);
    for (int id = 0; id < DIAGNOSTIC_IDS; id++) {
        put_name(out, "silence", formula->silenced[id] ? text_from(diagnostic_registry[id].name) : (struct text){0});
    }
    for (const struct silenced_rule *rule = formula->silenced_rules; rule != NULL; rule = rule->next) {
        put_name(out, "silence", rule->name);
    }
    buffer_format(out, " measures %d\n", formula->measures);
    formula_canonical_text(out, formula);
    for (const struct part *part = formula->parts; part != NULL; part = part->next) {
        put_rest_of_part(out, part);
    }
    for (const struct use *use = formula->uses; use != NULL; use = use->next) {
        put_rest_of_use(out, use);
    }
    buffer_character(out, '\n');
    close_gaps(out, from);
}

struct text formula_fingerprint(struct arena *arena, const struct formula *formula)
{
    struct buffer text;
    buffer_start(&text, arena);
    formula_canonical_text(&text, formula);
    struct sha256_ctx digest;
    uint8_t bytes[SHA256_DIGEST_SIZE];
    sha256_init(&digest);
    sha256_update(&digest, text.length, (const uint8_t *)text.bytes);
    sha256_digest(&digest, sizeof bytes, bytes);
    char figures[FINGERPRINT_LENGTH + 1];
    for (size_t i = 0; i < FINGERPRINT_LENGTH; i++) {
        unsigned half = i % 2 == 0 ? bytes[i / 2] >> 4 : bytes[i / 2] & 15u;
        figures[i] = "0123456789abcdef"[half];
    }
    return (struct text){arena_copy(arena, figures, FINGERPRINT_LENGTH), FINGERPRINT_LENGTH};
}
