"""Every language in LINGUAS says everything the program says, in full and with the same figures.

Usage: catalogues-are-whole.py SOURCE-FOLDER [--update]
With --update the .po files take up new words, still empty, and drop old ones; what is missing is printed.
"""
import os
import re
import subprocess
import sys
import tempfile

from template import listed, xgettext

top = sys.argv[1]
SPACELESS = {"ja"}  # its full stops and commas hold their own space
ESCAPES = {"n": "\n", "t": "\t"}
JOINTS = " \n\t"  # the narrow space of French before ; is a sign of its sentence
SIGNS = ("between thousands",)  # contexts of signs within figures, which may be a space themselves: "12 400"


def entries(text):
    """The entries of a .po file: what stands under each keyword, and whether it is marked fuzzy."""
    for block in re.split(r"\n\s*\n", text):
        entry, key = {"fuzzy": False}, None
        for line in block.split("\n"):
            found = re.match(r'(msg[a-z_]+(?:\[\d\])?)? ?"(.*)"$', line)
            entry["fuzzy"] |= line.startswith("#,") and "fuzzy" in line
            if found:
                key = found[1] or key
                entry[key] = entry.get(key, "") + re.sub(r"\\(.)", lambda sign: ESCAPES.get(sign[1], sign[1]), found[2])
        if entry.get("msgid"):
            yield entry


def forms(entry):
    return [value for key, value in entry.items() if key.startswith("msgstr")]


def merged(language):
    """The catalogue brought up to date with the program's words, and what the tools had to say."""
    with tempfile.TemporaryDirectory() as folder:
        template = os.path.join(folder, "all.pot")
        with open(template, "w", encoding="utf-8") as file:
            file.write(xgettext(top, listed(top))[0])
        command = ["msgmerge", "--quiet", "--no-fuzzy-matching", "--add-location=file", "-o", "-", catalogue(language), template]
        done = subprocess.run(command, capture_output=True, text=True)
        return done.stdout, done.stderr.strip()


def catalogue(language):
    return os.path.join(top, "po", language + ".po")


def ends(text, language=None):
    """The white space around a text: sentences are joined by it; by line ends alone where a language sets no spaces between words."""
    around = text[:len(text) - len(text.lstrip(JOINTS))], text[len(text.rstrip(JOINTS)):]
    return tuple(space.replace(" ", "") for space in around) if language in SPACELESS else around


def is_sentence(text):
    return len(re.findall(r"[a-z]{3,}", text)) > 3 and "|" not in text


def checks(language):
    text, said = merged(language)
    yield "can be merged", text and not said, said
    words = list(entries(text))
    missing = [entry["msgid"] for entry in words if entry["fuzzy"] or not all(forms(entry))]
    yield "says everything", words and not missing, "\n".join(missing)
    same = [entry["msgid"] for entry in words if is_sentence(entry["msgid"]) and entry["msgid"] in forms(entry)]
    yield "leaves no sentence as it is", not same, "\n".join(same)
    spoken = [entry for entry in words if entry.get("msgctxt") not in SIGNS]
    loose = [entry["msgid"] for entry in spoken if any(form and ends(form, language) != ends(entry["msgid"], language) for form in forms(entry))]
    yield "keeps the spaces that join sentences", not loose, "\n".join(loose)
    done = subprocess.run(["msgfmt", "--check", "-o", os.devnull, "-"], input=text, capture_output=True, text=True)
    yield "has the same figures in its sentences", done.returncode == 0 and not done.stderr, done.stderr


def update(language):
    text, _ = merged(language)
    text = re.sub(r"\n#~(?:.*\n?)*", "\n", text)
    with open(catalogue(language), "w", encoding="utf-8") as file:
        file.write(text.rstrip() + "\n")
    for entry in entries(text):
        if not all(forms(entry)):
            print(f"{language}: {entry['msgid']}")


if "--update" in sys.argv[2:]:
    for one in listed(top, "LINGUAS"):
        update(one)
    sys.exit()

number = failed = 0
for one in listed(top, "LINGUAS"):
    for name, good, why in checks(one):
        number += 1
        print(f"{'ok' if good else 'not ok'} {number} - {one} {name}")
        if not good:
            failed = 1
            print("# " + str(why).replace("\n", "\n# "))
print(f"1..{number}")
sys.exit(failed)
