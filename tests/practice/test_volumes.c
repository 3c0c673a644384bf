/* Volumes that no bath can have, parts that hold nothing, and stocks that are not kept: each at its limit. */
#include "support/compiling.h"

#include <string.h>

#define OF(kind, lines) "formula \"x\"\nkind " kind "\n" lines

static void more_than_hands_mix(void **state)
{
    (void)state;
    expect_list(OF("stop bath", "citric acid (anhydrous) 8 kg\nwater to make 510 L\n"), "amount-unusual:4");
    expect_list(OF("stop bath", "citric acid (anhydrous) 8 kg\nwater to make 490 L\n"), "");
}

/* 100 g of hydroxide dissolve in about 90 mL of water; in a millilitre nothing of the kind does. */
static void less_than_dissolves(void **state)
{
    (void)state;
    const char *text = OF("developer", "part A\nwater 1 L\ncatechol 80 g\nsodium sulfite (anhydrous) 12 g\npart B\nwater, cold 1 mL\n"
                                       "sodium hydroxide 100 g\nuse for film\nmix A 20 + B 10 + water 970\n");
    struct compiled compiled = compile(text);
    const json_t *said = compiled_find(&compiled, "amount-unusual", 8);
    assert_non_null(said);
    assert_null(compiled_find(&compiled, "stock-too-strong", 9)); /* one mistake, one answer */
    bool litre = false;
    size_t i;
    json_t *fix;
    json_array_foreach(json_object_get(said, "fixes"), i, fix) {
        litre = litre || strcmp(json_text_of(fix, "text"), "L") == 0;
    }
    assert_true(litre);
    compiled_free(&compiled);
}

static void out_of_proportion(void **state)
{
    (void)state;
#define PARTS(volume)                                                                                                                 \
    OF("sensitizer", "part A\nwater " volume "\nferric ammonium citrate (green) 9 g\npart B\nwater 30 mL\ntartaric acid 1.5 g\npart C\n"     \
                     "distilled water 30 mL\nsilver nitrate 3.75 g\nuse for coating\nmix A 1 + B 1 + C 1\n")
    struct compiled compiled = compile(PARTS("30 L"));
    assert_non_null(compiled_find(&compiled, "amount-unusual", 4));
    assert_int_equal(compiled_count(&compiled, "amount-unusual"), 1);
    compiled_free(&compiled);
    compiled = compile(PARTS("30 mL"));
    assert_int_equal(compiled_count(&compiled, "amount-unusual"), 0);
    compiled_free(&compiled);
}

static void begun_with_all_its_water(void **state)
{
    (void)state;
#define BEGUN(water) OF("fixer", "water " water "\nsodium thiosulfate (pentahydrate) 200 g\nsodium sulfite (anhydrous) 10 g\nwater to make 1 L\n")
    expect_list(BEGUN("1 L"), "amount-unusual:6");
    expect_list(BEGUN("800 mL"), "");
    /* Little that dissolves needs no room to speak of. */
    expect_list(OF("stop bath", "water 1 L\ncitric acid (anhydrous) 15 g\nwater to make 1 L\n"), "");
}

static void begun_with_less_than_half(void **state)
{
    (void)state;
#define HALF(water) OF("fixer", "water " water "\nsodium thiosulfate (pentahydrate) 200 g\nsodium sulfite (anhydrous) 10 g\nwater to make 1 L\n")
    expect_list(HALF("400 mL"), "amount-unusual:6");
    expect_list(HALF("450 mL"), "");
}

static void a_part_of_water(void **state)
{
    (void)state;
    expect_list(OF("reducer", "part A\nsodium thiosulfate (pentahydrate) 100 g\nwater to make 1 L\npart B\nwater to make 1 L\n"),
                "role-missing:7");
    expect_list(OF("other", "part A\nsodium chloride 20 g\nwater to make 1 L\npart B\nsolution A 100 mL\nwater to make 1 L\n"), "");
}

/* The over-full bath and the line that fills it are both said. */
static void a_liquid_written_twice(void **state)
{
    (void)state;
    struct compiled compiled = compile(OF("stop bath", "water 900 mL\nacetic acid (28 %) 60 mL\nacetic acid (28 %) 60 mL\nwater to make 1 L\n"));
    assert_non_null(compiled_find(&compiled, "over-volume", 6));
    assert_non_null(compiled_find(&compiled, "added-twice", 5));
    compiled_free(&compiled);
    expect_list(OF("other", "sodium chloride 5 g\nnitric acid (concentrated) as needed\nnitric acid (concentrated) as needed\nwater to make 1 L\n"),
                "added-twice:5");
    expect_list(OF("other", "nitric acid (concentrated) as needed\nsodium chloride 5 g\nnitric acid (concentrated) as needed\nwater to make 1 L\n"), "");
}

static void a_stock_of_another_strength(void **state)
{
    (void)state;
#define STOCK "stock potassium bromide 10 %\n"
    expect_list(STOCK OF("other", "potassium bromide 0.6 g from 1 % stock\nwater to make 1 L\n"), "amount-unusual:4");
    expect_list(STOCK OF("other", "potassium bromide 0.6 g from 10 % stock\nwater to make 1 L\n"), "");
    /* Both are kept; and one that nothing is said of may be of any strength. */
    expect_list(STOCK "stock potassium bromide 1 %\n" OF("other", "potassium bromide 0.6 g from 1 % stock\nwater to make 1 L\n"), "");
    expect_list(STOCK OF("other", "benzotriazole 0.6 g from 1 % stock\nwater to make 1 L\n"), "");
    struct compiled compiled = compile(STOCK OF("other", "potassium bromide 0.6 g from 1 % stock\nwater to make 1 L\n"));
    const json_t *fix = json_array_get(json_object_get(compiled_find(&compiled, "amount-unusual", 4), "fixes"), 0);
    assert_string_equal(json_text_of(fix, "text"), "10");
    compiled_free(&compiled);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(more_than_hands_mix),       cmocka_unit_test(less_than_dissolves),
        cmocka_unit_test(out_of_proportion),         cmocka_unit_test(begun_with_all_its_water),
        cmocka_unit_test(begun_with_less_than_half), cmocka_unit_test(a_part_of_water),
        cmocka_unit_test(a_liquid_written_twice),    cmocka_unit_test(a_stock_of_another_strength),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
