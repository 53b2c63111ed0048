"""Breaks one operator of a room at a time and sees whether its tests notice.

    python3 tests/mutation.py BUILD planning registration --sample 200 --seed 7 --jobs 2

BUILD is a build folder, compiled. The source tree is never touched. The tests are linked anew against the core as a shared library, so that a
broken copy of one source, compiled alone, can be put before it (LD_PRELOAD). Which checks run which lines is told by the room compiled for gcov and put
before the core in the same way; it is kept in the build folder until a source or the test changes. A mutant is given to the checks that run its line, those first
that are quick and have noticed much in its file, until one fails; one that runs far longer than the check did is killed too.

A mutant that compiles to the same code as the source is the same program: equivalent. What survives, and what no test runs, is printed with its line
unless tests/mutation-survivors.txt (see mutants.py) says why no test could tell.
"""
import argparse
import collections
import concurrent.futures
import filecmp
import hashlib
import json
import math
import os
import pathlib
import random
import re
import resource
import shlex
import subprocess
import tempfile
import threading
import time

import mutants

ROOT = mutants.ROOT
SEED = ["--seed", "R02S00c0ffee00face0000beef0001000001"]
MEMORY = 4_000_000_000
VERDICTS = ["killed", "equivalent", "explained", "survived", "not run", "not built", "not judged"]


class House:
    """How the build folder compiles a source and links a test, and a folder for what is made of them here."""

    def __init__(self, build, rooms, folder):
        self.build, self.folder = build, folder
        self.compile = {}
        for one in json.loads((build / "compile_commands.json").read_text()):
            path = (build / one["file"]).resolve()
            if path.parent.name in rooms and path.parent.parent == ROOT / "src" and path.suffix == ".c":
                self.compile[path] = self.bare(shlex.split(one["command"]), path)
        self.texts = {path: path.read_text(encoding="utf-8") for path in self.compile}  # as they are now, whatever is edited meanwhile
        self.core = folder / "core.so"
        self.lock = threading.Lock()
        self.heads = {}
        names = sorted(path.name for room in [*rooms, "outside"] for path in (build / "tests").glob(f"test-{room}-*") if path.is_file())
        self.tests = {name: folder / name for name in names}

    def bare(self, command, path):
        """The command without the compiler cache, debug words, the names of files, and what it writes beside."""
        command = [part for part in command if not re.match(r"-Werror|-g\d?$|--coverage$|-MD$|ccache$|-O.$", part) and not part.endswith(path.name)]
        for flag in ("-MQ", "-MF", "-o", "-c"):
            if flag in command:
                at = command.index(flag)
                del command[at:at + (1 if flag == "-c" else 2)]
        return [*command, "-w", "-iquote", str(path.parent)]

    def link_all(self, pool):
        told = subprocess.run(["ninja", "-C", self.build, "-t", "commands", "-s", *[f"tests/{name}" for name in self.tests]], capture_output=True, text=True, check=True).stdout
        commands = {command[command.index("-o") + 1]: command for command in map(shlex.split, told.splitlines()) if "-o" in command}

        def link(name):
            command = list(commands[f"tests/{name}"])
            archive = next(k for k, part in enumerate(command) if part.endswith(".a"))
            if not self.core.exists():
                libraries = command[archive + 1:]
                subprocess.run(["gcc", "-shared", "-o", self.core, "-Wl,--start-group", "-Wl,--whole-archive", command[archive], "-Wl,--no-whole-archive", "-Wl,--as-needed",
                                *libraries], cwd=self.build, check=True)
            command[archive] = str(self.core)
            command[command.index("-o") + 1] = str(self.tests[name])
            subprocess.run([*command, f"-Wl,-rpath,{self.folder}"], cwd=self.build, check=True)

        link(next(iter(self.tests)))
        list(pool.map(link, self.tests))

    def head(self, path):
        """The file's first #include lines, compiled once, and where they end."""
        text = self.texts[path]
        last = 0
        blank = mutants.blanked(text)
        body = re.search(r"^[\w{]", blank, re.MULTILINE)
        for found in re.finditer(r"^#include [^\n]*\n", text[:body.start()], re.MULTILINE):
            last = found.end()
        with self.lock:
            if path not in self.heads:
                header = self.folder / f"{path.parent.name}-{path.stem}.h"
                header.write_text(text[:last], encoding="utf-8")
                made = subprocess.run([*self.compile[path], "-O2", "-x", "c-header", str(header), "-o", f"{header}.gch"], cwd=self.build, capture_output=True)
                if made.returncode:
                    raise RuntimeError(made.stderr.decode())
                self.heads[path] = header
        return self.heads[path], last

    def object(self, path, text, output, flags=("-O2",)):
        """Compiles a text in the place of a source: whether it could be."""
        header, last = self.head(path)
        if flags == ("-O2",):  # the head compiled beforehand is good for the same flags only
            text = f'#include "{header}"\n#line {text[:last].count(chr(10)) + 1} "{path}"\n' + text[last:]
        else:
            text = f'#line 1 "{path}"\n' + text
        with tempfile.TemporaryDirectory(dir=self.folder) as folder:
            source = pathlib.Path(folder) / path.name  # the object holds the name
            source.write_text(text, encoding="utf-8")
            return subprocess.run([*self.compile[path], *flags, "-c", str(source), "-o", str(output)], cwd=self.build, capture_output=True).returncode == 0

    def run(self, name, checks, before, limit, more=None):
        """(passed, seconds of the processor); so that a busy machine fells nobody, the limit is in such seconds too."""
        home = self.folder / f"home-{threading.get_ident()}"
        home.mkdir(exist_ok=True)
        environment = dict(os.environ, G_DEBUG="fatal-criticals", GSETTINGS_BACKEND="memory", G_TEST_SRCDIR=str(ROOT / "tests"), LC_ALL="C.UTF-8", XDG_STATE_HOME=str(home),
                           HOOPWRIGHT_CATALOGUE_DIR=str(self.build / "po"), MALLOC_PERTURB_="85", LD_PRELOAD=str(before) if before else "", **(more or {}))
        chosen = [word for check in checks for word in ("-p", check)]
        going = subprocess.Popen([self.tests[name], *SEED, *chosen], cwd=self.build, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL)
        try:
            seconds = math.ceil(limit)
            resource.prlimit(going.pid, resource.RLIMIT_CPU, (seconds, seconds))
            resource.prlimit(going.pid, resource.RLIMIT_AS, (MEMORY, MEMORY))
            resource.prlimit(going.pid, resource.RLIMIT_CORE, (0, 0))
        except ProcessLookupError:
            pass
        asleep = threading.Timer(10 + 10 * limit, going.kill)  # one that waits for ever takes no time
        asleep.start()
        _, status, used = os.wait4(going.pid, 0)
        asleep.cancel()
        going.returncode = os.waitstatus_to_exitcode(status)
        return status == 0, used.ru_utime + used.ru_stime


class Lines:
    """Which checks run which lines, and how long they take."""

    def __init__(self, house, slowest):
        self.house, self.slowest = house, slowest
        self.kept = house.build / "mutation-lines.json"
        self.book = json.loads(self.kept.read_text()) if self.kept.exists() else {}
        self.sources = hashlib.sha256("".join(house.texts[path] for path in sorted(house.compile)).encode()).hexdigest()
        self.watched = house.folder / "watched.so"
        self.watching = threading.Lock()
        self.checks = {}  # (test, check) -> (seconds, {path: {lines}})

    def watch(self, pool):
        """All sources of the rooms compiled for gcov and linked into one."""
        objects = [self.house.folder / f"watched-{path.parent.name}-{path.stem}.o" for path in self.house.compile]

        def compile_one(path, output):
            if not self.house.object(path, self.house.texts[path], output, ("-O0", "--coverage", "-U_FORTIFY_SOURCE")):
                raise RuntimeError(f"{path} does not compile for gcov")

        list(pool.map(compile_one, self.house.compile, objects))
        subprocess.run(["gcc", "--coverage", "-shared", "-o", self.watched, *objects], check=True)

    def look(self, name, pool):
        """Fills in what one test runs."""
        objects = sorted((self.house.build / "tests" / f"{name}.p").glob("*.o"))
        digest = hashlib.sha256(b"".join(path.read_bytes() for path in objects)).hexdigest() + self.sources
        if self.book.get(name, {}).get("digest") != digest:
            with self.watching:
                if not self.watched.exists():
                    self.watch(pool)
            listed = subprocess.run([self.house.tests[name], "-l"], cwd=self.house.build, capture_output=True, text=True, check=True).stdout.split()
            checks = {}
            for check in listed:
                passed, seconds = self.house.run(name, [check], None, self.slowest)
                if not passed:
                    print(f"{name} {check} fails as it is, or takes over {self.slowest:.0f} s, and is left out", flush=True)
                    continue
                checks[check] = [seconds, self.lines_of(name, check)]
            self.book[name] = {"digest": digest, "checks": checks}
        return {(name, check): (seconds, {ROOT / path: set(lines) for path, lines in ran.items()}) for check, (seconds, ran) in self.book[name]["checks"].items()}

    def lines_of(self, name, check):
        with tempfile.TemporaryDirectory(dir=self.house.folder) as folder:
            self.house.run(name, [check], self.watched, 20 * self.slowest, {"GCOV_PREFIX": folder})
            notes = []
            for path in pathlib.Path(folder).rglob("*.gcda"):
                notes.append(str(path))
                os.symlink(self.house.folder / f"{path.stem}.gcno", path.with_suffix(".gcno"))
            told = subprocess.run(["gcov", "--json-format", "--stdout", *notes], cwd=folder, capture_output=True, text=True, check=True).stdout if notes else ""
            ran = {}
            for report in map(json.loads, told.splitlines()):
                for file in report["files"]:
                    path = pathlib.Path(file["file"])
                    if path in self.house.compile:
                        ran[str(path.relative_to(ROOT))] = [line["line_number"] for line in file["lines"] if line["count"]]
            return ran

    def look_at_all(self, pool):
        list(pool.map(lambda path: self.house.head(path), self.house.compile))
        if any(not self.book.get(name) for name in self.house.tests):
            self.watch(pool)
        for answer in pool.map(lambda name: self.look(name, pool), self.house.tests):
            self.checks.update(answer)
        self.kept.write_text(json.dumps(self.book))


class Judge:
    def __init__(self, house, checks):
        self.house, self.checks = house, checks
        self.noticed = collections.Counter()  # (file, test)
        self.asked = collections.Counter()
        self.sound = {}
        self.lock = threading.Lock()

    def unbroken(self, path):
        with self.lock:
            if path not in self.sound:
                output = self.house.folder / f"sound-{path.parent.name}-{path.stem}.o"
                self.house.object(path, self.house.texts[path], output)
                self.sound[path] = output
        return self.sound[path]

    def judge(self, mutant):
        """A verdict, and by which test."""
        sound = self.unbroken(mutant.path)
        with tempfile.TemporaryDirectory(dir=self.house.folder) as folder:
            folder = pathlib.Path(folder)
            text = self.house.texts[mutant.path]
            if not self.house.object(mutant.path, text[:mutant.start] + mutant.new + text[mutant.end:], folder / "broken.o"):
                return "not built", None
            if filecmp.cmp(sound, folder / "broken.o", shallow=False):
                return "equivalent", None
            subprocess.run(["ld", "-shared", "-o", folder / "broken.so", folder / "broken.o"], check=True)
            tests = collections.defaultdict(list)
            for (name, check), (seconds, ran) in self.checks.items():
                if mutant.line in ran.get(mutant.path, ()):
                    tests[name].append((seconds, check))
            if not tests:
                return "not run", None

            def cost(name):
                place = (mutant.path, name)
                return sum(seconds for seconds, _ in tests[name]) * (self.asked[place] + 2) / (self.noticed[place] + 0.5)

            for name in sorted(tests, key=cost):
                self.asked[mutant.path, name] += 1
                seconds = sum(seconds for seconds, _ in tests[name])
                if not self.house.run(name, [check for _, check in tests[name]], folder / "broken.so", 2 + 5 * seconds)[0]:
                    self.noticed[mutant.path, name] += 1
                    return "killed", name
        return "survived", None


def judge_all(judge, chosen, pool, minutes):
    end = time.monotonic() + 60 * minutes if minutes else None

    def one(mutant):
        if end and time.monotonic() > end:
            return "not judged", None
        return judge.judge(mutant)

    return zip(chosen, pool.map(one, chosen))


def place_in_book(mutant):
    return "\t".join([*mutants.entry_of(mutant), str(mutant.times)])


def tell(verdicts, reasons):
    """verdicts: {mutant: verdict}; prints the table, and what the list of survivors has wrong."""
    tally = collections.defaultdict(collections.Counter)
    for mutant, verdict in verdicts.items():
        tally[mutant.path.relative_to(ROOT / "src")][verdict] += 1
    whole = sum(tally.values(), collections.Counter())
    print(f"{'':36}" + "".join(f"{verdict:>12}" for verdict in VERDICTS))
    for path, counts in [*sorted(tally.items()), ("all", whole)]:
        print(f"{str(path):36}" + "".join(f"{counts[verdict]:12}" for verdict in VERDICTS))
    by_entry = collections.defaultdict(set)
    for mutant, verdict in verdicts.items():
        by_entry[mutants.entry_of(mutant)].add(verdict)
    for entry in reasons:
        if entry in by_entry and not by_entry[entry] & {"explained", "not judged"}:
            print(f"explained, but {' and '.join(sorted(by_entry[entry]))}: {mutants.shown(entry)}")
    built = sum(whole[verdict] for verdict in ("killed", "explained", "survived", "not run"))
    print(f"killed {100 * whole['killed'] / built:.1f} % of {built} that are built and differ; left {whole['survived'] + whole['not run']}" if built else "nothing was judged")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build", type=pathlib.Path)
    parser.add_argument("rooms", nargs="+")
    parser.add_argument("--sample", type=int, help="as many mutants, drawn from all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", help="only files whose name holds this")
    parser.add_argument("--again", action="store_true", help="believes what an earlier run found killed or equivalent, where the file is the same")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--slowest", type=float, default=60, help="leaves out checks that take the processor more seconds as they are")
    parser.add_argument("--minutes", type=float, help="judges no further mutant after so long")
    given = parser.parse_args()
    with mutants.SURVIVORS.open(encoding="utf-8") as lines:
        reasons, wrong = mutants.explained(lines)
    for what in wrong:
        print(f"mutation-survivors.txt, {what}")
    with tempfile.TemporaryDirectory(prefix="mutation-") as folder, concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
        house = House(given.build.resolve(), given.rooms, pathlib.Path(folder))
        house.link_all(pool)
        lines = Lines(house, given.slowest)
        lines.look_at_all(pool)
        every = [mutant for path in sorted(house.compile) for mutant in mutants.mutants(path)]
        there = {mutants.entry_of(mutant) for mutant in every}
        for entry in reasons:
            if entry.path.split("/")[1] in given.rooms and entry not in there:
                print(f"explained, but not there: {mutants.shown(entry)}")
        drawn = random.Random(given.seed).sample(every, min(given.sample or len(every), len(every)))
        drawn = [mutant for mutant in drawn if given.only in mutant.path.name] if given.only else drawn
        print(f"{len(every)} mutants, {len(drawn)} drawn with seed {given.seed}, {len(lines.checks)} checks of {len(house.tests)} tests", flush=True)
        kept = house.build / "mutation-verdicts.json"
        book = json.loads(kept.read_text()) if kept.exists() else {}
        digests = {path: hashlib.sha256(house.texts[path].encode()).hexdigest() for path in house.compile}
        verdicts = {}
        chosen = []
        for mutant in drawn:
            known = book.get(place_in_book(mutant), ["", ""])
            if given.again and known[0] == digests[mutant.path] and known[1] in ("killed", "equivalent", "not built"):
                verdicts[mutant] = known[1]
            else:
                chosen.append(mutant)
        begun = time.monotonic()
        for n, (mutant, (verdict, _)) in enumerate(judge_all(Judge(house, lines.checks), chosen, pool, given.minutes), 1):
            if verdict != "not judged":
                book[place_in_book(mutant)] = [digests[mutant.path], verdict]
            if verdict in ("survived", "not run") and mutants.entry_of(mutant) in reasons:
                verdict = "explained"
            verdicts[mutant] = verdict
            if verdict in ("survived", "not run"):
                print(f"{verdict}: {mutant.path.relative_to(ROOT)}:{mutant.line}: {mutant.function}: {mutant.change}: {mutant.text}", flush=True)
            if n % 25 == 0:
                print(f"# {n} of {len(chosen)} in {time.monotonic() - begun:.0f} s", flush=True)
                kept.write_text(json.dumps(book))
        kept.write_text(json.dumps(book))
        tell(verdicts, reasons)


if __name__ == "__main__":
    main()
