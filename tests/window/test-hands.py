"""Hands at the workbench: the search for commands, the course, menus, keys and what the pointer tells."""
import os
import re
import subprocess

import scenes
import sight
from window import Atspi, check, is_pressed, run_checks, until, xdo

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
    window.gone("entry", "Command, motif or hooping")


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


def beads(window):
    return window.look("push button", None, window.find("panel", "The course: one bead for each hooping"))


def middle(window, widget):
    x, y, width, height = window.box(widget)
    return x + width / 2, y + height / 2


@check
def the_course_slides_under_the_hand_and_each_stage_is_told(open_window):
    window, path = harbour(open_window)
    string = beads(window)
    assert len(string) == 5, "the whole picture, three hoopings, the finished piece"
    start, end = middle(window, string[0]), middle(window, string[2])
    xdo("mousemove", *map(round, start), "mousedown", 1, "mousemove", round(start[0]) + 14, round(start[1]), "sleep", 0.05,
        "mousemove", *map(round, end), "sleep", 0.05)
    try:
        until(lambda: is_pressed(string[2]), "the second hooping is shown while the hand holds")
    finally:
        xdo("mouseup", 1)
    until(lambda: is_pressed(string[2]) and not is_pressed(string[0]), "it stays when the hand lets go")
    until(lambda: string[2].get_state_set().contains(Atspi.StateType.FOCUSED), "its bead has the focus, and is read")
    assert string[2].get_name().startswith("Hooping 2 in the hoop"), string[2].get_name()
    window.until_reads(r"^Stitched by then: \d+ · now: \d+ · still paper templates: \d+$", window.foot())
    window.key("Right")
    until(lambda: is_pressed(string[3]), "arrow keys step it")
    window.key("End")
    until(lambda: is_pressed(string[4]), "to the finished piece")
    window.until_reads("^Stitched by then: [1-9].* still paper templates: 0$", window.foot())
    window.key("alt+Left", "alt+Left")
    until(lambda: is_pressed(string[2]), "and from anywhere with Alt")


@check
def what_is_not_stitched_yet_lies_there_as_paper(open_window):
    window, path = harbour(open_window)
    whole = window.until_still()
    window.key("alt+Right", "alt+Right")
    until(lambda: is_pressed(beads(window)[2]), "the second stage is shown")
    staged = window.until_still()
    assert (whole != staged).any(axis=2).mean() > 0.01, "the stage shows something else"


@check
def figures_stand_at_the_pointer_while_a_motif_is_in_the_hand(open_window):
    window, path = harbour(open_window)
    x, y = map(round, window.pixel(430, 250))

    def by_the_pointer():
        return sight.screen()[y + 26:y + 52, x + 60:x + 160]

    before = by_the_pointer()
    with window.held_on_cloth(LIGHTHOUSE, (430, 250)):
        until(lambda: (by_the_pointer() != before).any(axis=2).mean() > 0.5, "a slip stands beside the pointer")


@check
def a_lens_lies_at_the_pointer_while_l_is_held(open_window):
    window, path = harbour(open_window)
    x, y = map(round, window.pixel(*LIGHTHOUSE))
    window.click_cloth((500, 380))
    xdo("mousemove", x, y)
    plain = window.until_still()
    xdo("keydown", "l")
    try:
        until(lambda: (window.table_picture() != plain).any(axis=2).sum() > 5000, "the lens shows")
    finally:
        xdo("keyup", "l")
    until(lambda: (window.table_picture() != plain).any(axis=2).sum() < 2000, "the lens goes")


@check
def the_bare_cloth_has_a_menu_and_the_keyboard_reaches_marks(open_window):
    window, path = harbour(open_window)
    window.click_cloth((560, 30), 3)
    window.find("menu item", "Cloth and edge line…")
    window.key("Escape")
    window.gone("menu item", "Cloth and edge line…")
    window.key("ctrl+Page_Down")
    until(lambda: "Hooping 1 is chosen" in window.table().get_description(), "the first hooping is chosen")
    window.key("shift+F10")
    window.find("menu item", "Mark A")
    window.find("menu item", "Hold mark A here")


@check
def hoopings_that_glide_come_to_lie_where_they_are_drawn_at_once(open_window):
    settings = os.path.join(os.environ["XDG_CONFIG_HOME"], "gtk-4.0", "settings.ini")
    with open(settings, encoding="utf-8") as kept:
        quiet = kept.read()
    try:
        with open(settings, "w", encoding="utf-8") as out:
            out.write(quiet.replace("gtk-enable-animations=0", "gtk-enable-animations=1"))
        window, path = harbour(open_window)
        window.drag_on_cloth(LIGHTHOUSE, (150, 150))
        window.until_plan("^2 hoopings")
        window.key("ctrl+z")
        window.until_plan("^3 hoopings")
        glided = [window.until_still() for _ in range(4)][-1]
        # A stage and back: everything is drawn anew, and nothing glides.
        window.key("alt+Right")
        until(lambda: is_pressed(beads(window)[1]), "a stage is shown")
        window.key("alt+Left")
        until(lambda: is_pressed(beads(window)[0]), "the whole picture is shown")
        until(lambda: (window.table_picture() != glided).any(axis=2)[40:-60, 40:-20].mean() < 0.0005, "all lay where it belongs")
    finally:
        with open(settings, "w", encoding="utf-8") as out:
            out.write(quiet)


run_checks()
