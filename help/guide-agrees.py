"""The pages of the guide are the same everywhere: in the folder, the build, the program and its window of the guide, and in each language; each picture that is there is used, and
each that is used is there. A translation has the pages, the sections, the links and the examples of the English one, and calls what is on the screen as the program does in that language.

Usage: guide-agrees.py TOP
"""
import os
import re
import sys
import xml.etree.ElementTree as tree

top = sys.argv[1]
guide = os.path.join(top, "help", "C")
TITLE = "{http://projectmallard.org/1.0/}title"
LANGUAGE = "{http://www.w3.org/XML/1998/namespace}lang"


def read(*place):
    with open(os.path.join(top, *place), encoding="utf-8") as text:
        return text.read()


def checks():
    pages = {name[:-5] for name in os.listdir(guide) if name.endswith(".page")}
    figures = {name[:-4] for name in os.listdir(os.path.join(guide, "figures")) if name.endswith(".png")}
    build = read("help", "meson.build")
    listed = set(re.findall(r"'([\w-]+)'", re.search(r"guide_pages = \[(.*?)\]", build, re.DOTALL)[1]))
    yield "the build knows every page", listed == pages, listed ^ pages
    drawn = set(re.findall(r"'([\w-]+)'", re.search(r"guide_figures = \[(.*?)\]", build, re.DOTALL)[1]))
    yield "the build knows every picture", drawn == figures, drawn ^ figures
    inside = set(re.findall(r'<file alias="(.*?)">', read("src", "workbench", "guide.gresource.xml")))
    languages = {name for name in os.listdir(os.path.join(top, "help")) if os.path.exists(os.path.join(top, "help", name, "index.page"))} - {"C"}
    built = set(re.findall(r"'(\w+)'", re.search(r"foreach language : \[(.*?)\]", build)[1]))
    yield "the build knows every language", built == languages | {"C"} and languages, built ^ languages
    wanted = {page + ".page" for page in pages - {"index"}} | {f"figures/{name}.png" for name in figures}
    wanted |= {f"{language}/{page}.page" for language in languages for page in pages - {"index"}}
    yield "the program holds every page and picture", inside == wanted, inside ^ wanted
    offered = set(re.findall(r'"([\w-]+)"', re.search(r"pages\[\]\s*=\s*\{(.*?)\}", read("src", "workbench", "help-window.c"), re.DOTALL)[1]))
    yield "its window offers every page but those for the terminal", offered == pages - {"index", "commands"}, offered ^ pages
    marked = set()
    for name in os.listdir(os.path.join(top, "src", "workbench")):
        if name.endswith(".c"):
            marked |= set(re.findall(r'hw_help_mark \([^;]*?"([\w-]+)"\)', read("src", "workbench", name)))
    yield "F1 leads to pages that are there", len(marked) > 10 and marked <= pages, marked - pages

    used, mute = set(), []
    for page in sorted(pages):
        for media in tree.parse(os.path.join(guide, page + ".page")).iter("{http://projectmallard.org/1.0/}media"):
            used.add(media.get("src"))
            if not "".join(media.itertext()).strip():
                mute.append((page, media.get("src")))
    there = {f"figures/{name}.png" for name in figures}
    yield "every picture is used, and every one used is there", used == there and len(there) > 8, used ^ there
    yield "each is told in words too", not mute, mute
    large = {name: os.path.getsize(os.path.join(guide, name)) for name in there if os.path.getsize(os.path.join(guide, name)) > 250000}
    yield "none is larger than 250 kB", not large, large
    for language in sorted(languages):
        yield from translation_checks(language, pages)


def words_of(element):
    return " ".join("".join(element.itertext()).split())


def page_of(language, page):
    return tree.parse(os.path.join(top, "help", language, page + ".page")).getroot()


def skeleton(root):
    """The elements in their order with what is no language: ids, links, pictures; and what is typed or printed, word by word."""
    for element in root.iter():
        kept = words_of(element) if element.tag.rpartition("}")[2] in ("screen", "code", "cmd", "file", "var") else None
        yield element.tag, {key: value for key, value in element.items() if key != LANGUAGE}, kept


def said_in(language):
    """What the program says in a language, by what it says in English, both without access keys."""
    said = {}
    for block in re.split(r"\n\s*\n", read("po", language + ".po")):
        entry = {}
        for line in block.split("\n"):
            found = re.match(r'(msg[a-z_]+(?:\[\d\])?)? ?"(.*)"$', line)
            if found:
                key = found[1] or key
                entry[key] = entry.get(key, "") + found[2].replace('\\"', '"')
        if entry.get("msgid"):
            said.setdefault(entry["msgid"].replace("_", ""), set()).add((entry.get("msgstr") or entry.get("msgstr[0]", "")).replace("_", ""))
    return said


def translation_checks(language, pages):
    there = {name[:-5] for name in os.listdir(os.path.join(top, "help", language)) if name.endswith(".page")}
    yield f"{language} has every page", there == pages, there ^ pages
    said = said_in(language)
    unmarked, other, called, titled = [], [], [], []
    titles = {page: (words_of(page_of("C", page).find(TITLE)), words_of(page_of(language, page).find(TITLE))) for page in sorted(pages & there)}
    for page in titles:
        english, translated = page_of("C", page), page_of(language, page)
        if translated.get(LANGUAGE) != language:
            unmarked.append(page)
        first, second = list(skeleton(english)), list(skeleton(translated))
        if first != second:
            other.append((page, next(((a, b) for a, b in zip(first, second) if a != b), "one is longer")))
            continue
        for one, two in zip(english.iter(), translated.iter()):
            was, now = words_of(one), words_of(two)
            if one.tag.endswith("}gui") and was in said and now not in said[was]:
                called.append((page, was, now, said[was]))
            target = one.get("xref", "") if one.tag.endswith("}link") else ""
            if target in titles and was == titles[target][0] and now != titles[target][1]:
                titled.append((page, now, titles[target][1]))
    yield f"each page in {language} says that it is", not unmarked, unmarked
    yield f"{language} is built as the English one, with the same examples", not other, other
    yield f"{language} calls what is on the screen as the program does", not called, called
    yield f"a link by a page's title has its title in {language}", not titled, titled


number = failed = 0
for number, (name, good, why) in enumerate(checks(), 1):
    print(f"{'ok' if good else 'not ok'} {number} - {name}")
    if not good:
        failed = 1
        print(f"# {why}")
print(f"1..{number}")
sys.exit(failed)
