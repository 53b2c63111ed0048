"""Scenes of others: what lies outside the scene's folder is read when the person says so, and a newer program's file is never saved over."""
import json
import os
import sys

import scenes
from window import check, run_checks, until

sys.path.append(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "safety"))
import hostile  # noqa: E402

QUIET = os.environ.get("HOOPWRIGHT_QUIET_LIBRARY")

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
    window.type_path(path)
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


def read_log(path):
    if not os.path.exists(path):
        return ""
    with open(path, encoding="utf-8") as kept:
        return kept.read()


@check
def nothing_reaches_for_the_network(open_window):
    """What keeps watch is itself watched by tests/safety/no-network.py."""
    folder = scenes.folder()
    log, paper = os.path.join(folder, "log"), os.path.join(folder, "orchard.pdf")
    path, _ = hostile.write(folder)
    window = open_window(path, environment={"LD_PRELOAD": QUIET, "HOOPWRIGHT_QUIET_LOG": log})
    window.until_plan("hooping")
    window.until_reads("^This scene names 5 files outside its folder")
    window.key("ctrl+p")
    window.choose_file(lambda: window.click(window.find("push button", "Save as PDF…")), paper)
    until(lambda: os.path.exists(paper), "the paper is written")
    assert not read_log(log), read_log(log)


@check
def a_scene_on_the_network_is_not_fetched(open_window):
    log = os.path.join(scenes.folder(), "log")
    window = open_window("http://127.0.0.1:9/far.hoopscene", environment={"LD_PRELOAD": QUIET, "HOOPWRIGHT_QUIET_LOG": log})
    window.until_reads("^This place cannot be read directly")
    assert not read_log(log), read_log(log)


run_checks()
