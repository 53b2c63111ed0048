"""Nothing a person made is lost: work comes back after the program was killed, earlier states come back, another program's change is told."""
import glob
import json
import os
import re
import signal

import artworks
import scenes
from window import check, read_scene, run_checks, until

BUOY = (460, 340)


def harbour(open_window, state, path=None):
    path = path or scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path, environment={"XDG_STATE_HOME": state})
    window.until_plan("^3 hoopings, proven fewest")
    return window, path


def kept(state):
    return glob.glob(os.path.join(state, "hoopwright", "unsaved", "*.hoopwork"))


def nudge(window):
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    window.click_cloth(BUOY)
    window.key("Right", "Right", "Right")
    window.until_reads("^changed since it was saved$")


def answer(window, label):
    """Bars slide in: the answer is clicked once they have come to rest."""
    button = window.find("push button", label)
    window.until_still()
    window.click(button)


def place_of_buoy(path):
    return [motif["position"] for motif in read_scene(path)["motifs"] if motif["name"] == "Buoy"][0]


@check
def unsaved_work_comes_back_after_the_program_was_killed(open_window):
    state = scenes.folder()
    window, path = harbour(open_window, state)
    before = place_of_buoy(path)
    nudge(window)
    until(lambda: kept(state), "the work is kept")
    window.process.send_signal(signal.SIGKILL)
    window.process.wait()
    assert place_of_buoy(path) == before, "the person's own file is as it was saved"

    window, path = harbour(open_window, state, path)
    window.until_reads("^Work on .Harbour.* was not saved when Hoopwright ended")
    answer(window, "Bring it back")
    window.until_reads("^changed since it was saved$")
    assert len(kept(state)) == 1, "it is the new window's work now"
    window.key("ctrl+s")
    window.until_reads("^saved$")
    after = place_of_buoy(path)
    assert after[0] > before[0] and after[1] == before[1], (before, after)
    assert not kept(state), "saved work is kept nowhere else"
    window.key("ctrl+q")
    assert window.ended() == 0

    window, path = harbour(open_window, state, path)
    assert not window.reads("was not saved when Hoopwright ended")


@check
def an_earlier_state_comes_back_and_can_be_undone(open_window):
    state = scenes.folder()
    window, path = harbour(open_window, state)
    first = place_of_buoy(path)
    nudge(window)
    window.key("ctrl+s")
    window.until_reads("^saved$")
    second = place_of_buoy(path)
    assert first != second

    window.menu("Earlier states…")
    window.click(window.find("push button", re.compile("^Bring back the state of")))
    window.find("push button", "Undo bring back an earlier state")
    window.key("ctrl+s")
    window.until_reads("^saved$")
    assert place_of_buoy(path) == first
    window.key("ctrl+z")
    window.key("ctrl+s")
    until(lambda: place_of_buoy(path) == second, "the state before is saved")


@check
def a_file_that_another_program_changed_is_not_saved_over_unasked(open_window):
    window, path = harbour(open_window, scenes.folder())
    scene = read_scene(path)
    scene["name"] = "Harbour at Noon"
    with open(path, "w", encoding="utf-8") as out:
        json.dump(scene, out)
    window.until_reads("was changed by another program")
    answer(window, "Keep what is here")
    nudge(window)
    window.key("ctrl+s")
    window.until_reads("Saving over it keeps")
    assert read_scene(path)["name"] == "Harbour at Noon"
    answer(window, "Save over it")
    window.until_reads("^saved$")
    assert read_scene(path)["name"] != "Harbour at Noon"

    with open(path, "w", encoding="utf-8") as out:
        json.dump(scene, out)
    window.until_reads("was changed by another program")
    answer(window, "Open it anew")
    window.until_reads("^Harbour at Noon$")


@check
def artwork_that_goes_stays_on_the_table_and_comes_back(open_window):
    folder, scene = scenes.folder(), scenes.harbour()
    needles, aside = artworks.needles(os.path.join(folder, "buoy.csv")), os.path.join(folder, "aside")
    scene["motifs"][3]["artwork"] = {"path": "buoy.csv", "kind": "needles"}
    path = scenes.write(folder, scene)
    window = open_window(path, environment={"XDG_STATE_HOME": scenes.folder()})
    window.until_plan("^3 hoopings, proven fewest")
    os.rename(needles, aside)
    window.until_reads(r"^buoy\.csv: there is no such file\. What was read of it stays on the table")
    assert not window.reads("Buoy is drawn from its outline"), "its stitches are still there"
    answer(window, "Go on working")
    until(lambda: not window.reads("stays on the table"), "it was said")
    nudge(window)
    window.key("ctrl+s")
    window.until_reads("^saved$")
    assert read_scene(path)["motifs"][3]["artwork"]["path"] == "buoy.csv", "the scene goes on naming it"

    with open(needles, "wb") as out:
        out.write(b"\x89PNG\r\n\x1a\nhalf")
    window.until_reads(r"^buoy\.csv: .*What was read of it stays on the table")
    os.rename(aside, needles)
    until(lambda: not window.reads("stays on the table"), "it is there again")
    assert not window.reads("Buoy is drawn from its outline")


run_checks()
