"""What tests/mutation.py breaks, and what is known of mutants that no test can notice.

    python3 tests/mutants.py        # TAP: does each entry of mutation-survivors.txt still meet its line?

An entry is a file, a function and a line of it as it stands, and below them, one a line, what is changed there and why no test tells:

    src/planning/some-file.c
      its_function: if (width < best)
        < -> <=: a tie; either is as good

Where a line holds the same sign more than once, "2nd < -> <=" means the second. "dropped" is the whole statement left out.
"""
import collections
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
SURVIVORS = ROOT / "tests" / "mutation-survivors.txt"
STATEMENT = r"^ +(?!return|break|continue|goto|else|do\b|case|default)[\w>.\[\]-]+(?: [-+*/]?= |\+\+;| \().*;$"
# What is looked for, and what it becomes. Strings, comments and preprocessor lines are blanked out beforehand.
CHANGES = [
    (r"==", ["!="]), (r"!=", ["=="]), (r"<=", ["<", ">"]), (r">=", [">", "<"]),
    (r"(?<=\s)<(?=\s)", ["<=", ">="]), (r"(?<=\s)>(?=\s)", [">=", "<="]),
    (r"(?<=[\w)\]] )\+(?= )", ["-"]), (r"(?<=[\w)\]] )-(?= )", ["+"]), (r"(?<=[\w)\]] )\*(?= )", ["/"]), (r"(?<=[\w)\]] )/(?= )", ["*"]),
    (r"&&", ["||"]), (r"\|\|", ["&&"]), (r"!(?=[\w(])", [""]), (r"\+\+", ["--"]), (r"--", ["++"]), (r"\+=", ["-="]), (r"-=", ["+="]),
    (r"\bTRUE\b", ["FALSE"]), (r"\bFALSE\b", ["TRUE"]), (r"(?<![\w.])0(?![\w.])", ["1"]), (r"(?<![\w.])1(?![\w.])", ["0"]),
    (STATEMENT, [";"]),
]
# Checks for the programmer's mistakes, and what gives memory back or takes a reference: no test could or should tell.
LEFT_ALONE = re.compile(r"g_return_|g_assert|G_DEFINE|g_free|_unref|_free \(|g_clear|g_autoptr|g_array_new|g_ptr_array_new|g_array_sized|_sized_new|g_hash_table_new")
BEGINS = re.compile(r"^(\w+) \(")

# Of one file, function, line as it stands and change there may be several: times tells them apart, for the book of verdicts alone.
Mutant = collections.namedtuple("Mutant", "path line start end new function text change times")
Entry = collections.namedtuple("Entry", "path function text change")


def blanked(text):
    """The text with comments, strings and preprocessor lines made of spaces, so that places stay where they are."""
    pattern = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\])*"|\'(?:\\.|[^\'\\])+\'|^#(?:\\\n|[^\n])*', re.DOTALL | re.MULTILINE)
    return pattern.sub(lambda found: re.sub(r"[^\n]", " ", found.group()), text)


def counted(n):
    return "" if n == 1 else f"{n}{ {2: 'nd', 3: 'rd'}.get(n, 'th')} "


def mutants(path):
    """Each change that can be made to a file, in its order."""
    offset = 0
    text = path.read_text(encoding="utf-8")
    function = "file"
    seen = collections.Counter()
    for number, (line, whole) in enumerate(zip(blanked(text).splitlines(keepends=True), text.splitlines()), 1):
        begins = BEGINS.match(line)
        if begins:
            function = begins.group(1)
        if not LEFT_ALONE.search(line):
            for pattern, becomes in CHANGES:
                for n, found in enumerate(re.finditer(pattern, line.rstrip("\n")), 1):
                    if found.group().count("(") != found.group().count(")"):
                        continue  # the end of a longer statement
                    for new in becomes:
                        change = "dropped" if pattern == STATEMENT else f"{counted(n)}{found.group()} -> {new or 'nothing'}"
                        entry = Entry(str(path.relative_to(ROOT)), function, whole.strip(), change)
                        yield Mutant(path, number, offset + found.start(), offset + found.end(), new, *entry[1:], seen[entry])
                        seen[entry] += 1
        offset += len(line)


def entry_of(mutant):
    return Entry(str(mutant.path.relative_to(ROOT)), mutant.function, mutant.text, mutant.change)


def explained(lines):
    """({entry: reason}, [what is wrong with the list])."""
    reasons, wrong = {}, []
    path = function = text = None
    for number, line in enumerate(lines, 1):
        line = line.rstrip("\n")
        if not line.strip() or line.startswith("#"):
            continue
        change = re.fullmatch(r"    (dropped|.+? -> \S+): (\S.*)", line)
        place = re.fullmatch(r"  (\w+): (\S.*)", line)
        if not line.startswith(" "):
            path, function, text = line, None, None
        elif place:
            function, text = place.groups()
        elif change and text:
            entry = Entry(path, function, text, change.group(1))
            if entry in reasons:
                wrong.append(f"line {number}: said before: {shown(entry)}")
            reasons[entry] = change.group(2)
        else:
            wrong.append(f"line {number}: neither a file nor a line of it nor a change with its reason: {line}")
    return reasons, wrong


def shown(entry):
    return f"{entry.path}: {entry.function}: {entry.change}: {entry.text}"


def main():
    with SURVIVORS.open(encoding="utf-8") as lines:
        reasons, wrong = explained(lines)
    there = set()
    for path in sorted({entry.path for entry in reasons}):
        if (ROOT / path).is_file():
            there.update(map(entry_of, mutants(ROOT / path)))
    wrong += [f"meets nothing: {shown(entry)}" for entry in reasons if entry not in there]
    for what in wrong:
        print("#", what)
    print(f"1..1\n{'not ok' if wrong or not reasons else 'ok'} 1 each of {len(reasons)} entries meets its line")
    return 1 if wrong or not reasons else 0


if __name__ == "__main__":
    sys.exit(main())
