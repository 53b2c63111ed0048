"""The workbench in every language it speaks, in a large and in a small window: no text is cut off, and nothing is left in English.

What is cut off is told by a witness inside the program; what is left in English by comparison: each view is shown in English first, and a text that reads the
same in the other language must be one that the catalogue means to be the same, or a name the person gave."""
import gettext
import os
import re

import desk

desk.run_on_desk(1366, 860)

import scenes  # noqa: E402
from views import Views  # noqa: E402
from window import check, run_checks, until  # noqa: E402

PO = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "po")
GUIDE = os.path.join(PO, "..", "help")
CATALOGUES = os.environ.get("HOOPWRIGHT_CATALOGUES", "")
SIZES = [(1280, 800), (1024, 700)]
# A name the person gave may be cut, where its row, its card or its heading has no more room; so may the path in the list of files.
NAMES = re.compile(r"order-row|scene-title|scene-state|card-picture|caption-line|library|scene-words|\.reason|machine-strip")
FIGURE = re.compile(r"%[^a-zA-Z%]*([a-zA-Z%])")
WORD = re.compile(r"[^\W\d_]{3,}")


def languages():
    with open(os.path.join(PO, "LINGUAS"), encoding="utf-8") as listed:
        return [line.strip() for line in listed if line.strip() and not line.startswith("#")]


def catalogue_of(language):
    """What the catalogue says of each text."""
    place = os.path.join(CATALOGUES, language, "LC_MESSAGES", "hoopwright.mo")
    with open(place, "rb") as whole:
        return gettext.GNUTranslations(whole)._catalog


def given_names(scene):
    """Texts that stand in the scene itself."""
    names = {scene["name"], "Hoopwright"}
    for motif in scene["motifs"]:
        names.add(motif["name"])
        names.update(thread["name"] for thread in motif["threads"])
    names.update(hoop["name"] for hoop in scene["hoops"])
    return names


def tour(views, visit):
    """Shows every view and calls visit with its name and what the witness sees."""
    visit("table", views.witness())
    views.unfold_all()
    views.do("select-all")
    visit("several motifs", views.witness())
    views.select_motif()
    visit("motif", views.witness())
    for name, _ in views.dialogs():
        visit(name, views.witness())
    for step in views.machine():
        visit(f"machine, step {step}", views.witness())


def open_views(open_window, language, size, scene=True):
    views = Views(open_window, scene=scene, LANGUAGE=language)
    views.window.resize(*size)
    return views


tours = {}


def tour_of(open_window, language, size):
    """Each view's name and what the witness sees there; a tour that was made is not made again."""
    if (language, size) not in tours:
        seen = []
        views = open_views(open_window, language, size)
        tour(views, lambda *view: seen.append(view))
        views.end()
        tours[language, size] = seen
    return tours[language, size]


def cut_texts(seen):
    for one in seen:
        whole_is_told = one["text"] in one["tip"]
        if one["cut"] and not whole_is_told and not NAMES.search(one["place"]):
            yield f"'{one['text'][:70]}' is {one['cut']} ({one['place']})"


def readable(seen):
    """Every text in sight, labels and tooltips."""
    for one in seen:
        for text in (one["text"] if one["kind"] == "label" else "", one["tip"]):
            if WORD.search(text):
                yield text


def nothing_is_cut(open_window, language, size):
    faults = {}
    for view, seen in tour_of(open_window, language, size):
        for fault in cut_texts(seen):
            faults.setdefault(fault, view)
    assert not faults, f"{len(faults)}: " + "\n".join(f"{view}: {fault}" for fault, view in faults.items())


def the_start_page_is_whole(open_window, language, size):
    views = open_views(open_window, language, size, scene=None)
    faults = list(cut_texts(views.witness()))
    assert not faults, "\n".join(faults)


english = set()  # every text of every view, read once


def pattern_of(text):
    """What a format may read."""
    pattern = ""
    for words, figure in zip(FIGURE.split(text)[::2], FIGURE.findall(text) + [""]):
        pattern += re.escape(words) + {"": "", "%": "%", "s": ".*"}.get(figure, r"[\d.,]+")
    return pattern


def everything_is_said(open_window, language):
    if not english:
        for _, seen in tour_of(open_window, "en", SIZES[0]):
            english.update(readable(seen))
        assert len(english) > 150, len(english)
    said = catalogue_of(language)
    same = set()
    for key, text in said.items():
        number, english_text = isinstance(key, tuple), (key[0] if isinstance(key, tuple) else key).split("\4")[-1]
        if text and text in (english_text, english_text + "s" if number else english_text):  # of what is counted, the catalogue keeps the English singular alone
            same.add(text)
    # "Version %s" reads the same in German whatever the version. Of those without a word, such as "%u %s", each part is told by itself.
    formats = [pattern_of(text) for text in same if "%" in text and WORD.search(FIGURE.sub("", text))]
    meant = re.compile("^(" + "|".join(formats or ["(?!)"]) + ")$")
    names = given_names(scenes.harbour())
    left = {}

    def compare(view, seen):
        if view == "help" and not os.path.exists(os.path.join(GUIDE, language, "index.page")):
            return  # the guide is not written in this language: it is shown in English
        for text in readable(seen):
            bare = meant.sub(" ", text)
            for name in sorted(names | same, key=len, reverse=True):
                bare = bare.replace(name, " ")
            if text in english and WORD.search(re.sub(r"/\S+|<[^>]+>", " ", bare)):
                left.setdefault(text, view)

    for view, seen in tour_of(open_window, language, SIZES[0]):
        compare(view, seen)
    assert not left, f"{len(left)} texts left in English: " + "\n".join(f"{view}: '{text[:80]}'" for text, view in left.items())


def letters_may_be_twice_as_large(open_window):
    faults = {}
    scene = scenes.harbour()
    scene["hoops"][0]["name"] = "The large round hoop"
    views = Views(open_window, scene=scene, HOOPWRIGHT_WITNESS_DPI=str(2 * 96 * 1024))
    until(lambda: any("card" in one["place"] for one in views.witness()), "the pane is there")
    views.unfold_all()
    views.select_motif()
    for view, seen in [("table", views.witness()), *((f"machine, step {step}", views.witness()) for step in views.machine())]:
        for fault in cut_texts(seen):
            faults.setdefault(fault, view)
    assert not faults, f"{len(faults)}: " + "\n".join(f"{view}: {fault}" for fault, view in faults.items())


def declare(name, function, *arguments):
    def one(open_window):
        function(open_window, *arguments)

    one.__name__ = name
    check(one)


for spoken in ["en"] + languages():
    # The large window has room for whatever the small one has; English alone is looked at in both.
    for width, height in SIZES if spoken == "en" else SIZES[1:]:
        declare(f"in_{spoken}_at_{width}_by_{height}_no_text_is_cut", nothing_is_cut, spoken, (width, height))
    declare(f"in_{spoken}_the_start_page_is_whole", the_start_page_is_whole, spoken, SIZES[1])
    if spoken != "en":
        declare(f"in_{spoken}_nothing_is_left_in_english", everything_is_said, spoken)

declare("letters_may_be_twice_as_large", letters_may_be_twice_as_large)

run_checks()
