/* The options. */
#include "command/command.h"

#include "base/limits.h"

#define BIT(name) VERB_BIT(name)
/* Verbs that read formulas. */
#define READERS (BIT(CHECK) | BIT(SHEET) | BIT(BOOK) | BIT(LABEL) | BIT(PROCESS) | BIT(SAFETY) | BIT(COST) | BIT(SHELF) | BIT(SHOW) | BIT(COMPARE))
#define EVERY ((1u << VERBS) - 1)
/* Verbs that print something. */
#define PRINTERS (EVERY & ~BIT(EDITOR))
#define INTO(field) offsetof(struct command_line, field)

const struct option option_table[] = {
    /* ---- what is mixed ---- */
    {.name = "--title", .value = "\"…\"", .kind = VALUE_TEXT, .field = INTO(options.title), .verbs = READERS,
     .help = "only the formula with this title; process: only the process"},
    {.name = "--make", .value = "2 L", .kind = VALUE_MEASURE, .field = INTO(options.make),
     .verbs = READERS & ~(BIT(PROCESS) | BIT(COMPARE)), .help = "batch size (default: the formula's own)",
     .manual = "Pints, quarts, gallons and fluid ounces are those that the formula measures in; where it does not say, name them, as in "
               "--make 1 US quart. --make 2L and --make2L are the same as --make 2 L."},
    {.name = "--for", .value = "\"film\"", .kind = VALUE_TEXT, .field = INTO(options.use_for),
     .verbs = BIT(SHEET) | BIT(LABEL) | BIT(SAFETY) | BIT(COST), .help = "only this use; label: its working solution"},
    {.name = "--working", .value = "300 mL", .kind = VALUE_MEASURE, .field = INTO(options.working),
     .verbs = BIT(SHEET) | BIT(LABEL) | BIT(PROCESS) | BIT(SHELF), .help = "working solution that the tank or tray wants"},
    {.name = "--temperature", .value = "22 °C", .kind = VALUE_MEASURE, .bounds = LIMITS_WORDS(LIMITS_TEMPERATURE) " °C", .field = INTO(options.temperature), .verbs = BIT(SHEET),
     .help = "the bath as it is: the sheet gives the time for it",
     .manual = "It goes by the formula's table of times, between two rows by the law that their temperatures give; else by the "
               "temperature coefficient that the formula declares."},
    {.name = "--speed", .value = "200", .kind = VALUE_TEXT, .bounds = LIMITS_WORDS(LIMITS_SPEED), .field = INTO(options.speed), .verbs = BIT(SHEET),
     .help = "film speed index that a time is wanted for",
     .manual = "It picks the row of the formula's table of times, or what lies between two."},
    {.name = "--contrast", .value = "0.62", .kind = VALUE_TEXT, .bounds = LIMITS_WORDS(LIMITS_CONTRAST), .field = INTO(options.contrast), .verbs = BIT(SHEET),
     .help = "contrast index that a time is wanted for"},
    {.name = "--grade", .value = "2", .kind = VALUE_TEXT, .bounds = LIMITS_WORDS(LIMITS_GRADE), .field = INTO(options.grade), .verbs = BIT(SHEET),
     .help = "grade of the paper that a time is wanted for"},
    {.name = "--rolls", .value = "10", .kind = VALUE_COUNT, .bounds = LIMITS_WORDS(LIMITS_GOODS), .field = INTO(rolls),
     .verbs = BIT(PROCESS) | BIT(COST) | BIT(SHELF), .help = "for so many rolls of film (default for process: one load)"},
    {.name = "--sheets", .value = "12 5x7", .kind = VALUE_SHEETS, .bounds = LIMITS_WORDS(LIMITS_GOODS), .field = INTO(sheets),
     .verbs = BIT(PROCESS) | BIT(COST) | BIT(SHELF), .help = "for so many sheets, of this size in inches (default: 8x10)",
     .manual = "Another unit goes in quotes: --sheets 12 \"18x24 cm\"."},
    {.name = "--record", .field = INTO(record), .verbs = BIT(SHEET), .help = "in place of the sheet, a batch to paste into a diary",
     .manual = "It is mixed on the day of --date, and called by that day and a letter. What it takes is written down, with the lot or "
               "the bottle where a shelf and a diary are read; other weights may be typed over these. With --using-shelf it takes the "
               "forms that stand there."},
    {.name = "--record-in", .value = "FILE", .kind = VALUE_PATH, .field = INTO(record_in), .verbs = BIT(SHEET),
     .help = "the batch added to this diary",
     .manual = "The diary is made if it is not there, and the batch's heading is printed. The file is locked meanwhile, what others have "
               "added stays, and the name is clear of all that are there."},
    {.name = "--by", .value = "\"R. K.\"", .kind = VALUE_TEXT, .field = INTO(options.by), .verbs = BIT(SHEET),
     .help = "who mixed it; the batch's name has the initials",
     .manual = "Two people who mix on one day, each in a copy of the files, so find different names."},
    {.name = "--batch", .value = "PD-014", .kind = VALUE_TEXT, .field = INTO(options.batch), .verbs = BIT(LABEL),
     .help = "for this batch, with its days and volume", .manual = "Without it there are blanks to fill in."},
    {.name = "--of", .value = "working", .kind = VALUE_CHOICE, .choices = {"stock", "working"}, .field = INTO(options.label_of),
     .verbs = BIT(LABEL), .help = "stock for what stands in the bottles (default), or working for every working solution",
     .manual = "The name of a use, as in --of film, is the old spelling of --for."},
    {.name = "--called", .value = "\"…\"", .kind = VALUE_TEXT, .field = INTO(options.book_title), .verbs = BIT(BOOK),
     .help = "what stands on the cover (default: the folder's name)"},
    {.name = "--with-safety", .field = INTO(options.book_with_safety), .verbs = BIT(BOOK),
     .help = "each formula's safety notes after its sheet"},
    {.name = "--without", .value = "metol", .kind = VALUE_TEXT, .repeats = true, .field = INTO(without), .verbs = BIT(CHECK),
     .help = "which formulas hold this material",
     .manual = "Lists which do, through stocks, solutions and variants, and which do not; the exit status is 1 when one does. For somebody "
               "who is allergic to it."},
    {.name = "--depends", .value = "book.pdf", .kind = VALUE_PATH, .field = INTO(depends), .verbs = BIT(CHECK),
     .help = "for make and ninja: the files that were read, as what this file depends on",
     .manual = "The rule takes the place of the summary; -o writes it to a file. See docs/make-and-ninja.md."},
    {.name = "--within", .value = "2%", .kind = VALUE_MEASURE, .bounds = LIMITS_WORDS(LIMITS_WITHIN) " %", .field = INTO(options.within),
     .verbs = BIT(COMPARE), .help = "amounts that differ by no more are the same (default: 0.5 %)"},
    {.name = "--known-as", .value = "PATH", .kind = VALUE_PATH, .field = INTO(known_as), .verbs = BIT(COMPARE),
     .help = "both files are versions of this one",
     .manual = "It is the name that is shown, and read lines start from its folder. Made for version control; see docs/git-diff.md."},
    {.name = "--like", .value = "metol", .kind = VALUE_TEXT, .field = INTO(like), .verbs = BIT(MATERIALS),
     .help = "what may stand in for this material",
     .manual = "The others of its role, with their usual amounts, classes and cautions; those that are not known to make people allergic "
               "stand first."},
    {.name = "--in-place", .field = INTO(in_place), .verbs = BIT(TIDY), .help = "change the files themselves",
     .manual = "A file with errors in its text is left as it is."},
    {.name = "--verify", .field = INTO(verify), .verbs = BIT(TIDY), .help = "only list the files that are not tidy"},
    /* ---- the shelf ---- */
    {.name = "--mix", .old = "--for", .value = "\"5 L of …\"", .kind = VALUE_TEXT, .repeats = true, .field = INTO(mix),
     .verbs = BIT(SHELF), .help = "a formula or process for the shopping list",
     .manual = "A formula's title alone is one batch, or as much as --make says. Without it the list is for one batch of each formula that "
               "cannot be mixed now. In the old spelling the amount is the --make after it."},
    {.name = "--ahead", .old = "--within", .value = "30 days", .kind = VALUE_MEASURE, .field = INTO(options.horizon),
     .verbs = BIT(SHELF), .help = "what expires in that time (default: 90 days)"},
    {.name = "--counted", .value = "2026-02-01", .kind = VALUE_DATE, .field = INTO(options.counted), .verbs = BIT(SHELF),
     .help = "the day of the count (default: the one that the shelf states)",
     .manual = "What the batches mixed since then used is subtracted from what stands there."},
    {.name = "--shelf", .value = "FILE", .kind = VALUE_PATH, .field = INTO(shelf), .verbs = READERS,
     .help = "read the shelf from here, where no other file has it",
     .manual = "It may be a folder. Reports are not about the formulas in it. Where a shelf is read, its scales and graduates hold in place "
               "of the usual ones, and materials that it lacks are warned of."},
    {.name = "--using-shelf", .field = INTO(options.using_shelf), .verbs = BIT(SHEET), .help = "take the forms that stand on the shelf",
     .manual = "They are taken with their weights in place of those that are written, and the sheet says so."},
    {.name = "--price-by", .value = "oldest", .kind = VALUE_CHOICE, .choices = {"cheapest", "oldest", "average"},
     .field = INTO(options.price_by), .verbs = BIT(COST) | BIT(PROCESS) | BIT(COMPARE),
     .help = "of packs with several prices the cheapest (default), the oldest or their average",
     .manual = "The cheapest is the pack that gives most for the money; the oldest goes by the order in which packs are used up."},
    {.name = "--against", .value = "4.80", .kind = VALUE_MEASURE, .field = INTO(options.against), .verbs = BIT(COST),
     .help = "what a litre costs that is bought ready made", .manual = "In the currency of the shelf."},
    /* ---- label stock ---- */
    {.name = "--size", .old = "--label", .value = "99.1x67.7", .kind = VALUE_MEASURE, .bounds = LIMITS_WORDS(LIMITS_LABEL) " mm", .group = GROUP_LABELS,
     .field = INTO(options.label_sheet.size), .formats = FORMAT_BIT(PDF), .verbs = BIT(LABEL), .help = "width and height of a label, mm",
     .manual = "For common sizes the rest is known; labels of another size fill the sheet."},
    {.name = "--grid", .value = "2x4", .kind = VALUE_MEASURE, .bounds = LIMITS_WORDS(LIMITS_GRID), .group = GROUP_LABELS, .field = INTO(options.label_sheet.grid),
     .formats = FORMAT_BIT(PDF), .verbs = BIT(LABEL), .help = "columns and rows of labels on a sheet"},
    {.name = "--margins", .value = "4.7x13", .kind = VALUE_MEASURE, .bounds = LIMITS_WORDS(LIMITS_MARGIN) " mm", .group = GROUP_LABELS,
     .field = INTO(options.label_sheet.margins), .formats = FORMAT_BIT(PDF), .verbs = BIT(LABEL), .help = "left and upper edge of the sheet to the first label, mm"},
    {.name = "--pitch", .value = "101.6x67.7", .kind = VALUE_MEASURE, .bounds = LIMITS_WORDS(LIMITS_LABEL) " mm", .group = GROUP_LABELS,
     .field = INTO(options.label_sheet.pitch), .formats = FORMAT_BIT(PDF), .verbs = BIT(LABEL), .help = "start of one label to the next, mm"},
    {.name = "--start", .value = "5", .kind = VALUE_COUNT, .bounds = LIMITS_WORDS(LIMITS_START), .group = GROUP_LABELS, .field = INTO(options.label_sheet.start),
     .formats = FORMAT_BIT(PDF), .verbs = BIT(LABEL), .help = "place of the first label, counted row by row"},
    {.name = "--copies", .value = "2", .kind = VALUE_COUNT, .bounds = LIMITS_WORDS(LIMITS_COPIES), .group = GROUP_LABELS, .field = INTO(options.label_sheet.copies),
     .formats = FORMAT_BIT(PDF), .verbs = BIT(LABEL), .help = "so many of each"},
    /* ---- checking ---- */
    {.name = "--strict", .group = GROUP_CHECKING, .field = INTO(options.strict), .verbs = READERS, .help = "warnings count as errors"},
    {.name = "--all", .group = GROUP_CHECKING, .field = INTO(all), .verbs = READERS & ~BIT(COMPARE),
     .help = "on a terminal, every warning and error, not 20 of one id",
     .manual = "What goes to a file or to another program always holds all of them."},
    {.name = "--silence", .value = "ID", .kind = VALUE_TEXT, .repeats = true, .group = GROUP_CHECKING, .field = INTO(silence),
     .verbs = READERS | BIT(EDITOR), .help = "turn a warning off, by its id or its rule's name",
     .manual = "An id is one such as form-unstated, a rule's name one such as metol-before-sulfite. The sheet says what was turned off. "
               "Errors cannot be."},
    {.name = "--today", .group = GROUP_CHECKING, .field = INTO(today), .verbs = BIT(CHECK),
     .help = "by the calendar too: what has expired, days still to come",
     .manual = "Without it, and without --date, a check says the same on every day."},
    {.name = "--balance", .value = "0.1 g", .kind = VALUE_MEASURE, .group = GROUP_CHECKING, .field = INTO(options.balance),
     .verbs = (READERS & ~BIT(COMPARE)) | BIT(EDITOR), .help = "what your scale shows (default: the shelf's, or 0.01 g)",
     .manual = "Amounts are rounded to it, and those that it cannot show well are warned of."},
    {.name = "--graduate", .value = "1 mL", .kind = VALUE_MEASURE, .group = GROUP_CHECKING, .field = INTO(options.graduate),
     .verbs = BIT(SHEET) | BIT(BOOK), .help = "finest step of your graduates (default: the shelf's, or 0.1 mL)"},
    {.name = "--library", .value = "DIR", .kind = VALUE_PATH, .group = GROUP_CHECKING, .field = INTO(options.library), .verbs = EVERY,
     .help = "the library in this folder in place of the built-in one"},
    {.name = "--allow-reads", .group = GROUP_CHECKING, .field = INTO(options.allow_reads), .verbs = READERS | BIT(TIDY) | BIT(EDITOR),
     .help = "let read lines leave the folder of the file named"},
    /* ---- output ---- */
    {.name = "--as", .value = "FORMAT", .kind = VALUE_TEXT, .group = GROUP_OUTPUT, .field = INTO(as), .verbs = PRINTERS,
     .help = "text (default; of show: json), or another format that the verb gives"},
    {.name = "-o", .also = "--output", .value = "FILE", .kind = VALUE_PATH, .group = GROUP_OUTPUT, .field = INTO(output), .verbs = PRINTERS,
     .help = "write there, in one step, only if all is good",
     .manual = "A name that ends in .txt, .json, .csv, .ics, .html, .pdf or .sarif asks for that format, unless --as gives another. The line "
               "that check prints as text is not written there. A name of - is standard output. "
               "Symbolic links are followed; owner, permissions and attributes of a file that is there stay. A file with several names (hard "
               "links) is refused."},
    {.name = "--paper", .value = "Letter", .kind = VALUE_CHOICE, .choices = {"A4", "Letter"}, .group = GROUP_OUTPUT, .field = INTO(paper),
     .verbs = (READERS & ~BIT(CHECK)) | BIT(MATERIALS), .formats = FORMAT_BIT(PDF), .help = "paper of PDF: A4 (default) or Letter"},
    {.name = "--date", .value = "2026-03-04", .kind = VALUE_DATE, .choices = {"none"}, .group = GROUP_OUTPUT, .field = INTO(options.date),
     .verbs = READERS, .help = "the day that is printed (default: today), or none",
     .manual = "What has expired goes by it too; check goes by no day unless it is given one. Today is that of SOURCE_DATE_EPOCH, where this is set."},
    {.name = "--help", .also = "-h", .group = GROUP_OUTPUT, .field = INTO(help), .verbs = EVERY, .help = "this, and no more"},
    {.name = "--version", .group = GROUP_OUTPUT, .field = INTO(version), .verbs = EVERY, .help = "the version"},
};
const size_t option_count = sizeof option_table / sizeof *option_table;

const struct option_pair option_pairs[] = {
    {"--rolls", {"--sheets"}, "give one of them"},
    {"--today", {"--date"}, "give one of them"},
    {"--depends", {"--without"}, "give one of them"},
    {"--of", {"--for"}, "--for is a working solution already"},
    {"--in-place", {"--verify"}, "one changes files and the other does not"},
    {"--in-place", {"-o"}, "the files themselves are written"},
    {"--verify", {"-o"}, "nothing is written"},
    {"--record-in", {"-o"}, "the diary is what is written"},
    {"--record", {"--for", "--working", "--temperature", "--graduate"}, "a batch is the formula as it is written"},
    {"--record-in", {"--for", "--working", "--temperature", "--graduate"}, "a batch is the formula as it is written"},
};
const size_t option_pair_count = sizeof option_pairs / sizeof *option_pairs;

const struct option_need option_needs[] = {
    {VERB_SHEET, "--by", {"--record", "--record-in"}},
    {VERB_LABEL, "--working", {"--of", "--for"}},
    {VERB_SHELF, "--working", {"--mix"}},
    {VERB_SHELF, "--rolls", {"--mix"}},
    {VERB_SHELF, "--sheets", {"--mix"}},
};
const size_t option_need_count = sizeof option_needs / sizeof *option_needs;
