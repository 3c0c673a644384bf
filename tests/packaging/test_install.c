/* `make install` into a folder of its own, a program that is compiled against what stands there, and `make uninstall`. */
#define _GNU_SOURCE

#include "support/program.h"

#include <stdio.h>
#include <string.h>

/* The shell's answer to a script; $ROOT is where things are installed, $BUILD where the program under test was built.  What make was
 * called with goes on in MAKEFLAGS; only its helpers do not. */
static struct run shell(const char *script)
{
    char *whole = NULL;
    assert_true(asprintf(&whole,
                         "ROOT='%s' BUILD=$(dirname '%s')\n"
                         "MAKE='make --no-print-directory -j1'\n"
                         "MAKEFLAGS=$(echo \" $MAKEFLAGS\" | sed 's/ --jobserver[^ ]*//g; s/ -j[0-9]*//g'); export MAKEFLAGS\n"
                         "%s",
                         scratch_path("root"), program_under_test(), script) > 0);
    const char *const arguments[] = {"-c", whole, NULL};
    struct run run = run_program("/bin/sh", arguments, NULL, 0);
    free(whole);
    return run;
}

static void assert_shell(const char *script, const char *wanted)
{
    struct run run = shell(script);
    if (run.status != 0 || strcmp(run.output, wanted) != 0) {
        fail_msg("status %d\n%s%swanted:\n%s", run.status, run.output, run.error, wanted);
    }
    run_free(&run);
}

/* A sanitizer's run-time library would have to be linked into every program that uses the library. */
static bool is_plain_build(void)
{
    struct run run = shell("nm \"$BUILD/potash\" | grep -c __asan_init");
    bool plain = strcmp(run.output, "0\n") == 0;
    run_free(&run);
    return plain;
}

static int install(void **state)
{
    (void)state;
    struct run run = shell("$MAKE BUILD=\"$BUILD\" DESTDIR=\"$ROOT\" PREFIX=/usr install");
    assert_status(&run, 0);
    run_free(&run);
    return 0;
}

static int clean(void **state)
{
    (void)state;
    scratch_remove();
    return 0;
}

static void everything_has_its_place(void **state)
{
    (void)state;
    assert_shell("cd \"$ROOT/usr\" && ls bin include lib lib/pkgconfig && readlink lib/libpotash.so",
                 "bin:\npotash\n\ninclude:\npotash-workspace.h\npotash.h\n\nlib:\nlibpotash.a\nlibpotash.so\nlibpotash.so.0\npkgconfig\n\nlib/pkgconfig:\npotash.pc\n"
                 "libpotash.so.0\n");
    assert_shell("cd \"$ROOT/usr/share\" && ls man/man5 bash-completion/completions zsh/site-functions fish/vendor_completions.d",
                 "bash-completion/completions:\npotash\n\nfish/vendor_completions.d:\npotash.fish\n\nman/man5:\nbath.5\n\n"
                 "zsh/site-functions:\n_potash\n");
    /* A page for every verb that the program lists. */
    assert_shell("cd \"$ROOT/usr\" && bin/potash --help | sed -n 's/^  \\([a-z][a-z]*\\)  .*/\\1/p' | sort -u > ../verbs\n"
                 "[ $(wc -l < ../verbs) -gt 10 ] && while read -r verb; do [ -e share/man/man1/potash-$verb.1 ] || echo \"$verb\"; done < ../verbs",
                 "");
    assert_shell("diff -r samples \"$ROOT/usr/share/doc/potash/samples\"", "");
}

static void the_program_runs_from_there(void **state)
{
    (void)state;
    struct run ours = run_potash("sheet", "samples/stop-bath.bath", "--date", "none", NULL);
    assert_status(&ours, 0);
    assert_shell("cd \"$ROOT/usr/share/doc/potash\" && ../../../bin/potash sheet samples/stop-bath.bath --date none", ours.output);
    run_free(&ours);
}

static void nothing_else_is_exported(void **state)
{
    (void)state;
    /* What potash.h and workspace.h declare, and no other name, is what programs can be linked with, in both libraries.  A name with a
     * point is the compiler's, of no use to a program. */
    const char *script = "grep -ho 'potash_[a-z_]*(' src/potash.h src/workspace.h | tr -d '(' | sort -u > \"$ROOT/declared\"\n"
                         "grep -qx potash_check \"$ROOT/declared\" || echo none\n"
                         "nm -D --defined-only \"$ROOT/usr/lib/libpotash.so.0\" | sed -n 's/.* [TDBR] //p' | sed 's/@.*//' | sort | diff \"$ROOT/declared\" -\n"
                         "nm --defined-only --extern-only \"$ROOT/usr/lib/libpotash.a\" | sed -n 's/.* [TDBRVW] //p' | grep -v '[.]' | sort | diff \"$ROOT/declared\" -";
    assert_shell(script, "");
    assert_shell("readelf -d \"$ROOT/usr/lib/libpotash.so.0\" | sed -n 's/.*soname: //p'", "[libpotash.so.0]\n");
}

static const char program[] = "#include <potash.h>\n"
                              "#include <stdio.h>\n"
                              "int main(void)\n"
                              "{\n"
                              "    struct potash *potash = potash_open(NULL);\n"
                              "    struct potash_output sum = {0};\n"
                              "    enum potash_status status = potash_reckon(potash, \"1+29 for 300 mL\", POTASH_TEXT, &sum);\n"
                              "    fwrite(sum.bytes, 1, sum.length, stdout);\n"
                              "    potash_close(potash);\n"
                              "    return (int)status;\n"
                              "}\n";

/* Both with the shared library and with the static one. */
static void another_program_uses_it(void **state)
{
    (void)state;
    if (!is_plain_build()) {
        skip();
    }
    scratch_text("program.c", program);
    const char *const prepare = "export PKG_CONFIG_LIBDIR=\"$ROOT/usr/lib/pkgconfig:$(pkg-config --variable=pc_path pkg-config)\" PKG_CONFIG_SYSROOT_DIR=\"$ROOT\"\n"
                                "PKG_CONFIG_SYSTEM_INCLUDE_PATH=/none; PKG_CONFIG_SYSTEM_LIBRARY_PATH=/none; export PKG_CONFIG_SYSTEM_INCLUDE_PATH PKG_CONFIG_SYSTEM_LIBRARY_PATH\n"
                                "cd \"$ROOT/..\"\n";
    struct run ours = run_potash("reckon", "1+29 for 300 mL", NULL);
    assert_status(&ours, 0);
    char script[2000];
    snprintf(script, sizeof script, "%scc program.c $(pkg-config --cflags --libs potash) -o shared && LD_LIBRARY_PATH=\"$ROOT/usr/lib\" ./shared", prepare);
    assert_shell(script, ours.output);
    snprintf(script, sizeof script,
             "%srm \"$ROOT/usr/lib/libpotash.so\"; unset PKG_CONFIG_SYSROOT_DIR\n"
             "cc program.c -I\"$ROOT/usr/include\" \"$ROOT/usr/lib/libpotash.a\" $(pkg-config --libs jansson libutf8proc nettle) -lm -o static && ./static",
             prepare);
    assert_shell(script, ours.output);
    run_free(&ours);
}

/* Position-independent, with relocations that are read-only from the start on, and the C library's checking calls. */
static void the_program_is_hardened(void **state)
{
    (void)state;
    if (!is_plain_build()) {
        skip();
    }
    assert_shell("readelf -hld \"$ROOT/usr/bin/potash\" | grep -oE 'DYN|GNU_RELRO|BIND_NOW' | sort -u", "BIND_NOW\nDYN\nGNU_RELRO\n");
    assert_shell("readelf -ld \"$ROOT/usr/lib/libpotash.so.0\" | grep -oE 'GNU_RELRO|BIND_NOW' | sort -u", "BIND_NOW\nGNU_RELRO\n");
    assert_shell("nm -D --undefined-only \"$ROOT/usr/bin/potash\" | grep -oE '__stack_chk_fail|__vasprintf_chk' | sort -u", "__stack_chk_fail\n__vasprintf_chk\n");
}

static void uninstalling_leaves_nothing(void **state)
{
    (void)state;
    assert_shell("$MAKE BUILD=\"$BUILD\" DESTDIR=\"$ROOT\" PREFIX=/usr uninstall && cd \"$ROOT/usr\" && find . ! -type d && ls share/doc", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(everything_has_its_place), cmocka_unit_test(the_program_runs_from_there), cmocka_unit_test(nothing_else_is_exported),
        cmocka_unit_test(another_program_uses_it),  cmocka_unit_test(the_program_is_hardened),     cmocka_unit_test(uninstalling_leaves_nothing),
    };
    return cmocka_run_group_tests(tests, install, clean);
}
