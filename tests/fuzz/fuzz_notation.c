/* Fuzzing the notation: any bytes go in as a file, and every report is made of what comes of them.
 *
 * With libFuzzer, from the top of the repository (make builds the library with the same flags first):
 *     make CC=clang CFLAGS="-g -O1 -fsanitize=fuzzer-no-link,address,undefined" BUILD=build-fuzz build-fuzz/libpotash.a
 *     clang -g -O1 -fsanitize=fuzzer,address,undefined -Isrc -o build-fuzz/fuzz_notation tests/fuzz/fuzz_notation.c \
 *         build-fuzz/libpotash.a $(pkg-config --libs jansson libutf8proc) -lm
 *     build-fuzz/fuzz_notation -dict=tests/fuzz/notation.dict -max_len=4096 FOLDER tests/fuzz/corpus tests/published
 * FOLDER gets what is new.  tests/fuzz/test_corpus.c runs the same function over tests/fuzz/corpus as a test. */
#include "potash.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

static void expect(bool true_claim)
{
    if (!true_claim) {
        abort();
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct potash *potash = potash_open(NULL);
    expect(potash != NULL);
    enum potash_status status = potash_read_text(potash, "fuzz.bath", (const char *)bytes, length);
    if (status != POTASH_UNUSABLE) {
        status = potash_check(potash);
        expect(status == (potash_errors(potash) > 0 ? POTASH_FAULTY : POTASH_GOOD));
        static const enum potash_format formats[] = {POTASH_TEXT, POTASH_JSON, POTASH_SARIF};
        struct potash_output output;
        for (size_t i = 0; i < 3; i++) {
            expect(potash_diagnostics(potash, formats[i], i == 0, &output) == POTASH_GOOD);
            /* Something is said exactly when something was found. */
            expect(i > 0 || (output.length > 0) == (potash_errors(potash) + potash_warnings(potash) > 0));
        }
        if (potash_process(potash, POTASH_TEXT, &output) == POTASH_GOOD) {
            expect(output.length > 0 && strlen(output.bytes) == output.length);
            expect(potash_process(potash, POTASH_JSON, &output) == POTASH_GOOD);
        }
        enum potash_status shown = potash_show(potash, POTASH_JSON, &output);
        if (shown == POTASH_GOOD) {
            expect(potash_sheet(potash, POTASH_TEXT, &output) == POTASH_GOOD);
            expect(output.length > 0 && strlen(output.bytes) == output.length);
            expect(potash_sheet(potash, POTASH_JSON, &output) == POTASH_GOOD);
            expect(potash_safety(potash, POTASH_TEXT, &output) == POTASH_GOOD && output.length > 0);
            expect(potash_safety(potash, POTASH_JSON, &output) == POTASH_GOOD);
        }
        /* Without a shelf neither can be said; with one, whatever is sound. */
        static const enum potash_format shelf_formats[] = {POTASH_TEXT, POTASH_JSON, POTASH_CSV};
        for (size_t i = 0; i < 3 && potash_shelf(potash, shelf_formats[i], &output) != POTASH_UNUSABLE; i++) {
            expect(output.length > 0);
        }
        if (shown == POTASH_GOOD) {
            potash_cost(potash, POTASH_JSON, &output);
        }
    }
    potash_close(potash);
    return 0;
}
