"""Scenes of others: what lies outside the scene's folder is read when the person says so, and a newer program's file is never saved over."""
import json
import os

import scenes
from window import check, run_checks, until

NEEDLES = "x_mm,y_mm,action,thread\n" + "".join(f"{-17 if row % 2 else 17},{row - 17},stitch,rust\n" for row in range(35))


def answer(window, label):
    button = window.find("push button", label)
    window.until_still()
    window.click(button)


@check
def artwork_elsewhere_is_read_when_the_person_allows_it(open_window):
    top, scene = scenes.folder(), scenes.harbour()
    folder = os.path.join(top, "scene")
    os.mkdir(folder)
    with open(os.path.join(top, "buoy.csv"), "w", encoding="utf-8") as out:
        out.write(NEEDLES)
    scene["motifs"][3]["artwork"] = {"path": "../buoy.csv", "kind": "needles"}
    path, state = scenes.write(folder, scene), scenes.folder()
    window = open_window(path, environment={"XDG_STATE_HOME": state})
    window.until_plan("^3 hoopings, proven fewest")
    window.until_reads(r"^This scene names 1 file outside its folder \(\.\./buoy\.csv\)")
    window.click(window.find("push button", "1 thing to look at"))
    window.until_reads(r"Buoy is drawn from its outline\. buoy\.csv: it lies outside the scene's folder")
    answer(window, "Read")
    until(lambda: not window.reads("Buoy is drawn from its outline"), "the buoy has its stitches")
    with open(os.path.join(state, "hoopwright", "chosen-files"), encoding="utf-8") as kept:
        assert kept.read().splitlines() == ["file://" + os.path.join(top, "buoy.csv")]

    window.key("ctrl+q")
    window.ended()
    window = open_window(path, environment={"XDG_STATE_HOME": state})
    window.until_plan("^3 hoopings, proven fewest")
    assert not window.reads(r"outside its folder"), "it was allowed for good"


@check
def a_newer_programs_scene_is_shown_and_never_saved_over(open_window):
    scene = scenes.harbour()
    scene["version"] = 2
    scene["weather"] = {"wind": "west"}
    path = scenes.write(scenes.folder(), scene)
    with open(path, encoding="utf-8") as kept:
        before = kept.read()
    window = open_window(path)
    window.until_plan("^3 hoopings, proven fewest")
    window.until_reads("^A newer Hoopwright wrote this scene. Its file stays as it is")
    other = os.path.join(os.path.dirname(path), "mine.hoopscene")

    frames = len(window.frames())
    window.key("ctrl+s")
    until(lambda: len(window.frames()) > frames, "a name is asked for")
    window.key("ctrl+a")
    window.type(path)
    window.key("Return")
    until(lambda: len(window.frames()) > frames + 1, "it is asked whether to replace the file")
    window.key("alt+r")
    until(lambda: len(window.frames()) == frames, "the dialogs close")
    window.until_reads("was written by a newer Hoopwright and stays as it is; save under another name")
    with open(path, encoding="utf-8") as kept:
        assert kept.read() == before

    window.choose_file(lambda: window.key("ctrl+s"), other)
    until(lambda: os.path.exists(other), "it is saved under another name")
    with open(other, encoding="utf-8") as kept:
        saved = json.load(kept)
    assert saved["version"] == 1 and saved["weather"] == {"wind": "west"}, "what is not known is kept as it was"


run_checks()
