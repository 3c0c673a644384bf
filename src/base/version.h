/* The one place of the version's number. */
#ifndef POTASH_BASE_VERSION_H
#define POTASH_BASE_VERSION_H

#define POTASH_VERSION "0.1.0"

#endif
