/* Prints the mixing sheet of the formulas in a file, for two litres.
 *
 *     cc -Isrc docs/example.c build/libpotash.a $(pkg-config --libs jansson libutf8proc nettle) -lm -o example */
#include "potash.h"

#include <stdio.h>

int main(int count, char **words)
{
    struct potash_options options = {.make = "2 L"};
    struct potash *potash = potash_open(&options);
    if (potash == NULL) {
        return POTASH_UNUSABLE;
    }
    struct potash_output output = {0};
    enum potash_status status = potash_read(potash, count > 1 ? words[1] : "-");
    status = status == POTASH_GOOD ? potash_check(potash) : status;
    if (status == POTASH_GOOD && (status = potash_sheet(potash, POTASH_TEXT, &output)) == POTASH_GOOD) {
        fwrite(output.bytes, 1, output.length, stdout);
    } else if (status == POTASH_FAULTY && potash_diagnostics(potash, POTASH_TEXT, false, &output) == POTASH_GOOD) {
        fwrite(output.bytes, 1, output.length, stderr);
    } else {
        fprintf(stderr, "%s\n", potash_message(potash));
    }
    potash_close(potash);
    return status;
}
