#!/usr/bin/env python3
"""The words of the notation in the editor files are those of the grammar.

    words.py [--accept]

Reads the tokens of grammar/notation.y, what the lexer in grammar/notation.re makes of them within a line, and the words that lines begin with
in src/syntax/keywords.c; makes of them what stands in each editor file, and says which file has it otherwise.  --accept writes them anew.
The exit status is 1 where one differs."""
import json
import re
import sys

accept = "--accept" in sys.argv
faults = []


def read(path):
    return open(path, encoding="utf-8").read()


# ---- the words ----
def tokens():
    """What messages call each token that is a word: by its name in the grammar."""
    found = {}
    for line in re.findall(r"^%token (.*)$", read("grammar/notation.y"), re.M):
        for name, alias in re.findall(r'\b([A-Z_]+)(?: 0)?\s+"([^"]+)"', line):
            if re.match(r"[a-z]", alias) and not re.match(r"(a|an|the) ", alias):
                found[name] = alias
    return found


def line_words():
    """The words that begin a heading, and those that begin another line."""
    headings, statements = set(), set()
    for words, flags in re.findall(r'\{"([^"]+)",\s*T_\w+,\s*([^"]*?),\s*"', read("src/syntax/keywords.c")):
        (headings if "KEYWORD_OPENS" in flags else statements).add(words)
    return headings, statements


def inner_words(names):
    """Those that the lexer knows further on in a line."""
    found = set(re.findall(r"lexing_token\(builder, T_([A-Z_]+),", read("grammar/notation.re")))
    return {names[name] for name in found if name in names} | {"stock"}


names = tokens()
headings, statements = line_words()
inner = inner_words(names)
for word in sorted(set(names.values()) - headings - statements - inner):
    faults.append(f"the word \"{word}\" of the grammar begins no line and stands in none")


def ordered(words):
    """The longer first, so that `use for` is not taken for `use`."""
    return sorted(words, key=lambda word: (-len(word), word))


# ---- what they look like in each file ----
def pattern(words, blanks, quote=lambda word: word):
    return "|".join(quote(word).replace(" ", blanks) for word in ordered(words))


def vim():
    lines = []
    for group, words, before in (("Heading", headings, r"^\s*\zs"), ("Statement", statements, r"^\s*\zs"), ("Word", inner, "")):
        alternatives = r"\|".join(word.replace(" ", r"\s\+").replace("'", r"\%x27") for word in ordered(words))
        lines.append(f"syntax match bath{group} '\\c{before}\\<\\%({alternatives})\\>'".replace("|)", "|").replace(")\\>", "\\)\\>"))
    order = {"Word": 0, "Statement": 1, "Heading": 2}  # of two at one place the later wins
    return sorted(lines, key=lambda line: order[re.search("bath([A-Z][a-z]+)", line).group(1)])


def emacs():
    def row(name, words):
        listed = " ".join('"' + word + '"' for word in ordered(words))
        return f"(defconst bath-{name}\n  '({listed}))"
    return [row("headings", headings), row("statements", statements), row("words", inner)]


def kakoune():
    rows = [("(?i)\\b(" + pattern(inner, r"\h+") + ")\\b", "operator"), ("(?i)^\\h*(" + pattern(statements, r"\h+") + ")\\b", "attribute"),
            ("(?i)^\\h*(" + pattern(headings, r"\h+") + ")\\b", "keyword")]
    return ["add-highlighter shared/bath/code/ regex %{" + regex + "} " + ("0:" if face == "operator" else "1:") + face for regex, face in rows]


def between(path, comment, lines):
    """The lines between `COMMENT words of the notation` and `COMMENT end of the words`."""
    text = read(path)
    found = re.search(rf"({re.escape(comment)} words of the notation.*?\n)(.*?)({re.escape(comment)} end of the words)", text, re.S)
    if not found:
        faults.append(f"{path}: the place for the words is not marked")
        return
    wanted = "\n".join(lines) + "\n"
    if found.group(2) == wanted:
        return
    if accept:
        open(path, "w", encoding="utf-8").write(text[:found.start(2)] + wanted + text[found.end(2):])
    else:
        have = set(re.findall(r"[a-z']+", found.group(2).replace("\\s\\+", " ").replace("\\h+", " ")))
        lacking = [word for word in ordered(headings | statements | inner) if not set(word.split()) <= have]
        faults.append(f"{path}: the words are not those of the grammar; it lacks {', '.join(lacking) or 'none, but has others'}")


def textmate(path):
    grammar = json.loads(read(path))
    for name, words, before in (("heading", headings, "^\\s*"), ("statement", statements, "^\\s*"), ("word", inner, "(?<![\\w-])")):
        grammar["repository"][name]["match"] = f"(?i){before}({pattern(words, chr(92) + 's+')})(?![\\w-])"
    wanted = json.dumps(grammar, indent=2, ensure_ascii=False) + "\n"
    if wanted == read(path):
        return
    if accept:
        open(path, "w", encoding="utf-8").write(wanted)
    else:
        faults.append(f"{path}: the words are not those of the grammar")


between("docs/editors/vim/syntax/bath.vim", '"', vim())
between("docs/editors/emacs/bath-mode.el", ";;", emacs())
between("docs/editors/kakoune/bath.kak", "#", kakoune())
textmate("docs/editors/vscode/syntaxes/bath.tmLanguage.json")
print("\n".join(faults), end="\n" if faults else "")
sys.exit(bool(faults))
