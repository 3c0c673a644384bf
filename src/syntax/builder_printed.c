/* Lines as books print them: what differs from the notation's own order is taken where it can be read in one way, and told with the
 * line to write where it cannot. */
#include "syntax/builder.h"

#include <strings.h>

/* "For use dilute with an equal volume of water" begins as the property `for` does, which must not swallow it. */
static bool says_how(struct text words)
{
    static const struct text verbs[] = {TEXT("use"), TEXT("dilute"), TEXT("diluted"), TEXT("mix"),
                                        TEXT("take"), TEXT("add"), TEXT("develop"), TEXT("make")};
    size_t end;
    for (size_t at = 0; at < words.length; at = end + 1) {
        end = at;
        while (end < words.length && words.at[end] != ' ') {
            end++;
        }
        for (size_t i = 0; i < sizeof verbs / sizeof *verbs; i++) {
            if (verbs[i].length == end - at && strncasecmp(words.at + at, verbs[i].at, end - at) == 0) {
                return true;
            }
        }
    }
    return false;
}

void build_for(struct builder *builder, struct word *words, struct span span)
{
    for (const struct word *word = words; word != NULL; word = word->next) {
        if (says_how(word->name->spelling)) {
            diagnostics_help(builder->diagnostics,
                             diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span, "this says how it is used, and not what the formula is for"),
                             "write what it is for, as in: use for film, and below it how, as in: dilute 1+3");
            build_refused_line(builder, span);
            return;
        }
    }
    build_words(builder, SAY_FOR, words, span);
}

void build_part_as_solution(struct builder *builder, struct span keyword_span, struct name *words, struct span words_span,
                            struct span span)
{
    /* "Solution A" alone on its line is how books head a part. */
    struct diagnostic *diagnostic =
        diagnostics_add(builder->diagnostics, DIAG_SYNTAX, span_join(keyword_span, words_span),
                        "a solution that is added needs an amount, and a part is opened with \"part\"");
    diagnostics_fix(builder->diagnostics, diagnostic, keyword_span, "part", "open a part: part %.*s",
                    TEXT_ARGUMENTS(words->spelling));
    build_part(builder, words, NAN, (struct text){0}, words_span, span);
}

/* "10% bromide of potassium solution 30 mL" */
void build_named_solution(struct builder *builder, struct strength *strength, struct name *words, struct span words_span,
                          struct quantity *quantity, const struct tails *tails, struct span span)
{
    static const char *const ends[] = {" solution", " solution.", " soln", " soln.", " sol", " sol.", " stock"};
    struct text name = words->spelling;
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        size_t length = strlen(ends[i]);
        if (name.length > length && strncasecmp(name.at + name.length - length, ends[i], length) == 0) {
            struct name *solute = names_find(builder->names, text_trim((struct text){name.at, name.length - length}));
            words_span.end -= (uint32_t)length;
            build_addition(builder, SAY_ADDITION, build_material(builder, solute, words_span, NULL),
                           build_amount(builder, AMOUNT_OF_STOCK, quantity, strength, quantity->span), tails, span);
            return;
        }
    }
    struct diagnostic *diagnostic = diagnostics_add(builder->diagnostics, DIAG_SYNTAX, words_span, "a per cent of what?");
    diagnostics_help(builder->diagnostics, diagnostic, "some of a stock solution is written: %.*s 10 mL of 10 %% stock",
                     TEXT_ARGUMENTS(name));
}

static bool says_gravity(struct builder *builder, const struct form_words *form)
{
    struct text words = form->words == NULL ? (struct text){0} : names_folded(builder->names, form->words)->spelling;
    return text_is(words, "sp. gr") || text_is(words, "sp gr") || text_is(words, "s.g") || text_is(words, "specific gravity");
}

/* "(sp. gr. 1.16)" */
struct form_words *build_gravity_form(struct builder *builder, struct name *words, double gravity, struct span words_span)
{
    struct form_words *form = build_form(builder, words, NAN, false);
    form->span = words_span;
    if (!says_gravity(builder, form)) {
        return form; /* which the check does not know */
    }
    return build_form(builder, NULL, gravity, false);
}

/* "ammonia .880 5 mL": the specific gravity names the form.  Only the strong solutions of ammonia are named so, and they are
 * lighter than water; any other number before an amount belongs to the name ("polysorbate 20"), or is a slip ("1 000 g"), which
 * only the library can tell. */
void build_gravity_addition(struct builder *builder, struct material_words *material, double gravity, struct span gravity_span,
                            struct quantity *quantity, const struct tails *tails, struct span span)
{
    if (!(gravity >= 0.8 && gravity < 1)) {
        struct text figure = source_text(builder->diagnostics->sources, gravity_span);
        material->name = names_find(builder->names, text_from(arena_format(builder->names->arena, "%.*s %.*s",
                                                                                 TEXT_ARGUMENTS(material->name->spelling), TEXT_ARGUMENTS(figure))));
        material->span.end = gravity_span.end;
        build_addition(builder, SAY_ADDITION, material, build_amount(builder, AMOUNT_PLAIN, quantity, NULL, quantity->span), tails, span);
        return;
    }
    struct form_words *form = build_form(builder, NULL, gravity, false);
    form->span = gravity_span;
    if (material->form != NULL && says_gravity(builder, material->form)) { /* "liquor ammoniæ, sp. gr. .880" */
        material->form = NULL;
    }
    build_addition(builder, SAY_ADDITION, build_figures_form(builder, material, form),
                   build_amount(builder, AMOUNT_PLAIN, quantity, NULL, quantity->span), tails, span);
}

struct form_words *build_form_or(struct builder *builder, const struct quantity *first, const struct quantity *second)
{
    struct text unit = first->unit->spelling;
    static const char or[] = " or";
    const size_t length = sizeof or - 1;
    bool joined = unit.length > length && memcmp(unit.at + unit.length - length, or, length) == 0;
    if (!joined) { /* the second says nothing of the first */
        return build_form(builder, second->unit, first->value, false);
    }
    struct text alone = text_trim((struct text){unit.at, unit.length - length});
    return build_form(builder, names_find(builder->names, alone), first->value, false);
}

void build_warm_addition(struct builder *builder, struct material_words *material, const struct amount_words *warmth,
                         struct amount_words *amount, struct tails *tails, struct span span)
{
    struct tails *warm = tails != NULL ? tails : ARENA_NEW(builder->arena, struct tails);
    warm->temperature = warmth->quantity;
    if (warmth->kind != AMOUNT_PLAIN || warmth->quantity == NULL) {
        struct diagnostic *diagnostic =
            diagnostics_add(builder->diagnostics, DIAG_SYNTAX, amount->span, "two amounts stand where one belongs");
        diagnostics_help(builder->diagnostics, diagnostic, "one amount for each line; a temperature is written: water 750 mL at 45 °C");
        return;
    }
    build_addition(builder, SAY_ADDITION, material, amount, warm, span);
}

static struct text bare(struct text text, const char *signs)
{
    while (text.length > 0 && strchr(signs, text.at[0]) != NULL) {
        text.at++;
        text.length--;
    }
    while (text.length > 0 && strchr(signs, text.at[text.length - 1]) != NULL) {
        text.length--;
    }
    return text;
}

static struct text without_word(struct text text, const char *word)
{
    static const char blanks[] = " .\t";
    size_t length = strlen(word);
    bool there = text.length > length && strncasecmp(text.at, word, length) == 0 && strchr(blanks, text.at[length]) != NULL;
    return there ? bare((struct text){text.at + length, text.length - length}, blanks) : text;
}

void build_label(struct builder *builder, struct text label, struct span span)
{
    struct text name = bare(label, "()");
    name = without_word(without_word(without_word(name, "stock"), "solution"), "sol");
    /* Blanks behind it belong to it where an addition follows. */
    struct text whole = source_text(builder->diagnostics->sources, span);
    struct text next = source_text(builder->diagnostics->sources, (struct span){span.end, span.end + 1});
    bool alone = next.length == 0 || strchr(" \t\r\n#", next.at[0]) != NULL;
    struct span shown = {span.begin, span.begin + (uint32_t)text_trim(whole).length};
    struct diagnostic *diagnostic =
        diagnostics_add(builder->diagnostics, DIAG_SYNTAX, shown, "a part is opened with \"part\", on a line of its own");
    const char *part = arena_format(builder->arena, "part %.*s%s", TEXT_ARGUMENTS(name), alone ? "" : "\n    ");
    diagnostics_fix(builder->diagnostics, diagnostic, span, part, "open a part: part %.*s", TEXT_ARGUMENTS(name));
    diagnostics_help(builder->diagnostics, diagnostic, "write it as: part %.*s", TEXT_ARGUMENTS(name));
    build_part(builder, NULL, NAN, name, shown, shown);
}
