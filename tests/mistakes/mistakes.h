/* The measure of the checks: mistakes put into correct formulas, one at a time, and what the compiler answers. */
#ifndef POTASH_TESTS_MISTAKES_H
#define POTASH_TESTS_MISTAKES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { MOST_LINES = 200, MOST_ADDITIONS = 60, MOST_NAME = 100 };

/* A text in lines, without their ends. */
struct text_lines {
    char *lines[MOST_LINES];
    size_t count;
};

/* An addition of the checked form, and where it stands. */
struct addition {
    size_t line;               /* from 0 */
    size_t part;               /* counted over all formulas of the file */
    char material[MOST_NAME];  /* library name */
    double mass;               /* NAN when null */
    double g_per_L;
    bool water;
    bool liquid;               /* measured out */
};

struct sample {
    const char *path;
    char *text;
    struct text_lines lines;
    struct addition additions[MOST_ADDITIONS];
    size_t addition_count;
    char kind[MOST_NAME];
    size_t heading;            /* line of the formula's heading and of its kind */
    size_t kind_line;
};

/* A mistake: the text with it, what is right, and the lines on which an answer counts. */
struct mistake {
    char *wrong;
    char *right;               /* the text without the mistake; NULL: the sample's own */
    size_t lines[8];           /* from 0, in the wrong text */
    size_t line_count;
    bool form_counts;          /* form-unstated is an answer to it */
};

/* Sorts of mistakes: each lists the places of a sample where it can be made. */
enum { MOST_SITES = 300 };

struct mistake_kind {
    const char *name;
    /* Fills in up to MOST_SITES mistakes; returns how many.  Which way a figure goes wrong is drawn from *seed. */
    size_t (*make)(const struct sample *sample, uint64_t *seed, struct mistake *mistakes);
};

extern const struct mistake_kind mistake_kinds[];
extern const size_t mistake_kind_count;

/* A number below `below`, always the same for the same seed (splitmix64: Steele, Lea, Flood, OOPSLA 2014). */
uint64_t draw(uint64_t *seed, uint64_t below);

struct text_lines cut_lines(const char *text);
char *join_lines(const struct text_lines *lines);
void free_lines(struct text_lines *lines);

#endif
