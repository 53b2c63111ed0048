"""What of each room the tests have run, by line and by branch: python3 tests/coverage.py BUILD [--missing ROOM...] [--bounds].

BUILD was set up with -Db_coverage=true and its tests have run. The figures come from gcov, which comes with gcc. Headers are not counted, so
what g_autoptr does at the end of a block is not either. Left out are the lines that match LEFT_OUT: checks for mistakes of the
programmer and the branches inside macros of GLib, which no line of this project wrote. On a line that only declares what g_autoptr or g_autofree
lets go of, the compiler counts which of the block's ends was reached; those are counted where they stand. --missing prints the lines with a branch
not taken. --bounds prints TAP and fails where a room lies under its bound.
"""
import argparse
import collections
import json
import pathlib
import re
import subprocess
import sys

ROOMS = ["geometry", "scene", "registration", "planning", "formats", "drawing", "paper", "commands", "workbench"]
# The least share of branches, in per cent, by room. The workbench is held to its bound where its window has been run.
BOUNDS = {"geometry": 95, "scene": 85, "registration": 95, "planning": 95, "formats": 95, "drawing": 85, "paper": 85, "commands": 85, "workbench": 85}
WINDOW = "src/workbench/window.c"
LEFT_OUT = re.compile(r"\b(g_return_(val_)?if_fail|g_return_(val_)?if_reached|g_assert\w*|g_warn_if\w*|G_DEFINE_\w+|G_DECLARE_\w+"
                      r"|g_clear_(pointer|object|error|signal_handler|handle_id|list|slist)|g_once_init_\w+|G_OBJECT_WARN_\w+)\b")

LET_GO = re.compile(r"^\s*g_auto(free|ptr|)\b[^?&|]*;$")


def objects(build):
    """The counters below src/: what tests themselves ran of themselves is no figure of interest. Counts of a source that was built anew since are dropped."""
    notes = sorted((build / "src").rglob("*.gcno"))
    for note in notes:
        counts = note.with_suffix(".gcda")
        if counts.exists() and counts.stat().st_mtime < note.stat().st_mtime:
            counts.unlink()
    return notes


def read(build, root):
    """{source: {line: (runs, [times each branch was taken])}}, the objects of one source put together."""
    sources = collections.defaultdict(dict)
    notes = objects(build)
    for first in range(0, len(notes), 40):
        told = subprocess.run(["gcov", "--json-format", "--stdout", "--branch-probabilities", *map(str, notes[first:first + 40])],
                              cwd=build, capture_output=True, text=True, check=True).stdout
        for report in map(json.loads, told.splitlines()):
            for file in report["files"]:
                path = (pathlib.Path(report["current_working_directory"]) / file["file"]).resolve()
                if path.suffix == ".c" and root / "src" in path.parents:
                    add(sources[path], file["lines"])
    return sources


def add(lines, more):
    for line in more:
        runs, branches = lines.get(line["line_number"], (0, []))
        taken = [branch["count"] for branch in line["branches"]]
        if len(branches) == len(taken):
            taken = [a + b for a, b in zip(branches, taken)]
        else:
            taken = branches + taken  # the same line in two functions, as with a macro
        lines[line["line_number"]] = (runs + line["count"], taken)


def counted(path, lines):
    text = path.read_text(encoding="utf-8").splitlines()
    for number, (runs, branches) in sorted(lines.items()):
        if number <= len(text) and not LEFT_OUT.search(text[number - 1]):
            yield number, text[number - 1], runs, [] if LET_GO.match(text[number - 1]) else branches


def share(part, whole):
    return 100 * part / whole if whole else 100.0


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build", type=pathlib.Path)
    parser.add_argument("--missing", nargs="*", default=[])
    parser.add_argument("--bounds", action="store_true")
    given = parser.parse_args()
    root = pathlib.Path(__file__).resolve().parent.parent
    sums = {room: [0, 0, 0, 0] for room in ROOMS}
    bounds = {room: bound for room, bound in BOUNDS.items() if room != "workbench"}
    for path, lines in sorted(read(given.build.resolve(), root).items()):
        room = path.relative_to(root / "src").parts[0]
        if room not in sums:
            continue  # main.c and places.c
        if path == root / WINDOW and any(runs for runs, _ in lines.values()):
            bounds["workbench"] = BOUNDS["workbench"]
        for number, text, runs, branches in counted(path, lines):
            taken = sum(count > 0 for count in branches)
            sums[room] = [a + b for a, b in zip(sums[room], (runs > 0, 1, taken, len(branches)))]
            if room in given.missing and (not runs or taken < len(branches)):
                print(f"{path.relative_to(root)}:{number}: {taken} of {len(branches)}, run {runs} times: {text.strip()}")
    mark = "# " if given.bounds else ""
    print(f"{mark}{'room':14}{'lines':>8}{'run':>10}{'branches':>10}{'taken':>10}")
    for room, (ran, lines, taken, branches) in sums.items():
        print(f"{mark}{room:14}{lines:8}{share(ran, lines):8.1f} %{branches:10}{share(taken, branches):8.1f} %")
    failed = 0
    if given.bounds:
        print(f"1..{len(bounds)}")
        for number, (room, bound) in enumerate(bounds.items(), 1):
            _, _, taken, branches = sums[room]
            low = not branches or share(taken, branches) < bound
            failed += low
            print(f"{'not ok' if low else 'ok'} {number} - {room}: {share(taken, branches):.1f} % of branches, at least {bound} %")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
