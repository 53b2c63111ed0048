"""Arranging: motifs come to rest at lines while they are dragged, come in line, are paired, laid in rows and tucked behind one another; each is one step."""
import sight
import scenes
from window import Atspi, check, run_checks, until

WALL, LIGHTHOUSE, BOAT, BUOY = (80, 90), (320, 100), (120, 122), (460, 340)
SPAN = {"Sea wall": (60, 40), "Lighthouse": (30, 60), "Rowing boat": (50, 30), "Buoy": (34, 34)}
INK = (0x2e, 0x66, 0x8f)


def harbour(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path)
    window.until_plan("^3 hoopings, proven fewest")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    return window, path


def places(window, path):
    return {motif["name"]: tuple(motif["position"]) for motif in window.saved(path)["motifs"]}


def take_two(window):
    window.drag_on_cloth((40, 50), (200, 200))
    window.until_reads("2 motifs")


def arrange(window, at, entry):
    window.click_cloth(at, 3)
    window.do(window.find("menu item", entry))


def type_over(window, label, text):
    """Types over what stands in the field that has the keyboard."""
    until(lambda: window.field(label).get_state_set().contains(Atspi.StateType.FOCUSED), f"{label} has the keyboard")
    window.key("ctrl+a")
    window.type(text)
    window.key("Return")


def take(window):
    window.do(window.find("push button", "Take it"))
    window.gone("push button", "Take it")


def ink_at(window, x, y):
    """Whether a rule of the guides' ink passes within three pixels of that place."""
    left, top = map(round, window.pixel(x, y))
    part = sight.screen()[top - 3:top + 4, left - 3:left + 4].astype(int)
    return (abs(part - INK).max(axis=2) < 40).any()


@check
def a_dragged_motif_rests_on_the_centre_line_which_shows_and_goes_with_the_hand(open_window):
    window, path = harbour(open_window)
    assert not ink_at(window, 300, 400)
    with window.held_on_cloth(LIGHTHOUSE, (302, 260)):
        until(lambda: ink_at(window, 300, 400), "the centre line shows")
    until(lambda: not ink_at(window, 300, 400), "the centre line goes")
    x, y = places(window, path)["Lighthouse"]
    assert abs(x - 300) < 1e-6 and abs(y - 260) < 1.5, (x, y)
    window.find("push button", "Undo move Lighthouse")


@check
def control_lets_it_go(open_window):
    window, path = harbour(open_window)
    window.drag_on_cloth(LIGHTHOUSE, (302, 260), hold="ctrl")
    x, _ = places(window, path)["Lighthouse"]
    assert 301 <= x <= 303, x


@check
def a_motif_rests_at_the_margin(open_window):
    window, path = harbour(open_window)
    window.drag_on_cloth(BUOY, (BUOY[0], 410))
    _, y = places(window, path)["Buoy"]
    assert abs(y + 17 - 428) < 1e-3, y


@check
def turned_off_in_the_menu_it_rests_nowhere(open_window):
    window, path = harbour(open_window)
    window.menu("Come to rest while dragging")
    window.drag_on_cloth(LIGHTHOUSE, (302, 260))
    x, _ = places(window, path)["Lighthouse"]
    assert 301 <= x <= 303, x


@check
def left_sides_come_in_line_by_menu_and_by_key(open_window):
    window, path = harbour(open_window)
    before = places(window, path)
    take_two(window)
    arrange(window, WALL, "Left sides")
    window.find("push button", "Undo align 2 motifs")
    after = places(window, path)
    assert after["Sea wall"] == (100, 100) and after["Rowing boat"] == (95, 115), after
    window.key("ctrl+z")
    window.find("push button", "Redo align 2 motifs")
    assert places(window, path) == before
    window.key("ctrl+Left")
    window.find("push button", "Undo align 2 motifs")
    assert places(window, path) == after


@check
def a_mirrored_pair_faces_across_the_centre_line(open_window):
    window, path = harbour(open_window)
    window.click_cloth(LIGHTHOUSE)
    window.until_reads("^Lighthouse")
    window.key("ctrl+shift+m")
    window.find("push button", "Undo add the mirrored pair of Lighthouse")
    pair = window.saved(path)["motifs"][2]
    assert pair["name"] == "Lighthouse 2" and pair["mirrored"] and pair["position"] == [280, 100], pair


@check
def a_tuck_is_seen_while_it_is_typed_and_taken_as_one_step(open_window):
    window, path = harbour(open_window)
    before = window.saved(path)
    window.click_cloth(LIGHTHOUSE)
    window.click_cloth(BUOY, hold="shift")
    window.until_reads("2 motifs")
    window.key("ctrl+t")
    window.until_reads("^So far it lies off by ")
    type_over(window, "How far it reaches over", "1/4 in")
    window.until_reads("Lighthouse lies behind Buoy, and is stitched before it")
    take(window)
    window.find("push button", "Undo tuck Lighthouse behind Buoy")
    x, y = places(window, path)["Lighthouse"]
    # On the slope between their middles the two upright boxes part last where their level sides pass.
    slope = (460 - 320) / (340 - 100)
    assert abs((460 - x) / (340 - y) - slope) < 1e-3, (x, y)
    along = (1 + slope * slope) ** 0.5
    assert abs((340 - y) - (30 + 17 - 6.35 / along)) < 0.02, (x, y)
    window.key("ctrl+z")
    window.find("push button", "Redo tuck Lighthouse behind Buoy")
    assert window.saved(path) == before


@check
def a_length_is_typed_in_any_unit_and_is_no_per_cent(open_window):
    window, path = harbour(open_window)
    window.click_cloth(BUOY)
    window.until_reads("^Buoy")
    for typed, mm in (("3 1/2\"", 88.9), ("9 cm", 90), ("3.5 in", 88.9), ("91,5 mm", 91.5)):
        window.fill_in("From the left", typed)
        until(lambda: abs(places(window, path)["Buoy"][0] - mm) < 1e-6, f"{typed} is understood")
    window.fill_in("Size", "90 mm")
    window.until_field("Size", "100.0 %")
    window.fill_in("Size", "90 %")
    window.until_field("Size", "90.0 %")


@check
def leaving_the_dialog_leaves_all_as_it_was(open_window):
    window, path = harbour(open_window)
    before = window.saved(path)
    window.click_cloth(BUOY)
    window.until_reads("^Buoy")
    arrange(window, BUOY, "Copies around a centre…")
    type_over(window, "How many in all", "8")
    window.until_plan("^[^3]")
    window.key("Escape")
    window.gone("push button", "Take it")
    window.until_plan("^3 hoopings, proven fewest")
    assert window.saved(path) == before


@check
def a_row_of_copies_keeps_the_gap_that_was_typed(open_window):
    window, path = harbour(open_window)
    window.click_cloth(BUOY)
    window.until_reads("^Buoy")
    arrange(window, BUOY, "Copies in a row…")
    type_over(window, "How many in all", "3")
    window.key("Tab")
    type_over(window, "Gap between them", "1.2 cm")
    window.key("Tab")
    type_over(window, "Direction", "180")
    take(window)
    window.find("push button", "Undo copy Buoy in a row")
    xs = [motif["position"][0] for motif in window.saved(path)["motifs"] if motif["name"].startswith("Buoy")]
    assert [round(x, 6) for x in xs] == [460, 414, 368], xs


@check
def a_selection_is_put_in_a_row(open_window):
    window, path = harbour(open_window)
    take_two(window)
    window.key("ctrl+r")
    type_over(window, "Gap between them", "4")
    window.key("Tab")
    type_over(window, "Direction", "90")
    take(window)
    window.find("push button", "Undo put 2 motifs in a row")
    after = places(window, path)
    assert after["Sea wall"] == (100, 100) and after["Rowing boat"] == (100, 139), after


run_checks()
