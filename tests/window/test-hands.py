"""Hands at the workbench: the search for commands, the course, menus, keys and what the pointer tells."""
import os
import re
import subprocess

import scenes
from window import Atspi, check, run_checks, until

WALL, LIGHTHOUSE, BOAT, BUOY = (80, 90), (320, 100), (120, 122), (460, 340)


def harbour(open_window, **options):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path, **options)
    window.until_plan("^3 hoopings, proven fewest")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    return window, path


def positions(scene):
    return {motif["name"]: tuple(motif["position"]) for motif in scene["motifs"]}


def search(window, typed):
    """Opens the search and types."""
    window.key("ctrl+k")
    entry = window.find("entry", "Command, motif or hooping")
    until(lambda: entry.get_state_set().contains(Atspi.StateType.FOCUSED), "the field has the focus")
    window.search_entry, window.search_box = entry, entry.get_parent()
    window.type(typed)


def lines(window):
    """What was found, as a screen reader says it."""
    return [row.get_name() for row in window.look("list item", None, window.search_box)]


def until_closed(window):
    until(lambda: not window.search_entry.get_state_set().contains(Atspi.StateType.SHOWING), "the search closes")


def first_line(window, wanted):
    until(lambda: lines(window)[:1] and lines(window)[0].startswith(wanted), f"'{wanted}' is found first")


@check
def a_few_letters_find_a_command_and_enter_does_it(open_window):
    window, path = harbour(open_window)
    window.click_cloth(BUOY)
    search(window, "dupl")
    first_line(window, "Duplicate, Motifs, Ctrl+D")
    window.key("Return")
    window.find("push button", "Undo duplicate Buoy")
    until_closed(window)


@check
def what_cannot_be_done_now_is_shown_and_does_nothing(open_window):
    window, path = harbour(open_window)
    search(window, "dupl")
    first_line(window, "Duplicate, Motifs, Ctrl+D, not possible now")
    window.key("Return")
    assert lines(window), "the search stays"
    window.key("Escape")
    until_closed(window)


@check
def arrow_keys_go_through_what_was_found_and_the_field_tells_it(open_window):
    window, path = harbour(open_window)
    search(window, "zoology")  # nothing is called so
    until(lambda: not lines(window), "nothing is found")
    window.until_reads("^Nothing is called so", window.search_box)
    window.key("ctrl+a")
    window.type("inche")
    first_line(window, "Inches")
    entry = window.search_entry
    until(lambda: re.match("1 of 1: Inches", entry.get_description()), "the field tells what is chosen")
    window.key("ctrl+a")
    window.type("sides")
    until(lambda: len(lines(window)) == 4, "four sides can be brought in line")
    window.key("Down")
    until(lambda: re.match("2 of 4: ", entry.get_description()), "the second is told")
    window.key("Up", "Up", "Up")
    until(lambda: re.match("1 of 4: ", entry.get_description()), "the first is told")


@check
def a_motif_is_found_by_name_and_taken_in_the_hand(open_window):
    window, path = harbour(open_window)
    search(window, "lighth")
    first_line(window, "Lighthouse, Motif")
    window.key("Return")
    until(lambda: "Selected: Lighthouse" in window.table().get_description(), "the lighthouse is selected")
    until(lambda: window.table().get_state_set().contains(Atspi.StateType.FOCUSED), "the table has the focus")
    window.key("Right")
    assert until(lambda: positions(window.saved(path))["Lighthouse"] == (320.5, 100), "the keys move it")


@check
def every_action_of_the_window_without_a_target_can_be_found(open_window):
    window, path = harbour(open_window)
    listed = subprocess.run(["gdbus", "call", "--session", "--dest", "org.hoopwright.Hoopwright", "--object-path",
                             "/org/hoopwright/Hoopwright/window/1", "--method", "org.gtk.Actions.DescribeAll"],
                            check=True, capture_output=True, text=True).stdout
    plain = set(re.findall(r"'([a-z-]+)': \((?:true|false), (?:signature )?''", listed))
    assert {"save", "undo", "mirror", "day-log", "find-command"} <= plain, listed
    with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "../../src/workbench/command-list.c"), encoding="utf-8") as table:
        known = set(re.findall(r'"win\.([a-z-]+)', table.read()))
    # What only stands beside the thing it is about.
    beside = {"square-photo", "rename-photo", "delete-photo"}
    assert plain - known - beside == set(), plain - known - beside


@check
def the_main_menu_is_seen_whole_in_a_window_800_high(open_window):
    window, path = harbour(open_window)
    window.do_menu_button("Menu")
    entries = [window.find("menu item", name) for name in ("New scene…", "Take along…", "Find a command…", "Help")]
    until(lambda: window.box(entries[0])[1] > 0, "its first entry is in sight")
    until(lambda: all(sum(window.box(entry)[1::2]) <= 800 for entry in entries), "its last entry is in sight")


run_checks()
