"""What the count of all tests says of made-up logs of meson: what passed, what is run once more, and what comes of it."""
import contextlib
import io
import json
import os
import sys
import tempfile

import count


def log(folder, name, *runs):
    path = os.path.join(folder, name)
    with open(path, "w", encoding="utf-8") as out:
        for suite, test, result, stdout in runs:
            out.write(json.dumps({"name": f"hoopwright:{suite} / {suite} / {test}", "result": result, "duration": 1.0, "stdout": stdout}) + "\n")
    return path


def says(*arguments):
    """What it prints, line by line, and its exit status."""
    with contextlib.redirect_stdout(io.StringIO()) as said:
        status = count.main(list(arguments))
    return said.getvalue().splitlines(), status


def cases(folder):
    good = log(folder, "good", ("scene", "motif", "OK", "1..2\nok 1 - a\nok 2 - b # SKIP no display\n"), ("data", "icons", "OK", ""))
    yield "all is counted that passed", says(good) == (["2 passed, 0 failed, 1 skipped"], 0)
    yield "nothing is run once more where nothing failed", says("--to-repeat", good) == ([], 0)
    yield "nothing run is a failure", says(log(folder, "none"))[1] == 1

    bad = log(folder, "bad", ("scene", "motif", "ERROR", "1..2\nok 1 - a\nnot ok 2 - b\n"), ("window", "table", "FAIL", "1..1\nnot ok 1 - c\n"),
              ("widgets", "fields", "TIMEOUT", "1..2\nok 1 - d\n"))
    lines, status = says(bad)
    yield "all is counted that failed, what ended early too", (lines[-1], status) == ("2 passed, 3 failed", 1)
    yield "what failed is told", any("not ok 2 - b" in line for line in lines)
    yield "of what failed the windows are run once more", says("--to-repeat", bad) == (["hoopwright:window / table", "hoopwright:widgets / fields"], 0)

    repeated = log(folder, "repeated", ("window", "table", "OK", "1..1\nok 1 - c\n"), ("widgets", "fields", "FAIL", "1..2\nok 1 - d\nnot ok 2 - e\n"))
    lines, status = says("--repeated", repeated, bad)
    yield "a window counts by its second run, and nothing else does", (lines[-1], status) == ("3 passed, 2 failed", 1)
    yield "that it failed first is told", "failed: hoopwright:window / window / table (FAIL, 1 s)" in lines and "passed by itself: hoopwright:window / window / table" in lines
    yield "what failed twice did not pass by itself", not any("by itself" in line and "fields" in line for line in lines)


def main():
    failed = number = 0
    with tempfile.TemporaryDirectory() as folder:
        for number, (what, holds) in enumerate(cases(folder), 1):
            failed += not holds
            print("ok" if holds else "not ok", number, "-", what)
    print(f"1..{number}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
