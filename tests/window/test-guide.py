"""The guide: F1 opens it at the page of the place one is at, beside a dialog too; its pictures and links."""
import os
import re

import scenes
import sight
from window import Atspi, check, run_checks, text_of, until

TITLES = {}
GUIDE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "help", "C")
for name in os.listdir(GUIDE):
    if name.endswith(".page"):
        text = open(os.path.join(GUIDE, name), encoding="utf-8").read()
        TITLES[name[:-5]] = re.search(r"</info>\s*<title>(.*?)</title>", text, re.DOTALL)[1]


def harbour(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path)
    window.until_plan("^3 hoopings, proven fewest")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    return window


def f1_shows(window, page):
    """F1 opens the guide at that page; Escape puts the guide away again, and nothing else."""
    before = len(window.frames())
    window.settled()
    on_screen = len(window.on_screen())
    window.key("F1")
    shown = until(lambda: window.look(None, "Page of the guide"), f"the guide opens for {page}")[0]
    until(lambda: text_of(shown).startswith(TITLES[page]), f"F1 leads to {page}, not to '{text_of(shown)[:40]}'")
    until(lambda: len(window.on_screen()) == on_screen + 1, "the guide is on the screen: what goes before it came may come after it went")
    window.key("Escape")
    until(lambda: len(window.frames()) == before, "the guide closes, and what was open stays")
    until(lambda: len(window.on_screen()) == on_screen, "the guide is off the screen: a click that comes before is its own")


@check
def each_view_has_its_page(open_window):
    window = harbour(open_window)
    f1_shows(window, "composing")
    window.click_cloth((460, 340))
    window.until_field("Name of the motif", "Buoy")
    f1_shows(window, "arranging")
    window.click_cloth((560, 200))  # bare cloth: nothing is selected
    window.gone(None, "Name of the motif")
    window.key("ctrl+Next")
    f1_shows(window, "hoopings")
    window.key("Escape")
    window.menu("How dense the stitching lies")
    f1_shows(window, "density")
    window.menu("How dense the stitching lies")
    window.click(window.find(None, "Why not fewer?", window.foot()))
    window.until_reads("can never share a hooping, two by two")
    f1_shows(window, "why")
    window.key("Escape")
    window.key("F8")
    window.until_reads("^Next: hooping 1 of 3")
    f1_shows(window, "at-the-machine")
    window.key("F8")
    window.menu("Start page")
    window.until_reads("^The Walled Garden$")
    f1_shows(window, "first-scene")


@check
def each_section_of_the_side_pane_has_its_page(open_window):
    window = harbour(open_window)
    sections = {"Stitch order": "stitch-order", "My motifs": "artwork", "Parts": "parts", "Photo": "photo", re.compile("^Plan for"): "wishes", "Hoopings": "hoopings",
                "Scene": "own-scene"}
    for section, page in sections.items():
        window.click(window.find("push button", section))
        f1_shows(window, page)


@check
def each_dialog_has_its_page_and_stays_open_beneath_the_guide(open_window):
    window = harbour(open_window)
    dialogs = {"ctrl+p": "templates", "ctrl+n": "own-scene", "Hoops…": "own-scene", "Cloth and edge line…": "own-scene", "Marks to draw…": "marks",
               "Threads at hand…": "threads-at-hand", "Take along…": "take-along", "What it takes…": "supplies", "Measure the cloth…": "draw-in", "Log of the days…": "at-the-machine",
               "Earlier states…": "keeping"}
    for ask, page in dialogs.items():
        before = len(window.frames())
        window.menu(ask) if "+" not in ask else window.key(ask)
        until(lambda: len(window.frames()) > before, f"{ask} opens")
        f1_shows(window, page)
        window.key("Escape")
        until(lambda: len(window.frames()) == before, f"{ask} closes")


@check
def pages_show_their_pictures_and_their_list_is_whole(open_window):
    window = harbour(open_window)
    window.key("F1")
    page = until(lambda: window.look(None, "Page of the guide"), "the guide opens")[0]
    rows = until(lambda: window.look("list item", None, window.find(None, "Pages of the guide")), "its pages are listed")
    titles = [window.texts(row)[0] for row in rows]
    assert set(titles) == {title for name, title in TITLES.items() if name not in ("index", "commands")}, titles
    window.click(rows[titles.index(TITLES["first-scene"])])
    until(lambda: text_of(page).startswith(TITLES["first-scene"]), "the page shows")
    x, y, width, height = map(round, window.box(page))

    def colours():
        """Letters are grey; a picture of cloth and thread is not."""
        part = sight.screen()[max(y, 0):y + min(height, 560), x:x + width].reshape(-1, 3).astype(int)
        return len({tuple(pixel) for pixel in part[::7] if max(pixel) - min(pixel) > 40})

    until(lambda: colours() > 60, "the page shows a picture in its colours")
    window.click(rows[titles.index(TITLES["keyboard"])])
    until(lambda: text_of(page).startswith(TITLES["keyboard"]), "a page without pictures shows")
    until(lambda: colours() < 20, "and no picture is left")


@check
def links_are_gone_to_and_followed_by_keys(open_window):
    window = harbour(open_window)
    window.key("F1")
    page = window.find(None, "Page of the guide")
    until(lambda: text_of(page).startswith(TITLES["composing"]), "the guide is at the page of the table")
    until(lambda: any(row.get_state_set().contains(Atspi.StateType.FOCUSED) for row in window.look("list item")), "its row has the focus")
    window.key("Tab")  # from the list of pages into the page
    until(lambda: page.get_state_set().contains(Atspi.StateType.FOCUSED), "the page has the focus")

    def selected():
        begin, end = page.get_selection()
        return text_of(page)[begin - 1:end - 1]  # the picture above counts as a letter, but is none of the text

    seen = []
    for _ in range(2):
        window.key("Tab")
        until(lambda: selected() and selected() not in seen, "another link is selected")
        seen.append(selected())
    assert seen == ["come to rest at lines", "warned"], seen
    window.key("shift+Tab")
    until(lambda: selected() == seen[0], "and the one before")
    window.key("Return")
    until(lambda: text_of(page).startswith(TITLES["arranging"]), "the link is followed")
    window.key("alt+Left")
    until(lambda: text_of(page).startswith(TITLES["composing"]), "and one comes back")


@check
def who_works_in_german_reads_it_in_german(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path, environment={"LANGUAGE": "de"})
    window.find(None, "Der Verlauf: eine Perle für jede Einspannung")
    window.key("F1")
    page = window.find(None, "Seite der Anleitung")
    until(lambda: text_of(page).startswith("Motive bewegen, drehen und ihre Größe ändern"), "the page is in German")
    window.until_reads("^Ablesungen und Korrekturen$")


run_checks()
