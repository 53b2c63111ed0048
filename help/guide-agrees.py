"""The pages of the guide are the same everywhere: in the folder, the build, the program and its window of the guide; each picture that is there is used, and each that is used is there.

Usage: guide-agrees.py TOP
"""
import os
import re
import sys
import xml.etree.ElementTree as tree

top = sys.argv[1]
guide = os.path.join(top, "help", "C")


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
    inside = set(re.findall(r"<file>(.*?)</file>", read("src", "workbench", "guide.gresource.xml")))
    wanted = {page + ".page" for page in pages - {"index"}} | {f"figures/{name}.png" for name in figures}
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


number = failed = 0
for number, (name, good, why) in enumerate(checks(), 1):
    print(f"{'ok' if good else 'not ok'} {number} - {name}")
    if not good:
        failed = 1
        print(f"# {why}")
print(f"1..{number}")
sys.exit(failed)
