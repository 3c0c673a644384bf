/* The limits of numbers that a call gives: the session holds a value against them, and help prints them.  Both are good themselves. */
#ifndef POTASH_BASE_LIMITS_H
#define POTASH_BASE_LIMITS_H

#define LIMITS_GOODS 1, 100000        /* rolls or sheets */
#define LIMITS_WITHIN 0, 99           /* % */
#define LIMITS_TEMPERATURE 0, 100     /* °C: of water */
#define LIMITS_SPEED 0, 1000000       /* film speed index */
#define LIMITS_CONTRAST 0, 5          /* contrast index of a negative */
#define LIMITS_GRADE 0, 10            /* of a paper */
#define LIMITS_LABEL 10, 400          /* mm: its width and height, and from one to the next */
#define LIMITS_MARGIN 0, 200          /* mm */
#define LIMITS_GRID 1, 50             /* labels in a row or column */
#define LIMITS_START 1, 2500          /* the last place of the largest grid */
#define LIMITS_COPIES 1, 999

/* In words: "1 to 999". */
#define LIMITS_WORDS(...) LIMITS_WORDS_OF(__VA_ARGS__)
#define LIMITS_WORDS_OF(lowest, highest) #lowest " to " #highest

/* As members of a struct measure_wanted. */
#define LIMITS_MEMBERS(...) LIMITS_MEMBERS_OF(__VA_ARGS__)
#define LIMITS_MEMBERS_OF(lowest, highest) .least = (lowest), .most = (highest)

#endif
