"""A small scene stitched on screen from the first mark to the last hooping, with readings as they would be had the cloth been set a little crooked; the program is
killed half way and goes on where it stopped. Where the needle stands is worked out here, from the scene file alone."""
import math
import os
import re
import shutil
import signal

import numpy
import photographs
import scenes
from lens import Lens
from window import Atspi, check, read_scene, run_checks, text_of, until

SCENE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "scenes", "stitching-day.hoopscene")
THREE = "^3 hoopings, proven fewest"


def opened(open_window, path=None):
    """The scene in a window, on a copy that may be written to unless a path is given."""
    if path is None:
        path = shutil.copy(SCENE, scenes.folder())
    window = open_window(path)
    window.until_plan("^3 hoopings")
    return window, path


def begun(path):
    """The pin of the hooping in the machine, as the file has it, or None."""
    return next((pin for pin in read_scene(path).get("pins", []) if "work" in pin), None)


def stitched(path):
    return read_scene(path).get("progress", {}).get("frozen", [])


def until_step(path, step):
    """Waits until the file says so: every step is saved by itself."""
    return until(lambda: (pin := begun(path)) and pin["work"]["step"] == step and pin, f"the file is at '{step}'")


def turned(point, degrees):
    a = math.radians(degrees)
    return point[0] * math.cos(a) - point[1] * math.sin(a), point[0] * math.sin(a) + point[1] * math.cos(a)


def needle_over(pin, mark, turn, shift):
    """Where the needle stands over a mark of a hooping set with that turn and shift, hoop axes."""
    apart = (mark["at"][0] - pin["centre"][0], mark["at"][1] - pin["centre"][1])
    there = turned(turned(apart, -pin["angle"]), turn)
    return there[0] + shift[0], there[1] + shift[1]


def spoken(value, positive, negative):
    return f"{abs(value):.2f} {positive if value >= 0 else negative}"


def what_to_enter(turn, shift):
    """The correction in the machine's words. The design has to follow the cloth."""
    parts = []
    if shift[0]:
        parts.append(f"{abs(shift[0]):.1f} mm {'right' if shift[0] > 0 else 'left'}")
    if shift[1]:
        parts.append(f"{abs(shift[1]):.1f} mm {'towards you' if shift[1] > 0 else 'away from you'}")
    return "Shift " + ", ".join(parts) + f"; turn {abs(turn):g} degrees? {'clockwise' if turn > 0 else 'anticlockwise'}"


def begin_next(window, path, number):
    window.until_reads(f"^Next: hooping {number} of 3")
    until(lambda: focused(window, f"Begin hooping {number}"), "the keyboard is on the button to begin")
    window.key("Return")
    return until_step(path, "mark")


def focused(window, name):
    return any(widget.get_state_set().contains(Atspi.StateType.FOCUSED) for widget in window.look("push button", name))


def go_on_to(window, path, step, title):
    window.key("Return")
    pin = until_step(path, step)
    window.until_reads(title)
    return pin


def to_the_readings(window, path):
    go_on_to(window, path, "hoop", "^Hoop the stabiliser")
    go_on_to(window, path, "stick", "^Lay the cloth on")
    go_on_to(window, path, "centre", "^Find the centre")
    return go_on_to(window, path, "read", "^Read the needle")


def type_readings(window, path, pin, turn, shift):
    """By keyboard: the first field has it already, Enter goes from field to field."""
    field = f"Mark {pin['marks'][0]['id']}, right or left"
    until(lambda: window.field(field).get_state_set().contains(Atspi.StateType.FOCUSED), "the first field has the keyboard")
    for mark in pin["marks"]:
        u, v = needle_over(pin, mark, turn, shift)
        for text in (spoken(u, "right", "left"), spoken(v, "towards", "away")):
            window.type(text)
            window.key("Return")
    until(lambda: len(begun(path)["work"].get("readings", [])) == len(pin["marks"]), "all readings are in the file")
    window.until_reads(what_to_enter(turn, shift))


def enter_and_take_off(window, path, turn, shift):
    """From the readings to the first stitch; returns with the step "stitch"."""
    until(lambda: focused(window, "Go on"), "the keyboard is on the button to go on")
    go_on_to(window, path, "enter", "^Enter the correction")
    if turn:
        window.until_reads(f"^turn {abs(turn):.1f}|^turn {abs(turn):g}")
    go_on_to(window, path, "template-off", "^TAKE THE TEMPLATE OFF")
    entered = begun(path)["work"]["correction"]
    assert [round(value, 6) for value in entered["shift"]] == list(shift) and round(entered["turn"], 6) == turn, entered
    window.key("Return")  # does not pass while the template is on
    window.until_reads("^Tick this first")
    assert begun(path)["work"]["step"] == "template-off"
    window.key("space")
    until(lambda: focused(window, "Go on to stitching"), "the box is ticked")
    go_on_to(window, path, "stitch", "^Thread 1 of")


def stitch_threads(window, path, first, n):
    for thread in range(first, n + 1):
        window.until_reads(f"^Thread {thread} of {n}")
        window.key("Return")
        until(lambda: begun(path)["work"].get("threads_done", 0) == thread, f"thread {thread} is stitched")
    window.until_reads("^Look it over, take it out")


def finish(window, path, number):
    window.key("Return")
    until(lambda: len(stitched(path)) == number, f"hooping {number} is stitched")
    window.until_reads(f"^{number} hoopings? (is|are) stitched")


def threads_of(path, pin):
    motifs = {motif["id"]: motif for motif in read_scene(path)["motifs"]}
    return sum(len(motifs[name]["threads"]) for name in pin["motifs"])


def stitch_hooping(window, path, number, turn, shift):
    """One hooping from the first mark to the last thread, by keyboard alone."""
    begin_next(window, path, number)
    window.until_reads("^Draw the marks")
    pin = to_the_readings(window, path)
    type_readings(window, path, pin, turn, shift)
    enter_and_take_off(window, path, turn, shift)
    stitch_threads(window, path, 1, threads_of(path, pin))
    finish(window, path, number)


@check
def a_scene_is_stitched_to_the_end_though_the_program_is_killed_half_way(open_window):
    window, path = opened(open_window)
    window.until_plan(THREE)
    window.key("F8")
    stitch_hooping(window, path, 1, 1.0, (-1.8, 0.6))

    # The second is left in the middle of its threads, without a word of warning.
    begin_next(window, path, 2)
    window.until_reads("^Draw the marks")
    pin = to_the_readings(window, path)
    type_readings(window, path, pin, -1.5, (2.4, -3.1))
    enter_and_take_off(window, path, -1.5, (2.4, -3.1))
    n = threads_of(path, pin)
    first = 1
    if n > 1:
        window.key("Return")
        until(lambda: begun(path)["work"].get("threads_done", 0) == 1, "the first thread is stitched")
        first = 2
    window.process.send_signal(signal.SIGKILL)
    window.process.wait()

    window, path = opened(open_window, path)
    window.until_reads("^Hooping 2 is in the machine, at: stitch")
    window.click(window.find("push button", "Go on there"))
    stitch_threads(window, path, first, n)
    finish(window, path, 2)
    stitch_hooping(window, path, 3, 0.5, (0.7, 1.2))
    window.until_reads("^The whole picture is stitched")

    scene = read_scene(path)
    frozen = scene["progress"]["frozen"]
    assert sorted(name for hooping in frozen for name in hooping["motifs"]) == ["m1", "m2", "m3"]
    assert not scene.get("pins"), scene["pins"]
    assert [hooping["work"]["correction"]["turn"] for hooping in frozen] == [1.0, -1.5, 0.5]
    told = [line["what"] for line in scene["progress"]["log"]]
    for what, times in (("begun", 3), ("readings", 3), ("correction", 3), ("template-off", 3), ("thread", 5), ("stitched", 3)):
        assert told.count(what) == times, (what, told)
    times = [line["at"] for line in scene["progress"]["log"]]
    assert times == sorted(times)


@check
def readings_at_each_others_mark_are_asked_about_and_exchanged(open_window):
    window, path = opened(open_window)
    window.until_plan(THREE)
    window.key("F8")
    begin_next(window, path, 1)
    window.until_reads("^Draw the marks")
    pin = to_the_readings(window, path)
    a, b = pin["marks"][:2]
    swapped = dict(pin, marks=[dict(a, at=b["at"]), dict(b, at=a["at"])] + pin["marks"][2:])
    for mark in swapped["marks"]:
        u, v = needle_over(swapped, mark, 0, (1.5, 0.5))
        for text in (spoken(u, "right", "left"), spoken(v, "towards", "away")):
            window.type(text)
            window.key("Return")
    window.until_reads("changed places")
    assert not window.reads("^Shift"), "doubtful readings are not used"
    until(lambda: focused(window, re.compile("^Exchange the two")), "the keyboard is led to the question")
    window.key("Return")
    window.until_reads("^Shift 1.5 mm right, 0.5 mm towards you")


def rigid(designs, found):
    """Turn (degrees) and shift that bring the designs to where they were found, by least squares: the sums of Kabsch, 1976, in the plane."""
    a, b = numpy.array(designs), numpy.array(found)
    p, q = a - a.mean(axis=0), b - b.mean(axis=0)
    turn = math.atan2((p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]).sum(), (p * q).sum())
    return math.degrees(turn), numpy.subtract(b.mean(axis=0), turned(a.mean(axis=0), math.degrees(turn)))


@check
def marks_are_read_in_a_photo_of_the_hooped_cloth_and_used_when_approved(open_window):
    window, path = opened(open_window)
    window.until_plan(THREE)
    window.key("F8")
    begin_next(window, path, 1)
    window.until_reads("^Draw the marks")
    pin = to_the_readings(window, path)
    turn, shift = 1.5, (2.2, -1.4)
    there = [needle_over(pin, mark, turn, shift) for mark in pin["marks"]]
    middle = needle_over(pin, {"at": pin["centre"]}, turn, shift)
    crosses = [(*middle, turn)] + [(u, v, turn + 20 * i) for i, (u, v) in enumerate(there)]
    photo = photographs.save_turned(photographs.hooped(crosses), os.path.join(scenes.folder(), "hooped.jpg"))
    window.choose_file(lambda: window.click(window.find("push button", re.compile("^Read the marks from a photo"))), photo)
    lens = Lens(window)
    for side, mm in (("far", (0, -120)), ("right", (85, 0)), ("near", (0, 120)), ("left", (-85, 0))):
        lens.put(f"Hoop’s rim, middle of the {side} side", photographs.through(photographs.HOOPED, mm))
    use = window.find("push button", "Use these readings")
    window.do(window.find("push button", "Look for the drawn marks"))
    window.until_reads("^Look at each in the photo")
    ticks = window.look("check box", re.compile("^Mark ."))
    assert len(ticks) == len(pin["marks"]), [tick.get_name() for tick in ticks]
    window.until_reads("^Four handles cannot check each other: each is taken to be off by 0.5 mm")
    assert not begun(path)["work"].get("readings"), "nothing is used before it is approved"
    window.do(use)
    work = until(lambda: len(begun(path)["work"].get("readings", [])) == len(pin["marks"]) and begun(path)["work"], "the readings are in the file")
    assert all(reading["by"] == "photo" for reading in work["readings"]), work
    found_turn, found_shift = rigid([r["design"] for r in work["readings"]], [r["at"] for r in work["readings"]])
    off = math.dist(found_shift, shift)
    print(f"# by the photo: turn off by {found_turn - turn:+.3f} degrees, shift by {off:.3f} mm; each mark by",
          " ".join(f"{math.dist(r['at'], uv):.3f}" for r, uv in zip(work["readings"], there)))
    assert abs(found_turn - turn) < 0.1 and off < 0.15, (found_turn, found_shift)
    window.until_reads(r"^Shift 2\.[123] mm right, 1\.[345] mm away from you; turn 1\.5 degrees clockwise")


@check
def a_thread_that_broke_and_a_note_are_written_down(open_window):
    window, path = opened(open_window)
    window.until_plan(THREE)
    window.key("F8")
    begin_next(window, path, 1)
    window.until_reads("^Draw the marks")
    window.key("n")
    until(lambda: window.field("A note for this step").get_state_set().contains(Atspi.StateType.FOCUSED), "the note has the keyboard")
    window.type("chalk, not pen")
    window.key("Return")
    until(lambda: begun(path)["work"].get("notes", {}).get("mark") == "chalk, not pen", "the note is in the file")
    pin = to_the_readings(window, path)
    type_readings(window, path, pin, 0.5, (0.5, 0.5))
    enter_and_take_off(window, path, 0.5, (0.5, 0.5))
    window.click(window.find("push button", "The thread broke (B)"))
    window.until_reads("^The thread broke. It is written down")
    until(lambda: read_scene(path)["progress"]["log"][-1]["what"] == "thread-broke", "the log tells of it")
    window.key("Escape")
    window.until_reads("^Hooping 1 is in the machine, at: stitch")
    window.menu("Log of the days…")
    window.until_reads("^The thread broke: ")
    window.key("Escape")
    window.gone("dialog", "Log of the days")
    window.click(window.find("push button", "Lay it aside"))
    until(lambda: not window.reads("is in the machine, at"), "nothing is in the machine")


@check
def cloth_that_drew_in_is_measured_and_the_rest_follows(open_window):
    window, path = opened(open_window)
    window.until_plan(THREE)
    window.key("F8")
    stitch_hooping(window, path, 1, 0.5, (0.5, 0.5))
    before = read_scene(path)
    marks = stitched(path)[0]["marks"]
    window.key("m")
    window.find("dialog", "Measure the cloth")
    apart = math.dist(marks[0]["at"], marks[1]["at"])
    window.fill_in("From A to B", f"{apart * 0.99:.3f}")
    window.until_reads("^Drawn in 1.0 %")
    window.do(window.find("push button", "Let the rest follow the cloth"))
    window.gone("dialog", "Measure the cloth")
    name = stitched(path)[0]["motifs"][0]
    # A rectangle stitched at its own place: the cloth stands still in its middle, all else comes nearer to it by a hundredth.
    still = next(motif["position"] for motif in before["motifs"] if motif["id"] == name)

    def followed():
        for old, new in zip(before["motifs"], read_scene(path)["motifs"]):
            there = [still[i] + 0.99 * (old["position"][i] - still[i]) for i in (0, 1)]
            if math.dist(new["position"], there) > 0.01:
                return False
        return True

    until(followed, "the motifs that are not stitched follow")
    until(lambda: read_scene(path)["progress"]["log"][-1]["what"] == "draw-in", "the log tells of it")


@check
def a_hooping_that_landed_elsewhere_is_put_there_and_undone(open_window):
    window, path = opened(open_window)
    window.until_plan(THREE)
    window.key("F8")
    stitch_hooping(window, path, 1, 0.5, (0.5, 0.5))
    name = stitched(path)[0]["motifs"][0]
    place = next(motif["position"] for motif in read_scene(path)["motifs"] if motif["id"] == name)
    angle = stitched(path)[0]["angle"]
    window.key("l")
    window.find("dialog", "It was stitched elsewhere")
    window.fill_in("Shifted across", "4")
    window.until_reads("^It lies 4.0 mm right of its place")
    window.do(window.find("push button", "That is where it lies"))
    window.gone("dialog", "It was stitched elsewhere")
    way = turned((4, 0), angle)

    def moved():
        now = next(motif["position"] for motif in read_scene(path)["motifs"] if motif["id"] == name)
        return math.dist(now, (place[0] + way[0], place[1] + way[1])) < 1e-6

    until(moved, "the motif lies where it landed, in the file")
    window.key("ctrl+z")
    until(lambda: not moved(), "undo brings it back")


if __name__ == "__main__":
    run_checks()
