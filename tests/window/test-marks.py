"""Marks in the window: one is pulled and the error to be expected follows, all are held, the list to draw from is read and each mark moved from it."""
import json
import re
import subprocess

import scenes
from window import PROGRAM, Atspi, check, run_checks, until

THREE = "^3 hoopings, proven fewest"
PLACE = re.compile(r"^\d+ ")
UP_TO = re.compile(r"^error up to ([0-9.]+) mm$")


def harbour(open_window, **wishes):
    scene = scenes.harbour()
    if wishes:
        scene["wishes"] = wishes
    path = scenes.write(scenes.folder(), scene)
    window = open_window(path)
    window.until_plan(THREE)
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    return window, path


def choose(window, number):
    """Shows one hooping alone on the table."""
    window.click(window.find(None, re.compile(f"^Hooping {number + 1}: ")), at=(0.3, 0.8))


def open_list(window):
    window.menu("Marks to draw…")
    return window.find("dialog", "Marks to draw")


def close_list(window, dialog):
    window.do(window.find("push button", "Close", dialog))
    window.gone("dialog", "Marks to draw")


def rows(window, dialog):
    """What each row of the list says, without the rows' buttons."""
    return [said for _, said in window.rows("list item", dialog)]


def read_list(window, dialog):
    """The largest error to be expected in each hooping, and where every cross lies on the cloth."""
    # A row that is just going says less, its figures first.
    said = [row for row in rows(window, dialog) if len(row) > 1 and not (PLACE.match(row[0]) and row[1] in ("held", "by the plan"))]
    errors = [float(match[1]) for row in said for match in map(UP_TO.match, row) if match]
    places = {row[0]: (float(row[1]) + 20, float(row[2]) + 20) for row in said if PLACE.match(row[0]) and len(row) > 2}
    return errors, places


def listed(window):
    dialog = open_list(window)
    found = read_list(window, dialog)
    close_list(window, dialog)
    return found


def boat(window):
    """The hooping with two motifs, counted from 0: its marks leave an error that depends on where they lie."""
    cards = window.look(None, re.compile(r"^Hooping \d+: "))
    return next(int(card.get_name().split()[1].rstrip(":")) - 1 for card in cards if "Rowing boat" in card.get_name())


def first_mark(places, number):
    return next((name, at) for name, at in places.items() if name.startswith(f"{number + 1} ") and not name.endswith("centre"))


def held(window, path):
    return window.saved(path).get("held_marks", [])


@check
def a_mark_that_is_pulled_is_held_there_and_the_errors_follow(open_window):
    window, path = harbour(open_window)
    number = boat(window)
    before, places = listed(window)
    assert len(before) == 3, before
    name, start = first_mark(places, number)
    end = (100, 70)
    choose(window, number)
    quiet = window.until_still()
    with window.held_on_cloth(start, end):
        during = window.until_still()
    assert quiet.shape == during.shape and (quiet != during).any(), "the figures at the motifs change while it is pulled"
    window.find("push button", f"Undo move mark {name.split()[1]}")
    after, _ = listed(window)
    assert after[number] > before[number] + 0.005, (before, after)
    assert after[:number] + after[number + 1:] == before[:number] + before[number + 1:]
    kept = held(window, path)
    assert any(abs(mark["at"][0] - end[0]) < 3 and abs(mark["at"][1] - end[1]) < 3 for mark in kept), kept
    window.key("ctrl+z")
    window.find("push button", "Undo")
    assert held(window, path) == []
    assert listed(window) == (before, places)


@check
def escape_gives_a_mark_back(open_window):
    window, path = harbour(open_window)
    number = boat(window)
    _, places = listed(window)
    choose(window, number)
    window.until_still()
    with window.held_on_cloth(first_mark(places, number)[1], (120, 80)):
        window.key("Escape")
    assert not window.find("push button", "Undo").get_state_set().contains(Atspi.StateType.SENSITIVE)


@check
def a_mark_pulled_out_of_reach_is_told_and_not_used(open_window):
    window, path = harbour(open_window)
    number = boat(window)
    _, places = listed(window)
    choose(window, number)
    window.until_still()
    window.drag_on_cloth(first_mark(places, number)[1], (300, 300))
    window.find("push button", re.compile("^1 thing to look at"))
    assert len(held(window, path)) == 2, "it is held all the same"
    dialog = open_list(window)
    window.until_reads("cannot serve because the needle does not reach it", dialog)
    _, places = read_list(window, dialog)
    assert all(abs(x - 300) > 5 or abs(y - 300) > 5 for x, y in places.values()), places
    window.do(window.find("push button", re.compile("^Let go: The mark held for"), dialog))
    until(lambda: not window.reads("cannot serve", dialog), "it is gone from the list")


@check
def the_list_names_every_cross_and_measures_from_the_corner(open_window):
    window, path = harbour(open_window)
    dialog = open_list(window)
    window.until_reads("^Measured from the edge line's top left corner", dialog)
    _, places = read_list(window, dialog)
    # The same scene planned by the command: its hoopings may come in another order, its crosses lie in the same places.
    plan = json.loads(subprocess.run([PROGRAM, "plan", path], capture_output=True, text=True, check=True).stdout)
    expected = [hooping["centre"] for hooping in plan["hoopings"]]
    expected += [mark["at"] for hooping in plan["hoopings"] for mark in hooping["marks"]]
    assert len(places) == len(expected), (places, expected)
    for x, y in expected:
        assert any(abs(x - right) <= 0.051 and abs(y - down) <= 0.051 for right, down in places.values()), ((x, y), places)


@check
def all_are_held_and_let_go_again(open_window):
    window, path = harbour(open_window)
    dialog = open_list(window)
    before = read_list(window, dialog)
    count = sum(not name.endswith("centre") for name in before[1])
    window.do(window.find("push button", "All are on the cloth", dialog))
    until(lambda: sum("held" in row for row in rows(window, dialog)) == count, "all are held")
    assert read_list(window, dialog) == before, "where they were, under the same names"
    close_list(window, dialog)
    assert len(held(window, path)) == count
    dialog = open_list(window)
    window.do(window.find("push button", "Let all go", dialog))
    until(lambda: not any("held" in row for row in rows(window, dialog)), "none is held")
    close_list(window, dialog)
    window.key("ctrl+z")
    until(lambda: len(held(window, path)) == count, "undone, they are held again")


@check
def one_more_mark_makes_the_error_smaller_and_is_taken_away_again(open_window):
    window, path = harbour(open_window)
    dialog = open_list(window)
    before, places = read_list(window, dialog)
    window.do(window.find("push button", re.compile("^One more mark: Hooping 1"), dialog))
    until(lambda: len(read_list(window, dialog)[1]) == len(places) + 1, "a mark more is listed")
    assert read_list(window, dialog)[0][0] < before[0]
    window.do(window.find("push button", re.compile("^Take away: 1 "), dialog))
    until(lambda: len(read_list(window, dialog)[1]) == len(places), "it is gone")


@check
def a_mark_is_moved_by_figures(open_window):
    window, path = harbour(open_window)
    number = boat(window)
    dialog = open_list(window)
    _, places = read_list(window, dialog)
    name, _ = first_mark(places, number)
    window.do(window.find("push button", "Move…", window.find(None, f"Move…: {name}", dialog)))
    window.find("push button", "Move it there")
    # The keys are in the first field at once.
    window.key("ctrl+a")
    window.type("400")
    window.key("Return")
    window.do(window.find("push button", "Move it there"))
    window.until_reads("It cannot serve there because")
    window.key("ctrl+a")
    window.type("80")
    window.key("Tab")
    window.key("ctrl+a")
    window.type("40")
    window.key("Return")
    window.do(window.find("push button", "Move it there"))
    window.gone("push button", "Move it there")
    until(lambda: (100, 60) in read_list(window, dialog)[1].values(), "it lies there")
    close_list(window, dialog)
    assert [100, 60] in [mark["at"] for mark in held(window, path)]


run_checks()
