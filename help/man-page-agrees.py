"""The man page is sound, and it and the shell completion name every command and option that --help names.

Usage: man-page-agrees.py PROGRAM MAN-PAGE COMPLETION
"""
import re
import subprocess
import sys

program, page, completion = sys.argv[1:]
COMMANDS = ["plan", "templates", "sheet", "needles", "lists", "supplies", "picture", "check", "correct", "follow", "match", "square", "outline"]


def options_of(command):
    shown = subprocess.run([program, command, "--help"], capture_output=True, text=True, timeout=60)
    assert shown.returncode == 0, shown.stderr
    return set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", shown.stdout)) - {"--help-all"}


def checks():
    troff = subprocess.run(["groff", "-man", "-ww", "-z", "-Tutf8", page], capture_output=True, text=True)
    yield "the man page is sound", troff.returncode == 0 and not troff.stderr, troff.stderr

    words = open(page, encoding="utf-8").read().replace("\\-", "-")
    synopsis = words.partition(".SH SYNOPSIS")[2].partition("\n.SH")[0].split(".br")
    completed = open(completion, encoding="utf-8").read()
    for command in COMMANDS:
        options = options_of(command)
        unnamed = sorted(option for option in options if option not in words)
        yield f"the man page names every option of {command}", bool(options) and not unnamed, unnamed
        shown = set(re.findall(r"--[a-z-]+", " ".join(part for part in synopsis if f"hoopwright {command}\n" in part)))
        yield f"the synopsis shows every option of {command}", shown == options - {"--help"}, sorted(shown ^ options)
        line = re.search(rf"^\s*{command}\) COMPREPLY.*$", completed, re.MULTILINE)
        offered = set(re.findall(r"--[a-z-]+", line[0].partition("-W")[2].partition(" -- ")[0])) if line else set()
        yield f"the shell completes {command}", offered == options, sorted(offered ^ options)

    shown = subprocess.run([program, "plan", "--help"], capture_output=True, text=True, timeout=60).stdout
    taken = re.search(r"--time=.*\((\d+)\)$", shown, re.MULTILINE)
    said = re.search(r"The most time to search and to prove, (\d+) if not given", words)
    yield "the man page gives the time that is taken when none is given", taken and said and taken[1] == said[1], (taken, said)

    # The other way round: what the page promises exists.
    shown = subprocess.run([program, "--help"], capture_output=True, text=True, timeout=60).stdout
    own = set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", shown))
    yield "the man page names the program's own options", {"--new-scene", "--version"} < own and all(one in words for one in own), own
    known = set().union(*map(options_of, COMMANDS)) | own
    promised = set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", words))
    yield "the man page promises no other option", promised <= known, sorted(promised - known)


number = failed = 0
for number, (name, good, why) in enumerate(checks(), 1):
    print(f"{'ok' if good else 'not ok'} {number} - {name}")
    if not good:
        failed = 1
        print(f"# {why}")
print(f"1..{number}")
sys.exit(failed)
