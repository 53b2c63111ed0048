"""At the table: motifs are dragged, nudged, banded, and put before one another; the plan follows and undo brings both back."""
import itertools
import re

import scenes
import sight
from window import Atspi, check, run_checks, until

WALL, LIGHTHOUSE, BOAT, BUOY = (80, 90), (320, 100), (120, 122), (460, 340)


def harbour(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path)
    window.until_plan("^3 hoopings, proven fewest")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    return window, path


def positions(scene):
    return {motif["name"]: tuple(motif["position"]) for motif in scene["motifs"]}


def near(place, wanted, mm=1.0):
    return abs(place[0] - wanted[0]) <= mm and abs(place[1] - wanted[1]) <= mm


def differing(picture, other):
    """The part of two pictures that is not the same."""
    return (picture != other).any(axis=2).mean()


@check
def dragging_a_motif_makes_a_new_plan_and_undo_brings_both_back(open_window):
    window, path = harbour(open_window)
    before = positions(window.saved(path))

    window.drag_on_cloth(LIGHTHOUSE, (150, 150))
    window.until_plan("^2 hoopings, proven fewest")
    window.find("push button", "Undo move Lighthouse")
    moved = positions(window.saved(path))
    assert near(moved["Lighthouse"], (150, 150)), moved
    assert {name: place for name, place in moved.items() if name != "Lighthouse"} \
        == {name: place for name, place in before.items() if name != "Lighthouse"}

    window.key("ctrl+z")
    window.until_plan("^3 hoopings, proven fewest")
    assert positions(window.saved(path)) == before

    window.key("ctrl+shift+z")
    window.until_plan("^2 hoopings, proven fewest")
    assert positions(window.saved(path)) == moved


@check
def the_plan_follows_while_the_motif_is_still_in_the_hand(open_window):
    window, path = harbour(open_window)
    with window.held_on_cloth(LIGHTHOUSE, (150, 150)):
        window.until_plan("^2 hoopings, proven fewest")
    window.until_plan("^2 hoopings, proven fewest")


@check
def escape_lets_a_motif_in_the_hand_go_back(open_window):
    window, path = harbour(open_window)
    before = positions(window.saved(path))
    with window.held_on_cloth(LIGHTHOUSE, (150, 150)):
        window.until_plan("^2 hoopings")
        window.key("Escape")
        window.until_plan("^3 hoopings")
    window.until_reads("^saved$")
    assert positions(window.saved(path)) == before


def patch(window, at, reach=4):
    """The middling colour about a place of the cloth, as the screen shows it."""
    x, y = map(round, window.pixel(*at))
    return sight.screen()[y - reach:y + reach + 1, x - reach:x + reach + 1].reshape(-1, 3).mean(axis=0)


@check
def a_motif_in_the_hand_passes_behind_what_is_stitched_after_it(open_window):
    window, path = harbour(open_window)
    window.key("Escape")
    cloth, wall, buoy = patch(window, (560, 60)), patch(window, (76, 113)), patch(window, (464, 344))
    boat = patch(window, (125, 125))
    assert min(abs(a - b).max() for a, b in itertools.combinations((cloth, wall, buoy, boat), 2)) > 40, (cloth, wall, buoy, boat)

    def lies_behind():
        seen = [(patch(window, place), colour) for place, colour in
                (((75, 90), cloth), ((120, 120), boat), ((457, 331), buoy), ((420, 332), wall))]
        return all(abs(there - colour).max() < 25 for there, colour in seen)

    with window.held_on_cloth(WALL, (WALL[0] + 335, WALL[1] + 240)):
        until(lies_behind, "the wall shows where the hand is, behind the buoy, and has left the cloth and the boat as they were")
    until(lies_behind, "the same when it lies there")
    window.key("ctrl+z")
    until(lambda: abs(patch(window, (76, 113)) - wall).max() < 25 and abs(patch(window, (420, 332)) - cloth).max() < 25, "it goes back")


@check
def arrow_keys_move_by_half_a_millimetre_and_with_shift_by_five(open_window):
    window, path = harbour(open_window)
    window.click_cloth(BUOY)
    window.key("Right")
    assert until(lambda: positions(window.saved(path))["Buoy"] == (460.5, 340), "half a millimetre to the right")
    window.key("shift+Down")
    assert until(lambda: positions(window.saved(path))["Buoy"] == (460.5, 345), "five millimetres down")
    window.until_field("From the left", "460.5 mm")
    window.until_field("From the top", "345.0 mm")


@check
def a_band_takes_several_motifs_which_then_move_together(open_window):
    window, path = harbour(open_window)
    before = positions(window.saved(path))
    window.drag_on_cloth((40, 50), (200, 200))
    window.until_reads("2 motifs")
    window.drag_on_cloth(WALL, (WALL[0] + 60, WALL[1] + 100))
    after = positions(window.saved(path))
    for name in ("Sea wall", "Rowing boat"):
        assert near(after[name], (before[name][0] + 60, before[name][1] + 100)), after
    for name in ("Lighthouse", "Buoy"):
        assert after[name] == before[name], after
    window.find("push button", "Undo move 2 motifs")


@check
def control_a_and_delete_take_everything_off_and_undo_lays_it_back(open_window):
    window, path = harbour(open_window)
    before = window.saved(path)
    window.click_cloth(BUOY)
    window.key("ctrl+a", "Delete")
    assert until(lambda: window.saved(path)["motifs"] == [], "bare cloth")
    window.key("ctrl+z")
    window.until_plan("^3 hoopings, proven fewest")
    assert window.saved(path) == before


@check
def the_menu_of_the_right_button_does_what_it_says(open_window):
    window, path = harbour(open_window)

    def names():
        return [motif["name"] for motif in window.saved(path)["motifs"]]

    assert names() == ["Sea wall", "Lighthouse", "Rowing boat", "Buoy"]
    window.menu_on_cloth(WALL, "Bring forward")
    # Forward past the next that lies over it, or one place in the list: either way the sea wall is stitched later than before.
    until(lambda: names().index("Sea wall") > 0, "the sea wall comes forward")
    window.key("ctrl+z")
    until(lambda: names()[0] == "Sea wall", "the order is back")

    window.menu_on_cloth(BUOY, "Send back")
    until(lambda: names().index("Buoy") < 3, "the buoy goes back")
    window.key("ctrl+z")

    window.menu_on_cloth(BUOY, "Duplicate")
    until(lambda: len(names()) == 5, "there are two buoys")
    window.key("ctrl+z")
    until(lambda: len(names()) == 4, "and one again")

    window.menu_on_cloth(BUOY, "Mirror")
    until(lambda: window.saved(path)["motifs"][3]["mirrored"], "the buoy is mirrored")

    window.menu_on_cloth(BUOY, "Delete")
    until(lambda: names() == ["Sea wall", "Lighthouse", "Rowing boat"], "the buoy is gone")


@check
def a_locked_motif_stays_where_it_is(open_window):
    window, path = harbour(open_window)
    before = positions(window.saved(path))
    window.menu_on_cloth(BUOY, re.compile("in place$"))
    until(lambda: window.saved(path)["motifs"][3].get("locked"), "the buoy is locked")
    window.drag_on_cloth(BUOY, (300, 300))
    window.key("Right")
    assert positions(window.saved(path)) == before


@check
def the_handles_turn_and_resize(open_window):
    window, path = harbour(open_window)
    window.click_cloth(BUOY)
    corner, turn = window.handles_of(BUOY, 34, 34)
    window.drag(corner, (corner[0] + 30, corner[1] + 30))
    grown = until(lambda: window.saved(path)["motifs"][3]["scale"] > 1.05 and window.saved(path)["motifs"][3], "the buoy grows")
    assert grown["angle"] == 0
    window.key("ctrl+z")
    until(lambda: window.saved(path)["motifs"][3]["scale"] == 1, "and shrinks again")
    centre = window.pixel(*BUOY)
    window.drag(turn, (centre[0] + (centre[1] - turn[1]), centre[1]))
    turned = until(lambda: window.saved(path)["motifs"][3]["angle"] != 0 and window.saved(path)["motifs"][3], "the buoy turns")
    assert abs(turned["angle"] - 90) < 2, turned


@check
def undoing_everything_brings_the_first_scene_back(open_window):
    window, path = harbour(open_window)
    before = window.saved(path)
    window.drag_on_cloth(LIGHTHOUSE, (250, 250))
    window.key("ctrl+m", "Page_Up")
    window.drag_on_cloth(BUOY, (400, 200))
    window.key("ctrl+d")
    window.click_cloth(WALL)
    window.key("Delete")
    window.key("ctrl+a", "shift+Right")
    window.drag_on_cloth((255, 250), (300, 300))
    after = until(lambda: len(window.saved(path)["motifs"]) == 4 and window.saved(path), "a copy more, a wall less")
    assert after != before
    undone = until(lambda: window.find("push button", re.compile("^Undo ")), "something to undo")
    steps = 0
    while undone.get_state_set().contains(Atspi.StateType.SENSITIVE):
        window.key("ctrl+z")
        window.settled()
        steps += 1
        assert steps < 20, "undo has no end"
    assert steps == 8, f"{steps} steps"
    assert window.saved(path) == before
    window.key(*["ctrl+shift+z"] * steps)
    assert until(lambda: window.saved(path) == after, "all is done again")


@check
def the_wheel_zooms_about_the_pointer(open_window):
    window, _ = harbour(open_window)
    x, y = window.pixel(*BUOY)
    window.click_at(x, y, 1)
    window.until_field("Name of the motif", "Buoy")
    window.key("Escape")
    plain = window.table_picture()
    for _ in range(6):
        window.click_at(x, y, 4)
    until(lambda: differing(plain, window.table_picture()) > 0.1, "the cloth is seen larger")
    window.click_at(x, y, 1)
    window.until_field("Name of the motif", "Buoy")
    window.key("Escape", "ctrl+0")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    assert max(abs(a - b) for a, b in zip(window.pixel(*BUOY), (x, y))) < 2, "the whole cloth is back in its place"


@check
def in_a_narrow_window_the_side_pane_is_a_drawer(open_window):
    window, _ = harbour(open_window)
    window.resize(1000, 720)
    until(lambda: window.box(window.table())[2] > 960, "the table takes the whole width")
    closed = window.until_still()
    window.key("F9")
    name = window.find("text", "Name of the scene")
    until(lambda: window.box(name)[0] + window.box(name)[2] <= 1000, "the drawer is inside the window")
    until(lambda: differing(closed, window.table_picture()) > 0.2, "the drawer lies over the table")
    assert window.box(window.table())[2] > 960, "and the table keeps its width"
    window.key("F9")
    until(lambda: differing(closed, window.table_picture()) < 0.01, "the drawer closes")


run_checks()
