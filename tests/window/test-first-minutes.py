"""The first five minutes: from the first start with an empty home to printed templates of a scene of one's own, counting what the hands do; the
empty cloth; the hints."""
import os
import re
import subprocess
import time

import scenes
from window import Atspi, check, is_pressed, run_checks, until, xdo

MOST_ACTIONS = 25
MOST_SECONDS = 5 * 60


class Hands:
    """A person at the window: every click, drag, key and text is written down."""

    def __init__(self, window):
        self.window, self.done = window, []

    def note(self, what):
        self.done.append(what)
        print(f"# {len(self.done):2}  {what}")

    def click(self, role, name):
        widget = self.window.find(role, name)
        # Where an open menu lies cannot be asked for; what a click on its entry does can be done.
        self.window.do(widget) if role == "menu item" else self.window.click(widget)
        self.note(f"click {role} '{getattr(name, 'pattern', name)}'")

    def type(self, text):
        self.window.type(text)
        self.note(f"type '{os.path.basename(text)}'")

    def key(self, key):
        self.window.key(key)
        self.note(f"press {key}")

    def drag_on_cloth(self, start, end):
        self.window.drag_on_cloth(start, end)
        self.note(f"drag from {start} to {end} mm")

    def fill_in(self, label, text):
        """A click into the field, three times for all that is in it, and the text."""
        field = self.window.field(label)
        x, y, width, height = self.window.box(field)
        xdo("mousemove", round(x + width * 0.3), round(y + height / 2), "click", "--repeat", "3", "--delay", "40", 1)
        self.note(f"click three times into '{label}'")
        self.type(text)
        self.window.key("Tab")

    def name_file(self, path):
        """What is asked for in a file dialog that is already there."""
        self.window.type_path(path)
        self.note(f"type '{os.path.basename(path)}'")
        before = len(self.window.frames())
        self.key("Return")
        until(lambda: len(self.window.frames()) < before, "the file dialog closes")


def needle_list(folder, name, width, height, thread):
    """A filled rectangle of rows 0.4 mm apart."""
    path = os.path.join(folder, name)
    with open(path, "w", encoding="utf-8") as out:
        out.write("x_mm,y_mm,action,thread\n")
        for row in range(int(height / 0.4) + 1):
            y = row * 0.4 - height / 2
            for step in range(int(width / 3) + 1):
                x = min(step * 3, width) - width / 2
                out.write(f"{x if row % 2 == 0 else -x:.2f},{y:.2f},stitch,{thread}\n")
        out.write(f"0,0,end,{thread}\n")
    return path


def dialog_opens(window, ask):
    before = len(window.frames())
    ask()
    until(lambda: len(window.frames()) > before, "the dialog opens")


def page_texts(path):
    words = subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True, text=True).stdout
    return words.split("\f")[:-1]


@check
def from_the_first_start_to_printed_templates_of_a_scene_of_ones_own(open_window):
    folder = scenes.folder()
    sail = needle_list(folder, "red sail.csv", 60, 80, "rust")
    hull = needle_list(folder, "hull.csv", 90, 30, "tar")
    paper = os.path.join(folder, "templates.pdf")
    kept = os.path.join(folder, "Evening harbour.hoopscene")
    began = time.monotonic()
    window = open_window()
    hands = Hands(window)

    hands.fill_in("Width of the cloth", "500")
    hands.fill_in("Height of the cloth", "400")
    hands.click("push button", "Hoop of 100 × 100 mm")
    hands.click("push button", "Lay out this cloth")

    window.until_reads("^The cloth is bare$")
    dialog_opens(window, lambda: hands.click("push button", "Add motifs…"))
    hands.name_file(sail)
    window.find("push button", re.compile("^Undo add"))
    window.until_plan("^1 hooping, proven fewest")
    window.until_reads("^Drag the motif to its place")
    window.find_cloth(500, 400, "#d8cbb0", near=12)  # as a new cloth is; the table is not far from it
    hands.drag_on_cloth((250, 200), (150, 150))
    hands.click("push button", "I see: put the hint away")

    window.do_menu_button("Menu")
    hands.note("click 'Menu'")
    dialog_opens(window, lambda: hands.click("menu item", "Add motifs…"))
    hands.name_file(hull)
    window.find("push button", "Undo add Hull")
    hands.drag_on_cloth((250, 200), (150, 200))
    window.until_plan("^1 hooping, proven fewest")

    hands.click("push button", "Print")
    window.find("check box", "Templates")
    window.until_reads("^Page 1 of ")
    dialog_opens(window, lambda: hands.click("push button", "Save as PDF…"))
    hands.name_file(paper)
    until(lambda: os.path.exists(paper) and page_texts(paper), "the PDF is written")
    hands.key("Escape")
    window.gone("push button", "Save as PDF…")

    dialog_opens(window, lambda: hands.key("ctrl+s"))
    hands.name_file(kept)
    window.until_reads("^saved$")
    seconds = time.monotonic() - began

    pages = page_texts(paper)
    assert len(pages) == 2, pages
    for page, name in zip(pages, ["Red sail", "Hull"]):
        assert name in page and "100 mm" in page, page
    # ISO 216: A4 is 210 by 297 mm; a point is 1/72 inch.
    facts = subprocess.run(["pdfinfo", paper], check=True, capture_output=True, text=True).stdout
    size = [float(figure) * 25.4 / 72 for figure in re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", facts).groups()]
    assert abs(size[0] - 210) < 0.2 and abs(size[1] - 297) < 0.2, size
    scene = window.saved(kept)
    assert scene["name"] == "Evening harbour", "a scene without a name of its own is called as its file is"
    assert [motif["name"] for motif in scene["motifs"]] == ["Red sail", "Hull"]
    assert (scene["fabric"]["width"], scene["fabric"]["height"]) == (500, 400)
    assert sorted(tuple(hoop["field"]) for hoop in scene["hoops"]) == [(100, 100), (130, 180)]
    print(f"# {len(hands.done)} actions, {seconds:.1f} s")
    assert len(hands.done) < MOST_ACTIONS, f"{len(hands.done)} actions"
    assert seconds < MOST_SECONDS, f"{seconds:.0f} s"


def at_bare_cloth(open_window):
    window = open_window()
    window.click(window.find("push button", "Lay out this cloth"))
    window.until_reads("^The cloth is bare$")
    return window


@check
def an_empty_cloth_says_what_to_do_until_there_is_a_motif(open_window):
    window = at_bare_cloth(open_window)
    window.click(window.find("push button", re.compile("^Borrow the wren")))
    window.find("push button", "Undo add Wren")
    window.gone("push button", re.compile("^Borrow the wren"))
    window.until_plan("^1 hooping, proven fewest")
    window.key("ctrl+z")
    window.find("push button", re.compile("^Borrow the wren"))


@check
def an_outline_is_drawn_on_an_empty_cloth(open_window):
    window = at_bare_cloth(open_window)
    window.click(window.find("push button", "Draw an outline…"))
    window.click(window.find("push button", "Use this outline"))
    window.gone("push button", "Use this outline")
    window.until_field("Name of the motif", "Outline")
    window.until_plan("^1 hooping, proven fewest")


def settled(open_window, config, **more):
    """A program whose settings stay, from one start to the next."""
    return open_window(environment={"GSETTINGS_BACKEND": "keyfile", "XDG_CONFIG_HOME": config, **more})


def with_a_wren(open_window, config):
    window = settled(open_window, config)
    window.click(window.find("push button", "Lay out this cloth"))
    window.click(window.find("push button", re.compile("^Borrow the wren")))
    window.until_plan("^1 hooping, proven fewest")
    window.until_field("Name of the motif", "Wren")
    return window


def leave(window):
    window.key("ctrl+q")
    window.click(window.find("push button", "Leave without saving"))
    assert window.ended() == 0


@check
def a_hint_that_was_put_away_stays_away_until_it_is_brought_back(open_window):
    config = scenes.folder()
    window = with_a_wren(open_window, config)
    window.until_reads("^Drag the motif to its place")
    window.click(window.find("push button", "I see: put the hint away"))
    window.gone("push button", "I see: put the hint away")
    leave(window)

    window = with_a_wren(open_window, config)
    window.until_still()
    assert not window.reads("^Drag the motif")
    window.menu("Show the hints again")
    window.until_reads("^Drag the motif to its place")
    window.click(window.find("push button", "No more hints"))
    window.gone("push button", "No more hints")
    window.key("F8")
    window.until_reads("^At the machine$")
    assert not window.look("push button", "No more hints")
    leave(window)

    window = with_a_wren(open_window, config)
    window.until_still()
    assert not window.look("push button", "No more hints")


@check
def a_motif_given_to_the_program_lies_on_a_cloth_with_a_hoop(open_window):
    window = open_window(needle_list(scenes.folder(), "hull.csv", 90, 30, "tar"))
    window.find("push button", "Undo add Hull")
    window.until_plan("^1 hooping, proven fewest")


@check
def a_scene_opened_by_name_shows_no_hints(open_window):
    window = open_window(scenes.write(scenes.folder(), scenes.harbour()))
    window.until_plan("^3 hoopings, proven fewest")
    window.until_still()
    assert not window.look("push button", "No more hints")


@check
def hoops_and_unit_are_remembered_for_the_next_scene(open_window):
    config = scenes.folder()
    window = settled(open_window, config)
    window.click(window.find("push button", "Inches"))
    window.click(window.find("push button", re.compile("^Hoop of 5.12")))  # 130 x 180 mm, chosen at first
    window.click(window.find("push button", re.compile("^Hoop of 7.87 × 11.8")))
    window.click(window.find("push button", "Lay out this cloth"))
    window.until_reads("^The cloth is bare$")
    window.key("ctrl+q")
    assert window.ended() == 0

    window = settled(open_window, config)
    until(lambda: is_pressed(window.find("push button", "Inches")), "inches are chosen")
    chosen = [button.get_name() for button in window.look("push button", re.compile("^Hoop of")) if is_pressed(button)]
    assert len(chosen) == 1 and chosen[0].startswith("Hoop of 7.87"), chosen


@check
def without_a_hoop_there_is_no_scene_to_begin(open_window):
    window = open_window()
    window.click(window.find("push button", "Hoop of 130 × 180 mm"))
    window.until_reads("^Choose the hoops that you own")
    begin = window.find("push button", "Lay out this cloth")
    assert not begin.get_state_set().contains(Atspi.StateType.SENSITIVE)


@check
def the_keyboard_alone_reaches_every_control_of_the_start_page(open_window):
    window = open_window()
    window.find("push button", re.compile("^The Orchard Frieze"))

    def focused():
        return next((widget.get_name() or widget.get_parent().get_name() for widget in window.walk()
                     if widget.get_state_set().contains(Atspi.StateType.FOCUSED)), None)

    wanted = {"Width of the cloth", "Height of the cloth", "Hoop of 100 × 100 mm", "Hoop of 200 × 300 mm", "Another size", "Millimetres",
              "Lay out this cloth", "Open a scene…", "Read the guide", "Menu"}
    seen = set()
    for _ in range(40):
        seen.add(focused())
        if wanted <= seen and any(name and name.startswith("The Walled Garden") for name in seen):
            break
        window.key("Tab")
        time.sleep(0.05)
    assert wanted <= seen, wanted - seen
    assert any(name and name.startswith("The Walled Garden") for name in seen), seen


run_checks()
