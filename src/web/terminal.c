/* Whether a stream is a terminal, in place of the C library's own answer, which takes every stream for one under Emscripten: Node knows,
 * and in a browser there is none.  Compiled for WebAssembly only. */
#include <emscripten.h>
#include <unistd.h>

EM_JS(int, web_is_terminal, (int descriptor), {
    return Module.isTerminal && Module.isTerminal(descriptor) ? 1 : 0;
})

int isatty(int descriptor)
{
    return web_is_terminal(descriptor);
}
