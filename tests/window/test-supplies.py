"""What the plan takes, asked for in the window: the figures are those of the command, they follow the workroom and can be undone; and the bobbin in the machine, warned
of before it runs out and put down when it is changed."""
import json
import os
import re
import shutil
import subprocess

import scenes
from window import check, read_scene, run_checks, until

SCENE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "scenes", "stitching-day.hoopscene")


def opened(open_window, **supplies):
    path = shutil.copy(SCENE, scenes.folder())
    if supplies:
        scene = read_scene(path)
        scene["supplies"] = supplies
        with open(path, "w", encoding="utf-8") as out:
            json.dump(scene, out)
    window = open_window(path)
    window.until_plan("^3 hoopings")
    return window, path


def told(path):
    """What the command says of the same scene."""
    done = subprocess.run([os.environ["HOOPWRIGHT"], "supplies", path], capture_output=True, text=True, check=True)
    return json.loads(done.stdout)


def metres(value):
    return f"{value:.1f} m" if value < 10 else f"{value:.0f} m"


def step_of(path):
    return next((pin["work"]["step"] for pin in read_scene(path).get("pins", []) if "work" in pin), None)


def to_the_threads(window, path):
    """Begins the next hooping and goes on to its first thread, without readings."""
    window.until_reads("^Next: hooping")
    window.key("Return")
    until(lambda: step_of(path) == "mark", "a hooping is begun")
    for step in ("hoop", "stick", "centre", "read"):
        window.key("Return")
        until(lambda: step_of(path) == step, f"the work is at '{step}'")
    window.click(window.find("push button", "Go on"))
    until(lambda: step_of(path) == "enter", "nothing is read")
    window.key("Return")
    until(lambda: step_of(path) == "template-off", "the template is still on")
    window.key("space")
    window.until_reads("^Go on to stitching")
    window.key("Return")
    until(lambda: step_of(path) == "stitch", "the first thread")


@check
def the_figures_are_those_of_the_command(open_window):
    window, path = opened(open_window)
    said = told(path)
    window.menu("What it takes…")
    window.find("dialog", "What it takes")
    window.until_reads(rf"^{said['cloth']['width']:.0f} × {said['cloth']['height']:.0f} mm$")
    window.until_reads(rf"^{metres(said['needle_metres'])}$")
    window.until_reads(rf"^{metres(said['bobbin_metres'])}$")
    for hooping in said["hoopings"]:
        window.until_reads(rf"^{metres(hooping['needle_metres'])}$")
    

@check
def the_workroom_is_changed_and_undone(open_window):
    window, path = opened(open_window)
    before = told(path)
    window.menu("What it takes…")
    window.find("dialog", "What it takes")
    window.click(window.find("page tab", "My workroom"))
    window.fill_in("Bobbin thread to needle thread", "50")
    window.fill_in("Cloth beyond the edge line", "80")
    window.click(window.find("page tab", "What the plan takes"))
    window.until_reads(rf"^{metres(before['needle_metres'] * 0.5)}$")
    window.key("Escape")
    window.until_alone()
    window.key("ctrl+s")
    after = until(lambda: read_scene(path).get("supplies"), "the scene keeps it")
    assert after["bobbin_share"] == 0.5 and after["beyond_edge"] == 80, after
    assert told(path)["cloth"]["width"] - before["cloth"]["width"] in (60, 61), told(path)["cloth"]
    window.key("ctrl+z")
    window.key("ctrl+s")
    until(lambda: read_scene(path).get("supplies") != after, "the last change is taken back")


@check
def thread_is_typed_as_it_stands_on_the_spool(open_window):
    window, path = opened(open_window)
    window.menu("What it takes…")
    window.find("dialog", "What it takes")
    window.click(window.find("page tab", "My workroom"))
    window.fill_in("Needle thread, how fine", "135 den x 2")
    window.until_field("Needle thread, how fine", "30 tex")
    window.fill_in("Needle thread, how fine", "as thin as a hair")
    window.until_reads("as thin as a hair")
    window.key("Escape")
    window.until_alone()
    window.key("ctrl+s")
    until(lambda: read_scene(path).get("supplies", {}).get("needle_tex") == 30, "270 denier are 30 tex")


@check
def a_bobbin_that_will_run_out_is_told_before(open_window):
    # Pear tree takes 3500 stitches: 17.5 m of needle thread and 7 m of bobbin thread; no other hooping takes more.
    window, path = opened(open_window, bobbin_metres=8)
    window.key("F8")
    to_the_threads(window, path)
    window.until_reads(r"^Bobbin: about .* still taken here; a full one has 8\.0 m")
    window.click(window.find("push button", "A full bobbin is in (F)"))
    window.until_reads(r"^Bobbin: about 8\.0 m left")
    assert until(lambda: [pin for pin in read_scene(path)["pins"] if "work" in pin][0]["work"].get("bobbin_at") == 0, "it is in the file")
    while step_of(path) == "stitch":
        thread = window.reads("^Thread ")
        window.key("Return")
        until(lambda: window.reads("^Thread |^Look it over") != thread, "the next thread")
    window.until_reads("^Look it over, take it out")
    window.key("Return")
    to_the_threads(window, path)
    window.until_reads("^The bobbin has about .* left and this hooping still takes")
    window.key("f")
    window.until_reads(r"^Bobbin: about 8\.0 m left")
    until(lambda: read_scene(path)["progress"]["log"][-1]["what"] == "bobbin", "the log tells of it")


if __name__ == "__main__":
    run_checks()
