/* Goes through a tree for the names in it. */
#include "syntax/mentions.h"

struct visitor {
    void (*visit)(void *context, const struct mention *mention);
    void *context;
    struct mention in;   /* the place: its kind and name are put in for each */
};

/* A text in quotes is a view into the source, so that its place can be told from it. */
static void say_text(const struct visitor *visitor, enum mention_kind kind, struct text text, bool declares)
{
    const struct source_file *source = visitor->in.declaration->file;
    text = text_trim(text);
    if (text.at < source->bytes || text.at > source->bytes + source->length || text.length == 0) {
        return;
    }
    uint32_t begin = source->base + (uint32_t)(text.at - source->bytes);
    struct mention mention = visitor->in;
    mention.kind = kind;
    mention.text = text;
    mention.span = span_make(begin, begin + (uint32_t)text.length);
    mention.declares = declares;
    visitor->visit(visitor->context, &mention);
}

static void say_material(const struct visitor *visitor, const struct material_words *material, bool declares)
{
    if (material != NULL && material->name != NULL) {
        struct mention mention = visitor->in;
        mention.kind = MENTION_MATERIAL;
        mention.text = material->name->spelling;
        mention.span = material->span;
        mention.material = material;
        mention.declares = declares;
        visitor->visit(visitor->context, &mention);
    }
}

static void say_words(const struct visitor *visitor, const struct word *word, bool declares)
{
    for (; word != NULL; word = word->next) {
        const struct material_words material = {.name = word->name, .span = word->span};
        say_material(visitor, &material, declares);
    }
}

static void say_stock(const struct visitor *visitor, const struct material_words *material, const struct strength *strength, bool declares)
{
    if (material == NULL || material->name == NULL) {
        return;
    }
    struct mention mention = visitor->in;
    mention.kind = MENTION_STOCK;
    mention.text = material->name->spelling;
    mention.span = declares ? span_join(material->span, strength->span) : strength->span;
    mention.material = material;
    mention.strength = strength;
    mention.declares = declares;
    visitor->visit(visitor->context, &mention);
}

static void say_addition(const struct visitor *visitor, const struct addition_statement *addition)
{
    say_material(visitor, addition->material, false);
    if (addition->amount != NULL && addition->amount->strength != NULL) {
        say_stock(visitor, addition->material, addition->amount->strength, false);
    }
    if (addition->tails != NULL) {
        say_material(visitor, addition->tails->place, false);
    }
}

static void say_mixture(const struct visitor *visitor, const struct mix_statement *mix)
{
    for (const struct mix_item *item = mix->items; item != NULL; item = item->next) {
        say_text(visitor, MENTION_TITLE, item->title, false);
        say_material(visitor, &item->what, false);
    }
}

static void say_change(const struct visitor *visitor, const struct change_statement *change)
{
    say_material(visitor, change->from, false);
    say_material(visitor, change->to, false);
    say_material(visitor, change->with, false);
}

/* `holds` is a line of shelves, of rules and of groups; so are others of two kinds of declarations. */
static void say_holding(const struct visitor *visitor, const struct statement *statement)
{
    if (visitor->in.declaration->kind == DECLARE_SHELF) {
        const struct holding_statement *holding = (const struct holding_statement *)statement;
        say_material(visitor, holding->material, false);
        say_text(visitor, MENTION_LOT, holding->lot, true);
    } else if (visitor->in.declaration->kind == DECLARE_RULE) {
        say_material(visitor, ((const struct usual_statement *)statement)->material, false);
    } else {
        say_words(visitor, ((const struct words_statement *)statement)->words, false);
    }
}

static void say_statement(const struct visitor *visitor, const struct statement *statement)
{
    enum declaration_kind of = visitor->in.declaration->kind;
    const struct condition_statement *condition = (const struct condition_statement *)statement;
    switch (statement->kind) {
    case SAY_ADDITION:
    case SAY_PINCH:
    case SAY_ADD:
        say_addition(visitor, (const struct addition_statement *)statement);
        break;
    case SAY_SOLUTION:
        say_text(visitor, MENTION_TITLE, ((const struct solution_statement *)statement)->title, false);
        break;
    case SAY_MIX:
        say_mixture(visitor, (const struct mix_statement *)statement);
        break;
    case SAY_REPLENISH:
        say_text(visitor, MENTION_TITLE, ((const struct replenish_statement *)statement)->title, false);
        break;
    case SAY_BATH:
        say_text(visitor, MENTION_TITLE, ((const struct bath_statement *)statement)->title, false);
        break;
    case SAY_OF:
        if (of == DECLARE_VARIANT) {
            say_text(visitor, MENTION_TITLE, ((const struct text_statement *)statement)->text, false);
        }
        break;
    case SAY_CHANGE:
    case SAY_SWAP:
        say_change(visitor, (const struct change_statement *)statement);
        break;
    case SAY_LEAVE_OUT:
        if (of == DECLARE_VARIANT) {
            say_change(visitor, (const struct change_statement *)statement);
        } else {
            say_words(visitor, ((const struct words_statement *)statement)->words, false);
        }
        break;
    case SAY_ALSO:
        say_words(visitor, ((const struct words_statement *)statement)->words, of == DECLARE_MATERIAL);
        break;
    case SAY_MISTAKEN:
        if (of == DECLARE_MATERIAL) {
            say_words(visitor, ((const struct words_statement *)statement)->words, false);
        }
        break;
    case SAY_SOLVENT:
        say_words(visitor, ((const struct words_statement *)statement)->words, false);
        break;
    case SAY_HOLDS:
    case SAY_SOLD:
        say_holding(visitor, statement);
        break;
    case SAY_WHEN:
        say_material(visitor, condition->subject, false);
        say_material(visitor, condition->object, false);
        break;
    default:
        break;
    }
}

static void say_heading(const struct visitor *visitor)
{
    const struct declaration *declaration = visitor->in.declaration;
    switch (declaration->kind) {
    case DECLARE_FORMULA:
    case DECLARE_VARIANT:
        say_text(visitor, MENTION_TITLE, declaration->title, true);
        break;
    case DECLARE_STOCK:
        say_material(visitor, &declaration->name, false);
        say_stock(visitor, &declaration->name, &declaration->strength, true);
        break;
    case DECLARE_MATERIAL:
        say_material(visitor, &declaration->name, true);
        break;
    case DECLARE_BATCH:
        say_text(visitor, MENTION_BATCH, declaration->title, true);
        say_text(visitor, MENTION_TITLE, declaration->of, false);
        break;
    case DECLARE_SHELF:
        say_text(visitor, MENTION_SHELF, declaration->title, true);
        break;
    case DECLARE_PROCESS:
        say_text(visitor, MENTION_PROCESS, declaration->title, true);
        break;
    case DECLARE_READ:
        say_text(visitor, MENTION_FILE, declaration->title, false);
        break;
    default:
        break;
    }
}

void mentions_visit(const struct syntax_file *tree, void (*visit)(void *context, const struct mention *mention), void *context)
{
    struct visitor visitor = {visit, context, {0}};
    for (const struct declaration *declaration = tree->declarations; declaration != NULL; declaration = declaration->next) {
        visitor.in = (struct mention){.declaration = declaration};
        say_heading(&visitor);
        for (const struct statement *statement = declaration->statements; statement != NULL; statement = statement->next) {
            visitor.in.statement = statement;
            say_statement(&visitor, statement);
        }
    }
}
