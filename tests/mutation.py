"""Breaks one operator of a room at a time and sees whether its tests notice.

    python3 tests/mutation.py BUILD planning registration --sample 200 --seed 7 --jobs 2

BUILD was set up with -Db_coverage=true and holds the built tests. The source tree is never touched: a broken copy is compiled
elsewhere and linked before the library. A mutant is given to the tests that run its line, quickest first, until one fails; one
that runs far longer than the test did is killed too. What survives is printed with its line, and so is what no test runs: a test is missing, or no test could
tell the two apart.
"""
import argparse
import collections
import concurrent.futures
import json
import math
import os
import pathlib
import random
import re
import shlex
import shutil
import subprocess
import tempfile
import threading
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
SEED = ["--seed", "R02S00c0ffee00face0000beef0001000001"]
# What is looked for, and what it becomes. Strings, comments and preprocessor lines are blanked out beforehand.
CHANGES = [
    (r"==", ["!="]), (r"!=", ["=="]), (r"<=", ["<", ">"]), (r">=", [">", "<"]),
    (r"(?<=\s)<(?=\s)", ["<=", ">="]), (r"(?<=\s)>(?=\s)", [">=", "<="]),
    (r"(?<=[\w)\]] )\+(?= )", ["-"]), (r"(?<=[\w)\]] )-(?= )", ["+"]), (r"(?<=[\w)\]] )\*(?= )", ["/"]), (r"(?<=[\w)\]] )/(?= )", ["*"]),
    (r"&&", ["||"]), (r"\|\|", ["&&"]), (r"!(?=[\w(])", [""]), (r"\+\+", ["--"]), (r"--", ["++"]), (r"\+=", ["-="]), (r"-=", ["+="]),
    (r"\bTRUE\b", ["FALSE"]), (r"\bFALSE\b", ["TRUE"]), (r"(?<![\w.])0(?![\w.])", ["1"]), (r"(?<![\w.])1(?![\w.])", ["0"]),
    (r"^ +(?!return|break|continue|goto|else|do\b|case|default)[\w>.\[\]-]+(?: [-+*/]?= |\+\+;| \().*;$", [";"]),
]
# Checks for the programmer's mistakes, and what gives memory back or takes a reference: no test could or should tell.
LEFT_ALONE = re.compile(r"g_return_|g_assert|G_DEFINE|g_free|_unref|_free \(|g_clear|g_autoptr|g_array_new|g_ptr_array_new|g_array_sized|_sized_new|g_hash_table_new")

Mutant = collections.namedtuple("Mutant", "path line start end new")


def blanked(text):
    """The text with comments, strings and preprocessor lines made of spaces, so that places stay where they are."""
    pattern = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:\\.|[^"\\])*"|\'(?:\\.|[^\'\\])+\'|^#[^\n]*', re.DOTALL | re.MULTILINE)
    return pattern.sub(lambda found: re.sub(r"[^\n]", " ", found.group()), text)


def mutants(path):
    offset = 0
    text = path.read_text(encoding="utf-8")
    for number, line in enumerate(blanked(text).splitlines(keepends=True), 1):
        if not LEFT_ALONE.search(line):
            for pattern, becomes in CHANGES:
                for found in re.finditer(pattern, line.rstrip("\n")):
                    if found.group().count("(") != found.group().count(")"):
                        continue  # the end of a longer statement
                    for new in becomes:
                        yield Mutant(path, number, offset + found.start(), offset + found.end(), new)
        offset += len(line)


class House:
    """How the build folder compiles a source and links a test."""

    def __init__(self, build, rooms):
        self.build = build
        self.compile = {}
        for one in json.loads((build / "compile_commands.json").read_text()):
            path = (build / one["file"]).resolve()
            if path.parent.name in rooms and path.parent.parent == ROOT / "src":
                self.compile[path] = (shlex.split(one["command"]), build / one["output"])
        names = sorted(path.name for room in [*rooms, "outside"] for path in (build / "tests").glob(f"test-{room}-*") if path.is_file())
        self.link = {name: self.link_command(name) for name in names}

    def link_command(self, name):
        told = subprocess.run(["ninja", "-C", self.build, "-t", "commands", "-s", f"tests/{name}"], capture_output=True, text=True, check=True).stdout
        return shlex.split(told.strip().splitlines()[-1])

    def environment(self, counters):
        return dict(os.environ, G_DEBUG="fatal-criticals", GSETTINGS_BACKEND="memory", G_TEST_SRCDIR=str(ROOT / "tests"), LC_ALL="C.UTF-8",
                    HOOPWRIGHT_CATALOGUE_DIR=str(self.build / "po"), GCOV_PREFIX=str(counters), MALLOC_PERTURB_="85")

    def run(self, program, folder, limit):
        """(passed, seconds of the processor); so that a busy machine fells nobody, the limit is in such seconds too."""
        going = subprocess.Popen(["prlimit", f"--cpu={math.ceil(limit)}", "--as=6000000000", program, *SEED], cwd=self.build,
                                 env=self.environment(folder), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        asleep = threading.Timer(30 * limit, going.kill)  # one that waits for ever takes no time
        asleep.start()
        _, status, used = os.wait4(going.pid, 0)
        asleep.cancel()
        going.returncode = os.waitstatus_to_exitcode(status)
        return status == 0, used.ru_utime + used.ru_stime

    def lines_run(self, name, folder, slowest):
        """Runs a test as it is: its seconds, and the lines of the rooms it runs."""
        passed, seconds = self.run(self.build / "tests" / name, folder, slowest)
        if not passed:
            print(f"{name} fails as it is, or takes over {slowest:.0f} s, and is left out", flush=True)
            return None
        ran = set()
        counters = [path for path in folder.rglob("*.gcda")]
        wanted = {str(output)[:-2] for _, output in self.compile.values()}
        notes = []
        for path in counters:
            origin = "/" + str(path.relative_to(folder))[:-5]
            if origin in wanted:
                os.symlink(origin + ".gcno", str(path)[:-5] + ".gcno")
                notes.append(str(path))
        told = subprocess.run(["gcov", "--json-format", "--stdout", *notes], cwd=self.build, capture_output=True, text=True, check=True).stdout if notes else ""
        for report in map(json.loads, told.splitlines()):
            for file in report["files"]:
                path = (self.build / file["file"]).resolve()
                ran.update((path, line["line_number"]) for line in file["lines"] if line["count"])
        return seconds, ran

    def judge(self, mutant, tests):
        """'killed', 'survived', 'not built' or 'not run', and by which test."""
        relevant = sorted((seconds, name) for name, (seconds, ran) in tests.items() if (mutant.path, mutant.line) in ran)
        if not relevant:
            return "not run", None
        with tempfile.TemporaryDirectory(prefix="mutant-") as folder:
            folder = pathlib.Path(folder)
            text = mutant.path.read_text(encoding="utf-8")
            broken = folder / mutant.path.name
            broken.write_text(text[:mutant.start] + mutant.new + text[mutant.end:], encoding="utf-8")
            command, output = self.compile[mutant.path]
            command = [part for part in command if not part.startswith("-Werror")]
            command[command.index("-o") + 1] = str(folder / "broken.o")
            command[command.index("-c") + 1] = str(broken)
            for flag in ("-MQ", "-MF"):
                if flag in command:
                    at = command.index(flag)
                    del command[at:at + 2]
            command = [part for part in command if part not in ("-MD", "--coverage")] + ["-w", "-iquote", str(mutant.path.parent)]
            if subprocess.run(command, cwd=self.build, capture_output=True).returncode:
                return "not built", None
            for seconds, name in relevant:
                link = list(self.link[name])
                link[link.index("-o") + 1] = str(folder / name)
                link.insert(next(k for k, part in enumerate(link) if part.endswith(".a")), str(folder / "broken.o"))
                if subprocess.run(link, cwd=self.build, capture_output=True).returncode:
                    return "not built", name
                if not self.run(folder / name, folder / "counters", 5 + 5 * seconds)[0]:
                    return "killed", name
                (folder / name).unlink()
        return "survived", None


def shown(mutant):
    text = mutant.path.read_text(encoding="utf-8")
    line = text.splitlines()[mutant.line - 1].strip()
    return f"{mutant.path.relative_to(ROOT)}:{mutant.line}: {text[mutant.start:mutant.end].strip()} -> {mutant.new or 'nothing'}: {line}"


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build", type=pathlib.Path)
    parser.add_argument("rooms", nargs="+")
    parser.add_argument("--sample", type=int, help="as many mutants, drawn from all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--slowest", type=float, default=120, help="leaves out tests that take the processor more seconds as they are")
    parser.add_argument("--minutes", type=float, help="judges no further mutant after so long")
    given = parser.parse_args()
    house = House(given.build.resolve(), given.rooms)
    every = [mutant for path in sorted(house.compile) for mutant in mutants(path)]
    chosen = random.Random(given.seed).sample(every, min(given.sample or len(every), len(every)))
    scratch = pathlib.Path(tempfile.mkdtemp(prefix="mutation-"))
    with concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
        told = list(pool.map(lambda name: house.lines_run(name, scratch / name, given.slowest), house.link))
        tests = {name: answer for name, answer in zip(house.link, told) if answer}
        shutil.rmtree(scratch)
        print(f"{len(every)} mutants, {len(chosen)} drawn with seed {given.seed}, {len(tests)} tests", flush=True)
        tally = collections.defaultdict(collections.Counter)
        end = time.monotonic() + 60 * given.minutes if given.minutes else None
        judged = pool.map(lambda one: ("not judged", None) if end and time.monotonic() > end else house.judge(one, tests), chosen)
        for mutant, (verdict, name) in zip(chosen, judged):
            tally[mutant.path.relative_to(ROOT / "src")][verdict] += 1
            if verdict in ("survived", "not run"):
                print(f"{verdict}: {shown(mutant)}", flush=True)
    whole = sum(tally.values(), collections.Counter())
    verdicts = ["killed", "survived", "not run", "not built", "not judged"]
    print(f"{'':36}" + "".join(f"{verdict:>12}" for verdict in verdicts))
    for path, counts in [*sorted(tally.items()), ("all", whole)]:
        print(f"{str(path):36}" + "".join(f"{counts[verdict]:12}" for verdict in verdicts))
    judged = whole["killed"] + whole["survived"] + whole["not run"]
    print(f"killed {100 * whole['killed'] / judged:.1f} % of {judged} that were built" if judged else "nothing was judged")


if __name__ == "__main__":
    main()
