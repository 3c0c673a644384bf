/* What Emscripten's C library does not ask its host: whether a stream is a terminal (it takes every one for one), and which permissions
 * new files have (it gives them none).  Node knows; in a browser there are neither.  Compiled for WebAssembly only. */
#include <emscripten.h>
#include <sys/stat.h>
#include <unistd.h>

EM_JS(int, host_is_terminal, (int descriptor), {
    return Module.isTerminal && Module.isTerminal(descriptor) ? 1 : 0;
})

EM_JS(int, host_umask, (int mask), {
    return Module.umask ? Module.umask(mask) : 18; // 022
})

int isatty(int descriptor)
{
    return host_is_terminal(descriptor);
}

mode_t umask(mode_t mask)
{
    return (mode_t)host_umask((int)mask);
}
