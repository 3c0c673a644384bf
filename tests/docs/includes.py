#!/usr/bin/env python3
"""Reads who includes whom, and holds it against the table of floors in the guide.

    includes.py ROOT

Says each arrow that the table does not allow, each circle of files that leaves a folder, and each name that two files share; the exit
status is 1 then.  A folder of the sources without a row, and a row without a folder, are faults as well."""
import collections
import os
import re
import sys

SHARED = {"model", "page", "json"}  # names that each report's folder may have
PUBLIC = {"potash.h", "workspace.h"}  # what is installed: it stands above all folders

os.chdir(sys.argv[1])
faults = []

# ---- the table: folder -> folders that it may use ----
floors = {}
for line in open("DEVELOPERS.md", encoding="utf-8"):
    cells = [cell.strip() for cell in line.split("|")]
    if len(cells) == 6 and cells[1].isdigit():
        uses = {use.strip() for use in cells[3].split(",")} - {"-"}
        for folder in re.findall(r"`([^`]+)/`", cells[2]):
            floors[folder] = {use if use in PUBLIC else "src/" + use for use in uses}
if not floors:
    faults.append("DEVELOPERS.md has no table of floors")

# ---- the files ----
files = [os.path.join(folder, name) for top in ("src", "grammar") for folder, _, names in os.walk(top) for name in names
         if name.endswith((".c", ".h", ".re", ".y", ".def"))]


def room(path):
    """The longest folder of the table that holds the file."""
    folder = os.path.dirname(path)
    while folder and folder not in floors:
        folder = os.path.dirname(folder)
    return folder


def unit(path):
    """A file and its header are one."""
    return os.path.splitext(path)[0]


arrows = collections.defaultdict(set)
lines = {}
for path in sorted(files):
    if path.removeprefix("src/") in PUBLIC:
        continue
    if not room(path):
        faults.append(f"{path}: its folder stands in no row of the table")
        continue
    for number, line in enumerate(open(path, encoding="utf-8"), 1):
        found = re.match(r'\s*#\s*include\s+"([^"]+)"', line)
        other = found and os.path.join("src", found.group(1))
        if not found or not os.path.exists(other):  # what the build makes
            continue
        if other.removeprefix("src/") in PUBLIC:
            allowed = other.removeprefix("src/") in floors[room(path)]
        else:
            allowed = room(other) == room(path) or room(other) in floors[room(path)]
            arrows[unit(path)].add(unit(other))
            lines.setdefault((unit(path), unit(other)), f"{path}:{number}")
        if not allowed:
            faults.append(f"{path}:{number}: {room(path)}/ may not use {found.group(1)}")

for folder, uses in floors.items():
    faults += [f"DEVELOPERS.md: there is no folder {name}/" for name in {folder} | (uses - PUBLIC) if not os.path.isdir(name)]


# ---- circles: strongly connected files (R. Tarjan, Depth-first search and linear graph algorithms, 1972) ----
def circles():
    index, low, stack, found = {}, {}, [], []

    def visit(node):
        index[node] = low[node] = len(index)
        stack.append(node)
        for other in arrows.get(node, ()):
            if other not in index:
                visit(other)
            if other in stack:
                low[node] = min(low[node], low[other])
        if low[node] == index[node]:
            part = []
            while not part or part[-1] != node:
                part.append(stack.pop())
            found.append(part)

    for node in list(arrows):
        if node not in index:
            visit(node)
    return found


sys.setrecursionlimit(10000)
for circle in circles():
    rooms = {room(path) for path in circle}
    if len(rooms) > 1:
        faults.append("a circle: " + ", ".join(sorted(circle)))

# ---- names ----
named = collections.defaultdict(set)
for path in files:
    name = os.path.basename(unit(path))
    if not (name in SHARED and unit(path).count("/") == 3 and path.startswith("src/report/")):
        named[name].add(unit(path))
for name, paths in sorted(named.items()):
    if len(paths) > 1:
        faults.append("one name: " + ", ".join(sorted(paths)))

print("\n".join(faults), end="\n" if faults else "")
sys.exit(1 if faults else 0)
