"""Compares molar masses with those of the periodictable library (Debian package python3-periodictable).

Reads `potash materials --as json` on standard input; prints every form whose molar mass is not that of its formula, and how many
were compared.  The library's atomic weights are older than the abridged ones of IUPAC 2021: 0.05 % lies between them at most.
"""
import json
import re
import sys

import periodictable


def reference(formula):
    """g/mol of a formula such as KAl(SO4)2.12H2O or K2CO3.1.5H2O: the salt and its water."""
    salt, count, water = re.fullmatch(r"([^.]+)(?:\.(\d+(?:\.\d+)?)?([A-Z].*))?", formula).groups()
    mass = periodictable.formula(salt).mass
    if water:
        mass += float(count or 1) * periodictable.formula(water).mass
    return mass


compared = 0
different = 0
for material in json.load(sys.stdin)["materials"]:
    for form in material["forms"]:
        formula = form["formula"]
        if not formula or form["molar_mass"] is None:
            continue
        compared += 1
        wanted = reference(formula)
        if abs(form["molar_mass"] - wanted) > 5e-4 * wanted:
            different += 1
            print(f"{material['material']} ({form['form']}) {formula}: {form['molar_mass']} instead of {wanted}")
print(f"{compared} compared, {different} different")
sys.exit(1 if different or compared < 250 else 0)
