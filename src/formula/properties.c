/* What a formula says of itself: its kind, what it is for, whose measures it uses, its source, and what it silences. */
#include "formula/checking.h"

#include "library/bath_kinds.h"

static struct text word_folded(struct checker *checker, const struct word *word)
{
    return names_folded(checker->library->names, word->name)->spelling;
}

/* "developer, stop bath or other". */
static const char *list_kinds(struct checker *checker, const struct bath_kind **kinds, size_t count)
{
    struct buffer out;
    buffer_start(&out, checker->arena);
    for (size_t i = 0; i < count; i++) {
        buffer_format(&out, "%s%.*s", i == 0 ? "" : i + 1 == count ? " or " : ", ", TEXT_ARGUMENTS(kinds[i]->name));
    }
    return buffer_finish(&out);
}

static void say_no_kind(struct checker *checker, const struct word *word, struct text kind)
{
    struct library *library = checker->library;
    size_t count = library_bath_kinds(library, NULL);
    const struct bath_kind **kinds = ARENA_ARRAY(checker->arena, const struct bath_kind *, count + 1);
    library_bath_kinds(library, kinds);
    const struct bath_kind *near = NULL;
    for (size_t i = 0; i < count; i++) {
        near = kind.length >= 3 && strncmp(kinds[i]->name.at, kind.at, 3) == 0 ? kinds[i] : near;
    }
    struct diagnostic *diagnostic =
        check_say(checker, DIAG_SYNTAX, word->span, "\"%.*s\" is not a kind of bath", TEXT_ARGUMENTS(word->name->spelling));
    if (near == NULL) {
        diagnostics_help(checker->diagnostics, diagnostic, "%s", list_kinds(checker, kinds, count));
    } else {
        diagnostics_help(checker->diagnostics, diagnostic, "did you mean %.*s?", TEXT_ARGUMENTS(near->name));
        diagnostics_fix_writing(checker->diagnostics, diagnostic, word->span, "%.*s", TEXT_ARGUMENTS(near->name));
    }
}

static void check_kind(struct checker *checker, const struct words_statement *statement)
{
    struct text kind = word_folded(checker, statement->words);
    if (checker->formula->kind_span.end > 0) {
        check_say_twice(checker, &statement->base, "the kind of bath is", checker->formula->kind_span);
        return;
    }
    checker->formula->kind_span = statement->words->span;
    const struct bath_kind *known = library_bath_kind(checker->library, kind);
    if (known == NULL) {
        say_no_kind(checker, statement->words, kind);
    } else {
        checker->formula->kind = known->name;
    }
}

static void check_measures(struct checker *checker, const struct words_statement *statement)
{
    if (checker->measures_span.end > 0) {
        check_say_twice(checker, &statement->base, "the measures are", checker->measures_span);
        return;
    }
    checker->measures_span = statement->base.span;
    enum measures named = library_measures_named(word_folded(checker, statement->words));
    if (named != MEASURES_UNSTATED) {
        checker->formula->measures = named;
    } else {
        diagnostics_help(checker->diagnostics,
                         check_say(checker, DIAG_SYNTAX, statement->words->span,
                                   "measures are metric, US or imperial, not \"%.*s\"",
                                   TEXT_ARGUMENTS(statement->words->name->spelling)),
                         "write it as: measures US, or: measures imperial");
    }
}

static void check_silence(struct checker *checker, const struct words_statement *statement)
{
    for (const struct word *word = statement->words; word != NULL; word = word->next) {
        enum diagnostic_id id = diagnostic_find(word->name->spelling);
        struct text rule = word_folded(checker, word);
        if (id == DIAGNOSTIC_IDS && library_has_rule(checker->library, rule)) {
            struct silenced_rule *silenced = ARENA_NEW(checker->arena, struct silenced_rule);
            *silenced = (struct silenced_rule){checker->formula->silenced_rules, rule, word->name->spelling};
            checker->formula->silenced_rules = silenced;
        } else if (id == DIAGNOSTIC_IDS) {
            diagnostics_help(
                checker->diagnostics,
                check_say(checker, DIAG_SYNTAX, word->span,
                          "\"%.*s\" is the id of no diagnostic and the name of no rule",
                          TEXT_ARGUMENTS(word->name->spelling)),
                "all ids are listed by: potash why; a rule's name stands in brackets behind what it warns of");
        } else if (diagnostic_registry[id].severity == SEVERITY_ERROR) {
            diagnostics_help(checker->diagnostics,
                             check_say(checker, DIAG_SYNTAX, word->span,
                                       "\"%.*s\" is an error, and an error cannot be silenced",
                                       TEXT_ARGUMENTS(word->name->spelling)),
                             "mend what it is about; only warnings can be silenced");
        } else {
            checker->formula->silenced[id] = true;
        }
    }
}

/* Mostly the first two lines are all of them, and no others are looked at: a walk through a large file that does nothing else waits
 * for each line to come from memory. */
void check_properties(struct checker *checker)
{
    const struct formula *formula = checker->formula;
    bool own = formula->statements == formula->declaration->statements; /* not worked out from a parent's */
    const struct statement *last = own ? formula->declaration->last_property : NULL;
    const struct statement *after = NULL;
    for (const struct statement *statement = own && last == NULL ? NULL : formula->statements; statement != NULL;
         statement = statement == last ? NULL : statement->next) {
        const struct words_statement *words = (const struct words_statement *)statement;
        switch (statement->kind) {
        case SAY_KIND:
            check_kind(checker, words);
            break;
        case SAY_MEASURES:
            check_measures(checker, words);
            break;
        case SAY_SILENCE:
            check_silence(checker, words);
            break;
        case SAY_FOR:
            if (checker->formula->purposes != NULL) {
                check_say_twice(checker, statement, "what the bath is for is", checker->formula->purposes->span);
            }
            checker->formula->purposes = words->words;
            break;
        case SAY_AFTER:
            if (after != NULL) {
                check_say_twice(checker, statement, "the source is", after->span);
            }
            after = statement;
            checker->formula->source = ((const struct text_statement *)statement)->text;
            break;
        default:
            break;
        }
    }
}
