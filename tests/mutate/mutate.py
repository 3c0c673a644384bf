#!/usr/bin/env python3
"""Mutation testing: spoils one token of the source at a time and asks whether a test notices.

Called by `make mutate` with a folder that holds a build of the program and its tests against the shared library.  Each mutant
is one changed number, comparison, or operator of arithmetic or logic; the file is compiled by itself, the library is linked again,
and the test programs run until one fails.  Prints the mutants that no test noticed, and counts.

The choice is made by a seed, so that two runs on one state of the source try the same mutants.  A mutant that does not compile,
or that changes no machine code, does not count: another one takes its place.
"""
import argparse
import os
import random
import re
import shlex
import shutil
import subprocess
import sys
import time

ROOMS = ["src/formula", "src/batch", "src/chemistry", "src/practice", "src/store"]

# The longest programs are left out: they would notice little and cost most of the time.
LEFT_OUT = re.compile(r"/(fuzz|pdf|browser|portable)/|test_bad_input|test_memory|test_schemas|test_readme")

SKIPPED = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\])*"|\'(?:\\.|[^\'\\])*\'|^[ \t]*#[ \t]*include[^\n]*', re.S | re.M)
TOKEN = re.compile(
    r"(?<![\w.])(?P<number>\d+\.\d+(?:e[+-]?\d+)?|\d+(?:e[+-]?\d+)|\d+)(?![\w.])"
    r"|(?<= )(?P<operator><=|>=|==|!=|&&|\|\||[<>+\-*/])(?= )"
)
SWAPS = {"<": ["<=", ">"], "<=": ["<", ">"], ">": [">=", "<"], ">=": [">", "<"], "==": ["!="], "!=": ["=="],
         "&&": ["||"], "||": ["&&"], "+": ["-"], "-": ["+"], "*": ["/"], "/": ["*"]}


class Mutant:
    def __init__(self, path, begin, end, old, new, line):
        self.path, self.begin, self.end, self.old, self.new, self.line = path, begin, end, old, new, line

    def __str__(self):
        return f"{self.path}:{self.line}: {self.old} -> {self.new}"


def spoilt_number(token, choose):
    """The number a little or much off; a threshold that is tested on both sides notices either."""
    value = float(token)
    if value == 0:
        return "1"
    if re.fullmatch(r"\d+", token):
        return str(int(value) + choose.choice([1, -1]) if value < 5 else int(value * choose.choice([0.6, 1.6])))
    return repr(value * choose.choice([0.5, 0.6, 1.6, 2.5]))


def candidates(path):
    text = open(path, encoding="utf-8").read()
    blank = SKIPPED.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), text)
    for match in TOKEN.finditer(blank):
        line_begin = blank.rfind("\n", 0, match.start()) + 1
        # "const struct x *y" has no blanks on both sides of its sign; an array's size is no threshold.
        if match.group("number") and blank[match.start() - 1] == "[":
            continue
        yield text, match, text.count("\n", 0, line_begin) + 1


def all_mutants(rooms, choose):
    found = []
    for room in rooms:
        if not os.path.isdir(room):
            continue
        for folder, _, names in sorted(os.walk(room)):
            for name in sorted(names):
                if not name.endswith(".c"):
                    continue
                path = os.path.join(folder, name)
                for _, match, line in candidates(path):
                    old = match.group()
                    new = choose.choice(SWAPS[old]) if match.group("operator") else spoilt_number(old, choose)
                    found.append(Mutant(path, match.start(), match.end(), old, new, line))
    choose.shuffle(found)
    return found


class Build:
    """The folder of a build: compiles one file anew and links a library of its own, which programs find first; the built one is never changed."""

    def __init__(self, folder, compiler):
        self.folder = folder
        self.compiler = compiler
        self.objects = open(os.path.join(folder, "objects")).read().split()
        self.spoilt = os.path.join(folder, "spoilt")
        os.makedirs(self.spoilt, exist_ok=True)

    def object_of(self, path):
        return os.path.join(self.folder, "obj", path[:-2] + ".o")

    def compile(self, path, text, output):
        command = shlex.split(self.compiler) + ["-x", "c", "-iquote", os.path.dirname(path), "-c", "-o", output, "-"]
        done = subprocess.run(command, input=text.encode(), capture_output=True)
        return done.returncode == 0

    def link_with(self, path, replacement):
        library = os.path.join(self.spoilt, "libpotash.so")
        changed = [replacement if name == self.object_of(path) else name for name in self.objects]
        subprocess.run(shlex.split(self.compiler.split(" -std")[0]) + ["-shared", "-Wl,-soname,libpotash.so", "-o", library] + changed +
                       shlex.split(open(os.path.join(self.folder, "libraries")).read()), check=True, capture_output=True)


def code_of(object_path):
    """The machine code and constants of an object, to see whether a mutant changed anything."""
    return subprocess.run(["objdump", "-d", "-s", "-j", ".text", "-j", ".rodata", "-j", ".text.unlikely", "--no-show-raw-insn",
                           object_path], capture_output=True).stdout.split(b"\n", 3)[-1]


def noticed(tests, environment, limit):
    for index, test in enumerate(tests):
        try:
            done = subprocess.run([test], capture_output=True, env=environment, timeout=limit)
            failed = done.returncode != 0
        except subprocess.TimeoutExpired:
            failed = True
        if failed:
            # What has noticed one mutant will often notice the next of its room.
            tests.insert(0, tests.pop(index))
            return test
    return None


def main():
    reader = argparse.ArgumentParser()
    reader.add_argument("folder", help="of the build; holds libpotash.so, potash and tests/")
    reader.add_argument("--compiler", required=True, help="command that compiles one file")
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--count", type=int, default=100)
    reader.add_argument("--most", type=int, default=10, help="survivors that are allowed")
    reader.add_argument("--room", action="append", help="only this folder (may repeat)")
    call = reader.parse_args()

    choose = random.Random(call.seed)
    build = Build(call.folder, call.compiler)
    environment = dict(os.environ, POTASH=os.path.join(call.folder, "potash"), LD_LIBRARY_PATH=os.path.abspath(build.spoilt))
    shutil.copy2(os.path.join(call.folder, "libpotash.so"), build.spoilt)
    mutants = all_mutants(call.room or ROOMS, choose)
    outside = [mutant.path for mutant in mutants if build.object_of(mutant.path) not in build.objects]
    if outside:
        print(f"{outside[0]} is not part of the library, so no test would run its mutants")
        return 2
    tests = []
    for folder, _, names in sorted(os.walk(os.path.join(call.folder, "tests"))):
        tests += [os.path.join(folder, name) for name in sorted(names) if re.fullmatch(r"test_\w+", name)]
    tests = [test for test in tests if not LEFT_OUT.search(test)]
    seconds = {}
    for test in tests:
        begun = time.monotonic()
        if subprocess.run([test], capture_output=True, env=environment).returncode != 0:
            print(f"{test} fails without any mutant")
            return 2
        seconds[test] = time.monotonic() - begun
    tests.sort(key=seconds.get)
    limit = 20 + 20 * max(seconds.values())

    survivors, tried = [], 0
    for mutant in mutants:
        if tried == call.count:
            break
        text = open(mutant.path, encoding="utf-8").read()
        spoilt = text[:mutant.begin] + mutant.new + text[mutant.end:]
        temporary = os.path.join(call.folder, "mutant.o")
        same = os.path.join(call.folder, "unchanged.o")
        if not build.compile(mutant.path, spoilt, temporary) or not build.compile(mutant.path, text, same):
            continue
        if code_of(temporary) == code_of(same):
            continue
        tried += 1
        build.link_with(mutant.path, temporary)
        test = noticed(tests, environment, limit)
        if test is None:
            survivors.append(mutant)
            print(f"SURVIVED {mutant}", flush=True)
        elif os.environ.get("V"):
            print(f"noticed  {mutant}  by {os.path.basename(test)}", flush=True)
    print(f"{tried - len(survivors)} of {tried} mutants noticed, {len(survivors)} survived (at most {call.most})")
    return 0 if len(survivors) <= call.most else 1


if __name__ == "__main__":
    sys.exit(main())
