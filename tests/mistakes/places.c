/* Places in the lines of a formula where mistakes are made, and the text with one made there. */
#define _GNU_SOURCE

#include "mistakes/places.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

uint64_t draw(uint64_t *seed, uint64_t below)
{
    uint64_t z = (*seed += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (z ^ (z >> 31)) % below;
}

struct text_lines cut_lines(const char *text)
{
    struct text_lines lines = {.count = 0};
    while (*text != '\0' && lines.count < MOST_LINES) {
        size_t length = strcspn(text, "\n");
        lines.lines[lines.count++] = strndup(text, length);
        text += length + (text[length] == '\n');
    }
    return lines;
}

char *join_lines(const struct text_lines *lines)
{
    size_t length = 1;
    for (size_t i = 0; i < lines->count; i++) {
        length += strlen(lines->lines[i]) + 1;
    }
    char *text = malloc(length);
    char *at = text;
    for (size_t i = 0; i < lines->count; i++) {
        at += sprintf(at, "%s\n", lines->lines[i]);
    }
    *at = '\0';
    return text;
}

void free_lines(struct text_lines *lines)
{
    for (size_t i = 0; i < lines->count; i++) {
        free(lines->lines[i]);
    }
    lines->count = 0;
}

/* ---- places in a line ---- */

static bool is_figure(const char *at)
{
    return isdigit((unsigned char)*at) || strncmp(at, "\xC2\xBC", 2) == 0 || strncmp(at, "\xC2\xBD", 2) == 0 ||
           strncmp(at, "\xC2\xBE", 2) == 0;
}

struct anatomy look_at(const char *line)
{
    struct anatomy anatomy = {.plain = false};
    size_t at = strspn(line, " \t");
    anatomy.name.begin = at;
    while (line[at] != '\0' && line[at] != '(' && !(is_figure(line + at) && line[at - 1] == ' ') &&
           strncmp(line + at, "to make", 7) != 0 && strncmp(line + at, "as needed", 9) != 0) {
        at++;
    }
    size_t end = at;
    while (end > anatomy.name.begin && strchr(" .", line[end - 1]) != NULL) {
        end--;
    }
    anatomy.name.end = end;
    if (line[at] == '(') {
        anatomy.form.begin = at;
        at += strcspn(line + at, ")") + 1;
        anatomy.form.end = at;
    }
    while (line[at] != '\0' && line[at] != '"' && !is_figure(line + at)) {
        at++;
    }
    size_t digits = strspn(line + at, "0123456789");
    if (digits == 0) {
        return anatomy;
    }
    anatomy.number.begin = at;
    at += digits;
    if (line[at] == '.' && isdigit((unsigned char)line[at + 1])) {
        at += 1 + strspn(line + at + 1, "0123456789");
    }
    anatomy.number.end = at;
    if (line[at] == '/' || (unsigned char)line[at] >= 0x80) {
        return anatomy;
    }
    at += strspn(line + at, " ");
    if (is_figure(line + at) || strncmp(line + at, "to ", 3) == 0) {
        return anatomy;
    }
    anatomy.unit.begin = at;
    anatomy.unit.end = at + strcspn(line + at, " \t");
    anatomy.plain = anatomy.unit.end > anatomy.unit.begin;
    return anatomy;
}

bool piece_is(const char *line, struct piece piece, const char *const *words)
{
    for (; *words != NULL; words++) {
        if (strlen(*words) == piece.end - piece.begin && strncasecmp(line + piece.begin, *words, strlen(*words)) == 0) {
            return true;
        }
    }
    return false;
}

double number_in(const char *line, struct piece piece)
{
    char digits[40];
    snprintf(digits, sizeof digits, "%.*s", (int)(piece.end - piece.begin), line + piece.begin);
    return strtod(digits, NULL);
}

/* The sample with a piece of one line replaced. */
char *with_piece(const struct sample *sample, size_t line, struct piece piece, const char *text)
{
    struct text_lines lines = sample->lines;
    char *changed = NULL;
    if (asprintf(&changed, "%.*s%s%s", (int)piece.begin, lines.lines[line], text, lines.lines[line] + piece.end) < 0) {
        abort();
    }
    lines.lines[line] = changed;
    char *whole = join_lines(&lines);
    free(changed);
    return whole;
}

void add_mistake(struct mistake *mistakes, size_t *count, char *wrong, size_t line)
{
    if (*count < MOST_SITES) {
        mistakes[(*count)++] = (struct mistake){.wrong = wrong, .lines = {line}, .line_count = 1};
    } else {
        free(wrong);
    }
}
