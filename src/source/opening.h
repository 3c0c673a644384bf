/* The one way in for files: formulas, libraries, shelves and the sides of a comparison are all opened here.
 *
 * What a person names is opened as it is named.  What a `read` line or a folder leads to has to lie inside the root, which is
 * judged by the descriptor of the folder that holds it before it is opened, so that nothing can be changed between the test and the
 * opening.  Only regular files are read; a pipe or a device is refused at once and never waited for. */
#ifndef POTASH_SOURCE_OPENING_H
#define POTASH_SOURCE_OPENING_H

#include "base/table.h"
#include "source/source.h"

#include <dirent.h>

/* A file or folder, whatever it is called; all zero stands for none. */
struct file_identity {
    uint64_t device;
    uint64_t inode;
};

enum opened_as {
    OPENED_FILE,
    OPENED_FOLDER,
    OPENED_NOTHING, /* there is no such file, or a link leads nowhere */
    OPENED_OUTSIDE, /* it lies outside the root */
    OPENED_DEVICE,  /* a pipe, a socket or a device */
    OPENED_NO_TEXT, /* its bytes are no text */
    OPENED_LARGE,   /* more than can be taken in */
    OPENED_NOT      /* the system refuses it: see `fault` */
};

struct opened {
    enum opened_as as;
    bool link;      /* the last name of the path is a symbolic link */
    int descriptor; /* of a file or folder */
    int fault;      /* errno of what could not be opened */
    struct file_identity identity;
    uint64_t size;  /* bytes */
    const char *bytes; /* of a text that is at hand; NULL: what it holds is read by its descriptor */
};

/* Texts that stand in for files: an editor's. */
struct texts_at_hand {
    /* Whether what a `read` line leads to is known without the disk; *opened then says how it is taken in. */
    bool (*open)(void *context, const char *path, struct opened *opened);
    void *context;
};

/* A file or folder that was met. */
struct known_file {
    struct file_identity identity;
    struct source_file *source; /* NULL while it has not been taken in, and of a folder */
    enum opened_as as;          /* OPENED_FILE unless it could not be taken in … */
    int fault;                  /* … and errno of that */
    bool open;                  /* its own reads are not done yet */
    bool listed;                /* a folder whose files have been asked for … */
    bool holds;                 /* … and there were some */
    struct known_file *above;   /* the folder that it was listed in */
    struct file_identity inside; /* a folder: the root that it lies in, as far as is known */
    UT_hash_handle hh;
};

/* What it opens it also closes: at the next opening, or with opener_close. */
struct opener {
    struct arena *arena;
    struct known_file *known;
    struct file_identity root;    /* folder that reads stay inside */
    struct file_identity library; /* another that they may be in */
    bool anywhere;                /* reads may leave the root */
    struct texts_at_hand at_hand; /* asked before the disk is; `open` NULL: there are none */
    int file;                     /* descriptor of what was opened last, to be closed; -1: none */
    DIR *listing;
    int folder;                   /* descriptor of the folder it lies in; -1: none … */
    const char *folder_path;      /* … and its path */
    struct known_file *folder_known;
    bool folder_inside;
};

struct file_list {
    const char **paths;
    size_t count;
    size_t capacity;
    int fault; /* errno of a folder that could not be read to its end */
};

void opener_start(struct opener *opener, struct arena *arena);
void opener_close(struct opener *opener);

/* Reads stay inside this folder from now on. */
void opener_set_root(struct opener *opener, struct file_identity root);

/* The folder that a path lies in; none when there is no such folder. */
struct file_identity opener_folder_of(const struct opener *opener, const char *path);

/* Opens what a person named, through links. */
struct opened opener_open_named(struct opener *opener, const char *path);

/* Opens standard input, whatever it is. */
struct opened opener_open_input(struct opener *opener);

/* Opens what lies inside the root. */
struct opened opener_open_inside(struct opener *opener, const char *path);

/* All of the file that was opened, in the arena, with a NUL behind it.  False with errno when it cannot be read; EFBIG when it is
 * longer than SOURCE_LONGEST. */
bool opener_read(struct opener *opener, const struct opened *opened, char **bytes, size_t *length);

/* The `.bath` files below the folder that was opened, by path; what is hidden is left out.  A folder in it that cannot be looked into
 * stands in the list itself.  `again`: also what is in folders that were listed before. */
void opener_list(struct opener *opener, const struct opened *folder, const char *path, bool again, struct file_list *list);

/* The entry of a file or folder, which is made when it is met for the first time. */
struct known_file *opener_know(struct opener *opener, struct file_identity identity);

/* The same by a path, for a text that stands for this file; NULL when there is no such file, nor text at hand. */
struct known_file *opener_know_path(struct opener *opener, const char *path);

/* A path without "./", and without "x/.." where x is no link: chains of reads keep it short. */
const char *opener_shorten(struct opener *opener, const char *path);

#endif
