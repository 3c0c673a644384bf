/* The verbs. */
#include "command/command.h"

#define PAGE_FORMATS (FORMAT_BIT(TEXT) | FORMAT_BIT(JSON) | FORMAT_BIT(HTML) | FORMAT_BIT(PDF))

const char *const format_names[FORMATS] = {
    [POTASH_TEXT] = "text", [POTASH_JSON] = "json", [POTASH_SARIF] = "sarif", [POTASH_HTML] = "html",
    [POTASH_PDF] = "pdf", [POTASH_CSV] = "csv", [POTASH_ICAL] = "ical"};

const struct verb verbs[VERBS] = {
    [VERB_SHEET] = {
        VERB_SHEET, "sheet", "PATH…", "the mixing sheet",
        "Prints the mixing sheet of each formula: additions in mixing order with boxes to tick, what is weighed and what is measured, "
        "working solutions, keeping times, cautions. Stock solutions get one too.\n"
        "As HTML it is one file that fetches nothing, with steps to tick and a size of batch to change.",
        PAGE_FORMATS, POTASH_TEXT, "At the bench",
        {{"potash sheet samples/print-developer.bath --make 2 L", "for two litres"},
         {"potash sheet samples/film-developer.bath --temperature 22 °C", "with the time for a warm bath"}},
        command_sheet},
    [VERB_PROCESS] = {
        VERB_PROCESS, "process", "PATH…", "the working sheet of a process, by the clock",
        "Prints the working sheet of each process: what to measure out for so many rolls or sheets, every pour by the clock, what it "
        "takes from the bottles and which batches have it.",
        PAGE_FORMATS, POTASH_TEXT, NULL,
        {{"potash process samples/processes.bath --title \"Roll film\" --rolls 4", "four rolls"},
         {"potash process samples/processes.bath --title \"Prints in trays\" --sheets 12 5x7", "twelve small prints"}},
        command_process},
    [VERB_LABEL] = {
        VERB_LABEL, "label", "PATH…", "bottle labels",
        "Prints a label for each bottle of each formula: strength, volume, days, dilution, the hazards of the mixture with their "
        "pictograms, contents by weight, and a square code with the batch and the formula's fingerprint.\n"
        "As PDF they stand on sheets of label stock: common sizes are known, and any other can be given in mm.",
        PAGE_FORMATS, POTASH_TEXT, NULL,
        {{"potash label samples/stop-bath.bath --size 63.5x38.1 --start 5 -o labels.pdf", "on a sheet with four labels gone"},
         {"potash label samples/film-developer.bath samples/batches.bath --batch TFD-002", "of a bottle in the diary"}},
        command_label},
    [VERB_RECKON] = {
        VERB_RECKON, "reckon", "SUM", "one bench sum, with its working",
        "Works out one bench sum, and says how. A sum of several words needs no quotes, but brackets and % may want them in a shell. "
        "Sums look like these:\n"
        "    1+29 for 300 mL\n"
        "    150 mL to 1 L as a ratio\n"
        "    0.25 g from 1 % stock\n"
        "    500 mL of 28 % acetic acid from glacial\n"
        "    30 g sodium carbonate (anhydrous) as monohydrate\n"
        "    30 g sodium metaborate as borax + sodium hydroxide\n"
        "    dissolve 30 g borax in 500 mL at 20 °C\n"
        "    pH of 16 g citric acid + 4 g sodium hydroxide in 1 L\n"
        "    9 min at 20 °C to 24 °C coefficient 1.9 per 10 °C\n"
        "    40 grains per 20 imperial fl oz in g/L\n"
        "    7.5 g per 750 mL for 2 L\n"
        "    A 1 + B 1 + water 8 for 1 L\n"
        "    125 °F in °C",
        FORMAT_BIT(TEXT) | FORMAT_BIT(JSON), POTASH_TEXT, NULL,
        {{"potash reckon 1+29 for 300 mL", "a dilution"},
         {"potash reckon \"45 g sodium carbonate (anhydrous) as decahydrate\"", "crystals in place of dry soda"}},
        command_reckon},
    [VERB_CHECK] = {
        VERB_CHECK, "check", "PATH…", "what is wrong with formulas, with line and repair",
        "Prints what is wrong or doubtful, each with its line, the reason and the repair, and one line that sums it up. "
        "It says the same on every day, unless --today or --date is given.",
        FORMAT_BIT(TEXT) | FORMAT_BIT(JSON) | FORMAT_BIT(SARIF), POTASH_TEXT, "Formulas and files",
        {{"potash check samples/film-developer.bath --balance 0.1 g", "on a scale that shows tenths of a gram"},
         {"potash check samples/darkroom.bath --without pyrogallol", "which formulas hold pyrogallol"}},
        command_check},
    [VERB_COMPARE] = {
        VERB_COMPARE, "compare", "A B", "what differs between two formulas: FILE, or FILE#\"Title\"",
        "Prints what differs between two formulas, by the litre and with the forms of a salt reduced to equal moles; what a litre of "
        "each costs, where a shelf has prices.\n"
        "Each is a FILE or FILE#\"Title\". Without titles, formulas of two files are matched by title, and a file with one formula is "
        "matched whatever it is called. One of the two may be -. The exit status is 1 where they differ.",
        PAGE_FORMATS, POTASH_TEXT, NULL,
        {{"potash compare samples/plain-fixer.bath samples/acid-fixer.bath", "two fixers"},
         {"potash compare samples/film-developer.bath samples/film-developer-soft.bath --within 5%", "but for small differences"}},
        command_compare},
    [VERB_TIDY] = {
        VERB_TIDY, "tidy", "PATH…", "the file in canonical layout",
        "Prints a file in the canonical layout: indentation, columns, one blank before units. What it means stays the same, and comments "
        "stay where they are. Files that are read from it are left alone. Several files can only be changed in place or verified. "
        "Text with signs in it that control a terminal or are not seen (potash why hidden-sign) is not printed to a terminal.",
        FORMAT_BIT(TEXT), POTASH_TEXT, NULL,
        {{"potash tidy samples/old-print-developer.bath", "print it"},
         {"potash tidy --verify samples/stop-bath.bath samples/stocks.bath", "list those that are not tidy"}},
        command_tidy},
    [VERB_SHOW] = {
        VERB_SHOW, "show", "PATH…", "the checked form, for programs",
        "Prints the checked form: names resolved, amounts in grams and millilitres. JSON (default) is made for programs and holds all that the notation can say of a formula; the rest is for people.",
        PAGE_FORMATS, POTASH_JSON, NULL,
        {{"potash show samples/film-developer.bath", "for another program"},
         {"potash show samples/print-developer.bath --make 500 mL --as text", "for half a litre, to look over"}},
        command_show},
    [VERB_BOOK] = {
        VERB_BOOK, "book", "PATH…", "a whole folder as one printed formulary",
        "Prints a whole folder as one book: contents, mixing sheets by kind with variants beside their parents, stocks, indexes of "
        "stocks and materials, hazards, sources. As PDF it has page numbers, links and marks to find the pages by.",
        PAGE_FORMATS, POTASH_TEXT, NULL,
        {{"potash book samples/plain-fixer.bath samples/stop-bath.bath --called \"Two baths\"", "two formulas"},
         {"potash book samples/stop-bath.bath --with-safety -o book.html", "with safety notes"}},
        command_book},
    [VERB_SHELF] = {
        VERB_SHELF, "shelf", "PATH…", "stock left, what can be mixed, what to buy, what expires",
        "Prints what the shelf comes to: which formulas can be mixed now, which with another form (with its weight), what is missing for "
        "the rest, what to buy in whole packs at the least cost, what has expired or will, what is left.\n"
        "Also as CSV (RFC 4180) and, for the days on which packs expire, as iCalendar (RFC 5545). Formulas or lines with errors are "
        "reported and left out, and the exit status is 1.",
        PAGE_FORMATS | FORMAT_BIT(CSV) | FORMAT_BIT(ICAL), POTASH_TEXT, "Stock and money",
        {{"potash shelf samples/darkroom.bath --ahead 6 months", "what expires in half a year"},
         {"potash shelf samples/darkroom.bath --mix \"5 L of Glasswort fixer\"", "what to buy for it"}},
        command_shelf},
    [VERB_COST] = {
        VERB_COST, "cost", "PATH…", "what it costs: a batch, a litre, a roll, a sheet",
        "Prints what each formula costs by the prices on the shelf: the batch, a litre of stock and of each working solution, a roll, a "
        "sheet. Several formulas are set side by side as well. What has no price is named, and the total is then marked incomplete.",
        PAGE_FORMATS, POTASH_TEXT, NULL,
        {{"potash cost samples/film-developer.bath --shelf samples/shelf.bath --rolls 10", "ten rolls"},
         {"potash cost samples/stop-bath.bath --shelf samples/shelf.bath --against 4.80", "or bought ready made"}},
        command_cost},
    [VERB_SAFETY] = {
        VERB_SAFETY, "safety", "PATH…", "the safety notes: hazards, label, handling",
        "Prints the safety notes of each formula: the hazard classes of the stock and of each working solution by the calculation "
        "methods of the UN GHS, with the rule and the ingredient behind each, signs and statements of the label, handling, what must not "
        "meet it, first aid, disposal.",
        PAGE_FORMATS, POTASH_TEXT, "Materials and safety",
        {{"potash safety samples/acid-fixer.bath", "all of it"},
         {"potash safety samples/acid-fixer.bath --for paper", "the stock, and this use"}},
        command_safety},
    [VERB_MATERIALS] = {
        VERB_MATERIALS, "materials", "[NAME]", "what the library knows",
        "Prints what the library knows of a material (names, forms, equal weights, solubility, usual amounts, care), or lists them all. "
        "Chemical and old names are understood, and a name of several words needs no quotes.",
        PAGE_FORMATS, POTASH_TEXT, NULL,
        {{"potash materials sodium sulfite", "one material"},
         {"potash materials --like metol", "what may stand in for it"}},
        command_materials},
    [VERB_WHY] = {
        VERB_WHY, "why", "[ID]", "a diagnostic explained, with an example and the repair",
        "Explains a diagnostic, or a rule of practice by its name, with an example and its repair; without an id it lists them all.",
        FORMAT_BIT(TEXT) | FORMAT_BIT(JSON), POTASH_TEXT, NULL,
        {{"potash why ratio-with-colon", "why 1:3 is not accepted"}, {"potash why", "the list"}},
        command_why},
    [VERB_EDITOR] = {
        VERB_EDITOR, "editor", "", "mistakes underlined as they are typed, for editors (LSP)",
        "Serves an editor by the Language Server Protocol 3.17 over standard input and output: mistakes while they are typed with their "
        "repairs, what is known of a word, completion, names followed and changed through all files, layout. An editor starts it; "
        "docs/editors.md has the lines for several.",
        0, POTASH_TEXT, "In an editor",
        {{"potash editor", "as an editor starts it"}, {"potash editor --balance 0.1 g", "for a scale that shows tenths of a gram"}},
        command_editor},
};
