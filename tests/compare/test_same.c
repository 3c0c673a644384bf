/* What makes no other bath: units, forms, stocks, liquids of another strength, the batch, what is said beside. */
#include "compare_help.h"

static const char developer[] = "formula \"Print developer\"\n"
                                "kind developer\n"
                                "for paper\n"
                                "note \"as it was\"\n"
                                "water 750 mL at 50 °C\n"
                                "metol 1.5 g\n"
                                "sodium sulfite (anhydrous) 30 g\n"
                                "hydroquinone 7 g\n"
                                "sodium carbonate (anhydrous) 45 g\n"
                                "potassium bromide 1.5 g\n"
                                "water to make 1 L\n"
                                "use for paper\n"
                                "dilute 1+3\n"
                                "temperature 20 °C\n"
                                "time 90 s\n"
                                "capacity 40 sheets 8x10 in per L\n"
                                "keeps 6 months in full bottle\n";

static void test_itself(void **state)
{
    (void)state;
    expect_same(developer, developer);
}

/* Grains of 64.79891 mg, ounces of 28.349523 g and US fluid ounces of 29.573530 mL (NIST Handbook 44, Appendix C):
 * 1.5 g = 23.15 grains, 30 g = 1 oz 25.5 grains, 7 g = 108 grains, 45 g = 1.587 oz, 1 L = 33.81 fl oz. */
static void test_other_units(void **state)
{
    (void)state;
    expect_same(developer, "formula \"Print developer\"\n"
                           "kind developer\nfor paper\nmeasures US\n"
                           "water 25 fl oz at 122 °F\n"
                           "metol 23 grains\n" /* rounded to the grain */
                           "sulphite of soda (anhydrous) 1 oz 25 1/2 grains\n"
                           "hydrochinone 108 grains\n"
                           "carbonate of soda (dry) 1.587 oz\n"
                           "bromide of potash 23.15 grains\n"
                           "water to make 33.81 fl oz\n"
                           "use for paper\n"
                           "dilute 2+6\n"
                           "temperature 68 °F\n"
                           "time 1 1/2 min\n"
                           "capacity 10 sheets 8x10 in per 250 mL\n"
                           "keeps 26 weeks in full bottle\n");
}

/* Na2SO3 126.04, Na2SO3.7H2O 252.15, Na2CO3 105.99, Na2CO3.H2O 124.00 g/mol (IUPAC abridged atomic weights 2021):
 * 30 g of the one are 60.02 g, 45 g of the other 52.65 g. */
static void test_other_forms(void **state)
{
    (void)state;
    char *sulfite = with(developer, "sulfite (anhydrous) 30 g", "sulfite (heptahydrate) 60.02 g");
    char *both = with(sulfite, "carbonate (anhydrous) 45 g", "carbonate (monohydrate) 52.65 g");
    struct compared compared = compare_texts(developer, both);
    assert_int_equal(json_array_size(changes_of(&compared)), 2);
    assert_true(compared.same);
    const json_t *change = find_change(&compared, "form", "sodium carbonate");
    assert_non_null(change);
    assert_string_equal(json_text_of(change, "from"), "anhydrous");
    assert_string_equal(json_text_of(change, "to"), "monohydrate");
    assert_true(json_number_of(change, "percent") == 0);
    assert_true(json_is_true(json_object_get(change, "remark")));
    assert_non_null(strstr(compared.page, "The two are the same."));
    assert_non_null(strstr(compared.page, "sodium sulfite: anhydrous in A, as much of it as heptahydrate in B"));
    compared_free(&compared);
    free(both);
    free(sulfite);
}

/* The contract's own example: 50 g anhydrous and its equal weight, 58.5 g, of monohydrate. */
static void test_fifty_grams(void **state)
{
    (void)state;
    const char a[] = "formula \"A\"\nsodium carbonate (anhydrous) 50 g\nwater to make 1 L\n";
    expect_same_but(a, "formula \"A\"\nsodium carbonate (monohydrate) 58.5 g\nwater to make 1 L\n", 1);
    struct compared equal_weight =
        compare_texts(a, "formula \"A\"\nsodium carbonate (monohydrate) 50 g\nwater to make 1 L\n");
    assert_false(equal_weight.same);
    const json_t *change = find_change(&equal_weight, "amount", "sodium carbonate");
    assert_non_null(change);
    assert_within(json_number_of(change, "from"), 50, 1e-9);
    assert_within(json_number_of(change, "to"), 50 * 105.99 / 124.00, 1e-4);
    assert_within(json_number_of(change, "percent"), (105.99 / 124.00 - 1) * 100, 1e-3);
    compared_free(&equal_weight);
}

static void test_stocks(void **state)
{
    (void)state;
    const char weighed[] = "formula \"A\"\nphenidone 0.25 g\nwater to make 1 L\n";
    expect_same_but(weighed, "formula \"A\"\nphenidone 0.25 g from 1 % stock\nwater to make 1 L\n", 1);
    expect_same_but(weighed, "formula \"A\"\nphenidone 25 mL of 1 % stock\nwater to make 1 L\n", 1);
    expect_same_but("formula \"A\"\nphenidone 25 mL of 1 % stock\nwater to make 1 L\n",
                    "formula \"A\"\nphenidone 12.5 mL of 2 % stock\nwater to make 1 L\n", 1);
    struct compared twice = compare_texts(weighed, "formula \"A\"\nphenidone 25 mL of 2 % stock\nwater to make 1 L\n");
    const json_t *change = find_change(&twice, "amount", "phenidone");
    assert_non_null(change);
    assert_within(json_number_of(change, "percent"), 100, 1e-6);
    change = find_change(&twice, "stock", "phenidone");
    assert_non_null(change);
    assert_true(json_is_null(json_object_get(change, "from")));
    assert_true(json_number_of(change, "to") == 2);
    compared_free(&twice);
}

/* Acetic acid, CRC Handbook: 99.7 % of 1.049 g/mL and 28 % of 1.0346 g/mL: 17 mL of the one hold 17.78 g, as do 61.4 mL of
 * the other. */
static void test_liquids(void **state)
{
    (void)state;
    const char glacial[] = "formula \"Stop\"\nwater 900 mL\nacetic acid (glacial) 17 mL\nwater to make 1 L\n";
    expect_same_but(glacial, "formula \"Stop\"\nwater 900 mL\nacetic acid (28 %) 61.4 mL\nwater to make 1 L\n", 1);
    struct compared weak = compare_texts(glacial, "formula \"Stop\"\nwater 900 mL\nacetic acid (28 %) 48 mL\nwater to make 1 L\n");
    assert_false(weak.same);
    assert_within(json_number_of(find_change(&weak, "amount", "acetic acid"), "percent"), (48 / 61.38 - 1) * 100, 0.01);
    compared_free(&weak);
}

static void test_batch(void **state)
{
    (void)state;
    expect_same("formula \"A\"\nmetol 3 g\nhydroquinone 8 g\nwater to make 1 L\n",
                "formula \"A\"\nmetol 6 g\nhydroquinone 16 g\nwater to make 2 L\n");
    /* The final volume stated, or added up. */
    expect_same("formula \"A\"\nmetol 3 g\nwater 1 L\n", "formula \"A\"\nmetol 3 g\nwater to make 1 L\n");
    /* A part's name says nothing where there is one part. */
    expect_same("formula \"A\"\nmetol 3 g\nwater to make 1 L\n", "formula \"A\"\npart A\nmetol 3 g\nwater to make 1 L\n");
}

static void test_words_beside(void **state)
{
    (void)state;
    char *note = with(developer, "as it was", "as it is now");
    char *title = with(note, "Print developer", "Developer for prints");
    char *comment = with(title, "metol 1.5 g", "metol 1.5 g note \"first\" # dissolve it well");
    expect_same(developer, comment);
    free(comment);
    free(title);
    free(note);
}

/* What another formula holds is counted through. */
static void test_solutions(void **state)
{
    (void)state;
    const char gold[] = "formula \"Gold stock\"\nsodium thiocyanate 10 g\nwater to make 1 L\n\n"
                        "formula \"Bath\"\nsolution \"Gold stock\" 100 mL\nwater to make 1 L\n";
    const char direct[] = "formula \"Gold stock\"\nsodium thiocyanate 10 g\nwater to make 1 L\n\n"
                          "formula \"Bath\"\nsodium thiocyanate 1 g\nwater to make 1 L\n";
    expect_same(gold, direct);
    char *stronger = with(gold, "10 g", "20 g");
    struct compared compared = compare_texts(gold, stronger);
    const json_t *changes = changes_of(&compared);
    assert_int_equal(json_array_size(changes), 2); /* the stock, and the bath that is made with it */
    for (size_t i = 0; i < 2; i++) {
        const json_t *change = json_array_get(changes, i);
        assert_string_equal(json_text_of(change, "title"), i == 0 ? "Gold stock" : "Bath");
        assert_within(json_number_of(change, "to"), i == 0 ? 20 : 2, 1e-6);
        assert_within(json_number_of(change, "percent"), 100, 1e-6);
    }
    compared_free(&compared);
    free(stronger);
}

static void test_start_water(void **state)
{
    (void)state;
    char *less = with(developer, "water 750 mL", "water 500 mL");
    expect_same_but(developer, less, 1);
    char *nearly = with(developer, "water 750 mL", "water 740 mL");
    expect_same(developer, nearly);
    free(nearly);
    free(less);
}

/* A difference in one unit and form was meant, a small one too; other units are rounded. */
static void test_tolerance(void **state)
{
    (void)state;
    const char a[] = "formula \"A\"\nmetol 1.5 g\nwater to make 1 L\n";
    const char b[] = "formula \"A\"\nmetol 1.51 g\nwater to make 1 L\n"; /* 0.67 % */
    struct compared compared = compare_texts(a, b);
    assert_false(compared.same);
    compared_free(&compared);
    compared = compare_within(a, b, "1 %");
    assert_true(compared.same);
    compared_free(&compared);
    expect_same(a, "formula \"A\"\nmetol 23 grains\nwater to make 1 L\n"); /* 1.490 g, 0.64 % less */
    compared = compare_within(a, "formula \"A\"\nmetol 23 grains\nwater to make 1 L\n", "0.5");
    assert_false(compared.same); /* a tolerance that is asked for is kept to */
    compared_free(&compared);
    compared = compare_texts(a, "formula \"A\"\nmetol 24 grains\nwater to make 1 L\n");
    assert_false(compared.same);
    compared_free(&compared);
}

/* Memory that runs out, on either side and wherever: the call says so, and nothing is lost. */
static void test_no_memory(void **state)
{
    (void)state;
    size_t told = 0;
    for (long after = 1; after < 40; after++) {
        for (int failing = 0; failing < 2; failing++) {
            struct potash *sides[2];
            for (int i = 0; i < 2; i++) {
                struct potash_options options = {.fail_after = i == failing ? after : 0};
                sides[i] = potash_open(&options);
                assert_non_null(sides[i]);
                if (potash_read_text(sides[i], "a.bath", developer, strlen(developer)) == POTASH_GOOD) {
                    potash_check(sides[i]);
                }
            }
            bool same;
            struct potash_output output;
            enum potash_status status = potash_compare(sides[0], sides[1], POTASH_TEXT, &output, &same);
            assert_true(status == POTASH_UNUSABLE || (status == POTASH_GOOD && same));
            if (status == POTASH_UNUSABLE) {
                assert_string_equal(potash_message(sides[0]), "out of memory");
                told++;
            }
            potash_close(sides[0]);
            potash_close(sides[1]);
        }
    }
    assert_true(told > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_itself),      cmocka_unit_test(test_other_units), cmocka_unit_test(test_other_forms),
        cmocka_unit_test(test_fifty_grams), cmocka_unit_test(test_stocks),      cmocka_unit_test(test_liquids),
        cmocka_unit_test(test_batch),       cmocka_unit_test(test_words_beside), cmocka_unit_test(test_solutions),
        cmocka_unit_test(test_start_water), cmocka_unit_test(test_tolerance),
        cmocka_unit_test(test_no_memory),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
