"""Breaks one operator of a room at a time and sees whether its tests notice.

    python3 tests/mutation.py BUILD planning registration --sample 200 --seed 7 --jobs 2

BUILD is a build folder, compiled. The source tree is never touched. The tests are linked anew against the core as a shared library, so that a
broken copy of one source, compiled alone, can be put before it (LD_PRELOAD). Which checks run which lines is told by the room compiled for gcov and put
before the core in the same way; it is kept in the build folder, check by check, until the test or a source that the check ran changes. A mutant is given to the
checks that run its line until one fails: the quick checks of a test at once, each slow one by itself, and those first that cost little and have noticed much in
its file. A mutant with which a check runs far longer than it did is killed too. Several runs may go on beside each other.

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
QUICK = 0.2  # s: checks of a test that take no longer are asked together
VERDICTS = ["killed", "equivalent", "explained", "survived", "not run", "not built", "not judged"]


def digest_of(text):
    return hashlib.sha256(text.encode()).hexdigest()[:16]


class Book:
    """What is kept from run to run. What another run has written meanwhile stays."""

    def __init__(self, path):
        self.path, self.new = path, {}
        self.known = self.read()

    def read(self):
        return json.loads(self.path.read_text()) if self.path.exists() else {}

    def get(self, key):
        return self.new.get(key) or self.known.get(key)

    def keep(self):
        self.known = {**self.read(), **self.new}
        half = self.path.with_suffix(f".{os.getpid()}")
        half.write_text(json.dumps(self.known))
        half.replace(self.path)


class House:
    """How the build folder compiles a source and links a test, and a folder for what is made of them here."""

    def __init__(self, build, rooms, folder):
        self.build, self.folder, self.rooms = build, folder, "-".join(rooms)
        self.compile = {}
        for one in json.loads((build / "compile_commands.json").read_text()):
            path = (build / one["file"]).resolve()
            if path.parent.name in rooms and path.parent.parent == ROOT / "src" and path.suffix == ".c":
                self.compile[path] = self.bare(shlex.split(one["command"]), path)
        self.texts = {path: path.read_text(encoding="utf-8") for path in self.compile}  # as they are now, whatever is edited meanwhile
        self.digests = {path: digest_of(text) for path, text in self.texts.items()}
        self.shared = digest_of("".join(header.read_text(encoding="utf-8") for header in sorted((ROOT / "src").rglob("*.h"))))
        self.core = folder / "core.so"
        self.lock = threading.Lock()
        self.heads = {}
        names = sorted(path.name for room in [*rooms, "outside"] for path in (build / "tests").glob(f"test-{room}-*") if path.is_file())
        self.tests = {name: folder / name for name in names}
        self.links = self.read_links()

    def bare(self, command, path):
        """The command without the compiler cache, debug words, the names of files, and what it writes beside."""
        command = [part for part in command if not re.match(r"-Werror|-g\d?$|--coverage$|-MD$|ccache$|-O.$", part) and not part.endswith(path.name)]
        for flag in ("-MQ", "-MF", "-o", "-c"):
            if flag in command:
                at = command.index(flag)
                del command[at:at + (1 if flag == "-c" else 2)]
        return [*command, "-w", "-iquote", str(path.parent)]

    def read_links(self):
        told = subprocess.run(["ninja", "-C", self.build, "-t", "commands", "-s", *[f"tests/{name}" for name in self.tests]], capture_output=True, text=True, check=True).stdout
        return {pathlib.Path(command[command.index("-o") + 1]).name: command for command in map(shlex.split, told.splitlines()) if "-o" in command}

    def test(self, name):
        """The test linked against the core as a shared library."""
        with self.lock:
            command = list(self.links[name])
            archive = next(k for k, part in enumerate(command) if part.endswith(".a"))
            if not self.core.exists():
                libraries = command[archive + 1:]
                subprocess.run(["gcc", "-shared", "-o", self.core, "-Wl,-S", "-Wl,--start-group", "-Wl,--whole-archive", command[archive], "-Wl,--no-whole-archive", "-Wl,--as-needed",
                                *libraries], cwd=self.build, check=True)
            if not self.tests[name].exists():
                command[archive] = str(self.core)
                command[command.index("-o") + 1] = str(self.tests[name])
                subprocess.run([*command, "-Wl,-S", f"-Wl,-rpath,{self.folder}"], cwd=self.build, check=True)
        return self.tests[name]

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
        if flags == ("-O2",):  # the head compiled beforehand is good for the same flags only
            header, last = self.head(path)
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
        chosen = [word for check in checks if check for word in ("-p", check)]
        going = subprocess.Popen([self.test(name), *SEED, *chosen], cwd=self.build, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL)
        try:
            seconds = math.ceil(limit)
            resource.prlimit(going.pid, resource.RLIMIT_CPU, (seconds, seconds))
            resource.prlimit(going.pid, resource.RLIMIT_AS, (MEMORY, MEMORY))
            resource.prlimit(going.pid, resource.RLIMIT_CORE, (0, 0))
        except ProcessLookupError:
            pass
        asleep = threading.Timer(60 + 60 * limit, going.kill)  # one that waits for ever takes no time; a busy machine does not wait so long
        asleep.start()
        _, status, used = os.wait4(going.pid, 0)
        asleep.cancel()
        going.returncode = os.waitstatus_to_exitcode(status)
        return status == 0, used.ru_utime + used.ru_stime


class Lines:
    """Which checks run which lines, and how long they take."""

    def __init__(self, house, slowest, whole):
        self.house, self.slowest, self.whole = house, slowest, whole
        self.book = Book(house.build / f"mutation-lines-{house.rooms}.json")  # {test: [digest, [checks]], test check: [digest of the test, seconds, {path: [digest, [lines]]} or null]}
        self.notes = house.build / "mutation-lines"  # the sources compiled for gcov
        self.watched = house.folder / "watched.so"
        self.unrun = {}  # {name: the counts of a source of which nothing ran}
        self.watching = threading.Lock()
        self.checks = {}  # (test, check) -> (seconds, {path: {lines}})

    def watch(self):
        """All sources of the rooms compiled for gcov, those that have changed, and linked into one."""
        self.notes.mkdir(exist_ok=True)
        objects = []
        for path, digest in self.house.digests.items():
            name = f"{path.parent.name}-{path.stem}"
            objects.append(self.notes / f"{name}.{digest}-{self.house.shared}.o")
            if not objects[-1].exists():
                for old in self.notes.glob(f"{name}.*"):
                    old.unlink()
                if not self.house.object(path, self.house.texts[path], objects[-1], ("-O0", "--coverage", "-U_FORTIFY_SOURCE")):
                    raise RuntimeError(f"{path} does not compile for gcov")
        subprocess.run(["gcc", "--coverage", "-shared", "-o", self.watched, *objects], check=True)

    def counts(self, name, words, folder):
        """Runs a test watched: the files of counts, the sources left out of which nothing ran, since gcov takes its time with each."""
        self.house.run(name, words, self.watched, 20 * self.slowest, {"GCOV_PREFIX": folder})
        return [path for path in pathlib.Path(folder).rglob("*.gcda") if path.read_bytes() != self.unrun.get(path.name)]

    def look(self, name):
        """Fills in what one test runs."""
        room, subject = name.removeprefix("test-").split("-", 1)
        folder = ROOT / "tests" / room
        digest = digest_of("".join(path.read_text(encoding="utf-8") for path in [folder / f"test-{subject}.c", *sorted(folder.glob("*.h"))]))
        for check in self.listed(name, digest):
            known = self.book.get(f"{name} {check}")
            if not (known and known[0] == digest and self.still_good(known)):
                passed, seconds = self.house.run(name, [check], None, self.slowest)
                if not passed and seconds > 0.7 * self.slowest:
                    seconds = self.slowest  # it was ended
                if passed or seconds >= self.slowest:
                    known = self.book.new[f"{name} {check}"] = [digest, seconds, self.lines_of(name, check) if passed and check else None]
            if not known or known[1] >= self.slowest:
                print(f"{name} {check} {f'takes {known[1]:.1f} s' if known else 'fails as it is'} and is left out", flush=True)
            else:
                self.checks[name, check] = known[1], known[2] and {ROOT / path: set(lines) for path, (_, lines) in known[2].items()}

    def listed(self, name, digest):
        """Its checks; "" is all of them."""
        known = self.book.get(name)
        if self.whole:
            return [""]
        if not (known and known[0] == digest):
            told = subprocess.run([self.house.test(name), "-l"], cwd=self.house.build, capture_output=True, text=True, check=True).stdout
            known = self.book.new[name] = [digest, [word for word in told.split() if word.startswith("/")]]
        return known[1]

    def still_good(self, known):
        """A check too slow to be asked is not watched either, nor is a whole test."""
        if known[1] >= self.slowest or known[2] is None:
            return known[1] >= self.slowest or self.whole
        return all(self.house.digests.get(ROOT / path) == digest for path, (digest, _) in known[2].items())

    def lines_of(self, name, check):
        with self.watching:
            if not self.watched.exists():
                self.watch()
                with tempfile.TemporaryDirectory(dir=self.house.folder) as folder:
                    self.unrun = {path.name: path.read_bytes() for path in self.counts(name, ["/none"], folder)}
        with tempfile.TemporaryDirectory(dir=self.house.folder) as folder:
            notes = self.counts(name, [check], folder)
            for path in notes:
                os.symlink(self.notes / f"{path.stem}.gcno", path.with_suffix(".gcno"))
            told = subprocess.run(["gcov", "--json-format", "--stdout", *notes], cwd=folder, capture_output=True, text=True, check=True).stdout if notes else ""
            ran = {}
            for report in map(json.loads, told.splitlines()):
                for file in report["files"]:
                    path = pathlib.Path(file["file"])
                    lines = [line["line_number"] for line in file["lines"] if line["count"]]
                    if path in self.house.compile and lines:
                        ran[str(path.relative_to(ROOT))] = [self.house.digests[path], lines]
            return ran

    def look_at_all(self, pool):
        for _ in pool.map(self.look, self.house.tests):
            self.book.keep()

    def counted_line(self, mutant):
        """Of a statement over several lines the compiler may count the first alone."""
        ran = set().union(*[ran.get(mutant.path, ()) for _, ran in self.checks.values() if ran is not None])
        return next((line for line in range(mutant.line, mutant.line - 6, -1) if line in ran), mutant.line)

    def batches(self, mutant):
        """[(test, [checks], seconds)] of those that run its line."""
        quick = collections.defaultdict(list)
        batches = []
        line = self.counted_line(mutant)
        for (name, check), (seconds, ran) in self.checks.items():
            if ran is None or line in ran.get(mutant.path, ()):
                if seconds <= QUICK:
                    quick[name].append((check, seconds))
                else:
                    batches.append((name, [check], seconds))
        return batches + [(name, [check for check, _ in some], sum(seconds for _, seconds in some)) for name, some in quick.items()]


class Judge:
    def __init__(self, house, lines):
        self.house, self.lines = house, lines
        self.noticed = collections.Counter()  # (file, test, its slow check)
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
            batches = self.lines.batches(mutant)
            if not batches:
                return "not run", None
            subprocess.run(["ld", "-shared", "-o", folder / "broken.so", folder / "broken.o"], check=True)

            def place(name, checks, seconds):
                return mutant.path, name, checks[0] if seconds > QUICK else None

            def cost(batch):
                return (0.05 + batch[2]) * (self.asked[place(*batch)] + 2) / (self.noticed[place(*batch)] + 0.5)

            for name, checks, seconds in sorted(batches, key=cost):
                self.asked[place(name, checks, seconds)] += 1
                if not self.house.run(name, checks, folder / "broken.so", 2 + 5 * seconds)[0]:
                    self.noticed[place(name, checks, seconds)] += 1
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
    parser.add_argument("--only", help="of those drawn only the ones of this file, or of its line (held.c:387); each verdict is told")
    parser.add_argument("--again", action="store_true", help="believes what an earlier run found killed or equivalent, where the file is the same")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--slowest", type=float, default=60, help="leaves out checks that take the processor more seconds as they are")
    parser.add_argument("--whole", action="store_true", help="asks each test as a whole, whatever it runs: nothing is to be learnt but how long it takes")
    parser.add_argument("--minutes", type=float, help="judges no further mutant after so long")
    given = parser.parse_args()
    with mutants.SURVIVORS.open(encoding="utf-8") as lines:
        reasons, wrong = mutants.explained(lines)
    for what in wrong:
        print(f"mutation-survivors.txt, {what}")
    with tempfile.TemporaryDirectory(prefix="mutation-") as folder, concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
        house = House(given.build.resolve(), given.rooms, pathlib.Path(folder))
        lines = Lines(house, given.slowest, given.whole)
        lines.look_at_all(pool)
        every = [mutant for path in sorted(house.compile) for mutant in mutants.mutants(path)]
        there = {mutants.entry_of(mutant) for mutant in every}
        for entry in reasons:
            if entry.path.split("/")[1] in given.rooms and entry not in there:
                print(f"explained, but not there: {mutants.shown(entry)}")
        drawn = random.Random(given.seed).sample(every, min(given.sample or len(every), len(every)))
        drawn = [mutant for mutant in drawn if given.only in (mutant.path.name, f"{mutant.path.name}:{mutant.line}")] if given.only else drawn
        print(f"{len(every)} mutants, {len(drawn)} drawn with seed {given.seed}, {len(lines.checks)} checks of {len(house.tests)} tests", flush=True)
        book = Book(house.build / "mutation-verdicts.json")
        verdicts = {}
        chosen = []
        for mutant in drawn:
            known = book.get(place_in_book(mutant))
            if given.again and known and known[0] == house.digests[mutant.path] and known[1] in ("killed", "equivalent", "not built"):
                verdicts[mutant] = known[1]
            else:
                chosen.append(mutant)
        begun = time.monotonic()
        for n, (mutant, (verdict, test)) in enumerate(judge_all(Judge(house, lines), chosen, pool, given.minutes), 1):
            if verdict != "not judged":
                book.new[place_in_book(mutant)] = [house.digests[mutant.path], verdict]
            if verdict in ("survived", "not run") and mutants.entry_of(mutant) in reasons:
                verdict = "explained"
            verdicts[mutant] = verdict
            if verdict in ("survived", "not run") or given.only:
                print(f"{verdict}{f' by {test}' if test else ''}: {mutant.path.relative_to(ROOT)}:{mutant.line}: {mutant.function}: {mutant.change}: {mutant.text}", flush=True)
            if n % 25 == 0:
                print(f"# {n} of {len(chosen)} in {time.monotonic() - begun:.0f} s", flush=True)
                book.keep()
        book.keep()
        tell(verdicts, reasons)


if __name__ == "__main__":
    main()
