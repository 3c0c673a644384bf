/* Classification of mixtures, held against worked examples of published guidance.  Each names where it was published. */
#include "support/library_help.h"

#include "chemistry/hazard_rules.h"

#include <math.h>

/* ---- mixtures written down as the examples have them ---- */

enum { MOST = 8 };

static struct hazard_data substances[MOST];
static struct ingredient ingredients[MOST];
static size_t count;

static struct ingredient *add(const char *name, double percent)
{
    struct hazard_data *data = &substances[count];
    *data = (struct hazard_data){.name = text_from(name), .stated = true, .m_acute = 1, .m_chronic = 1, .inhaled = ROUTE_DUST};
    for (size_t route = 0; route < ROUTES; route++) {
        data->toxicity[route] = NAN;
    }
    ingredients[count] = (struct ingredient){.data = data, .percent = percent};
    return &ingredients[count++];
}

static struct hazard_data *data_of(struct ingredient *ingredient)
{
    return (struct hazard_data *)ingredient->data;
}

static void class_it(struct ingredient *ingredient, const char *hazard, const char *code)
{
    struct hazard_data *data = data_of(ingredient);
    struct hazard_entry *entries = ARENA_ARRAY(&arena, struct hazard_entry, data->entry_count + 1);
    if (data->entry_count > 0) {
        memcpy(entries, data->entries, data->entry_count * sizeof *entries);
    }
    const struct hazard_class *class = hazard_class_called(hazard, code);
    assert_non_null(class);
    entries[data->entry_count++] = (struct hazard_entry){class, text_from(code), BASIS_NONE};
    data->entries = entries;
}

static void limit_it(struct ingredient *ingredient, const char *hazard, const char *code, double from, double to)
{
    struct hazard_data *data = data_of(ingredient);
    struct hazard_limit *limits = ARENA_ARRAY(&arena, struct hazard_limit, data->limit_count + 1);
    if (data->limit_count > 0) {
        memcpy(limits, data->limits, data->limit_count * sizeof *limits);
    }
    limits[data->limit_count++] = (struct hazard_limit){hazard_class_called(hazard, code), text_from(code), BASIS_NONE, from, to};
    data->limits = limits;
}

static struct ingredient *add_class(const char *name, double percent, const char *hazard, const char *code)
{
    struct ingredient *ingredient = add(name, percent);
    class_it(ingredient, hazard, code);
    return ingredient;
}

static struct ingredient *add_estimate(const char *name, double percent, enum hazard_route route, double estimate)
{
    struct ingredient *ingredient = add(name, percent);
    data_of(ingredient)->toxicity[route] = estimate;
    data_of(ingredient)->inhaled = route >= ROUTE_GAS ? route : ROUTE_DUST;
    return ingredient;
}

static void make_unknown(struct ingredient *ingredient, enum hazard_route route)
{
    ingredient->toxicity_unknown[route] = true;
}

static struct hazard_result *classify_at(double ph)
{
    return hazard_classify(&arena, ingredients, count, (struct hazard_acidity){ph, NAN}, true);
}

static struct hazard_result *classify_with_reserve(double ph, double reserve)
{
    return hazard_classify(&arena, ingredients, count, (struct hazard_acidity){ph, reserve}, true);
}

static struct hazard_result *classify(void)
{
    return classify_at(NAN);
}

static const struct hazard_result *find(const struct hazard_result *results, const char *code)
{
    for (; results != NULL; results = results->next) {
        if (text_is(results->code, code)) {
            return results;
        }
    }
    return NULL;
}

/* "H302 H315": all codes in their order. */
static void assert_codes(const struct hazard_result *results, const char *wanted)
{
    struct buffer got;
    buffer_start(&got, &arena);
    buffer_string(&got, "");
    for (const struct hazard_result *result = results; result != NULL; result = result->next) {
        buffer_format(&got, "%s%.*s", got.length == 0 ? "" : " ", TEXT_ARGUMENTS(result->code));
    }
    assert_string_equal(got.length == 0 ? "" : buffer_finish(&got), wanted);
}

static void assert_class(const struct hazard_result *results, const char *code, const char *hazard)
{
    const struct hazard_result *result = find(results, code);
    assert_non_null(result);
    assert_text(result->hazard, hazard);
    assert_non_null(result->because);
    assert_true(result->rule.length > 0);
}

static int set_up(void **state)
{
    count = 0;
    return set_up_library(state);
}

#define CASE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down_arena)

static void assert_about(double got, double wanted, double within)
{
    if (!(fabs(got - wanted) <= within)) {
        fail_msg("%g instead of %g", got, wanted);
    }
}

/* ---- acute toxicity ---- */

/* UNECE, GHS guidance, example 3.1(a): ST/SG/AC.10/C.4/2008/23, annex 2, example 1.  The published estimate counts ingredient 3,
 * which is in category 5 of the GHS; the Regulation has no category 5. */
static void un_3_1_a(void **state)
{
    (void)state;
    const double percents[] = {16, 4, 80};
    const double estimates[] = {1600, 200, 3450};
    double estimate = hazard_acute_estimate(percents, estimates, 3, 0);
    assert_about(estimate, 1880, 5); /* printed with three figures */
    assert_int_equal(hazard_acute_category(ROUTE_ORAL, estimate), 4);
    for (int i = 0; i < 3; i++) {
        add_estimate("ingredient", percents[i], ROUTE_ORAL, estimates[i]);
    }
    assert_codes(classify(), ""); /* without category 5: 100/(16/1600 + 4/200) = 3333 mg/kg */
}

/* UNECE, GHS guidance, example 3.1(c): annex 2, example 3. */
static void un_3_1_c(void **state)
{
    (void)state;
    const double percents[] = {4};
    const double estimates[] = {1737};
    assert_about(hazard_acute_estimate(percents, estimates, 1, 0), 43425, 0.5);
    add_estimate("ingredient 1", 4, ROUTE_ORAL, 1737);
    add("ingredient 2", 5);
    add_estimate("ingredient 3", 5, ROUTE_ORAL, 5400);
    add("ingredient 4", 86);
    assert_codes(classify(), "");
}

/* UNECE, GHS guidance, example 3.1(d), oral: annex 2, example 4. */
static void un_3_1_d(void **state)
{
    (void)state;
    const double percents[] = {26, 23, 40};
    const double estimates[] = {2737, 4500, 400};
    assert_about(hazard_acute_estimate(percents, estimates, 3, 0), 873, 0.5);
    for (int i = 0; i < 3; i++) {
        add_estimate("ingredient", percents[i], ROUTE_ORAL, estimates[i]);
    }
    add("ingredient 3", 11);
    const struct hazard_result *results = classify();
    assert_class(results, "H302", "Acute Tox. 4"); /* without category 5: 100/(40/400) = 1000 mg/kg, category 4 as well */
    assert_about(find(results, "H302")->because->percent, 40, 0);
}

/* ECHA, Guidance on the Application of the CLP Criteria, v6.0 (January 2024), 3.1.5.3, example 11; figures at second hand. */
static void echa_example_11(void **state)
{
    (void)state;
    const double percents[] = {4, 3, 0.2};
    const double estimates[] = {125, 1500, 10};
    assert_about(hazard_acute_estimate(percents, estimates, 3, 92), 148.1, 0.05);
    add_estimate("A", 4, ROUTE_ORAL, 125);
    make_unknown(add("B", 92), ROUTE_ORAL);
    add_estimate("C", 3, ROUTE_ORAL, 1500);
    make_unknown(add("D", 0.9), ROUTE_ORAL);
    add_estimate("E", 0.2, ROUTE_ORAL, 10);
    const struct hazard_result *results = classify();
    assert_class(results, "H301", "Acute Tox. 3");
    assert_non_null(strstr(find(results, "H301")->rule.at, "148 mg/kg"));
    assert_non_null(strstr(find(results, "H301")->rule.at, "92 % of unknown toxicity"));
}

/* The same guidance, example 12a: mist. */
static void echa_example_12a(void **state)
{
    (void)state;
    add_estimate("1", 6, ROUTE_DUST, 1.5);
    add_estimate("2", 11, ROUTE_DUST, 0.6);
    add("3", 10);
    add_estimate("4", 40, ROUTE_DUST, 1.5);
    add("water", 33);
    const struct hazard_result *results = classify();
    assert_class(results, "H332", "Acute Tox. 4");
    assert_non_null(strstr(find(results, "H332")->rule.at, "2.04 mg/L"));
}

/* Umweltbundesamt, Leitfaden zur Anwendung der CLP-Verordnung, worked mixture: oral; dermal (the last figure of the dermal
 * estimate is reckoned here: 76.5/(1.5/300)). */
static void uba_mixture(void **state)
{
    (void)state;
    const double oral_percents[] = {1.5, 18};
    const double oral[] = {100, 1250};
    assert_about(hazard_acute_estimate(oral_percents, oral, 2, 0), 3401, 0.5);
    const double dermal_percents[] = {1.5};
    const double dermal[] = {300};
    assert_about(hazard_acute_estimate(dermal_percents, dermal, 1, 23.5), 15300, 0.5);
    struct ingredient *a = add_class("A", 1.5, "Acute Tox. 3", "H301");
    class_it(a, "Acute Tox. 3", "H311");
    make_unknown(add("B", 2), ROUTE_DERMAL);
    make_unknown(add("C", 3.5), ROUTE_DERMAL);
    make_unknown(add_estimate("D", 18, ROUTE_ORAL, 1250), ROUTE_DERMAL);
    add("water", 75);
    assert_codes(classify(), "");
}

/* Regulation (EC) No 1272/2008, Annex I, 3.1.3.3: the point estimate of a category never makes a mixture worse than its
 * ingredient. */
static void a_category_keeps_itself(void **state)
{
    (void)state;
    add_class("A", 100, "Acute Tox. 2", "H300");
    assert_class(classify(), "H300", "Acute Tox. 2");
}

/* ---- skin and eyes ---- */

/* UNECE, GHS guidance, example 3.2/3.3(a): annex 2, example 5.  The acid ingredient decides from 1 % on, though the mixture
 * has a pH of 4.0. */
static void un_3_2_a(void **state)
{
    (void)state;
    struct ingredient *acid = add_class("ingredient 1", 4, "Skin Corr. 1", "H314");
    data_of(acid)->extreme_ph = true; /* its pH is 1.8 */
    add_class("ingredient 2", 5, "Skin Irrit. 2", "H315");
    add("ingredient 3", 5);
    make_unknown(add("ingredient 4", 86), ROUTE_ORAL);
    const struct hazard_result *results = classify_at(4.0);
    assert_class(results, "H314", "Skin Corr. 1");
    assert_text(find(results, "H314")->because->material, "ingredient 1");
}

/* The same by additivity, which the example sets aside: 4 % is less than 5 %, and ten times 4 % is more than 10 %. */
static void un_3_2_a_added(void **state)
{
    (void)state;
    add_class("ingredient 1", 4, "Skin Corr. 1", "H314");
    add_class("ingredient 2", 5, "Skin Irrit. 2", "H315");
    assert_class(classify(), "H315", "Skin Irrit. 2");
}

/* ECHA Helpdesk, Mixture classification exercises (2012), examples 1 and 2. */
static void echa_exercise_1(void **state)
{
    (void)state;
    add("anionic surfactant", 9.2);
    add_class("thickener", 0.8, "Skin Irrit. 2", "H315"); /* below the cut-off of 1 % */
    add("water", 90);
    assert_codes(classify(), "");
}

static void echa_exercise_2(void **state)
{
    (void)state;
    add("anionic surfactant", 8.2);
    add_class("thickener", 1.8, "Skin Irrit. 2", "H315"); /* counted, and less than 10 % */
    add("water", 90);
    assert_codes(classify(), "");
}

/* H. Krejsova, Klasifikace ziravosti a drazdivosti (2014): a range of 3 to 7 % counts with its upper end. */
static void corrosive_by_the_upper_end(void **state)
{
    (void)state;
    add_class("corrosive", 7, "Skin Corr. 1", "H314");
    const struct hazard_result *results = classify();
    assert_class(results, "H314", "Skin Corr. 1");
    assert_class(results, "H318", "Eye Dam. 1"); /* table 3.3.3: 3 % */
}

/* Regulation (EC) No 1272/2008, Annex I, tables 3.2.3 and 3.3.3: each limit at its edge and just below it. */
static void contact_limits(void **state)
{
    (void)state;
    static const struct {
        double percent;
        const char *hazard, *code, *wanted;
    } cases[] = {{5, "Skin Corr. 1B", "H314", "H314 H318"},   {4.99, "Skin Corr. 1B", "H314", "H315 H318"},
                 {3, "Skin Corr. 1B", "H314", "H315 H318"},   {2.99, "Skin Corr. 1B", "H314", "H315 H319"},
                 {1, "Skin Corr. 1B", "H314", "H315 H319"},   {0.99, "Skin Corr. 1B", "H314", ""},
                 {10, "Skin Irrit. 2", "H315", "H315"},       {9.99, "Skin Irrit. 2", "H315", ""},
                 {3, "Eye Dam. 1", "H318", "H318"},           {2.99, "Eye Dam. 1", "H318", "H319"},
                 {1, "Eye Dam. 1", "H318", "H319"},           {0.99, "Eye Dam. 1", "H318", ""},
                 {10, "Eye Irrit. 2", "H319", "H319"},        {9.99, "Eye Irrit. 2", "H319", ""}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        count = 0;
        add_class("substance", cases[i].percent, cases[i].hazard, cases[i].code);
        assert_codes(classify(), cases[i].wanted);
    }
}

/* Annex I, 3.2.3.3: subcategories by what reaches 5 % together; without one where a corrosive ingredient has none. */
static void corrosive_subcategories(void **state)
{
    (void)state;
    add_class("a", 5, "Skin Corr. 1A", "H314");
    add_class("b", 5, "Skin Corr. 1B", "H314");
    assert_class(classify(), "H314", "Skin Corr. 1A");
    count = 0;
    add_class("a", 3, "Skin Corr. 1A", "H314");
    add_class("b", 2, "Skin Corr. 1B", "H314");
    assert_class(classify(), "H314", "Skin Corr. 1B");
    count = 0;
    add_class("b", 3, "Skin Corr. 1B", "H314");
    add_class("c", 2, "Skin Corr. 1C", "H314");
    assert_class(classify(), "H314", "Skin Corr. 1C");
    count = 0;
    add_class("a", 6, "Skin Corr. 1A", "H314");
    add_class("without", 6, "Skin Corr. 1", "H314");
    assert_class(classify(), "H314", "Skin Corr. 1");
}

/* Annex VI, index 011-002-00-6 (sodium hydroxide): 1A from 5 %, 1B from 2 %, irritant from 0.5 %. */
static void specific_limits(void **state)
{
    (void)state;
    static const struct {
        double percent;
        const char *wanted, *skin, *code;
    } cases[] = {{5, "H314 H318", "Skin Corr. 1A", "H314"},
                 {2, "H314 H318", "Skin Corr. 1B", "H314"},
                 {0.5, "H315 H319", "Skin Irrit. 2", "H315"},
                 {0.49, "", NULL, NULL}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        count = 0;
        struct ingredient *alkali = add_class("sodium hydroxide", cases[i].percent, "Skin Corr. 1A", "H314");
        data_of(alkali)->extreme_ph = true;
        limit_it(alkali, "Skin Corr. 1A", "H314", 5, INFINITY);
        limit_it(alkali, "Skin Corr. 1B", "H314", 2, 5);
        limit_it(alkali, "Skin Irrit. 2", "H315", 0.5, 2);
        limit_it(alkali, "Eye Irrit. 2", "H319", 0.5, 2);
        const struct hazard_result *results = classify();
        assert_codes(results, cases[i].wanted);
        if (cases[i].skin != NULL) {
            assert_class(results, cases[i].code, cases[i].skin);
        }
    }
}

/* Annex I, 3.2.3.1.2 and 3.3.3.1.2. */
static void extreme_ph(void **state)
{
    (void)state;
    data_of(add("soda", 3))->alkali = true;
    data_of(add("lye", 0.2))->alkali = true;
    data_of(&ingredients[1])->extreme_ph = true;
    assert_codes(classify_at(11.4), "");
    assert_codes(classify_at(11.5), "H314 H318");
    const struct hazard_result *results = classify_at(12.3);
    assert_text(find(results, "H314")->because->material, "lye");
    count = 0;
    data_of(add("acid", 0.5))->acid = true;
    class_it(&ingredients[0], "Skin Corr. 1B", "H314");
    assert_codes(classify_at(2.0), "H314 H318");
    assert_codes(classify_at(2.1), "");
    /* What is classed, and not as corrosive, is the other data that the paragraph speaks of. */
    count = 0;
    data_of(add_class("soda", 9, "Eye Irrit. 2", "H319"))->alkali = true;
    assert_codes(classify_at(11.7), "");
}

/* Young, How, Walker and Worth, Toxicology in Vitro 2 (1988) 19, as the Guidance on the Application of the CLP Criteria, 3.2.3.1.2,
 * has it: pH + reserve/12 from 14.5 on, pH - reserve/12 down to -0.5 corrode; and by the paper (memory) pH + reserve/6 from 13 on,
 * pH - reserve/6 down to 1 irritate.  Each limit just on both sides. */
static void extreme_ph_counts_the_reserve(void **state)
{
    (void)state;
    static const struct {
        double ph, reserve;
        bool acid;
        const char *wanted;
    } cases[] = {{13, 18, false, "H314 H318"},    {13, 17.99, false, "H315 H319"}, {12, 6, false, "H315 H319"},
                 {12, 5.99, false, ""},           {11.5, 36, false, "H314 H318"},  {11.49, 60, false, ""},
                 {0.5, 12, true, "H314 H318"},    {0.5, 11.99, true, "H315 H319"}, {1.5, 3, true, "H315 H319"},
                 {1.5, 2.99, true, ""},           {2, 30, true, "H314 H318"},      {2.01, 60, true, ""}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        count = 0;
        struct hazard_data *data = data_of(add("lye or acid", 0.4));
        data->extreme_ph = true;
        data->acid = cases[i].acid;
        data->alkali = !cases[i].acid;
        assert_codes(classify_with_reserve(cases[i].ph, cases[i].reserve), cases[i].wanted);
    }
}

/* A carcinogen by inhalation does not hide one by every way: nickel sulfate (028-009-00-5: H350i) with potassium dichromate
 * (024-002-00-6: H350), and the other way round; of two by every way the graver one stays. */
static void every_reason_for_h350_is_told(void **state)
{
    (void)state;
    for (int turned = 0; turned < 2; turned++) {
        count = 0;
        add_class(turned ? "dichromate" : "nickel", 2, turned ? "Carc. 1B" : "Carc. 1A", turned ? "H350" : "H350i");
        add_class(turned ? "nickel" : "dichromate", 1, turned ? "Carc. 1A" : "Carc. 1B", turned ? "H350i" : "H350");
        const struct hazard_result *results = classify();
        assert_codes(results, "H350i H350");
        assert_text(find(results, "H350i")->because->material, "nickel");
        assert_text(find(results, "H350")->because->material, "dichromate");
    }
    add_class("chromic acid", 1, "Carc. 1A", "H350");
    const struct hazard_result *results = classify();
    assert_codes(results, "H350 H350i");
    assert_class(results, "H350", "Carc. 1A");
    assert_text(find(results, "H350")->because->material, "chromic acid");
    add_class("chloroform", 5, "Carc. 2", "H351");
    assert_codes(classify(), "H350 H350i");
}

/* ---- what one ingredient is enough for ---- */

/* Annex I, tables 3.4.5, 3.4.6, 3.5.2, 3.6.2, 3.7.2, 3.8.3, 3.9.4: at the limit and below it. */
static void single_limits(void **state)
{
    (void)state;
    static const struct {
        double percent;
        const char *hazard, *code, *wanted;
    } cases[] = {{1, "Skin Sens. 1", "H317", "H317"},       {0.99, "Skin Sens. 1", "H317", "EUH208"},
                 {0.1, "Skin Sens. 1", "H317", "EUH208"},   {0.09, "Skin Sens. 1", "H317", ""},
                 {0.1, "Skin Sens. 1A", "H317", "H317"},    {0.01, "Skin Sens. 1A", "H317", "EUH208"},
                 {1, "Resp. Sens. 1", "H334", "H334"},      {0.99, "Resp. Sens. 1", "H334", "EUH208"},
                 {0.1, "Muta. 1B", "H340", "H340"},         {0.09, "Muta. 1B", "H340", ""},
                 {1, "Muta. 2", "H341", "H341"},            {0.99, "Muta. 2", "H341", ""},
                 {0.1, "Carc. 1B", "H350", "H350"},         {0.09, "Carc. 1B", "H350", ""},
                 {1, "Carc. 2", "H351", "H351"},            {0.99, "Carc. 2", "H351", ""},
                 {0.3, "Repr. 1B", "H360FD", "H360FD"},     {0.29, "Repr. 1B", "H360FD", ""},
                 {3, "Repr. 2", "H361d", "H361d"},          {2.99, "Repr. 2", "H361d", ""},
                 {0.3, "Lact.", "H362", "H362"},            {0.29, "Lact.", "H362", ""},
                 {10, "STOT SE 1", "H370", "H370"},         {9.9, "STOT SE 1", "H370", "H371"},
                 {1, "STOT SE 1", "H370", "H371"},          {0.99, "STOT SE 1", "H370", ""},
                 {10, "STOT SE 2", "H371", "H371"},         {9.9, "STOT SE 2", "H371", ""},
                 {20, "STOT SE 3", "H335", "H335"},         {19.9, "STOT SE 3", "H335", ""},
                 {20, "STOT SE 3", "H336", "H336"},         {10, "STOT RE 1", "H372", "H372"},
                 {9.9, "STOT RE 1", "H372", "H373"},        {0.99, "STOT RE 1", "H372", ""},
                 {10, "STOT RE 2", "H373", "H373"},         {9.9, "STOT RE 2", "H373", ""},
                 {10, "Asp. Tox. 1", "H304", "H304"},       {9.9, "Asp. Tox. 1", "H304", ""}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        count = 0;
        add_class("substance", cases[i].percent, cases[i].hazard, cases[i].code);
        assert_codes(classify(), cases[i].wanted);
    }
}

/* Annex VI, note 11: boron compounds count together. */
static void boron_is_added_up(void **state)
{
    (void)state;
    struct ingredient *borax = add_class("borax", 0.2, "Repr. 1B", "H360FD");
    struct ingredient *acid = add_class("boric acid", 0.1, "Repr. 1B", "H360FD");
    assert_codes(classify(), "");
    data_of(borax)->boron = data_of(acid)->boron = true;
    const struct hazard_result *results = classify();
    assert_class(results, "H360FD", "Repr. 1B");
    assert_non_null(find(results, "H360FD")->because->next);
}

/* Annex VI, 1.1.2.1.2: capitals for what is known or presumed, small letters for what is suspected. */
static void reproduction_in_one_code(void **state)
{
    (void)state;
    add_class("a", 1, "Repr. 1B", "H360F");
    add_class("b", 1, "Repr. 1B", "H360D");
    assert_codes(classify(), "H360FD");
    count = 0;
    add_class("a", 1, "Repr. 1B", "H360D");
    add_class("b", 5, "Repr. 2", "H361f");
    assert_codes(classify(), "H360Df");
    count = 0;
    add_class("a", 1, "Repr. 1B", "H360D");
    add_class("b", 1, "Repr. 2", "H361f"); /* below 3 % */
    assert_codes(classify(), "H360D");
}

/* ---- water life ---- */

/* UNECE, GHS guidance, example 4.1(a): ST/SG/AC.10/C.4/2012/25.  Sums 0.1, 2.0, 20 and 26.01 %. */
static void un_4_1_a(void **state)
{
    (void)state;
    struct ingredient *first = add_class("ingredient 1", 0.01, "Aquatic Acute 1", "H400");
    class_it(first, "Aquatic Chronic 1", "H410");
    data_of(first)->m_acute = data_of(first)->m_chronic = 10;
    add_class("ingredient 2", 1, "Aquatic Chronic 2", "H411");
    add_class("ingredient 3", 25, "Aquatic Chronic 4", "H413");
    add("ingredient 4", 73.99);
    const struct hazard_result *results = classify();
    assert_codes(results, "H413");
    assert_class(results, "H413", "Aquatic Chronic 4");
    assert_non_null(strstr(find(results, "H413")->rule.at, "26 %"));
}

/* Annex I, tables 4.1.1 and 4.1.2: sums at their edges. */
static void aquatic_sums(void **state)
{
    (void)state;
    static const struct {
        double percent, m;
        const char *hazard, *code, *wanted;
    } cases[] = {{25, 1, "Aquatic Acute 1", "H400", "H400"},     {24.9, 1, "Aquatic Acute 1", "H400", ""},
                 {2.5, 10, "Aquatic Acute 1", "H400", "H400"},   {2.4, 10, "Aquatic Acute 1", "H400", ""},
                 {25, 1, "Aquatic Chronic 1", "H410", "H410"},   {2.5, 1, "Aquatic Chronic 1", "H410", "H411"},
                 {0.25, 1, "Aquatic Chronic 1", "H410", "H412"}, {0.24, 1, "Aquatic Chronic 1", "H410", ""},
                 {25, 1, "Aquatic Chronic 2", "H411", "H411"},   {2.5, 1, "Aquatic Chronic 2", "H411", "H412"},
                 {25, 1, "Aquatic Chronic 3", "H412", "H412"},   {24.9, 1, "Aquatic Chronic 3", "H412", ""}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        count = 0;
        struct ingredient *ingredient = add_class("substance", cases[i].percent, cases[i].hazard, cases[i].code);
        data_of(ingredient)->m_acute = data_of(ingredient)->m_chronic = cases[i].m;
        assert_codes(classify(), cases[i].wanted);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(un_3_1_a),          CASE(un_3_1_c),
        CASE(un_3_1_d),          CASE(echa_example_11),
        CASE(echa_example_12a),  CASE(uba_mixture),
        CASE(a_category_keeps_itself), CASE(un_3_2_a),
        CASE(un_3_2_a_added),    CASE(echa_exercise_1),
        CASE(echa_exercise_2),   CASE(corrosive_by_the_upper_end),
        CASE(contact_limits),    CASE(corrosive_subcategories),
        CASE(specific_limits),   CASE(extreme_ph),
   CASE(extreme_ph_counts_the_reserve),
   CASE(every_reason_for_h350_is_told),
        CASE(single_limits),     CASE(boron_is_added_up),
        CASE(reproduction_in_one_code), CASE(un_4_1_a),
        CASE(aquatic_sums),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
