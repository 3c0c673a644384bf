/* The hazard pictograms of the UN GHS as outlines, drawn for Potash after the standard's description of them ("Globally
 * Harmonized System of Classification and Labelling of Chemicals", Rev. 10, United Nations 2023, 1.4.10.4 and Annex 1): a
 * black symbol on white in a square set on its point, with a red frame wide enough to be seen.
 *
 * All stand in a square from 0,0 (top left) to 100,100.  An outline is written as the path data of SVG 1.1, 8.3, with the
 * commands M, L, C and Z alone, all absolute, so that it can stand in an SVG as it is. */
#ifndef POTASH_PAGE_PICTOGRAMS_H
#define POTASH_PAGE_PICTOGRAMS_H

#include "base/text.h"

#include <stdbool.h>

/* Layers are painted one over the other. */
struct pictogram_layer {
    bool white;       /* else black */
    const char *path; /* NULL ends the list */
};

struct pictogram {
    const char *code; /* "GHS07" */
    const char *name; /* what it shows: "exclamation mark" */
    const struct pictogram_layer *layers;
};

/* The frame: the outer square is painted in the colour of the frame, then the inner one in white. */
extern const char pictogram_frame_outside[];
extern const char pictogram_frame_inside[];

/* Red of the frame, as in CSS; the standard leaves the shade free. */
#define PICTOGRAM_RED "#c8000a"
#define PICTOGRAM_RED_PARTS 0.784, 0.0, 0.039

/* The pictogram of a code; NULL when there is none. */
const struct pictogram *pictogram_find(struct text code);

/* By number, from 0 on, in the standard's order; NULL behind the last. */
const struct pictogram *pictogram_at(size_t index);

#endif
