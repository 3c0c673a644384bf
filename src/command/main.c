/* potash: finds the verb and runs it. */
#include "command/command.h"

#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

const struct verb verbs[] = {
    {"check", "PATH…", "what is wrong with formulas, with line and repair", command_check},
    {"sheet", "PATH…", "the mixing sheet", command_sheet},
    {"book", "PATH…", "a whole folder as one printed formulary", command_book},
    {"label", "PATH…", "bottle labels, as PDF for sheets of label stock", command_label},
    {"process", "PATH…", "the working sheet of a process, by the clock", command_process},
    {"safety", "PATH…", "the safety notes: hazards, label, handling", command_safety},
    {"cost", "PATH…", "what it costs: a batch, a litre, a roll, a sheet", command_cost},
    {"shelf", "PATH…", "stock left, what can be mixed, what to buy, what expires", command_shelf},
    {"show", "PATH…", "the checked form, for programs", command_show},
    {"tidy", "PATH…", "the file in canonical layout", command_tidy},
    {"compare", "A B", "what differs between two formulas: FILE, or FILE#\"Title\"", command_compare},
    {"materials", "[NAME]", "what the library knows", command_materials},
    {"reckon", "SUM", "one bench sum: \"1+29 for 300 mL\", \"125 °F in °C\"", command_reckon},
    {"why", "[ID]", "a diagnostic explained, with an example and the repair", command_why},
};
const size_t verb_count = sizeof verbs / sizeof *verbs;

static void print_help(FILE *out, const struct verb *verb)
{
    if (verb != NULL) {
        fprintf(out, "potash %s %s [options]\n%s\n\n", verb->name, verb->arguments, verb->summary);
    } else {
        fputs("potash VERB PATH… [options]\n"
              "Compiles photographic formulas kept as text files (.bath) into sheets to mix from.\n\n",
              out);
        for (size_t i = 0; i < verb_count; i++) {
                /* "…" takes three bytes and one column */
            int width = strchr(verbs[i].arguments, '\xE2') != NULL ? 12 : 10;
            fprintf(out, "  %-10s %-*s %s\n", verbs[i].name, width, verbs[i].arguments, verbs[i].summary);
        }
        fputs("\nPATH is a .bath file, a folder (all .bath files below it), or - for standard input.\n\n", out);
    }
    fputs("  --title \"…\"      only the formula with this title\n"
          "  --make 2 L       batch size (also --make 2L)\n"
          "  --for \"film\"     only this use on the sheet\n"
          "                   shelf: a formula for the shopping list, with its --make (may repeat)\n"
          "  --shelf FILE     the shelf, where it is not among the files named\n"
          "  --using-shelf    sheet: take the forms that stand on the shelf\n"
          "  --price-by HOW   costs: cheapest, oldest or average of several packs\n"
          "  --against 4.80   cost: what a litre costs that is bought ready made\n"
          "  --working 300 mL working solution wanted for the tank or tray\n"
          "  --counted DAY    shelf: what batches mixed since that day took is taken off\n"
          "  --temperature \"22 °C\"  sheet: times for a bath of this temperature\n"
          "  --record         sheet: a batch for the diary in place of the sheet, to paste\n"
          "  --record-in FILE sheet: the batch added to this diary\n"
          "  --rolls 10       process: for so many rolls\n"
          "  --sheets 12 8x10 process: for so many sheets, of this size in inches\n"
          "  --as FORMAT      text, json, html, pdf (check: also sarif; shelf: csv, ical)\n"
          "  --paper SIZE     what PDF is made for: A4 (also without this) or Letter\n"
          "  -o FILE          write there, in one step, only if all is good\n"
          "  --in-place       tidy: change the files themselves\n"
          "  --verify         tidy: only list the files that are not tidy\n"
          "  --strict         warnings count as errors\n"
          "  --without metol  check: which formulas hold this material (may repeat)\n"
          "  --like metol     materials: what may stand in for this one\n"
          "  --all            every warning and error on a terminal, not 20 of a kind\n"
          "  --silence ID     turn a warning off, by its id or its rule's name (may repeat)\n"
          "  --balance 0.1 g  what your scale can show (the shelf's, or 0.01 g)\n"
          "  --library DIR    use the library in this folder\n"
          "  --graduate 1 mL  the finest step of your graduates (the shelf's, or 0.1 mL)\n"
          "  --date DAY       the date that is printed, such as 2026-03-04, or none\n"
          "  --allow-reads    let `read` leave the folder of the file named\n"
          "  --within 2%      compare: amounts may differ by so much (0.5 % is assumed)\n"
          "  --called \"…\"     book: what stands on its cover\n"
          "  --within 30 days shelf: what expires in that time (90 days are assumed)\n"
          "  --with-safety    book: each formula's safety notes behind its sheet\n"
          "  --of working     label: working solutions, or those for a use, in place of stock\n"
          "  --batch \"PD-014\" label: for this batch, with its days and volume\n"
          "  --label 99.1x67.7  label: size of a label, mm\n"
          "  --grid 2x4       label: columns and rows on the sheet\n"
          "  --margins 4.7x13 label: left and upper margin of the sheet, mm\n"
          "  --pitch 101.6x67.7  label: from one label to the next, mm\n"
          "  --start 5        label: position of the first label, row by row\n"
          "  --copies 2       label: so many of each\n"
          "  --known-as PATH  compare: both are versions of this file\n"
          "  --help, --version\n\n"
          "Exit status: 0 good, 1 the formulas have errors (compare: they differ), 2 the call or the files could not be used.\n",
          out);
}

/* A file that grows too large is an error like another; and a standard stream that is closed must not become the next file that is
 * opened, or what is printed would end up in it.  Opened for the wrong direction, it fails as a closed one does (EBADF). */
static void prepare_streams(void)
{
    signal(SIGXFSZ, SIG_IGN);
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++) {
        if (fcntl(stream, F_GETFD) == -1) {
            open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
        }
    }
}

int main(int count, char **words)
{
    prepare_streams();
    struct command_line line;
    struct progress progress = {false, 0};
    if (!command_read_line(count, words, &line)) {
        command_free_line(&line);
        return POTASH_UNUSABLE;
    }
    line.progress = &progress;
    int status = POTASH_UNUSABLE;
    const struct verb *verb = NULL;
    for (size_t i = 0; line.verb != NULL && i < verb_count; i++) {
        if (strcmp(line.verb, verbs[i].name) == 0) {
            verb = &verbs[i];
        }
    }
    if (line.version) {
        printf("potash %s\n", potash_version());
        status = POTASH_GOOD;
    } else if (line.help) {
        print_help(stdout, verb);
        status = POTASH_GOOD;
    } else if (line.verb == NULL) {
        print_help(stderr, NULL);
    } else if (verb == NULL) {
        command_say("potash: there is no verb \"%s\"; see: potash --help", line.verb);
    } else {
        status = verb->run(&line);
    }
    command_free_line(&line);
    /* A full disk shows itself only when the last bytes are written. */
    if (fflush(stdout) != 0 || ferror(stdout)) {
        perror("potash: standard output");
        status = POTASH_UNUSABLE;
    }
    return status;
}
