/* Processes: baths, washes and tasks in their order, and what they come to for so many rolls or sheets.
 *
 * mL, s, °C.  A process that is faulty has been reported. */
#ifndef POTASH_STORE_PROCESSES_H
#define POTASH_STORE_PROCESSES_H

#include "store/mixing.h"

enum stage_kind { STAGE_BATH, STAGE_WASH, STAGE_TASK };

struct stage {
    struct stage *next;
    enum stage_kind kind;
    struct span span;
    struct text title;             /* of the bath's formula as it is written; what is to be done of a task */
    double temperature;            /* NAN when nothing is said */
    double time[2];                /* lower and upper end; NAN when nothing is said */
    /* baths */
    const struct formula *formula;
    const struct use *use;         /* NULL: the formula has none, and is taken as it is mixed */
    const struct part *part;       /* of parts that follow each other, the one that is poured here; else NULL */
    bool follows;                  /* the part before it in the same bath's sequence */
    double stock_parts;            /* NAN: as it is mixed, or a mixture of parts */
    double water_parts;
    bool diluted_here;             /* by the process, not by the use */
    struct text agitation;
    bool once;                     /* poured away after each filling of the tank */
    struct goods replace_after;    /* its unit is NULL when nothing is said */
    double replenish;              /* mL for one of the goods that follow; NAN when it is not replenished */
    struct goods replenish_per;
    const struct formula *replenisher; /* NULL: the bath's own stock */
    struct remark *notes;
    /* washes */
    double flow;                   /* mL in a second; NAN when nothing is said */
    double changes;                /* of water; NAN in running water */
    double filling;                /* mL of one change */
};

struct process {
    struct process *next;
    struct text title;
    const struct declaration *declaration;
    bool faulty;
    bool trays;                    /* and no tank */
    double vessel;                 /* mL of the tank, or of each tray; NAN when nothing is said */
    struct goods holds;            /* at a time; its unit is NULL when nothing is said */
    double drain;                  /* s that pouring out takes; NAN when nothing is said */
    struct stage *stages, *last;
    struct remark *notes;
};

struct process_entry;

/* Baths of one process: each is held against each other, since they are poured away into one drain. */
enum { PROCESS_MOST_BATHS = 200 };

struct processes {
    struct formulary *formulary;
    struct process *first, *last;
    struct process_entry *titles;  /* table by title */
};

/* Checks the processes among the declarations of the files that were added; the formulas must have been checked. */
void processes_start(struct processes *processes, struct formulary *formulary);
void processes_add_file(struct processes *processes, const struct syntax_file *file);

/* The process of that title; NULL when there is none. */
const struct process *processes_find(const struct processes *processes, struct text title);

/* Whether a bath is made up afresh for each filling: it says so, or its use asks for stock by the roll and knows no capacity. */
bool stage_is_once(const struct stage *stage);

/* ---- what it comes to (process_plan.c) ---- */

/* One thing poured together for a filling. */
struct plan_share {
    struct plan_share *next;
    const struct part *part;       /* of the formula; NULL for water and other materials */
    const struct material *material; /* NULL with `part` NULL: water */
    const struct form *form;
    double volume;                 /* mL */
};

struct plan_stage {
    struct plan_stage *next;
    const struct stage *stage;
    double start;                  /* s from the first pour; of a wash or a task, when it begins */
    double pour_out;               /* when to begin pouring out; NAN of what is not poured */
    double end;
    double time;                   /* s; NAN: until it is done, which the clock does not count */
    bool time_adjusted;            /* for the temperature, by the coefficient of the use */
    bool time_by_table;            /* … by the use's table of times */
    bool time_extrapolated;        /* further than a coefficient, or the table, is taken to hold */
    bool time_assumed;             /* a minute for each change of water (common practice, no source) */
    double temperature;            /* °C; NAN when nobody says */
    double temperature_high;       /* of a range, or NAN */
    /* baths */
    double volume;                 /* mL of one filling */
    struct plan_share *shares;     /* NULL when the mixture is not known */
    double stock;                  /* mL of the formula in one filling; NAN when not known */
    double does;                   /* goods of the order's kind that one filling does; NAN when nobody says */
    double loads_per_filling;      /* fillings of the tank that it is used for before it is replaced; NAN when nobody says */
    double fillings;               /* that are made up in all */
    double stock_in_all;           /* mL, replenisher apart */
    double replenisher;            /* mL in all; 0 when it is not replenished */
    double lacking;                /* mL of stock that one filling lacks of what its goods need; 0 when it has enough */
    /* washes and baths */
    double water;                  /* mL in all; NAN when it cannot be said */
};

struct plan {
    const struct process *process;
    struct goods goods;            /* what is processed in all; its unit is NULL when nobody says */
    double at_a_time;              /* of them in one load */
    double loads;
    double vessel;                 /* mL */
    bool vessel_assumed;
    double drain;                  /* s */
    bool drain_assumed;
    double length;                 /* s of one load from the first pour to the end */
    double water;                  /* mL in all that are known of */
    bool water_unknown;            /* a wash does not say how fast its water runs */
    struct plan_stage *stages;
};

/* Works a process out for `goods` (its unit NULL: one load) in a tank or trays of `vessel` mL (NAN: its own). */
struct plan *process_plan(struct arena *arena, const struct process *process, const struct goods *goods, double vessel);

/* What a process takes from the bottles: mL of a formula as it is mixed, replenishers with the rest. */
struct demand {
    struct demand *next;
    const struct formula *formula;
    const struct use *use;         /* of the first bath that takes it; NULL for a replenisher */
    double volume;                 /* mL of the whole formula; of one in parts, so that every part suffices */
    /* of the baths whose capacity counts, since their fillings are not poured away after one load nor replenished: */
    struct goods load;             /* what goes through at a time; its unit is NULL when there is no such bath */
    double loads;                  /* the last may be smaller */
    double goods;                  /* of the load's kind in all of them */
    double loads_per_filling;
    double filling;                /* mL of the formula that one fresh filling takes */
};
struct demand *plan_demands(struct arena *arena, const struct plan *plan);

/* What the bottles have for a demand.  The capacity that is left in them decides first, then their day and whether they were poured
 * away, then their volume. */
struct provision {
    struct batch_supply supply;    /* of the bottles that do a load at least */
    double more;                   /* mL to be mixed first; 0: what is there suffices */
    bool spent;                    /* their capacity asks for more than their volume does */
};
struct provision process_provision(const struct batch_list *list, long today, const struct demand *demand);

#endif
