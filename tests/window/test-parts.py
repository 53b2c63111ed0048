"""A scene is divided into parts: motifs are put into them, the plan and the panes follow, and one part is printed for itself."""
import re

import scenes
from window import check, run_checks, text_of, until

WALL, LIGHTHOUSE, BOAT, BUOY = (80, 90), (320, 100), (120, 122), (460, 340)
CARD = re.compile(r"^Hooping \d+: ")
THREE = "^3 hoopings, proven fewest"


def harbour(open_window, scene=None, planned=THREE):
    path = scenes.write(scenes.folder(), scene or scenes.harbour())
    window = open_window(path)
    window.until_plan(planned)
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    return window, path


def divided():
    scene = scenes.harbour()
    scene["parts"] = [{"name": "First day", "motifs": ["m4"]}, {"name": "Second day", "motifs": ["m1", "m2", "m3"]}]
    return scene


def put(window, at, name):
    """Puts the motif at a place of the cloth into a new part of that name."""
    window.click_cloth(at)
    window.menu_on_cloth(at, "Put into a part…")
    window.fill_in("Name of the new part", name)
    window.gone("text", "Name of the new part")


def hooping_of(window, name):
    """The number of the hooping that stitches the motif, as its card says; a large one while there is none."""
    cards = [card.get_name() for card in window.look(None, CARD)]
    return next((int(re.match(r"Hooping (\d+)", card).group(1)) for card in cards if name in card), 99)


def names_of_parts(window):
    return [text_of(entry) for entry in window.look(("text", "entry"), re.compile(r"^Name of part \d+$"))]


@check
def motifs_are_put_into_parts_and_the_plan_follows_them(open_window):
    window, path = harbour(open_window)
    window.fold("Scene")
    put(window, BUOY, "First day")
    put(window, WALL, "Second day")
    parts = window.saved(path)["parts"]
    assert parts == [{"name": "First day", "motifs": ["m4"]}, {"name": "Second day", "motifs": ["m1"]}], parts
    until(lambda: hooping_of(window, "Buoy") < hooping_of(window, "Sea wall") < 99, "the buoy is stitched before the wall")
    window.find("label", "First day")
    window.find("label", "Second day")
    window.key("ctrl+z")
    window.key("ctrl+z")
    until(lambda: not window.look("label", "First day"), "no part is left")
    assert not window.saved(path).get("parts")


@check
def a_part_is_renamed_moved_and_taken_apart(open_window):
    window, path = harbour(open_window, divided())
    window.menu("Parts…")
    until(lambda: names_of_parts(window) == ["First day", "Second day"], "both parts are listed")
    window.fold("Scene", "Hoopings")
    window.fill_in("Name of part 1", "Low tide")
    until(lambda: window.saved(path)["parts"][0]["name"] == "Low tide", "the part has its new name")
    window.key("ctrl+z")
    window.until_field("Name of part 1", "First day")
    window.key("ctrl+shift+z")
    window.until_field("Name of part 1", "Low tide")
    window.do(window.find("push button", "Stitch “Low tide” later"))
    until(lambda: [part["name"] for part in window.saved(path)["parts"]] == ["Second day", "Low tide"], "it is later")
    window.do(window.find("push button", "Take “Second day” apart"))
    until(lambda: names_of_parts(window) == ["Low tide"], "one part is left")
    window.key("ctrl+z")
    until(lambda: [part["name"] for part in window.saved(path)["parts"]] == ["Second day", "Low tide"], "and is back")


@check
def a_motif_that_lies_behind_an_earlier_part_is_told(open_window):
    scene = scenes.harbour()
    scene["parts"] = [{"name": "Boats", "motifs": ["m3"]}, {"name": "Walls", "motifs": ["m1"]}]
    window, _ = harbour(open_window, scene)
    window.fold("Scene", "Hoopings")
    window.unfold(re.compile("^To look at"))
    window.until_reads("Sea wall .part “Walls”. lies behind Rowing boat, which is in the earlier part “Boats”")


@check
def one_part_is_chosen_for_paper(open_window):
    window, _ = harbour(open_window, divided())
    window.key("ctrl+p")
    choice = window.find("combo box", "What of the plan")
    window.until_reads("^Page 1 of 4$")
    window.click(choice)
    window.key("Down", "Return")
    window.until_reads("^Page 1 of 1$")


run_checks()
