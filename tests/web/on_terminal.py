#!/usr/bin/env python3
"""Runs both programs on a pseudo-terminal of 70 columns: what they write there has to be the same, and not be what a pipe gets."""
import fcntl, os, pty, struct, subprocess, sys, tempfile, termios

programs = sys.argv[1:3]


def on_terminal(program, words, environment):
    leader, follower = pty.openpty()
    fcntl.ioctl(follower, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 70, 0, 0))

    def own():  # the pseudo-terminal is the one that /dev/tty stands for
        os.setsid()
        fcntl.ioctl(0, termios.TIOCSCTTY, 0)

    kept = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS", "TERM")}
    run = subprocess.Popen([program, *words], stdin=follower, stdout=follower, stderr=follower, preexec_fn=own, env={**kept, "TERM": "xterm", **environment})
    os.close(follower)
    said = b""
    while True:
        try:
            piece = os.read(leader, 65536)
        except OSError:
            break
        if not piece:
            break
        said += piece
    run.wait()
    os.close(leader)
    return said


failed = 0
with tempfile.TemporaryDirectory() as folder:
    many = os.path.join(folder, "many.bath")
    with open(many, "w", encoding="utf-8") as file:
        file.write('formula "Many"\n    water 500 mL\n' + "    metol 1,5 g\n" * 30 + "    water to make 1 L\n")
    hidden = os.path.join(folder, "hidden.bath")
    with open(hidden, "w", encoding="utf-8") as file:
        file.write('formula "A \u202e B"\n    water 500 mL\n    water to make 1 L\n')
    for words, environment, mark in (
        (["check", many], {}, b"\x1b["),
        (["check", many], {"NO_COLOR": "1"}, b"10 more"),
        (["tidy", hidden], {}, b"hidden-sign"),
        (["check", "--help"], {}, b"Options"),
    ):
        native, other = (on_terminal(program, words, environment) for program in programs)
        if mark not in native or native != other:
            print(words, environment, native, other, sep="\n")
            failed = 1
sys.exit(failed)
