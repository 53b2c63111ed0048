"""The side pane and the foot: hoopings and problems are chosen, sizes typed, units switched, candidates taken; every control has a name."""
import re
import time

import scenes
import sight
from window import Atspi, check, is_pressed, run_checks, until

BUOY = (460, 340)
CONTROLS = ("push button", "toggle button", "check box", "text", "spin button", "combo box", "list", "list box", "slider", "image", "entry")
CARD = re.compile(r"^Hooping \d+: ")
PLAN_FOR = re.compile("^Plan for: ")
FROM, TO = "Scale without new stitches, from", "Scale without new stitches, to"


def harbour(open_window, scene=None, planned=r"^3 hoopings, proven fewest"):
    path = scenes.write(scenes.folder(), scene or scenes.harbour())
    window = open_window(path)
    window.until_plan(planned)
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    return window, path


def name_of(widget):
    name = widget.get_name() or ""
    return "" if name.startswith(("Gtk", "Hw")) else name


@check
def every_control_that_takes_the_focus_has_a_name(open_window):
    window, _ = harbour(open_window)
    window.click_cloth(BUOY)
    window.until_field("From the left", "460.0 mm")
    window.unfold("Stitch order")
    nameless = []
    for widget in window.walk():
        if widget.get_role_name() in CONTROLS and widget.get_state_set().contains(Atspi.StateType.FOCUSABLE) and not name_of(widget):
            # A part of a control, such as the button of a colour field, goes by the name of the whole.
            if not any(name_of(whole) for whole in (widget.get_parent(), widget.get_parent().get_parent())):
                nameless.append(f"{widget.get_role_name()} '{widget.get_name()}' in {widget.get_parent().get_role_name()}")
    assert not nameless, nameless


def with_trouble(lines):
    """One to five things to look at."""
    scene = scenes.harbour()
    wall, lighthouse, boat, buoy = scene["motifs"]
    buoy.update(outline=scenes.box(150, 200), position=[440, 310])
    if lines > 1:
        lighthouse["scale"] = 1.5
    if lines > 2:
        wall["position"], boat["position"] = [45, 100], [110, 30]
        scene["motifs"].append(scenes.motif(5, "Gull", (24, 24), (575, 60), ("chalk", "#e8e4da")))
    return scene


def lines_in_sight(open_window, lines):
    """What the button at the foot brings into view in a small window, whole; and how many lines there are."""
    window, _ = harbour(open_window, with_trouble(lines), "not the whole scene")
    window.resize(1280, 800)
    window.click(window.find("push button", re.compile(f"^{lines} things? to look at")))
    window.find(None, f"To look at: {lines}")
    told = re.compile("^(Buoy does not fit|At 150 %, Lighthouse|.* passes the edge line)")
    rows = until(lambda: len(window.look("push button", told)) == lines and window.look("push button", told), "the lines are there")
    pane = rows[0].get_parent()
    while pane.get_role_name() != "scroll pane":
        pane = pane.get_parent()
    _, top, _, height = window.box(pane)

    def in_sight():
        boxes = [window.box(row) for row in rows]
        return [top <= y and y + tall <= top + height for _, y, _, tall in boxes]

    until(lambda: all(in_sight()), "the lines are in sight")
    time.sleep(0.7)  # and they stay there
    return in_sight()


@check
def one_thing_to_look_at_is_brought_into_view(open_window):
    assert lines_in_sight(open_window, 1) == [True]


@check
def two_things_to_look_at_are_brought_into_view(open_window):
    assert lines_in_sight(open_window, 2) == [True] * 2


@check
def five_things_to_look_at_are_brought_into_view(open_window):
    assert lines_in_sight(open_window, 5) == [True] * 5


@check
def each_hooping_has_a_card_and_choosing_one_presses_it_alone(open_window):
    window, _ = harbour(open_window)
    window.fold("Scene")
    cards = until(lambda: len(window.look(None, CARD)) == 3 and window.look(None, CARD), "three cards")
    words = [card.get_name() for card in cards]
    assert sum("Sea wall" in said and "Rowing boat" in said for said in words) == 1, words
    assert all(re.search(r"thread change.* min", said) for said in words), words

    window.click(cards[1])
    until(lambda: [is_pressed(card) for card in window.look(None, CARD)] == [False, True, False], "the second is chosen alone")
    window.click(window.look(None, CARD)[2])
    until(lambda: [is_pressed(card) for card in window.look(None, CARD)] == [False, False, True], "the third is chosen alone")
    window.key("Escape")
    until(lambda: not any(is_pressed(card) for card in window.look(None, CARD)), "none is chosen")


@check
def a_chosen_hooping_is_seen_on_the_table(open_window):
    window, _ = harbour(open_window)
    plain = window.table_picture()
    window.click(window.find(None, CARD))
    until(lambda: (window.table_picture() != plain).any(axis=2).sum() > 2000, "the table shows it")


@check
def more_than_a_hundred_hoopings_come_a_hundred_at_a_time(open_window):
    scene = scenes.harbour()
    scene["fabric"].update(width=3000, height=3000)
    scene["edge_line"]["points"] = [[20, 20], [2980, 20], [2980, 2980], [20, 2980]]
    # 102 motifs, each farther from the next than the hoop is long.
    scene["motifs"] = [scenes.motif(n, f"Pebble {n}", (30, 30), (100 + n % 11 * 270, 200 + n // 11 * 270), ("slate", "#33506b")) for n in range(102)]
    window = open_window(scenes.write(scenes.folder(), scene))
    window.until_plan("^102 hoopings")
    first = lambda: int(re.search(r"\d+", window.find(None, CARD).get_name())[0])
    until(lambda: len(window.look(None, CARD)) == 100, "a hundred cards")
    window.until_reads("^1 to 100 of 102$")
    window.click(window.find("push button", "Later hoopings"))
    window.until_reads("^101 to 102 of 102$")
    until(lambda: len(window.look(None, CARD)) == 2 and first() == 101, "the last two cards")
    window.click(window.look(None, CARD)[1])
    until(lambda: [is_pressed(card) for card in window.look(None, CARD)] == [False, True], "the last is chosen")
    window.click(window.find("push button", "Earlier hoopings"))
    until(lambda: first() == 1 and not any(is_pressed(card) for card in window.look(None, CARD)), "the first hundred, none of them chosen")
    window.key("Escape")
    window.click(window.look(None, CARD)[0])
    window.until_reads("^1 to 100 of 102$")
    assert is_pressed(window.find(None, CARD))


@check
def a_width_can_be_typed_in_inches(open_window):
    window, path = harbour(open_window)
    window.click_cloth(BUOY)
    window.until_field("Width", "34.0 mm")
    window.fill_in("Width", "1.5 in")
    window.until_field("Width", "38.1 mm")
    scale = window.saved(path)["motifs"][3]["scale"]
    assert abs(scale - 38.1 / 34) < 1e-6, scale
    window.until_field("Size", "112.1 %")
    window.fill_in("Width", "nonsense")
    window.until_field("Width", "38.1 mm")
    window.fill_in("Turn", "30")
    assert window.saved(path)["motifs"][3]["angle"] == 30


@check
def undo_from_within_a_field_undoes_the_scene(open_window):
    window, path = harbour(open_window)
    window.click_cloth(BUOY)
    window.fill_in("Width", "1.5 in")
    window.until_field("Width", "38.1 mm")
    window.key("ctrl+z")
    window.until_field("Width", "34.0 mm")
    window.key("ctrl+shift+z")
    window.until_field("Width", "38.1 mm")


@check
def escape_on_the_table_steps_back_from_motif_and_then_from_hooping(open_window):
    window, _ = harbour(open_window)
    window.fold("Scene")
    card = until(lambda: window.look(None, CARD), "cards")[0]
    window.click(card)
    until(lambda: is_pressed(window.look(None, CARD)[0]), "the first is chosen")
    window.click_cloth(BUOY)
    until(lambda: window.look(None, "Motif"), "a motif is chosen")
    window.key("Escape")
    until(lambda: not window.look(None, "Motif"), "no motif is chosen")
    assert is_pressed(window.look(None, CARD)[0]), "the hooping still is"
    window.key("Escape")
    until(lambda: not any(is_pressed(card) for card in window.look(None, CARD)), "nor a hooping")


@check
def a_name_typed_in_the_pane_is_the_motifs_name(open_window):
    window, path = harbour(open_window)
    window.click_cloth(BUOY)
    window.fill_in("Name of the motif", "Harbour buoy")
    assert window.saved(path)["motifs"][3]["name"] == "Harbour buoy"
    window.until_reads("Harbour buoy")


@check
def lengths_can_be_shown_in_inches(open_window):
    window, path = harbour(open_window)
    before = window.saved(path)
    window.click_cloth(BUOY)
    window.until_field("From the left", "460.0 mm")
    window.menu("Inches")
    window.until_field("From the left", "18.11 in")
    window.fill_in("From the left", "18")
    assert abs(window.saved(path)["motifs"][3]["position"][0] - 18 * 25.4) < 1e-6
    window.click(window.find("push button", "Undo move Buoy"))
    window.menu("Millimetres")
    window.until_field("From the left", "460.0 mm")
    assert window.saved(path) == before


@check
def a_motif_past_the_edge_line_is_listed_and_choosing_the_line_selects_it(open_window):
    scene = scenes.harbour()
    scene["motifs"][3]["position"] = [575, 340]
    window, _ = harbour(open_window, scene)
    window.click(window.find("push button", "1 thing to look at"))
    problem = window.find(None, re.compile(r"Buoy passes the edge line"))
    assert re.search(r"1[0-9](\.\d)? mm", problem.get_name()), problem.get_name()
    window.click(problem)
    window.until_field("Name of the motif", "Buoy")


@check
def a_motif_no_hoop_takes_is_named_with_the_scale_that_would_do(open_window):
    scene = scenes.harbour()
    scene["motifs"][3]["outline"] = scenes.box(150, 200)
    scene["motifs"][3]["position"] = [440, 310]
    window, _ = harbour(open_window, scene, "hooping")
    window.click(window.find("push button", re.compile("things? to look at")))
    problem = window.find(None, re.compile(r"Buoy does not fit")).get_name()
    assert re.search(r"\d mm too", problem) and re.search(r"\d+ ?%", problem), problem


@check
def a_ghost_on_the_table_can_be_taken_and_pins_the_hooping(open_window):
    scene = scenes.harbour()
    scene["hoops"].append({"id": "h2", "name": "200 x 200", "field": [200, 200], "frame": [240, 240], "clearance": 2.0, "turn": "quarter"})
    window, path = harbour(open_window, scene, r"^\d hoopings, proven fewest")
    taken = next(card for card in until(lambda: window.look(None, CARD), "cards") if "Buoy" in card.get_name())
    assert "Hoop 130 x 180" in taken.get_name(), taken.get_name()
    window.click_cloth(BUOY)
    # The other hoop, 200 mm square, lies about the buoy: its right side is taken hold of.
    window.click_cloth((BUOY[0] + 100, BUOY[1] + 50))
    until(lambda: any("Buoy" in card.get_name() and "Hoop 200 x 200" in card.get_name() for card in window.look(None, CARD)),
          "the buoy is in the other hoop")
    pins = window.saved(path)["pins"]
    assert [(pin["hoop"], pin["motifs"]) for pin in pins] == [("h2", ["m4"])], pins
    window.fold("Motif")
    window.click(window.find("push button", "Let this hooping go"))
    until(lambda: not window.saved(path).get("pins"), "the pin is gone")


@check
def walking_along_the_course_shows_the_cloth_as_it_will_be(open_window):
    window, _ = harbour(open_window)
    bare = window.table_picture()
    beads = window.look("push button", None, window.find(None, "The course: one bead for each hooping"))
    assert len(beads) == 5, [bead.get_name() for bead in beads]
    window.click(beads[1])
    until(lambda: (window.table_picture() != bare).any(axis=2).sum() > 500, "the first bead shows another picture")
    first = window.table_picture()
    window.click(beads[3])
    until(lambda: (window.table_picture() != first).any(axis=2).sum() > 500, "the third bead shows another picture again")


@check
def the_stitch_order_can_be_changed_in_its_list(open_window):
    window, path = harbour(open_window)
    window.fold("Scene", "Hoopings")
    window.unfold("Stitch order")
    rows = until(lambda: window.order_rows(), "rows")
    assert [name for name, _ in rows] == ["Sea wall", "Lighthouse", "Rowing boat", "Buoy"], rows
    window.drag_widget(rows[3][1], rows[0][1])
    until(lambda: [name for name, _ in window.order_rows()][0] == "Buoy", "the buoy is dragged to the top")
    assert [motif["name"] for motif in window.saved(path)["motifs"]][0] == "Buoy"
    window.key("ctrl+z")
    until(lambda: [name for name, _ in window.order_rows()][3] == "Buoy", "and undone")


def thread_takers(**wishes):
    """Five motifs of two threads each, at two places: 5 thread changes, 4 with threads in turns, where each motif by itself would need 8."""
    threads = {"moss": "#55703a", "rose": "#c05070", "rust": "#a0401c"}
    places = [("Quince", (100, 100), "moss rose"), ("Medlar", (330, 100), "rust moss"), ("Leaf", (150, 100), "rose moss"),
              ("Pear", (330, 150), "moss rust"), ("Fig", (100, 150), "moss rose")]
    scene = scenes.harbour() | {"wishes": wishes}
    scene["motifs"] = [scenes.motif(number, name, (40, 40), at, ("moss", threads["moss"]),
                                    ) | {"threads": [{"name": one, "colour": threads[one], "stitches": 900} for one in names.split()]}
                       for number, (name, at, names) in enumerate(places, 1)]
    return scene


@check
def the_foot_says_what_the_order_of_threads_saves(open_window):
    window, _ = harbour(open_window, thread_takers(), "^2 hoopings, proven fewest · 5 thread changes")
    window.until_reads(r"^Stitched one by one it would be 8 thread changes\.", window.foot())
    window.click(window.find(None, "Why not fewer?", window.foot()))
    window.until_reads(r"^5 thread changes, proven fewest for so many hoopings; stitched one by one it would be 8\.$")


@check
def threads_in_turns_save_one_change_more(open_window):
    window, _ = harbour(open_window, thread_takers(interleave=True), "^2 hoopings, proven fewest · 4 thread changes")
    window.until_reads(r"^Stitched one by one it would be 8 thread changes\.", window.foot())


@check
def for_the_least_time_the_reason_speaks_of_time(open_window):
    window, _ = harbour(open_window, thread_takers(best="least-time"), "^2 hoopings · 5 thread changes · about 39 minutes, proven least time$")
    window.until_reads(r"Setting 2 hoopings takes 16 min, 5 thread changes 8 min, stitching 15 min\.$", window.foot())  # 2 x 8, 5 x 1.5, 9000 / 600
    window.click(window.find(None, "Why not quicker?", window.foot()))
    window.until_reads(r"^2 hoopings, 39 min, proven least time\.$")
    window.until_reads(r"^No other plan spends less on both together\.$")


@check
def the_scales_that_need_no_new_stitches_are_a_wish_and_undone(open_window):
    window, path = harbour(open_window)
    window.unfold(PLAN_FOR)
    window.until_field(FROM, "80.0 %")
    window.fill_in(FROM, "130")
    window.until_field(TO, "130.0 %")
    assert window.saved(path)["wishes"]["scale_range"] == [1.3, 1.3]
    # Every motif is at 100 %.
    window.find("push button", "4 things to look at")
    window.click(window.find("push button", "Undo change the scales without new stitches"))
    window.gone("push button", re.compile("things to look at$"))
    window.until_field(FROM, "80.0 %")
    window.until_field(TO, "120.0 %")


def scroll_panes(window, start=None):
    return window.look("scroll pane", None, start)


def lies_within(window, part, whole):
    x, _, width, _ = window.box(part)
    left, _, across, _ = window.box(whole)
    return left <= x and x + width <= left + across


@check
def the_side_pane_scrolls_as_a_whole_and_cuts_nothing(open_window):
    window, _ = harbour(open_window)
    window.resize(1024, 700)
    shown = window.find("push button", "Side pane")
    until(lambda: not is_pressed(shown), "the pane is put away where there is no room beside the table")
    window.key("F9")
    until(lambda: is_pressed(shown), "it is a drawer now")
    section = window.find("push button", "Scene")
    pane = section.get_parent()
    while pane.get_role_name() != "scroll pane":
        pane = pane.get_parent()
    for name in ("Stitch order", PLAN_FOR, "Hoopings", re.compile("^What would help"), re.compile("^To look at")):
        window.unfold(name)
    assert len(scroll_panes(window, pane)) == 2, [one.get_parent().get_role_name() for one in scroll_panes(window, pane)]
    for widget in window.look(("push button", "spin button", "check box", "label", "text"), None, pane):
        assert lies_within(window, widget, pane), (widget.get_role_name(), widget.get_name())
    rows = window.order_rows()
    assert len(rows) == 4 and sum(window.box(row)[3] for _, row in rows) <= window.box(window.find("list", "Stitch order, back to front"))[3], rows


@check
def what_is_read_stays_where_it_is_when_a_motif_is_selected(open_window):
    window, _ = harbour(open_window)
    window.unfold(PLAN_FOR)
    last = window.find("push button", "Photo")
    window.bring_into_view(last)
    before = window.box(last)
    window.click_cloth(BUOY)
    window.until_field("From the left", "460.0 mm")
    until(lambda: abs(window.box(last)[1] - before[1]) <= 2, "the heading is where it was")


@check
def a_problem_between_two_motifs_points_out_both(open_window):
    scene = scenes.harbour()
    scene["motifs"][0] = scenes.motif(1, "Sea wall", (60, 160), (100, 110), ("slate", "#33506b"))
    scene["motifs"][0]["threads"][0]["stitches"] = 38400
    scene["motifs"][2]["threads"][0]["stitches"] = 6000
    window, _ = harbour(open_window, scene)
    window.click(window.find("push button", "1 thing to look at"))
    line = window.find("push button", re.compile(r"^Rowing boat over Sea wall is stitched too dense"))
    window.until_still()  # the section has unfolded
    window.bring_into_view(line)
    place = window.box(line)
    window.click(line)
    window.until_field("Name of the motif", "Rowing boat")
    until(lambda: abs(window.box(line)[1] - place[1]) <= 2, "the line stays under the pointer")
    # A ring of ink runs around the sea wall too: along its left side, 70 mm from the cloth's.
    until(lambda: ink_along(window, (70, 155), (70, 185)) > 0.6, "the sea wall is pointed out")
    window.click_cloth(BUOY)
    until(lambda: ink_along(window, (70, 155), (70, 185)) < 0.3, "it no longer is")


def ink_along(window, start, end):
    """The part of the way from place to place along which ink is met within a few pixels to either side."""
    screen = sight.screen()
    met, steps = 0, 20
    for step in range(steps):
        x, y = window.pixel(start[0], start[1] + (end[1] - start[1]) * step / (steps - 1))
        around = screen[round(y), round(x) - 3:round(x) + 4].astype(int)
        met += (abs(around - (26, 28, 41)).max(axis=1) < 14).any()
    return met / steps


@check
def the_program_shows_itself_with_icon_and_title(open_window):
    window, _ = harbour(open_window)
    window.menu("About Hoopwright")
    dialog = until(lambda: len(window.frames()) > 1 and window.frames()[-1], "it is shown")
    assert dialog.get_name() == "About Hoopwright" and window.reads("^Version [0-9]", dialog)
    icon = window.find("image", "An embroidery hoop with a sprig", dialog)
    x, y, width, height = map(round, window.box(icon))
    # Wood of the hoop; a picture that is missing is grey.
    until(lambda: sight.like(sight.screen()[y:y + height, x:x + width], "#b98750", 30).sum() > 100, "the icon is seen")


@check
def the_page_preview_says_what_it_shows(open_window):
    window, _ = harbour(open_window)
    window.key("ctrl+p")
    page = window.find("image", "The page as it will be printed")
    until(lambda: page.get_description() == "Page 1 of 4", "the first page is told")
    window.click(window.find("push button", "Next page"))
    until(lambda: page.get_description() == "Page 2 of 4", "the next page is told")
    for button in window.look("push button"):
        assert not re.fullmatch(r"(.+) \1", button.get_name() or ""), button.get_name()


@check
def the_plan_below_the_table_can_be_put_away(open_window):
    window = open_window(scenes.write(scenes.folder(), scenes.harbour()))
    window.until_plan("^3 hoopings, proven fewest")
    x, y, width, low = window.box(window.table())
    window.key("shift+F9")
    window.gone("panel", "The course: one bead for each hooping")
    until(lambda: window.box(window.table())[3] > low + 60, "the table takes its room")
    window.key("F6", "F6")  # goes over what is not there
    window.key("shift+F9")
    window.until_plan("^3 hoopings, proven fewest")
    until(lambda: window.box(window.table())[3] == low, "and gives it back")


@check
def cards_of_many_lines_push_what_lies_below_them_down(open_window):
    scene = scenes.harbour()
    for motif in scene["motifs"]:
        motif["name"] = "Reed and rush " * 14
    window, _ = harbour(open_window, scene)
    last = window.find(None, re.compile("^Hooping 3: "))
    _, top, _, height = window.box(last)
    below = window.find(None, "Stitch order")
    assert height > 100, "a name of three lines at least"
    assert window.box(below)[1] >= top + height, "what lies below begins under the last card"


run_checks()
