// The program under Node: its environment and its terminal are those of the process.  Emscripten puts this before what it makes.
Module.isTerminal = (descriptor) => require("tty").isatty(descriptor);
Module.umask = (mask) => process.umask(mask);
Module.preRun = () => {
    Object.assign(ENV, process.env);
    if (ENV.COLUMNS || !Module.isTerminal(1)) return;
    try {
        // Asked of a descriptor of its own: Node makes the one that it looks at give up where writing would have to wait.
        const terminal = new (require("tty").WriteStream)(require("fs").openSync("/dev/tty", "r+"));
        ENV.COLUMNS = String(terminal.columns);
        terminal.destroy();
    } catch {
        // The usual width.
    }
};
