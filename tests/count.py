"""Counts the checks in meson's test logs: one for each TAP line, one for each program without such lines.

Tells what each test said that failed, for who sees only the end of a long log. Ends with the plain line 'N passed, N failed' and exit status 1 when
anything failed or nothing ran.

A test of windows that failed among others is run once more by itself: count.py --to-repeat LOG names those, and count.py --repeated LOG LOG ... tells what came
of it. Such a test counts by its second run; that it failed in the first is told, for that is a fault as well, of the test or of the program.
"""
import json
import re
import sys

TAP = re.compile(r"^\s*(not ok|ok)\b(.*)$", re.MULTILINE)
TOLD = 60  # lines of a failed test
WITH_WINDOWS = re.compile(r":(window|widgets) / ")


def tell(run):
    """What a failed test said, without the checks that passed."""
    said = f"{run.get('stdout') or ''}\n{run.get('stderr') or ''}".splitlines()
    telling = [line for line in said if line.strip() and not re.match(r"^\s*ok\b", line)]
    print("failed:", run["name"], f"({run['result']}, {run['duration']:.0f} s)")
    for line in telling[-TOLD:]:
        print("  ", line)


def runs_of(path):
    with open(path, encoding="utf-8") as log:
        return [json.loads(line) for line in log]


def has_failed(run):
    return run["result"] not in ("OK", "SKIP", "EXPECTEDFAIL")


def to_repeat(path):
    """What meson calls the tests of windows that failed: in its log the suite stands before the name, which it does not take."""
    return [re.sub(":.*? / ", ":", run["name"]) for run in runs_of(path) if has_failed(run) and WITH_WINDOWS.search(run["name"])]


def count(path, repeated):
    passed = failed = skipped = 0
    for run in runs_of(path):
        if has_failed(run) and run["name"] in repeated:
            tell(run)
            run = repeated[run["name"]]
            if not has_failed(run):
                print("passed by itself:", run["name"])
        checks = TAP.findall(run.get("stdout") or "")
        bad = sum(verdict == "not ok" and "# TODO" not in rest for verdict, rest in checks)
        left_out = sum("# skip" in rest.lower() for _, rest in checks)
        good = sum(verdict == "ok" for verdict, _ in checks) - left_out
        if run["result"] == "SKIP" and not checks:
            left_out = 1
        elif run["result"] not in ("OK", "SKIP") and bad == 0:
            bad = 1  # ended before it could say what failed
        elif not checks:
            good = 1
        passed, failed, skipped = passed + good, failed + bad, skipped + left_out
        if bad:
            tell(run)
    return passed, failed, skipped


def main(arguments):
    if arguments[0] == "--to-repeat":
        for name in to_repeat(arguments[1]):
            print(name)
        return 0
    repeated = {}
    if arguments[0] == "--repeated":
        repeated = {run["name"]: run for run in runs_of(arguments[1])}
        arguments = arguments[2:]
    totals = [sum(part) for part in zip(*(count(path, repeated) for path in arguments))]
    passed, failed, skipped = totals
    print(f"{passed} passed, {failed} failed" + (f", {skipped} skipped" if skipped else ""))
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
