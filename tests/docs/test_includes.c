/* Includes run one way: tests/docs/includes.py holds them against the table of floors in DEVELOPERS.md. */
#include "support/program.h"

#include <string.h>
#include <sys/stat.h>

static struct run run_on(const char *root)
{
    const char *arguments[] = {"tests/docs/includes.py", root, NULL};
    return run_program("python3", arguments, NULL, 0);
}

static void this_house_has_one_way(void **state)
{
    (void)state;
    struct run run = run_on(".");
    if (run.status != 0) {
        fail_msg("%s%s", run.output, run.error);
    }
    run_free(&run);
}

/* A small house: a cellar, a hall above it that may use it, and an attic that may use the hall. */
static const char guide[] = "| floor | folder | may use | owns |\n| --- | --- | --- | --- |\n"
                            "| 1 | `src/cellar/` | - | coal |\n| 2 | `src/hall/` | cellar | coats |\n| 3 | `src/attic/` | hall | trunks |\n";

static void build(const char *cellar, const char *hall, const char *attic)
{
    static const char *const folders[] = {"src", "src/cellar", "src/hall", "src/attic"};
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        mkdir(scratch_path(folders[i]), 0777);
    }
    scratch_text("DEVELOPERS.md", guide);
    scratch_text("src/cellar/coal.h", cellar);
    scratch_text("src/hall/coat.h", hall);
    scratch_text("src/attic/trunk.c", attic);
}

static void expect(int status, const char *said)
{
    struct run run = run_on(scratch_folder());
    assert_status(&run, status);
    assert_prints(&run, said);
    run_free(&run);
}

static void faults_are_found(void **state)
{
    (void)state;
    build("\n", "#include \"cellar/coal.h\"\n", "#include \"hall/coat.h\"\n");
    expect(0, "");
    build("\n", "#include \"cellar/coal.h\"\n", "\n#include \"cellar/coal.h\"\n");
    expect(1, "src/attic/trunk.c:2: src/attic/ may not use cellar/coal.h");
    build("#include \"hall/coat.h\"\n", "#include \"cellar/coal.h\"\n", "\n");
    expect(1, "src/cellar/coal.h:1: src/cellar/ may not use hall/coat.h");
    expect(1, "a circle: src/cellar/coal, src/hall/coat");
    build("\n", "\n", "\n");
    scratch_text("src/hall/trunk.h", "\n");
    expect(1, "one name: src/attic/trunk, src/hall/trunk");
    build("\n", "\n", "\n");
    mkdir(scratch_path("src/shed"), 0777);
    scratch_text("src/shed/rake.c", "\n");
    expect(1, "src/shed/rake.c: its folder stands in no row of the table");
    scratch_remove();
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(this_house_has_one_way), cmocka_unit_test(faults_are_found)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
