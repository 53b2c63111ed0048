"""Counts the checks in meson's test logs: one for each TAP line, one for each program without such lines.

Tells what each test said that failed, for who sees only the end of a long log. Ends with the plain line 'N passed, N failed' and exit status 1 when
anything failed or nothing ran.
"""
import json
import re
import sys

TAP = re.compile(r"^\s*(not ok|ok)\b(.*)$", re.MULTILINE)
TOLD = 60  # lines of a failed test


def tell(run):
    """What a failed test said, without the checks that passed."""
    said = f"{run.get('stdout') or ''}\n{run.get('stderr') or ''}".splitlines()
    telling = [line for line in said if line.strip() and not re.match(r"^\s*ok\b", line)]
    print("failed:", run["name"], f"({run['result']}, {run['duration']:.0f} s)")
    for line in telling[-TOLD:]:
        print("  ", line)


def count(path):
    passed = failed = skipped = 0
    for line in open(path, encoding="utf-8"):
        run = json.loads(line)
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


def main(paths):
    totals = [sum(part) for part in zip(*map(count, paths))]
    passed, failed, skipped = totals
    print(f"{passed} passed, {failed} failed" + (f", {skipped} skipped" if skipped else ""))
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
