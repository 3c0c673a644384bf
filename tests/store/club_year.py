"""A year of a club: 2,000 batches, 60 jars, three people in two copies of the diary that git merges.

club_year.py POTASH FOLDER SEED writes the files, has git merge the diaries, and holds what the program says is left against sums of its
own.  Nothing of the program is used for these: they know the lines that were written here, and the calendar of Python.
"""

import calendar
import datetime
import json
import os
import random
import subprocess
import sys

POTASH, FOLDER, SEED = sys.argv[1], sys.argv[2], int(sys.argv[3])
BATCHES, STOCK_ML, STOCK_MONTHS = 2000, 2500, 2
FIRST, LAST = datetime.date(2026, 1, 1), datetime.date(2026, 12, 31)

MATERIALS = ["sodium sulfite (anhydrous)", "sodium carbonate (anhydrous)", "potassium bromide", "hydroquinone", "metol", "boric acid (crystals)",
             "borax (decahydrate)", "sodium chloride", "sodium metabisulfite", "potassium metabisulfite", "citric acid (anhydrous)", "phenidone"]
FORMULAS = {
    "Reed developer": {"metol": 2, "sodium sulfite (anhydrous)": 60, "hydroquinone": 5, "borax (decahydrate)": 3, "potassium bromide": 1},
    "Heron developer": {"sodium sulfite (anhydrous)": 40, "hydroquinone": 6, "sodium carbonate (anhydrous)": 30, "potassium bromide": 2},
    "Tide stop": {"citric acid (anhydrous)": 15, "sodium metabisulfite": 5},
    "Slack water bath": {"sodium chloride": 20, "potassium metabisulfite": 8, "boric acid (crystals)": 4},
}
FROM_STOCK = {"Heron developer": 15.0}  # mL of phenidone 1 % stock in a litre: 0.15 g
STOCK = "phenidone 1 % stock"
PEOPLE = [("R. K.", "RK", 0), ("A. B.", "AB", 0), ("Mia Tern", "MT", 1)]  # the last in a copy of her own


def later(day, months):
    """So many calendar months later; the month's last day where it has no such day."""
    month = day.month - 1 + months
    year, month = day.year + month // 12, month % 12 + 1
    return datetime.date(year, month, min(day.day, calendar.monthrange(year, month)[1]))


def letters(number):
    """1 is a, 26 z, 27 aa."""
    text = ""
    while number > 0:
        number -= 1
        text = chr(ord("a") + number % 26) + text
        number //= 26
    return text


class Club:
    def __init__(self, seed):
        self.random = random.Random(seed)
        self.jars = {}      # lot -> material, left, day of the count
        self.bottles = {}   # id -> day, left, last day, day of discarding
        self.batches = []   # in the order of mixing
        self.names = {}     # copy, day -> how many batches
        self.took = []      # lot, grams, day
        self.unwritten = 0  # g of boric acid that nobody wrote down

    def make_jars(self):
        for number in range(60):
            material = MATERIALS[number % len(MATERIALS)]
            counted = FIRST
            if material != "boric acid (crystals)" and self.random.random() < 0.3:  # it came, or was weighed, during the year
                counted = FIRST + datetime.timedelta(days=self.random.randrange(1, 300))
            self.jars[f"L-{number:02d}"] = (material, round(self.random.uniform(20000, 60000), 2), counted)

    def name(self, person, day):
        key = (person[2], day)
        self.names[key] = self.names.get(key, 0) + 1
        return f"{day} {letters(self.names[key])} {person[1]}"

    def weigh(self, lines, material, grams, day):
        lot = self.random.choice([lot for lot, jar in self.jars.items() if jar[0] == material])
        grams = round(grams * self.random.uniform(0.98, 1.02), 2)
        lines.append(f"took {material} {grams:.2f} g of lot \"{lot}\"")
        self.took.append((lot, grams, day))

    def mix_stock(self, day):
        person = self.random.choice(PEOPLE)
        name = self.name(person, day)
        lines = [f"mixed {day} by \"{person[0]}\"", f"made {STOCK_ML} mL"]
        self.weigh(lines, "phenidone", STOCK_ML / 100, day)
        discarded = None
        if self.random.random() < 0.3:
            discarded = day + datetime.timedelta(days=self.random.randrange(20, 70))
            lines.append(f"discarded {discarded}")
        self.bottles[name] = [day, float(STOCK_ML), later(day, STOCK_MONTHS), discarded]
        self.batches.append((day, person, name, STOCK, lines))

    def ready(self, day, volume):
        """The bottles that could give so much on a day."""
        return [name for name, (mixed, left, last, discarded) in self.bottles.items()
                if mixed <= day <= last and left >= volume and (discarded is None or discarded > day)]

    def mix(self, day):
        person = self.random.choice(PEOPLE)
        title = self.random.choice(list(FORMULAS))
        litres = self.random.choice([0.5, 1, 2, 5])
        name = self.name(person, day)
        lines = [f"mixed {day} by \"{person[0]}\"", f"made {litres} L"]
        for material, grams in FORMULAS[title].items():
            if material == "boric acid (crystals)" and self.random.random() < 0.2:
                self.unwritten += grams * litres
            else:
                self.weigh(lines, material, grams * litres, day)
        if title in FROM_STOCK:
            volume = FROM_STOCK[title] * litres
            ready = self.ready(day, volume)
            if ready:
                bottle = self.random.choice(ready)
                lines.append(f"took phenidone {volume:g} mL of batch \"{bottle}\"")
                self.bottles[bottle][1] -= volume
            else:
                self.weigh(lines, "phenidone", volume / 100, day)
        self.batches.append((day, person, name, title, lines))

    def live(self):
        self.make_jars()
        day, stock_day = FIRST, FIRST
        days = (LAST - FIRST).days + 1
        while day <= LAST:
            if day >= stock_day:
                self.mix_stock(day)
                stock_day = later(day, 1)
            wanted = BATCHES * ((day - FIRST).days + 1) // days
            while len(self.batches) < wanted:
                self.mix(day)
            day += datetime.timedelta(days=1)

    # ---- files ----

    def write(self):
        with open("formulary.bath", "w") as out:
            out.write(f"stock phenidone 1 %\n    in isopropyl alcohol\n    keeps {STOCK_MONTHS} months in dark bottle\n")
            for title, materials in FORMULAS.items():
                out.write(f"\nformula \"{title}\"\n    kind other\n    water 700 mL\n")
                out.writelines(f"    {material} {grams} g\n" for material, grams in materials.items())
                if title in FROM_STOCK:
                    out.write(f"    phenidone {FROM_STOCK[title] / 100:g} g from 1 % stock\n")
                out.write("    water to make 1 L\n")
        with open("shelf.bath", "w") as out:
            out.write(f"shelf \"Club\"\n    counted {FIRST - datetime.timedelta(days=1)}\n")
            for lot, (material, left, counted) in self.jars.items():
                out.write(f"    holds {material} 60 kg left {left:.2f} g counted {counted - datetime.timedelta(days=1)} lot \"{lot}\"\n")

    def text(self, copy, half):
        """The batches of one copy, or of both together, in the first or the second half of the year."""
        middle = datetime.date(2026, 7, 1)
        parts = []
        for day, person, name, title, lines in self.batches:
            if (day >= middle) == (half == 1) and copy in (None, person[2]):
                parts.append(f"\nbatch \"{name}\" of \"{title}\"\n" + "".join(f"    {line}\n" for line in lines))
        return "".join(parts)

    def merge(self):
        """Half a year together, half a year apart; then both versions of what git cannot merge are kept."""
        def git(*words, good=(0,)):
            done = subprocess.run(["git", "-c", "user.name=Club", "-c", "user.email=club@example.org", *words], stdout=subprocess.PIPE,
                                  stderr=subprocess.STDOUT, check=False)
            assert done.returncode in good, done.stdout
        git("init", "-q", "-b", "one", ".")
        with open("diary.bath", "w") as out:
            out.write("read \"formulary.bath\"\n" + self.text(None, 0))
        git("add", "diary.bath")
        git("commit", "-q", "-m", "June")
        git("branch", "two")
        for copy, branch in ((0, "one"), (1, "two")):
            git("checkout", "-q", branch)
            with open("diary.bath", "a") as out:
                out.write(self.text(copy, 1))
            git("commit", "-q", "-a", "-m", "December")
        git("checkout", "-q", "one")
        git("merge", "-q", "two", good=(0, 1))
        check = potash("check", "diary.bath", good=(1,))
        assert check.stderr.count("error:") == 1 and "[merge-conflict]" in check.stderr, check.stderr
        with open("diary.bath") as diary:
            lines = [line for line in diary if not line.startswith(("<<<<<<<", "=======", ">>>>>>>"))]
        with open("diary.bath", "w") as out:
            out.writelines(lines)

    # ---- sums ----

    def hold_against(self, shelf):
        left = {pack["lot"]: pack["amount"] for pack in shelf["left"]}
        assert len(left) == 60
        boric, boric_left = 0.0, 0.0
        for lot, (material, written, counted) in self.jars.items():
            rest = written - sum(grams for of, grams, day in self.took if of == lot and day >= counted)
            if material == "boric acid (crystals)":
                boric += rest
                boric_left += left[lot]
            else:
                assert abs(left[lot] - rest) < 0.01, (lot, left[lot], rest)
        assert abs(boric_left - (boric - self.unwritten)) < 0.01, (boric_left, boric, self.unwritten)
        assert self.unwritten > 0
        bottles = {batch["batch"]: batch for batch in shelf["batches"]}
        assert len(bottles) == len(self.batches) == BATCHES
        for name, (_, rest, last, _) in self.bottles.items():
            assert abs(bottles[name]["left_mL"] - rest) < 0.01, (name, bottles[name]["left_mL"], rest)
            assert bottles[name]["keeps_until"] == str(last), (name, bottles[name])

    def offers(self):
        """What a record names is a bottle that could give so much that day; where there is one, one is named."""
        named = 0
        for month in range(1, 13):
            for litres in (1, 100):
                day = datetime.date(2026, 12, 1) + datetime.timedelta(days=2 * month) if month > 6 else later(LAST, month - 1)
                volume = FROM_STOCK["Heron developer"] * litres
                done = potash("sheet", "diary.bath", "formulary.bath", "--title", "Heron developer", "--make", f"{litres} L", "--record", "--date",
                              str(day))
                lines = [line for line in done.stdout.splitlines() if " of batch " in line]
                ready = self.ready(day, volume)
                assert (len(lines) == 1) == bool(ready), (day, litres, lines, ready)
                if lines:
                    assert lines[0].split("\"")[1] in ready, (lines, ready)
                    assert f"{volume:g} mL" in lines[0], lines
                    named += 1
        return named


def potash(*words, good=(0,)):
    done = subprocess.run([POTASH, *words], capture_output=True, text=True, check=False)
    assert done.returncode in good, (words, done.returncode, done.stderr[-2000:])
    return done


def main():
    os.chdir(FOLDER)
    club = Club(SEED)
    club.live()
    club.write()
    club.merge()
    check = potash("check", "diary.bath", "shelf.bath")
    assert "error" not in check.stderr, check.stderr
    shelf = json.loads(potash("shelf", "diary.bath", "shelf.bath", "--as", "json", "--date", "2026-12-31").stdout)
    club.hold_against(shelf)
    print(f"seed {SEED}: {len(club.batches)} batches, {len(club.took)} weighings, {len(club.bottles)} bottles of stock; {club.offers()} bottles offered")


main()
