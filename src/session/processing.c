/* The session's processes: which are asked for, whether they can be worked out, their sheets. */
#include "session/session.h"

#include "page/page_set.h"
#include "report/process.h"
#include "store/reading.h"

#include <math.h>

bool session_read_goods(struct potash *potash)
{
    potash->goods = (struct goods){.area = NAN};
    const char *words = potash->options.goods;
    if (words == NULL) {
        return true;
    }
    const struct measure_wanted wanted = {.dimensions = DIMENSION_BIT(DIMENSION_NONE), .least = 1, .most = 100000, .whole = true, .example = "10"};
    struct measure_given given;
    const char *count = arena_copy(&potash->arena, words, strcspn(words, " "));
    if (isnan(session_read_option(potash, strstr(words, "sheet") == NULL ? "--rolls" : "--sheets", count, &wanted, &given))) {
        return false;
    }
    const struct quantity *quantity = measure_parse(&potash->library, words);
    struct formula stand_in = {.scratch = true}; /* nothing is said but by the message below */
    struct checker checker = store_checker(&potash->formulary, &stand_in);
    if (quantity == NULL || !goods_read(&checker, quantity, "", &potash->goods)) {
        session_unusable(potash, "\"%.80s\" is no count of rolls or sheets; write --rolls 10, or --sheets 12 8x10", words);
        return false;
    }
    return true;
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

static enum potash_status ready(struct potash *potash)
{
    if (potash->message != NULL) {
        return POTASH_UNUSABLE;
    }
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

/* The sheets as data. */
static enum potash_status put_json(struct potash *potash, struct potash_output *output)
{
    potash->building = json_array();
    for (const struct process *process = next_process(potash, NULL); process != NULL; process = next_process(potash, process)) {
        const struct plan *plan = process_plan(&potash->arena, process, &potash->goods, potash->context.working);
        struct process_sheet sheet = {&potash->context, &potash->batches, plan, NULL};
        put_item(&potash->building, report_process_json(&sheet));
    }
    return session_put_json(potash, json_pack("{s:s, s:o}", "potash", POTASH_VERSION, "processes", session_built(potash)), output);
}

enum potash_status potash_process(struct potash *potash, enum potash_format format, struct potash_output *output)
{
    if (SESSION_GUARD(potash)) {
        return session_out_of_memory(potash);
    }
    enum potash_status status = ready(potash);
    if (status != POTASH_GOOD) {
        return status;
    }
    if (format == POTASH_JSON) {
        return put_json(potash, output);
    }
    struct page_set set;
    page_set_start(&set, &potash->arena);
    for (const struct process *process = next_process(potash, NULL); process != NULL; process = next_process(potash, process)) {
        const struct plan *plan = process_plan(&potash->arena, process, &potash->goods, potash->context.working);
        struct process_sheet sheet = {&potash->context, &potash->batches, plan, page_set_add(&set)};
        report_process(&sheet);
    }
    return session_put_pages(potash, &set, "processes", format, output);
}
