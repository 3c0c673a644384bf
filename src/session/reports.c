/* The table of reports: which formats each comes in, what it waits for, and what fills it.  Every call of potash.h that makes one goes
 * through session_report, so that all of them refuse in the same way. */
#include "session/reports.h"

#include "report/book.h"
#include "report/cost.h"
#include "report/process.h"
#include "report/shelf.h"
#include "report/sheet/model.h"

#include <math.h>

/* ---- what they wait for ---- */

const struct formula **session_baths(struct potash *potash, bool stocks)
{
    size_t count = 0;
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        count++;
    }
    for (const struct stock *stock = stocks ? session_next_stock(potash, NULL) : NULL; stock != NULL; stock = session_next_stock(potash, stock)) {
        count++;
    }
    const struct formula **baths = ARENA_ARRAY(&potash->arena, const struct formula *, count + 1);
    count = 0;
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        baths[count++] = formula;
    }
    for (const struct stock *stock = stocks ? session_next_stock(potash, NULL) : NULL; stock != NULL; stock = session_next_stock(potash, stock)) {
        baths[count] = stock_formula(&potash->formulary, stock);
        count += baths[count] != NULL ? 1 : 0;
    }
    baths[count] = NULL;
    return baths;
}

static enum potash_status know_use(struct potash *potash)
{
    struct buffer uses;
    buffer_start(&uses, &potash->arena);
    for (const struct formula *formula = session_next(potash, NULL); formula != NULL; formula = session_next(potash, formula)) {
        for (const struct use *use = formula->uses; use != NULL; use = use->next) {
            if (report_wants_use(&potash->context, use)) {
                return POTASH_GOOD;
            }
            const char *name = arena_format(&potash->arena, "\"%.*s\"", TEXT_ARGUMENTS(use->name));
            if (uses.length == 0 || (uses.length < 100 && strstr(uses.bytes, name) == NULL)) {
                buffer_format(&uses, "%s%s", uses.length == 0 ? "" : ", ", name);
            }
        }
    }
    const char *wanted = potash->options.use_for;
    return wanted == NULL      ? POTASH_GOOD
           : uses.length == 0 ? session_unusable(potash, "--for: no formula in these files has a use")
                              : session_unusable(potash, "--for: no formula in these files has a use \"%.200s\"; there are: %s", wanted,
                                                 buffer_finish(&uses));
}

enum potash_status session_baths_ready(struct potash *potash)
{
    bool only_stocks = session_next(potash, NULL) == NULL && session_next_stock(potash, NULL) != NULL && potash->diagnostics.errors == 0;
    enum potash_status status = only_stocks ? POTASH_GOOD : session_ready(potash);
    return status == POTASH_GOOD ? know_use(potash) : status;
}

static enum potash_status shelf_there(struct potash *potash)
{
    return store_is_empty(&potash->store)
               ? session_unusable(potash, "there is no shelf in these files; name its file too, or give it with --shelf")
               : POTASH_GOOD;
}

static enum potash_status sheet_ready(struct potash *potash)
{
    enum potash_status status = session_baths_ready(potash);
    return status == POTASH_GOOD && potash->options.using_shelf ? shelf_there(potash) : status;
}

static enum potash_status title_known(struct potash *potash)
{
    enum potash_status status = session_checked(potash);
    bool unknown = potash->options.title != NULL && session_next(potash, NULL) == NULL && session_next_stock(potash, NULL) == NULL;
    return status == POTASH_GOOD && unknown ? session_unusable(potash, "there is no formula \"%.200s\" in these files", potash->options.title)
                                            : status;
}

/* `--against 4.80`, in the currency of the shelf. */
static enum potash_status know_against(struct potash *potash)
{
    const char *words = potash->options.against;
    const struct unit *currency = potash->store.currency;
    const struct measure_given given = potash->against;
    if (words == NULL) {
        return POTASH_GOOD;
    }
    if (currency == NULL) {
        return session_unusable(potash, "--against: the shelf states no currency to compare in");
    }
    if (given.unit != NULL && given.unit != currency) {
        return session_unusable(potash, "--against: the shelf reckons in %.*s, and %.*s cannot be compared with it",
                                TEXT_ARGUMENTS(currency->name), TEXT_ARGUMENTS(given.unit->name));
    }
    long long coins;
    if (!money_read(currency, given.value, &coins)) {
        return session_unusable(potash, "--against: no coins of %.*s make up \"%.80s\"", TEXT_ARGUMENTS(currency->name), words);
    }
    potash->terms.against = true;
    potash->terms.bought = money_of_coins(coins);
    return POTASH_GOOD;
}

/* What is wrong with the price or the shelf is said even where a formula has errors. */
static enum potash_status cost_ready(struct potash *potash)
{
    enum potash_status ready = session_ready(potash);
    if (ready == POTASH_UNUSABLE) {
        return ready;
    }
    potash->terms = (struct cost_terms){.by = potash->context.price_by, .goods = potash->goods};
    if (store_is_empty(&potash->store)) {
        return session_unusable(potash, "there is no shelf in these files to take prices from; name its file too, or give it with "
                                        "--shelf");
    }
    enum potash_status against = know_against(potash);
    return against != POTASH_GOOD ? against : ready != POTASH_GOOD ? ready : know_use(potash);
}

static struct process *next_process(const struct potash *potash, const struct process *before)
{
    struct process *process = before == NULL ? potash->processes.first : before->next;
    const char *title = potash->options.title;
    while (process != NULL &&
           (title != NULL ? !text_is(process->title, title) : !process->declaration->file->named)) {
        process = process->next;
    }
    return process;
}

static bool is_sound(const struct process *process)
{
    bool sound = !process->faulty;
    for (const struct stage *stage = process->stages; sound && stage != NULL; stage = stage->next) {
        bool good = stage->formula == NULL || !stage->formula->faulty;
        sound = good && (stage->replenisher == NULL || !stage->replenisher->faulty);
    }
    return sound;
}

static enum potash_status process_ready(struct potash *potash)
{
    if (potash->loose_errors > 0) {
        return POTASH_FAULTY;
    }
    const struct process *process = next_process(potash, NULL);
    if (process == NULL) {
        return potash->options.title != NULL
                   ? session_unusable(potash, "there is no process \"%.200s\" in these files", potash->options.title)
                   : session_unusable(potash, "there is no process in these files");
    }
    bool faulty = potash->strictly_faulty;
    for (; process != NULL; process = next_process(potash, process)) {
        faulty = faulty || !is_sound(process);
    }
    return faulty ? POTASH_FAULTY : POTASH_GOOD;
}

/* ---- a formula on its page, or as JSON ---- */

static void add_shown(struct potash *potash, const struct formula *formula, struct page *page)
{
    const struct show_model model = show_model(&potash->context, report_batch(&potash->context, formula), false);
    show_page(&potash->context, &model, page);
}

static json_t *shown_json(struct potash *potash, const struct formula *formula)
{
    const struct show_model model = show_model(&potash->context, report_batch(&potash->context, formula), true);
    return show_json(&potash->context, &model);
}

static void add_sheet(struct potash *potash, const struct formula *formula, struct page *page)
{
    const struct sheet sheet = sheet_model(&potash->context, report_batch_of_shelf(&potash->context, formula), page);
    sheet_page(&sheet);
}

static json_t *listed_sheet(struct potash *potash, const struct formula *formula)
{
    const struct sheet sheet = sheet_model(&potash->context, report_batch_of_shelf(&potash->context, formula), page_start(&potash->arena));
    return sheet_json(&sheet);
}

static void safety_page(struct potash *potash, const struct formula *formula, struct page *page)
{
    report_safety(&potash->context, formula, page);
}

static json_t *listed_safety(struct potash *potash, const struct formula *formula)
{
    return report_safety_json(&potash->context, formula);
}

static void cost_page(struct potash *potash, const struct formula *formula, struct page *page)
{
    report_cost(&potash->context, &potash->terms, report_batch(&potash->context, formula), page);
}

static json_t *cost_json(struct potash *potash, const struct formula *formula)
{
    return report_cost_json(&potash->context, &potash->terms, report_batch(&potash->context, formula));
}

/* ---- reports of all that was read ---- */

static const struct formula *next_formula(void *potash, const struct formula *before)
{
    return session_next(potash, before);
}

static enum potash_status add_costs_beside(struct potash *potash, struct page_set *set)
{
    if (set->count > 1) {
        report_costs_beside(&potash->context, &potash->terms, page_set_add(set), next_formula, potash);
    }
    return POTASH_GOOD;
}

static enum potash_status add_book(struct potash *potash, struct page_set *set)
{
    const char *title = potash->options.book_title;
    struct book book = {.context = &potash->context,
                        .set = set,
                        .arena = &potash->arena,
                        .title = text_from(title != NULL && title[0] != '\0' ? title : "Formulary"),
                        .with_safety = potash->options.book_with_safety,
                        .progress = potash->options.progress,
                        .progress_context = potash->options.progress_context};
    size_t stocks = 0;
    for (const struct stock *stock = session_next_stock(potash, NULL); stock != NULL; stock = session_next_stock(potash, stock)) {
        stocks++;
    }
    const struct formula **formulas = session_baths(potash, false);
    while (formulas[book.count] != NULL) {
        book.count++;
    }
    book.chapters = ARENA_ARRAY(book.arena, struct book_chapter, book.count + 1);
    for (size_t i = 0; i < book.count; i++) {
        book.chapters[i].formula = formulas[i];
    }
    book.stocks = ARENA_ARRAY(book.arena, const struct stock *, stocks + 1);
    book.stock_anchors = ARENA_ARRAY(book.arena, struct text, stocks + 1);
    for (const struct stock *stock = session_next_stock(potash, NULL); stock != NULL; stock = session_next_stock(potash, stock)) {
        book.stocks[book.stock_count++] = stock;
        book.stock_anchors[book.stock_count - 1] = text_from(arena_format(book.arena, "s%zu", book.stock_count));
    }
    report_book(&book);
    return POTASH_GOOD;
}

static struct process_sheet process_sheet(struct potash *potash, const struct process *process, struct page *page)
{
    const struct plan *plan = process_plan(&potash->arena, process, &potash->goods, potash->context.working);
    return (struct process_sheet){&potash->context, &potash->batches, plan, page};
}

static enum potash_status add_processes(struct potash *potash, struct page_set *set)
{
    for (const struct process *process = next_process(potash, NULL); process != NULL; process = next_process(potash, process)) {
        struct process_sheet sheet = process_sheet(potash, process, page_set_add(set));
        report_process(&sheet);
    }
    return POTASH_GOOD;
}

static enum potash_status list_processes(struct potash *potash)
{
    for (const struct process *process = next_process(potash, NULL); process != NULL; process = next_process(potash, process)) {
        struct process_sheet sheet = process_sheet(potash, process, NULL);
        put_item(&potash->building, report_process_json(&sheet));
    }
    return POTASH_GOOD;
}

/* ---- what the library knows ---- */

static void list_material(void *context, const struct material *material)
{
    struct buffer *out = context;
    buffer_format(out, "%-40.*s %.*s\n", TEXT_ARGUMENTS(material->name),
                  TEXT_ARGUMENTS(material->role_count > 0 ? material->roles[0] : (struct text){0}));
}

static void list_material_json(void *context, const struct material *material)
{
    struct potash *potash = context;
    put_item(&potash->building, report_material_json(&potash->library, material));
}

const struct material *session_find_material(struct potash *potash, const char *name)
{
    const struct material_reading *reading = library_material(&potash->library, names_find(&potash->names, text_from(name)));
    if (reading != NULL) {
        return reading->material;
    }
    struct text near[1];
    struct text grave;
    if (library_near_materials(&potash->library, text_from(name), near, 1, &grave) > 0) {
        session_unusable(potash, "no material is called \"%.80s\"; did you mean %.*s?", name, TEXT_ARGUMENTS(near[0]));
    } else {
        session_unusable(potash, "no material is called \"%.80s\"; the list: potash materials", name);
    }
    return NULL;
}

static enum potash_status put_materials(struct potash *potash, const char *name, enum potash_format format, struct potash_output *output)
{
    const struct material *material = name == NULL ? NULL : session_find_material(potash, name);
    if (name != NULL && material == NULL) {
        return POTASH_UNUSABLE;
    }
    if (format == POTASH_JSON) {
        potash->building = json_array();
        if (name == NULL) {
            library_each_material(&potash->library, list_material_json, potash);
        } else {
            list_material_json(potash, material);
        }
        return session_put_json(potash, json_pack("{s:o}", "materials", session_built(potash)), output);
    }
    if (name != NULL) {
        struct page_set set;
        page_set_start(&set, &potash->arena);
        report_material(&potash->library, material, page_set_add(&set));
        return session_put_pages(potash, &set, format, output);
    }
    if (format != POTASH_TEXT) {
        return session_unusable(potash, "the list of materials comes as text or json; name one for a page");
    }
    struct buffer out;
    buffer_start(&out, &potash->arena);
    library_each_material(&potash->library, list_material, &out);
    return session_put_text(&out, output);
}

static enum potash_status put_alike(struct potash *potash, const char *name, enum potash_format format, struct potash_output *output)
{
    const struct material *material = session_find_material(potash, name);
    if (material == NULL) {
        return POTASH_UNUSABLE;
    }
    if (format == POTASH_JSON) {
        return session_put_json(potash, report_materials_like_json(&potash->library, material), output);
    }
    struct page_set set;
    page_set_start(&set, &potash->arena);
    report_materials_like(&potash->library, material, page_set_add(&set));
    return session_put_pages(potash, &set, format, output);
}

/* ---- the table ---- */

#define FORMAT(name) (1u << POTASH_##name)
#define WORDS (FORMAT(TEXT) | FORMAT(JSON))
#define PAGES (WORDS | FORMAT(HTML) | FORMAT(PDF))

static const struct report {
    unsigned formats;
    bool of_files;                    /* it is about checked files */
    enum potash_status (*ready)(struct potash *potash);
    const char *key;                  /* of the list that is its JSON: of what `json` or `list` make */
    bool stocks;                      /* each stock that the files declare has one like a formula */
    void (*page)(struct potash *potash, const struct formula *formula, struct page *page);
    json_t *(*json)(struct potash *potash, const struct formula *formula);
    enum potash_status (*add)(struct potash *potash, struct page_set *set); /* pages that are not of one formula, after the others */
    enum potash_status (*list)(struct potash *potash);                      /* the same as JSON, added to potash->building */
    /* In place of all these: what is no list of pages. */
    enum potash_status (*put)(struct potash *potash, const char *about, enum potash_format format, struct potash_output *output);
} reports[] = {
    [REPORT_SHOW] = {PAGES, true, session_ready, "formulas", .page = add_shown, .json = shown_json},
    [REPORT_SHEET] = {PAGES, true, sheet_ready, "sheets", true, .page = add_sheet, .json = listed_sheet},
    [REPORT_LABEL] = {PAGES, true, session_labels_ready, "labels", .add = session_add_labels, .list = session_list_labels},
    [REPORT_PROCESS] = {PAGES, true, process_ready, "processes", .add = add_processes, .list = list_processes},
    [REPORT_SAFETY] = {PAGES, true, session_baths_ready, "formulas", true, .page = safety_page, .json = listed_safety},
    [REPORT_BOOK] = {PAGES, true, session_ready, "sheets", true, .json = listed_sheet, .add = add_book},
    [REPORT_COST] = {PAGES, true, cost_ready, "formulas", .page = cost_page, .json = cost_json, .add = add_costs_beside},
    [REPORT_SHELF] = {PAGES | FORMAT(CSV) | FORMAT(ICAL), true, shelf_there, .put = session_put_shelf},
    [REPORT_WITHOUT] = {WORDS, true, title_known, .put = session_put_without},
    [REPORT_MATERIALS] = {PAGES, .put = put_materials},
    [REPORT_ALIKE] = {PAGES, .put = put_alike},
    [REPORT_WHY] = {WORDS, .put = session_put_why},
    [REPORT_SUM] = {WORDS, .put = session_put_sum},
};

static enum potash_status put_list(struct potash *potash, const struct report *report, struct potash_output *output)
{
    potash->building = json_array();
    const struct formula **baths = session_baths(potash, report->stocks);
    for (size_t i = 0; report->json != NULL && baths[i] != NULL; i++) {
        put_item(&potash->building, report->json(potash, baths[i]));
    }
    enum potash_status status = report->list == NULL ? POTASH_GOOD : report->list(potash);
    if (status != POTASH_GOOD) {
        json_decref(session_built(potash));
        return status;
    }
    return session_put_json(potash, json_pack("{s:s, s:o}", "potash", POTASH_VERSION, report->key, session_built(potash)), output);
}

static enum potash_status put_pages(struct potash *potash, const struct report *report, enum potash_format format,
                                    struct potash_output *output)
{
    struct page_set set;
    page_set_start(&set, &potash->arena);
    const struct formula **baths = session_baths(potash, report->stocks);
    for (size_t i = 0; report->page != NULL && baths[i] != NULL; i++) {
        report->page(potash, baths[i], page_set_add(&set));
    }
    enum potash_status status = report->add == NULL ? POTASH_GOOD : report->add(potash, &set);
    return status == POTASH_GOOD ? session_put_pages(potash, &set, format, output) : status;
}

enum potash_status session_report(struct potash *potash, enum report_kind kind, const char *about, enum potash_format format,
                                  struct potash_output *output)
{
    const struct report *report = &reports[kind];
    *output = (struct potash_output){0};
    if (potash->message != NULL || (report->of_files && session_has_forms(potash) != POTASH_GOOD)) {
        return POTASH_UNUSABLE;
    }
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    if ((unsigned)format > POTASH_ICAL || (report->formats >> format & 1) == 0) {
        return session_unusable(potash, "this report comes as %s", session_format_list(potash, report->formats));
    }
    enum potash_status status = report->ready == NULL ? POTASH_GOOD : report->ready(potash);
    if (status != POTASH_GOOD) {
        return status;
    }
    return report->put != NULL                                                               ? report->put(potash, about, format, output)
           : format == POTASH_JSON ? put_list(potash, report, output)
                                                                                             : put_pages(potash, report, format, output);
}

/* ---- what potash.h offers of them ---- */

enum potash_status potash_show(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_SHOW, NULL, format, output);
}

enum potash_status potash_sheet(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_SHEET, NULL, format, output);
}

enum potash_status potash_label(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_LABEL, NULL, format, output);
}

enum potash_status potash_process(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_PROCESS, NULL, format, output);
}

enum potash_status potash_safety(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_SAFETY, NULL, format, output);
}

enum potash_status potash_book(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_BOOK, NULL, format, output);
}

enum potash_status potash_cost(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_COST, NULL, format, output);
}

enum potash_status potash_shelf(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_SHELF, NULL, format, output);
}

enum potash_status potash_without(struct potash *potash, enum potash_format format, bool *held, struct potash_output *output)
{
    enum potash_status status = session_report(potash, REPORT_WITHOUT, NULL, format, output);
    *held = potash->held;
    return status;
}

enum potash_status potash_materials(struct potash *potash, const char *name, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_MATERIALS, name, format, output);
}

enum potash_status potash_materials_like(struct potash *potash, const char *name, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_ALIKE, name, format, output);
}

enum potash_status potash_why(struct potash *potash, const char *id, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_WHY, id, format, output);
}

enum potash_status potash_reckon(struct potash *potash, const char *text, enum potash_format format, struct potash_output *output)
{
    return session_report(potash, REPORT_SUM, text, format, output);
}
