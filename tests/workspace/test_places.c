/* Answers about places: names, what is known, what may be typed, what can be done. */
#include "workspace_help.h"

#include "support/program.h"

#define DEVELOPER                                                                                                      \
    "formula \"Tern\"\n"                                                                                               \
    "    kind developer\n"                                                                                             \
    "    for film\n"                                                                                                   \
    "    water 750 mL at 50 °C\n"                                                                                      \
    "    metol 3 g\n"                                                                                                  \
    "    sodium sulfite 100 g\n"                                                                                       \
    "    sodium carbonate (anhydrous) 30 g\n"                                                                          \
    "    phenidone 0.2 g from 1 % stock\n"                                                                             \
    "    water to make 1 L\n"                                                                                          \
    "    use for film\n"                                                                                               \
    "        dilute 150 mL to make 1 L\n"                                                                              \
    "        time 9 min\n"

/* ---- names ---- */

static void expect_locations(const struct potash_locations *locations, const char *wanted)
{
    char got[2000] = "";
    size_t length = 0;
    for (size_t i = 0; i < locations->count; i++) {
        length += (size_t)snprintf(got + length, sizeof got - length, "%s%s:%zu", i == 0 ? "" : " ", locations->items[i].path,
                                   locations->items[i].range.begin.line + 1);
    }
    assert_string_equal(got, wanted);
}

static void expect_references(struct house *house, const char *place, const char *wanted)
{
    struct potash_locations locations;
    assert_int_equal(potash_snapshot_references(house->snapshot, house->path, place_of(house, place), true, &locations), POTASH_GOOD);
    expect_locations(&locations, wanted);
}

static void expect_definition(struct house *house, const char *place, const char *wanted)
{
    struct potash_locations locations;
    assert_int_equal(potash_snapshot_definition(house->snapshot, house->path, place_of(house, place), &locations), POTASH_GOOD);
    expect_locations(&locations, wanted);
}

static struct house club(void)
{
    return HOUSE("/c/tern.bath", "stock phenidone 1 %\n" DEVELOPER, "/c/cold.bath",
                 "read \"tern.bath\"\nvariant \"Tern, cold\"\n    of \"Tern\"\n    change metol to 2.5 g\n", "/c/book.bath",
                 "read \"cold.bath\"\nbatch \"T-1\" of \"Tern\"\n    mixed 2026-03-04\n    made 1 L\n"
                 "shelf \"Shelf\"\n    holds sodium sulphite (anhydrous) 1 kg lot \"A17\"\n",
                 "/c/other.bath", "formula \"Tern\"\n    sulfite of soda 3 g\n    water to make 1 L\n");
}

static void names_are_followed_through_what_is_read(void **state)
{
    (void)state;
    struct house house = club();
    /* The formula of the same title in a file that nobody reads is another. */
    expect_references(&house, "Te|rn", "/c/book.bath:2 /c/cold.bath:3 /c/tern.bath:2");
    expect_definition(&house, "phenidone 0.2 g from 1| %", "/c/tern.bath:1");
    expect_references(&house, "from |1 % stock", "/c/tern.bath:1 /c/tern.bath:9");
    /* Materials by all their names and spellings; the library's own are declared nowhere. */
    expect_references(&house, "sodium sul|fite", "/c/book.bath:6 /c/other.bath:2 /c/tern.bath:7");
    expect_definition(&house, "sodium sul|fite", "");
    expect_definition(&house, "wa|ter 750", "");
    house.path = "/c/book.bath";
    expect_definition(&house, "Te|rn\"", "/c/tern.bath:2");
    expect_definition(&house, "cold|.bath", "/c/cold.bath:1");
    expect_references(&house, "A1|7", "/c/book.bath:6");
    expect_definition(&house, "T|-1", "/c/book.bath:2");
    expect_references(&house, "ma|de", "");
    house.path = "/c/other.bath";
    expect_references(&house, "Te|rn", "/c/other.bath:1");
    house_close(&house);
}

static void a_title_is_renamed_over_three_files(void **state)
{
    (void)state;
    struct house house = club();
    struct potash_range range;
    const char *name;
    assert_int_equal(potash_snapshot_renamable(house.snapshot, house.path, place_of(&house, "Te|rn"), &range, &name), POTASH_GOOD);
    assert_string_equal(name, "Tern");
    struct potash_edits edits;
    assert_int_equal(potash_snapshot_rename(house.snapshot, house.path, place_of(&house, "Te|rn"), "Little tern", &edits), POTASH_GOOD);
    assert_int_equal(edits.count, 3);
    const char *const paths[] = {"/c/tern.bath", "/c/cold.bath", "/c/book.bath"};
    for (size_t i = 0; i < 3; i++) {
        char *text = edited(&house, paths[i], &edits);
        assert_non_null(strstr(text, "\"Little tern\""));
        assert_null(strstr(text, "\"Tern\""));
        potash_workspace_set(house.workspace, paths[i], text, strlen(text));
        free(text);
    }
    house_renew(&house);
    expect_findings(&house, "/c/cold.bath", "");
    expect_findings(&house, "/c/book.bath", "");
    expect_references(&house, "Little te|rn", "/c/book.bath:2 /c/cold.bath:3 /c/tern.bath:2");
    house_close(&house);
}

static void expect_no_rename(struct house *house, const char *place, const char *name, const char *why)
{
    struct potash_edits edits;
    assert_int_equal(potash_snapshot_rename(house->snapshot, house->path, place_of(house, place), name, &edits), POTASH_FAULTY);
    if (strstr(potash_workspace_message(house->workspace), why) == NULL) {
        fail_msg("\"%s\" is not in \"%s\"", why, potash_workspace_message(house->workspace));
    }
}

static void names_that_cannot_be_given_are_refused(void **state)
{
    (void)state;
    struct house house = club();
    expect_no_rename(&house, "Te|rn", "", "one line of text");
    expect_no_rename(&house, "Te|rn", "a \"b\"", "one line of text");
    expect_no_rename(&house, "Te|rn", "a\nb", "one line of text");
    expect_no_rename(&house, "Te|rn", "Tern, cold", "something else");
    expect_no_rename(&house, "me|tol", "developer of mine", "the library calls it so");
    expect_no_rename(&house, "from |1 % stock", "x", "its strength");
    expect_no_rename(&house, "ti|me", "x", "no name stands here");
    house.path = "/c/cold.bath";
    expect_no_rename(&house, "tern|.bath", "x", "on disk");
    house_close(&house);
    house = HOUSE("m.bath", "material marsh soda\n    also soda of the marsh\n    role alkali\n    form Na2CO3\n"
                            "formula \"A\"\n    marsh soda 3 g\n    Marsh  soda 1 g\n    soda of the marsh 1 g\n    water to make 1 L\n");
    expect_no_rename(&house, "marsh so|da", "borax", "something else");
    expect_no_rename(&house, "marsh so|da", "filter", "read as something else");
    expect_no_rename(&house, "marsh so|da", "3 sodas", "read as something else");
    struct potash_edits edits;
    assert_int_equal(potash_snapshot_rename(house.snapshot, house.path, place_of(&house, "    marsh so|da"), "dune soda", &edits), POTASH_GOOD);
    char *text = edited(&house, house.path, &edits);
    assert_non_null(strstr(text, "material dune soda\n    also soda of the marsh\n"));
    assert_non_null(strstr(text, "    dune soda 3 g\n    dune soda 1 g\n    soda of the marsh 1 g\n"));
    free(text);
    house_close(&house);
}

static void symbols_are_listed_and_found(void **state)
{
    (void)state;
    struct house house = club();
    struct potash_symbols symbols;
    assert_int_equal(potash_snapshot_outline(house.snapshot, house.path, &symbols), POTASH_GOOD);
    assert_int_equal(symbols.count, 3);
    assert_string_equal(symbols.items[0].name, "phenidone 1 %");
    assert_int_equal(symbols.items[0].kind, POTASH_STOCK);
    assert_int_equal(symbols.items[1].range.end.line, 12);
    assert_string_equal(symbols.items[2].name, "film");
    assert_string_equal(symbols.items[2].container, "Tern");
    assert_int_equal(symbols.items[2].depth, 1);
    assert_int_equal(potash_snapshot_search(house.snapshot, "trNcd", &symbols), POTASH_GOOD);
    assert_int_equal(symbols.count, 1);
    assert_string_equal(symbols.items[0].name, "Tern, cold");
    assert_int_equal(potash_snapshot_search(house.snapshot, "a17", &symbols), POTASH_GOOD);
    assert_int_equal(symbols.count, 1);
    assert_int_equal(symbols.items[0].kind, POTASH_LOT);
    struct potash_folds folds;
    house.path = "/c/tern.bath";
    assert_int_equal(potash_snapshot_folds(house.snapshot, house.path, &folds), POTASH_GOOD);
    assert_int_equal(folds.count, 2); /* the formula and its use; the stock is one line */
    house_close(&house);
}

static void folders_are_searched_on_disk(void **state)
{
    (void)state;
    scratch_text("tern.bath", DEVELOPER);
    const char *path = scratch_path("cold.bath");
    struct house house = HOUSE(path, "read \"tern.bath\"\nvariant \"Cold\"\n    of \"Tern\"\n");
    struct potash_symbols symbols;
    assert_int_equal(potash_snapshot_search(house.snapshot, "", &symbols), POTASH_GOOD);
    assert_int_equal(symbols.count, 1);
    assert_int_equal(potash_workspace_add_folder(house.workspace, scratch_folder()), POTASH_GOOD);
    house_renew(&house);
    assert_int_equal(potash_snapshot_search(house.snapshot, "tern", &symbols), POTASH_GOOD);
    assert_int_equal(symbols.count, 1);
    struct potash_edits edits;
    assert_int_equal(potash_snapshot_rename(house.snapshot, path, place_of(&house, "Te|rn\"\n"), "Gull", &edits), POTASH_GOOD);
    assert_int_equal(edits.count, 2);
    scratch_text("gull.bath", "formula \"Gull\"\n    metol 3 g\n    water to make 1 L\n");
    assert_int_equal(potash_workspace_refresh(house.workspace, scratch_path("gull.bath")), POTASH_GOOD);
    house_renew(&house);
    assert_int_equal(potash_snapshot_search(house.snapshot, "gull", &symbols), POTASH_GOOD);
    assert_int_equal(symbols.count, 1);
    scratch_text("gull.bath", "formula \"Tern\"\n    metol 3 g\n    water to make 1 L\n"); /* changed, and then gone */
    potash_workspace_refresh(house.workspace, scratch_path("gull.bath"));
    house_renew(&house);
    assert_int_equal(potash_snapshot_search(house.snapshot, "gull", &symbols), POTASH_GOOD);
    assert_int_equal(symbols.count, 0);
    assert_int_equal(potash_workspace_remove_folder(house.workspace, scratch_folder()), POTASH_GOOD);
    house_renew(&house);
    assert_int_equal(potash_snapshot_search(house.snapshot, "", &symbols), POTASH_GOOD);
    assert_int_equal(symbols.count, 1);
    house_close(&house);
    scratch_remove();
}

/* ---- hover ---- */

static void expect_hover(struct house *house, const char *place, const char *wanted)
{
    struct potash_hover hover;
    assert_int_equal(potash_snapshot_hover(house->snapshot, house->path, place_of(house, place), &hover), POTASH_GOOD);
    if (wanted == NULL ? hover.text != NULL : hover.text == NULL || strstr(hover.text, wanted) == NULL) {
        fail_msg("at %s: \"%s\" is not in\n%s", place, wanted == NULL ? "nothing" : wanted, hover.text == NULL ? "nothing" : hover.text);
    }
}

static void hover_tells_what_is_known(void **state)
{
    (void)state;
    struct house house = club();
    /* Molar masses from the standard atomic weights (IUPAC, 2021): Na2CO3 105.99, with ten waters 286.14. */
    expect_hover(&house, "sodium carb|onate", "anhydrous (usual): Na₂CO₃, 105.99 g/mol; here 30 g");
    expect_hover(&house, "sodium carb|onate", "decahydrate: Na₂CO₃·10H₂O, 286.14 g/mol; here 80.99 g"); /* 30 x 286.14 / 105.99 */
    expect_hover(&house, "sodium carb|onate", "0.283 mol"); /* 30 / 105.99 */
    expect_hover(&house, "sodium carb|onate", "Hazard: Eye Irrit. 2 H319"); /* Regulation (EC) No 1272/2008, Annex VI, 011-005-00-2 */
    expect_hover(&house, "sodium sul|fite", "at 50 °C");
    expect_hover(&house, "sodium sul|fite", "form-unstated");
    expect_hover(&house, "ti|me 9", "time 90 s");
    expect_hover(&house, "9 mi|n", "1 min is 60 s");
    expect_hover(&house, "750 m|L", "Here: 750 mL");
    house.path = "/c/cold.bath";
    expect_hover(&house, "\"Te|rn\"\n", "film: 3+17, 9 min"); /* 150 mL in 1 L: 150 to 850 */
    house_close(&house);
    house = HOUSE("a.bath", "formula \"A\"\n    measures US\n    kind developer\n    metol 25 grains\n    water to make 32 oz # free\n");
    expect_hover(&house, "25 gr|ains", "0.0647989 g"); /* 64.79891 mg: NIST Handbook 44, Appendix C */
    expect_hover(&house, "25 gr|ains", "Here: 1.62 g");
    expect_hover(&house, "# fr|ee", NULL);
    house_close(&house);
}

/* ---- completion ---- */

static bool completes(struct house *house, const char *place, const char *label)
{
    struct potash_completions completions;
    assert_int_equal(potash_snapshot_complete(house->snapshot, house->path, place_of(house, place), &completions), POTASH_GOOD);
    for (size_t i = 0; i < completions.count; i++) {
        if (strcmp(completions.items[i].label, label) == 0) {
            return true;
        }
    }
    return false;
}

#define EXPECT_COMPLETION(house, place, label)                                                                         \
    do {                                                                                                               \
        if (!completes((house), (place), (label))) {                                                                   \
            fail_msg("\"%s\" is not offered at %s", (label), (place));                                                 \
        }                                                                                                              \
    } while (0)

static void completion_knows_the_place(void **state)
{
    (void)state;
    struct house house = HOUSE("a.bath",
                               "formula \"Tern\"\n"
                               "    kind \n"
                               "    silence \n"
                               "    measures \n"
                               "    kind developer\n"
                               "    sodium sul\n"
                               "    sodium carbonate (\n"
                               "    hydroquinone \n"
                               "    water 5 \n"
                               "    water to make 1 L at \n"
                               "    metol 3 gr\n"
                               "    solution \"\n"
                               "    use for film\n"
                               "        ti\n"
                               "        time 3 \n"
                               "        temperature 20 \n"
                               "# comment\n"
                               "variant \"Cold\"\n"
                               "    of \n"
                               "    ch\n"
                               "shelf \"S\"\n"
                               "    holds metol 1 kg \n",
                               "b.bath", "read \"\n");
    EXPECT_COMPLETION(&house, "|    kind \n", "formula");
    EXPECT_COMPLETION(&house, "kind |\n", "stop bath");
    EXPECT_COMPLETION(&house, "silence |\n", "form-unstated");
    EXPECT_COMPLETION(&house, "measures |\n", "imperial");
    EXPECT_COMPLETION(&house, "sodium sul|\n", "sodium sulfite (anhydrous)");
    assert_false(completes(&house, "sodium sul|\n", "mercuric chloride")); /* the gravest poisons are offered by nobody */
    EXPECT_COMPLETION(&house, "carbonate (|", "decahydrate");
    EXPECT_COMPLETION(&house, "hydroquinone |\n", "to make");
    struct potash_completions completions;
    assert_int_equal(potash_snapshot_complete(house.snapshot, "a.bath", place_of(&house, "hydroquinone |\n"), &completions), POTASH_GOOD);
    bool usual = false;
    for (size_t i = 0; i < completions.count; i++) {
        usual = usual || completions.items[i].kind == POTASH_COMPLETE_AMOUNT;
    }
    assert_true(usual);
    EXPECT_COMPLETION(&house, "water 5 |\n", "mL");
    EXPECT_COMPLETION(&house, "3 gr|", "grain");
    assert_false(completes(&house, "3 gr|", "min"));
    EXPECT_COMPLETION(&house, "solution \"|", "Cold");
    EXPECT_COMPLETION(&house, "        ti|\n", "time");
    EXPECT_COMPLETION(&house, "time 3 |", "min");
    EXPECT_COMPLETION(&house, "temperature 20 |", "°C");
    assert_false(completes(&house, "temperature 20 |", "g"));
    EXPECT_COMPLETION(&house, "of |\n", "Tern");
    EXPECT_COMPLETION(&house, "    ch|\n", "change");
    EXPECT_COMPLETION(&house, "1 kg |\n", "lot");
    assert_false(completes(&house, "    ch|\n", "agitate the tray"));
    assert_int_equal(potash_snapshot_complete(house.snapshot, "a.bath", place_of(&house, "# comm|ent"), &completions), POTASH_GOOD);
    assert_int_equal(completions.count, 0);
    house.path = "b.bath";
    EXPECT_COMPLETION(&house, "\"|", "a.bath");
    house_close(&house);
}

/* ---- looks ---- */

static void highlights_name_what_stands_there(void **state)
{
    (void)state;
    struct house house = HOUSE("a.bath", "# note\nformula \"Tern\"\n    sodium sulfite (anhydrous) 30 g note \"x\"\n");
    struct potash_highlights highlights;
    assert_int_equal(potash_snapshot_highlights(house.snapshot, "a.bath", &highlights), POTASH_GOOD);
    static const enum potash_highlight_kind wanted[] = {
        POTASH_HIGHLIGHT_COMMENT, POTASH_HIGHLIGHT_KEYWORD, POTASH_HIGHLIGHT_TITLE, POTASH_HIGHLIGHT_MATERIAL, POTASH_HIGHLIGHT_SIGN,
        POTASH_HIGHLIGHT_FORM, POTASH_HIGHLIGHT_SIGN, POTASH_HIGHLIGHT_NUMBER, POTASH_HIGHLIGHT_UNIT, POTASH_HIGHLIGHT_KEYWORD,
        POTASH_HIGHLIGHT_TEXT};
    assert_int_equal(highlights.count, sizeof wanted / sizeof *wanted);
    for (size_t i = 0; i < highlights.count; i++) {
        assert_int_equal(highlights.items[i].kind, wanted[i]);
        assert_int_equal(highlights.items[i].range.begin.line, highlights.items[i].range.end.line);
    }
    assert_true(highlights.items[2].declares);
    assert_false(highlights.items[3].declares);
    house_close(&house);
}

static void inlays_show_what_is_meant(void **state)
{
    (void)state;
    struct house house = HOUSE("a.bath", "formula \"Tern\"\n    kind developer\n    sodium sulfite 50 g\n    water to make 500 mL\n"
                                         "    use for film\n        dilute 150 mL to make 1 L\n");
    struct potash_inlays inlays;
    assert_int_equal(potash_snapshot_inlays(house.snapshot, "a.bath", 0, SIZE_MAX, &inlays), POTASH_GOOD);
    assert_int_equal(inlays.count, 3);
    assert_string_equal(inlays.items[0].text, "(anhydrous)");
    assert_int_equal(inlays.items[0].at.offset, place_of(&house, "sodium sulfite|"));
    assert_string_equal(inlays.items[1].text, "100 g/L"); /* 50 g in half a litre */
    assert_string_equal(inlays.items[2].text, "3+17");
    assert_int_equal(potash_snapshot_inlays(house.snapshot, "a.bath", place_of(&house, "use for"), SIZE_MAX, &inlays), POTASH_GOOD);
    assert_int_equal(inlays.count, 1);
    house_close(&house);
}

static void layout_is_that_of_tidy(void **state)
{
    (void)state;
    static const char untidy[] = "\n\nformula \"Tern\"\n\n\n  kind   developer\nmetol 3g\n   water   to make 1 L   # all\n\n\n";
    const char *path = scratch_text("untidy.bath", untidy);
    struct run run = run_potash("tidy", path, NULL);
    struct house house = HOUSE(path, untidy);
    struct potash_edits edits;
    assert_int_equal(potash_snapshot_layout(house.snapshot, path, 0, SIZE_MAX, &edits), POTASH_GOOD);
    char *text = edited(&house, path, &edits);
    assert_string_equal(text, run.output);
    potash_workspace_set(house.workspace, path, text, strlen(text));
    house_renew(&house);
    assert_int_equal(potash_snapshot_layout(house.snapshot, path, 0, SIZE_MAX, &edits), POTASH_GOOD);
    assert_int_equal(edits.count, 0);
    free(text);
    run_free(&run);
    /* One line alone; and lines that end as they did. */
    static const char returns[] = "formula \"T\"\r\nmetol 3g\r\nwater to make 1 L\r\n";
    assert_int_equal(potash_workspace_set(house.workspace, path, returns, strlen(returns)), POTASH_GOOD);
    house_renew(&house);
    assert_int_equal(potash_snapshot_layout(house.snapshot, path, 1, 1, &edits), POTASH_GOOD);
    text = edited(&house, path, &edits);
    assert_string_equal(text, "formula \"T\"\r\n    metol 3 g\r\nwater to make 1 L\r\n");
    free(text);
    assert_int_equal(potash_workspace_set(house.workspace, path, "formula \"T\"\n= =\n", 16), POTASH_GOOD);
    house_renew(&house);
    assert_int_equal(potash_snapshot_layout(house.snapshot, path, 0, SIZE_MAX, &edits), POTASH_FAULTY);
    house_close(&house);
    scratch_remove();
}

static void every_sample_is_laid_out_as_tidy_does(void **state)
{
    (void)state;
    static const char *const paths[] = {"samples/print-developer.bath", "samples/shelf.bath", "samples/processes.bath", "stdlib/units.bath", NULL};
    for (size_t i = 0; paths[i] != NULL; i++) {
        char *text = file_bytes(paths[i], NULL);
        struct run run = run_potash("tidy", paths[i], NULL);
        struct house house = HOUSE(paths[i], text);
        struct potash_edits edits;
        assert_int_equal(potash_snapshot_layout(house.snapshot, paths[i], 0, SIZE_MAX, &edits), POTASH_GOOD);
        char *after = edited(&house, paths[i], &edits);
        assert_string_equal(after, run.output);
        free(after);
        free(text);
        run_free(&run);
        house_close(&house);
    }
}

/* ---- actions ---- */

/* The text after the action of that title at a place. */
static char *act(struct house *house, const char *place, const char *title)
{
    struct potash_actions actions;
    size_t offset = place_of(house, place);
    assert_int_equal(potash_snapshot_actions(house->snapshot, house->path, offset, offset, "2026-03-04", &actions), POTASH_GOOD);
    return edited(house, house->path, &find_action(&actions, title)->edits);
}

static void expect_act(struct house *house, const char *place, const char *title, const char *wanted)
{
    char *text = act(house, place, title);
    if (strstr(text, wanted) == NULL) {
        fail_msg("\"%s\" is not in\n%s", wanted, text);
    }
    /* What comes of it is in order, or says no more than before. */
    struct potash_findings before;
    struct potash_findings after;
    assert_int_equal(potash_snapshot_findings(house->snapshot, house->path, &before), POTASH_GOOD);
    struct house other = HOUSE(house->path, text);
    assert_int_equal(potash_snapshot_findings(other.snapshot, house->path, &after), POTASH_GOOD);
    assert_true(after.count <= before.count);
    house_close(&other);
    free(text);
}

static void actions_change_the_text(void **state)
{
    (void)state;
    struct house house = HOUSE("a.bath", "formula \"Tern\"\n    kind developer\n    for film\n    measures US\n    metol 25 grains\n"
                                         "    sodium sulfite (anhydrous) 1 oz 60 grains\n    sodium carbonate 30 g\n"
                                         "    water to make 32 oz\n    use for film\n        dilute 1:29\n");
    expect_act(&house, "1:|29", "1+29: 1 of stock and 29 of water", "dilute 1+29");
    house_close(&house);
    house = HOUSE("a.bath", "formula \"Tern\"\n    kind developer\n    for film\n    measures US\n    metol 25 grains\n"
                            "    sodium sulfite (anhydrous) 1 oz 60 grains\n    sodium carbonate 30 g\n    water to make 32 oz\n"
                            "    use for film\n        dilute 1+29\n");
    expect_act(&house, "sodium carb|onate", "write the weight as decahydrate: 80.99 g", "sodium carbonate (decahydrate) 80.99 g"); /* by molar masses */
    expect_act(&house, "sodium sul|fite", "convert to 32.24 g", "(anhydrous) 32.24 g"); /* 28.3495 + 60 x 0.0647989 */
    expect_act(&house, "me|tol", "convert the formula to grams and millilitres", "to make 946.4 mL"); /* 32 x 29.5735 */
    expect_act(&house, "me|tol", "double the formula", "sodium sulfite (anhydrous) 2 oz 120 grains\n    sodium carbonate 60 g\n    water to make 64 oz");
    expect_act(&house, "me|tol", "take the metol from a 1 % stock", "stock metol 1 %\n\nformula");
    expect_act(&house, "me|tol", "make a variant", "\n\nvariant \"Tern, variant\"\n    of \"Tern\"");
    expect_act(&house, "me|tol", "record a batch mixed on 2026-03-04", "\n\nbatch \"2026-03-04 a\" of \"Tern\"\n    mixed 2026-03-04\n    made 946.4 mL");
    house_close(&house);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_are_followed_through_what_is_read),
        cmocka_unit_test(a_title_is_renamed_over_three_files),
        cmocka_unit_test(names_that_cannot_be_given_are_refused),
        cmocka_unit_test(symbols_are_listed_and_found),
        cmocka_unit_test(folders_are_searched_on_disk),
        cmocka_unit_test(hover_tells_what_is_known),
        cmocka_unit_test(completion_knows_the_place),
        cmocka_unit_test(highlights_name_what_stands_there),
        cmocka_unit_test(inlays_show_what_is_meant),
        cmocka_unit_test(layout_is_that_of_tidy),
        cmocka_unit_test(every_sample_is_laid_out_as_tidy_does),
        cmocka_unit_test(actions_change_the_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
