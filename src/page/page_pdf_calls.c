/* Loading Pango, Cairo and Fontconfig. */
#include "page/page_pdf_calls.h"

#include <dlfcn.h>
#include <stddef.h>
#include <string.h>

struct wanted {
    const char *name;
    size_t offset;
};

struct library {
    const char *file;           /* by its soname: the interface that the headers were written for */
    const struct wanted *calls; /* ends with no name */
};

#define CALL(name) {#name, offsetof(struct pdf_calls, name)},
static const struct wanted cairo_calls[] = {PDF_CAIRO_CALLS(CALL){NULL, 0}};
static const struct wanted pango_calls[] = {PDF_PANGO_CALLS(CALL){NULL, 0}};
static const struct wanted pangocairo_calls[] = {PDF_PANGOCAIRO_CALLS(CALL){NULL, 0}};
static const struct wanted pangoft_calls[] = {PDF_PANGOFT_CALLS(CALL){NULL, 0}};
static const struct wanted gobject_calls[] = {PDF_GOBJECT_CALLS(CALL){NULL, 0}};
static const struct wanted fontconfig_calls[] = {PDF_FONTCONFIG_CALLS(CALL){NULL, 0}};
#undef CALL

static const struct library libraries[] = {
    {"libcairo.so.2", cairo_calls},          {"libpango-1.0.so.0", pango_calls},     {"libpangocairo-1.0.so.0", pangocairo_calls},
    {"libpangoft2-1.0.so.0", pangoft_calls}, {"libgobject-2.0.so.0", gobject_calls}, {"libfontconfig.so.1", fontconfig_calls},
};

bool pdf_find_calls(struct pdf_calls *calls, const char **reason)
{
    for (size_t i = 0; i < sizeof libraries / sizeof *libraries; i++) {
        /* Never closed: GObject cannot be unloaded.  Loading it again costs nothing. */
        void *library = dlopen(libraries[i].file, RTLD_LAZY | RTLD_LOCAL);
        for (const struct wanted *wanted = libraries[i].calls; wanted->name != NULL; wanted++) {
            void *found = library == NULL ? NULL : dlsym(library, wanted->name);
            if (found == NULL) {
                *reason = "PDF needs the libraries Pango (1.44 or later) and Cairo (1.16 or later); on Debian: apt install "
                          "libpangocairo-1.0-0 libpangoft2-1.0-0 fonts-noto-core";
                return false;
            }
            memcpy((char *)calls + wanted->offset, &found, sizeof found);
        }
    }
    return true;
}
