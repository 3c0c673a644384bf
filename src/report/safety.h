/* The pieces of the safety notes, for their own files. */
#ifndef POTASH_REPORT_SAFETY_H
#define POTASH_REPORT_SAFETY_H

#include "chemistry/handling.h"
#include "report/printing.h"

/* One thing to handle: a part in its bottle, or a working solution. */
struct safety_subject {
    struct safety_subject *next;
    struct text name;                    /* "In the bottle", "Working solution for paper, 1+3" */
    const struct part *part;             /* or */
    const struct use *use;
    const struct mixture_safety *safety; /* NULL when nothing can be said */
    const struct safety_subject *same_as; /* the one with the same classes and signs, or NULL */
};

struct safety_report {
    const struct report_context *context;
    const struct formula *formula;
    const struct solutions *solutions;
    struct page *page;
    struct safety_subject *subjects;
    struct handling handling;
};

/* Everything that a formula gives to handle, in order: its parts, then its uses. */
void safety_find_subjects(struct safety_report *report);

/* Classes, label elements and the reasons for them. */
void safety_add_subject(const struct safety_report *report, const struct safety_subject *subject);

/* Handling, combinations, first aid, disposal. */
void safety_add_handling(const struct safety_report *report);

/* What a solution is classed as, for programs; null where nothing can be said. */
json_t *safety_json(const struct mixture_safety *safety);

/* "sodium sulfite 2.9 %, metol 0.15 %". */
struct text safety_print_causes(struct arena *arena, const struct hazard_cause *causes);

#endif
