/* Square codes by libqrencode, which is looked for when a code is asked for, or linked (QRENCODE_LINKED). */
#include "page/square_code.h"

#include "base/shown.h"

#include <qrencode.h>

struct calls {
    __typeof__(&QRcode_encodeData) encode;
    __typeof__(&QRcode_free) release;
};

#ifdef QRENCODE_LINKED

static bool find_calls(struct calls *calls)
{
    *calls = (struct calls){QRcode_encodeData, QRcode_free};
    return true;
}

#else

#include <dlfcn.h>

static bool find_calls(struct calls *calls)
{
    void *library = dlopen("libqrencode.so.4", RTLD_LAZY | RTLD_LOCAL);
    void *encode = library == NULL ? NULL : dlsym(library, "QRcode_encodeData");
    void *release = library == NULL ? NULL : dlsym(library, "QRcode_free");
    memcpy(&calls->encode, &encode, sizeof encode);
    memcpy(&calls->release, &release, sizeof release);
    return encode != NULL && release != NULL;
}

#endif

const struct square_code *square_code_make(struct arena *arena, struct text content)
{
    struct calls calls;
    content = shown_line(arena, content);
    if (content.length == 0 || content.length > 2000 || !find_calls(&calls)) {
        return NULL;
    }
    /* Memory first: nothing of the library's may be held across an allocation that can fail.  Version 40 has 177 modules. */
    struct square_code *code = ARENA_NEW(arena, struct square_code);
    unsigned char *dark = ARENA_ARRAY(arena, unsigned char, 177 * 177);
    QRcode *made = calls.encode((int)content.length, (const unsigned char *)content.at, 0, QR_ECLEVEL_M);
    if (made == NULL) {
        return NULL;
    }
    code->width = (size_t)made->width;
    code->dark = dark;
    for (size_t i = 0; i < code->width * code->width; i++) {
        dark[i] = made->data[i] & 1;
    }
    calls.release(made);
    return code;
}
