/* Names: one for each spelling, and the folding that makes spellings of one thing equal. */
#include "support/arena_help.h"

#include "base/names.h"

static struct text fold(const char *spelling)
{
    return names_fold(&arena, text_from(spelling));
}

static void assert_folds(const char *spelling, const char *wanted)
{
    assert_text(fold(spelling), wanted);
}

/* Both spellings are one name. */
static void assert_same(const char *one, const char *other)
{
    struct text first = fold(one);
    struct text second = fold(other);
    if (!text_equal(first, second)) {
        fail_msg("\"%s\" and \"%s\" fold to \"%.*s\" and \"%.*s\"", one, other, TEXT_ARGUMENTS(first),
                 TEXT_ARGUMENTS(second));
    }
}

static void a_spelling_is_kept_once(void **state)
{
    (void)state;
    struct names names;
    names_start(&names, &arena);
    char copy[] = "metol";
    struct name *first = names_find(&names, TEXT("metol"));
    assert_ptr_equal(names_find(&names, text_from(copy)), first);
    assert_ptr_not_equal(names_find(&names, TEXT("Metol")), first);
    assert_ptr_equal(names_folded(&names, names_find(&names, TEXT("Metol"))), names_folded(&names, first));
    assert_ptr_equal(names_find(&names, TEXT("")), names_find(&names, TEXT("")));
}

static void many_names_stay_apart(void **state)
{
    (void)state;
    enum { MANY = 20000 };
    struct names names;
    names_start(&names, &arena);
    struct name **made = ARENA_ARRAY(&arena, struct name *, MANY);
    for (int i = 0; i < MANY; i++) {
        made[i] = names_find(&names, text_from(arena_format(&arena, "salt %d", i)));
    }
    for (int i = 0; i < MANY; i++) {
        assert_ptr_equal(names_find(&names, text_from(arena_format(&arena, "salt %d", i))), made[i]);
        assert_true(i == 0 || made[i] != made[i - 1]);
    }
}

static void british_and_american_are_one(void **state)
{
    (void)state;
    assert_same("Sodium Sulphite", "sodium sulfite");
    assert_same("potassium metabisulphite", "potassium metabisulfite");
    assert_same("sodium thiosulphate", "sodium thiosulfate");
    assert_same("copper sulphate", "copper sulfate");
    assert_same("sodium sulphide", "sodium sulfide");
    assert_same("aluminium potassium sulphate", "aluminum potassium sulfate");
    assert_same("litres", "liters");
    assert_same("grammes", "grams");
    assert_same("millilitre", "milliliter");
    assert_same("crystallised", "crystallized");
    assert_same("stabiliser", "stabilizer");
    /* What differs stays apart. */
    assert_false(text_equal(fold("sodium sulfite"), fold("sodium sulfate")));
    assert_false(text_equal(fold("sodium sulfide"), fold("sodium sulfite")));
}

static void leaders_blanks_and_hyphens_are_one_space(void **state)
{
    (void)state;
    assert_folds("sodium   sulfite", "sodium sulfite");
    assert_folds("sodium\tsulfite", "sodium sulfite");
    assert_folds("sodium ........ sulfite", "sodium sulfite");
    assert_folds("sodium\u2026sulfite", "sodium sulfite");
    assert_folds("sodium\u00A0sulfite", "sodium sulfite");
    assert_folds("p-aminophenol", "p aminophenol");
    assert_folds("p\u2010aminophenol", "p aminophenol");
    assert_folds("  metol ..", "metol");
    assert_folds("", "");
}

static void abbreviations(void **state)
{
    (void)state;
    assert_same("Potass. Bromide", "potassium bromide");
    assert_same("Pot. bromide", "potassium bromide");
    assert_same("Sod. carb.", "sodium carbonate");
    assert_same("c.c.", "c.c");
    assert_folds("0.880", "0.880");
    assert_folds(".880", ".880");
    /* Only whole words are abbreviations. */
    assert_folds("potash", "potash");
    assert_folds("soda", "soda");
    assert_folds("sodium", "sodium");
}

static void letters_beyond_ascii_fold(void **state)
{
    (void)state;
    assert_folds("\u00C9MULSION", "\u00E9mulsion");
    assert_folds("\u00B0C", "\u00B0c");
}

static void folding_is_stable(void **state)
{
    (void)state;
    static const char *const spellings[] = {"Sodium Sulphite",
                                            "Pot. Ferrid-cyanide",
                                            "crystallised sod. carb.",
                                            "C.C.",
                                            "Sulphsulphsulph",
                                            "a..b...c",
                                            "-",
                                            "...",
                                            "\u2026\u2026"};
    for (size_t i = 0; i < sizeof spellings / sizeof *spellings; i++) {
        struct text once = fold(spellings[i]);
        struct text twice = names_fold(&arena, once);
        if (!text_equal(once, twice)) {
            fail_msg("\"%.*s\" folds on to \"%.*s\"", TEXT_ARGUMENTS(once), TEXT_ARGUMENTS(twice));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_spelling_is_kept_once),
        WITH_ARENA(many_names_stay_apart),
        WITH_ARENA(british_and_american_are_one),
        WITH_ARENA(leaders_blanks_and_hyphens_are_one_space),
        WITH_ARENA(abbreviations),
        WITH_ARENA(letters_beyond_ascii_fold),
        WITH_ARENA(folding_is_stable),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
