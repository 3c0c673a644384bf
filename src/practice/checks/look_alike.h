/* Materials that are mistaken for another: sodium sulfate where the bath wants sodium sulfite. */
#ifndef POTASH_PRACTICE_CHECKS_LOOK_ALIKE_H
#define POTASH_PRACTICE_CHECKS_LOOK_ALIKE_H

#include "practice/bench.h"

/* Materials that baths of this kind do not hold, but are mistaken for one that they do. */
void look_alike_check(struct bench *bench);

#endif
