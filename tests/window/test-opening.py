"""Opening: the start page, scenes by name, files that are no scenes, and work that is not saved yet."""
import os
import re
import time

import scenes
from window import SLOWER, check, read_scene, run_checks, until

DEMO = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "data", "demo")


@check
def the_first_start_invites_and_the_walled_garden_opens_planned_with_one_click(open_window):
    window = open_window()
    garden = window.find("push button", re.compile("^The Walled Garden"))
    assert not window.look("push button", "Print") and not window.look("push button", "Undo"), "nothing to print yet"
    window.click(garden)
    window.until_reads("^The Walled Garden$")
    sentence = window.until_plan(r"\d+ hoopings?, proven fewest")
    assert "thread changes" in sentence, sentence
    window.until_reads("^a new scene, no file yet$")


@check
def every_control_of_the_start_page_has_a_name(open_window):
    window = open_window()
    window.find("push button", re.compile("^The Orchard Frieze"))
    roles = ("push button", "toggle button", "spin button", "text", "check box", "combo box", "link")
    controls = [widget for role in roles for widget in window.look(role)]
    assert len(controls) > 12, len(controls)
    nameless = [widget.get_role_name() for widget in controls if not widget.get_name() and not widget.get_parent().get_name()]
    assert not nameless, nameless


@check
def the_start_page_comes_back_over_a_scene_and_lists_what_was_open(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour(), "low tide.hoopscene")
    window = open_window(path)
    window.until_plan("^3 hoopings")
    window.menu("Start page")
    window.find("push button", "Back to “Harbour at Low Tide”")
    card = window.find("push button", "low tide, today")
    window.key("Escape")
    window.until_plan("^3 hoopings")
    window.menu("Start page")
    card = window.find("push button", "low tide, today")
    window.click(card)
    window.until_reads("^saved$")
    window.until_plan("^3 hoopings")


@check
def the_demo_scenes_hold_eleven_and_twenty_four_motifs_and_nothing_to_look_at(open_window):
    for name, motifs in (("walled-garden", 11), ("orchard-frieze", 24)):
        window = open_window(os.path.join(DEMO, name + ".hoopscene"))
        window.until_plan(r"^\d+ hoopings, proven fewest")
        until(lambda: f"{motifs} motifs, " in window.table().get_description(), f"{motifs} motifs are on the table")
        assert not window.reads("to look at$", window.foot())
        window.key("ctrl+q")
        assert window.ended() == 0


@check
def a_scene_named_on_the_command_line_is_opened(open_window):
    window = open_window(scenes.write(scenes.folder(), scenes.harbour()))
    window.until_reads("^Harbour at Low Tide$")
    window.until_reads("^saved$")
    window.until_plan("^3 hoopings, proven fewest")


@check
def files_that_are_no_scenes_are_answered_with_a_sentence(open_window):
    folder = scenes.folder()
    troubles = scenes.broken()
    paths = [scenes.write(folder, text, f"{trouble}.hoopscene") for trouble, text in troubles.items()]
    paths.append(os.path.join(folder, "not there.hoopscene"))
    window = open_window(*paths)
    until(lambda: len(window.frames()) == len(paths), "one window for each file")
    for frame in window.frames():
        said = until(lambda: [text for text in window.texts(frame) if re.search(r"\.$", text) and len(text) > 20], "a sentence")[0]
        print("#", said)
        assert not re.search(r"invalid|null|assert|json-glib|GError|!", said, re.IGNORECASE), said
    window.alive()


@check
def a_broken_file_leaves_the_scene_on_the_table_alone(open_window):
    folder = scenes.folder()
    window = open_window(scenes.write(folder, scenes.harbour()))
    scenes.write(folder, scenes.broken()["cut off"], "cut.hoopscene")
    window.until_plan("^3 hoopings")
    window.choose_file("ctrl+o", os.path.join(folder, "cut.hoopscene"))
    window.until_reads(r"cut\.hoopscene")
    assert window.reads("^Harbour at Low Tide$")
    assert window.reads("^3 hoopings")


@check
def unsaved_work_is_asked_about_before_the_window_closes(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path)
    window.until_plan("^3 hoopings")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    window.click_cloth((460, 340))
    window.key("Right")
    window.until_reads("^changed since it was saved$")

    window.key("ctrl+w")
    window.find("push button", "Go on working")
    window.key("Escape")
    window.gone("push button", "Go on working")
    window.alive()

    window.key("ctrl+w")
    window.click(window.find("push button", "Save"))
    assert window.ended() == 0
    assert read_scene(path)["motifs"][3]["position"] == [460.5, 340]


@check
def unsaved_work_can_be_let_go(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path)
    window.until_plan("^3 hoopings")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    window.click_cloth((460, 340))
    window.key("Delete")
    window.until_reads("^changed since it was saved$")
    window.key("ctrl+q")
    window.click(window.find("push button", "Leave without saving"))
    assert window.ended() == 0
    assert len(read_scene(path)["motifs"]) == 4


@check
def a_motif_whose_needle_list_is_missing_keeps_its_place(open_window):
    scene = scenes.harbour()
    scene["motifs"][3]["artwork"] = {"path": "buoy.csv", "kind": "needles"}
    path = scenes.write(scenes.folder(), scene)
    window = open_window(path)
    window.until_plan("^3 hoopings, proven fewest")
    window.click(window.find("push button", "1 thing to look at"))
    window.click(window.find("push button", re.compile("buoy.csv")))
    window.until_field("Name of the motif", "Buoy")
    assert window.saved(path)["motifs"][3]["artwork"]["path"] == "buoy.csv", "the file is still asked for"


@check
def a_crowded_cloth_is_planned_and_the_window_still_answers(open_window):
    scene = scenes.harbour()
    scene["motifs"] = [scenes.motif(n, f"Pebble {n}", (16, 12), (30 + n % 25 * 22, 30 + n // 25 * 22), ("grey", "#777777"))
                       for n in range(400)]
    path = scenes.write(scenes.folder(), scene)
    window = open_window(path)
    window.until_plan(r"^\d+ hoopings", 30)
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    began = time.monotonic()
    window.click_cloth((30, 30))
    window.key("Right")
    window.until_field("From the left", "30.5 mm")
    assert time.monotonic() - began < 5 * SLOWER, "the window answers while it plans"
    assert window.saved(path)["motifs"][0]["position"] == [30.5, 30]


run_checks()
