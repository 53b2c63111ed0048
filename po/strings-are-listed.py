"""POTFILES.in lists every file that holds words to translate, and the gettext tools take those words without a complaint.

Usage: strings-are-listed.py SOURCE-FOLDER [--write]
With --write the list is brought up to date.
"""
import os
import re
import subprocess
import sys
import tempfile

from template import listed, xgettext

top = sys.argv[1]
listing = os.path.join(top, "po", "POTFILES.in")
# Files of other kinds that hold words; the others of their kind hold none.
DATA = ["data/org.hoopwright.Hoopwright.desktop.in", "data/org.hoopwright.Hoopwright.gschema.xml",
        "data/org.hoopwright.Hoopwright.metainfo.xml.in"]


def sources():
    for folder, _, names in os.walk(os.path.join(top, "src")):
        for name in names:
            if name.endswith((".c", ".h", ".ui")):
                yield os.path.relpath(os.path.join(folder, name), top)


def holders():
    """The files under src/ that hold words."""
    template, _ = xgettext(top, sorted(sources()))
    places = " ".join(re.findall(r"^#: (.*)$", template, re.MULTILINE))
    return sorted(set(re.findall(r"(\S+):\d+", places)))


def understands(template):
    """What the tools say to a translation of every word into itself."""
    with tempfile.TemporaryDirectory() as folder:
        names = [os.path.join(folder, name) for name in ("all.pot", "en.po", "en.mo")]
        with open(names[0], "w", encoding="utf-8") as file:
            file.write(template)
        said = ""
        for command in (["msgen", "-o", names[1], names[0]], ["msgfmt", "--check-format", "--check-domain", "-o", names[2], names[1]]):
            done = subprocess.run(command, capture_output=True, text=True)
            said += done.stderr + (f"{command[0]}: status {done.returncode}" if done.returncode else "")
        return said.strip()


def broken():
    """Words that go on after a macro: xgettext, which knows no macros, would take the first half alone."""
    call = re.compile(r'\b(?:N|C|NC)?_ ?\(\s*(?:"(?:[^"\\]|\\.)*"\s*)+[A-Za-z_]')
    for path in sources():
        with open(os.path.join(top, path), encoding="utf-8") as file:
            for found in call.finditer(file.read()):
                yield f"{path}: {found[0]}"


def passing_by():
    """Words below the workbench that would stay in the screen's language on paper of another."""
    for path in sources():
        if path.startswith(("src/workbench/", "src/geometry/language.")) or not path.endswith((".c", ".h")):
            continue
        with open(os.path.join(top, path), encoding="utf-8") as file:
            for found in re.finditer(r"gi18n|\bg?_?d[cnp]*gettext\w*", file.read()):
                yield f"{path}: {found[0]}"


def checks():
    files = listed(top)
    wanted = DATA + holders()
    missing = sorted(set(wanted) - set(files))
    yield "every file with words to translate is listed", not missing, missing
    idle = sorted(set(files) - set(wanted))
    yield "no file without such words is listed", not idle, idle
    yield "the list is in order, each file once", files == sorted(set(files)), "strings-are-listed.py . --write puts it in order"
    template, said = xgettext(top, [path for path in files if os.path.exists(os.path.join(top, path))])
    yield "xgettext has nothing to say", not said, said
    yield "there are words to translate", template.count("\nmsgid ") > 300, template.count("\nmsgid ")
    halves = list(broken())
    yield "no words are cut in two by a macro", not halves, halves
    past = list(passing_by())
    yield "below the workbench all words go through geometry/language.h", not past, past
    said = understands(template)
    yield "msgfmt has nothing to say", not said, said


if "--write" in sys.argv[2:]:
    with open(listing, "w", encoding="utf-8") as file:
        file.write("\n".join(sorted(DATA + holders())) + "\n")
    sys.exit()

number = failed = 0
for number, (name, good, why) in enumerate(checks(), 1):
    print(f"{'ok' if good else 'not ok'} {number} - {name}")
    if not good:
        failed = 1
        print("# " + str(why).replace("\n", "\n# "))
print(f"1..{number}")
sys.exit(failed)
