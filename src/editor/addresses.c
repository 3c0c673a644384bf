/* Addresses of documents (RFC 3986, RFC 8089) and the paths that they stand for. */
#include "editor/serving.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

static int hex(char c)
{
    return c >= '0' && c <= '9' ? c - '0' : (c | 0x20) >= 'a' && (c | 0x20) <= 'f' ? (c | 0x20) - 'a' + 10 : -1;
}

char *address_path(const char *uri)
{
    static const char scheme[] = "file://";
    bool file = strncasecmp(uri, scheme, sizeof scheme - 1) == 0;
    const char *from = file ? uri + sizeof scheme - 1 : uri;
    from = file && from[0] != '/' ? from + strcspn(from, "/") : from; /* behind the name of a machine */
    char *path = malloc(strlen(from) + 1);
    char *to = path;
    while (path != NULL && *from != '\0') {
        int high = file && from[0] == '%' ? hex(from[1]) : -1;
        int low = high >= 0 ? hex(from[2]) : -1;
        bool coded = low >= 0 && (high > 0 || low > 0); /* no path holds a NUL */
        *to++ = coded ? (char)(high * 16 + low) : *from;
        from += coded ? 3 : 1;
    }
    if (path != NULL) {
        *to = '\0';
    }
    return path;
}

json_t *address_of(const struct server *server, const char *path)
{
    const struct document *open = documents_find(server, path);
    if (open != NULL || path[0] != '/') {
        return json_string(open != NULL ? open->uri : path);
    }
    static const char digits[] = "0123456789ABCDEF";
    char *uri = malloc(sizeof "file://" + 3 * strlen(path));
    if (uri == NULL) {
        return NULL;
    }
    char *to = stpcpy(uri, "file://");
    for (; *path != '\0'; path++) {
        unsigned char c = (unsigned char)*path;
        bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || strchr("-._~/", c) != NULL;
        if (plain) {
            *to++ = (char)c;
        } else {
            *to++ = '%';
            *to++ = digits[c >> 4];
            *to++ = digits[c & 15];
        }
    }
    *to = '\0';
    json_t *address = json_string(uri);
    free(uri);
    return address;
}
