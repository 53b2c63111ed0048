"""Each warning of the bench: its sentence stands in the list, and choosing it brings the place it speaks of into view."""
import re

import scenes
import sight
from window import check, is_pressed, run_checks, until

# A thread found nowhere else in the window, for what is to be brought into view.
PLUM, PLAIN = ("plum", "#d010e0"), ("slate", "#33506b")
PLAN_FOR = re.compile("^Plan for: ")
THINGS = re.compile("^[0-9]+ things? to look at$")


def orchard(motifs, width=600.0, height=450.0, hold="floated", **more):
    """A wall with fruit trees on a cloth whose edge line is its edge, with one hoop."""
    edge = [[0, 0], [width, 0], [width, height], [0, height]]
    hoop = {"id": "h1", "name": "130 x 180", "field": [130, 180], "frame": [170, 240], "clearance": 2.0, "turn": "any"}
    return {"format": "hoopwright-scene", "version": 1, "name": "Orchard Wall",
            "fabric": {"width": width, "height": height, "colour": scenes.CLOTH, "hold": hold},
            "edge_line": {"points": edge, "margin": 0.0}, "hoops": [hoop], "motifs": motifs, **more}


def with_stitches(motif, count):
    motif["threads"][0]["stitches"] = count
    return motif


def opened(open_window, scene, planned="hooping"):
    path = scenes.write(scenes.folder(), scene)
    window = open_window(path)
    window.until_plan(planned)
    window.find_cloth(scene["fabric"]["width"], scene["fabric"]["height"], scenes.CLOTH)
    window.fold("Scene", "Hoopings")
    return window, path


def plum_pixels(window):
    return sight.like(window.table_picture(), PLUM[1], 40).sum()


def look_away(window, at):
    """Comes so near to a place of the cloth that nothing stitched in plum is to be seen any more."""
    x, y = window.pixel(*at)
    for _ in range(30):
        if plum_pixels(window) == 0:
            return
        before = window.until_still()
        window.click_at(x, y, 4)
        until(lambda: (window.table_picture() != before).any(), "the wheel brings the cloth nearer")
    raise AssertionError("plum is seen from near too")


def warning(window, sentence):
    """The line of the list that holds the sentence."""
    things = window.find("push button", THINGS)
    window.click(things)
    return window.find("push button", sentence)


def leads_to_plum(window, line, away):
    look_away(window, away)
    window.bring_into_view(line)
    window.click(line)
    until(lambda: plum_pixels(window) > 50, "the place comes into view")


@check
def past_the_edge_line_by_how_much_and_where(open_window):
    scene = orchard([scenes.motif(1, "Quince", (40, 40), (560, 225), PLUM), scenes.motif(2, "Medlar", (40, 40), (60, 60), PLAIN)])
    scene["edge_line"]["points"] = [[20, 20], [570, 20], [570, 430], [20, 430]]
    window, _ = opened(open_window, scene)
    line = warning(window, re.compile(r"^Quince passes the edge line by 10\.0 mm at its right\.$"))  # 560 + 20 - 570
    leads_to_plum(window, line, (60, 60))
    window.unfold("Motif")
    window.until_field("Name of the motif", "Quince")


@check
def scaled_beyond_the_range_in_which_its_stitches_hold(open_window):
    small = with_stitches(scenes.motif(1, "Quince", (40, 40), (520, 380), PLUM), 1600)
    window, _ = opened(open_window, orchard([small | {"scale": 0.6}, scenes.motif(2, "Medlar", (40, 40), (60, 60), PLAIN)]))
    # 1600 stitches on 40 mm by 40 mm are 1 to the square millimetre; on 0.6 times the size 1 / 0.36 = 2.78.
    line = warning(window, re.compile(r"^At 60 %, Quince is stitched 2\.78 times as dense .*: 2\.78 stitches per mm² in place of 1\.00\. "
                                      r"From 80 % to 120 % its stitches hold"))
    leads_to_plum(window, line, (60, 60))


def rectangle_of(picture, window, at):
    """A few millimetres about a place, in a picture of the table."""
    left, top = window.box(window.table())[:2]
    x, y = window.pixel(*at)
    return picture[round(y - top) - 12:round(y - top) + 12, round(x - left) - 12:round(x - left) + 12]


def rectangle(window, at):
    return rectangle_of(window.table_picture(), window, at)


def colour_at(window, at):
    return rectangle(window, at).reshape(-1, 3).mean(axis=0)


@check
def stacked_too_dense_is_told_and_coloured_by_the_limit_that_was_set(open_window):
    under = with_stitches(scenes.motif(1, "Quince", (40, 40), (480, 340), PLUM), 3200)
    over = with_stitches(scenes.motif(2, "Leaf", (40, 40), (500, 340), PLUM), 4000)
    window, path = opened(open_window, orchard([under, over, scenes.motif(3, "Medlar", (40, 40), (60, 60), PLAIN)]))
    # 2 and 2.5 to the square millimetre, and 4.5 where one lies over the other: below the limit of 5.
    assert not window.look("push button", THINGS)
    plain = window.until_still()
    window.menu("How dense the stitching lies")
    until(lambda: (window.table_picture() != plain).any(axis=2).sum() > 500, "the densities are coloured")
    window.until_still()
    coloured = colour_at(window, (60, 60))
    window.unfold(PLAN_FOR)
    window.bring_into_view(window.field("Warn of more stitches to the square millimetre"))
    window.fill_in("Warn of more stitches to the square millimetre", "4")
    window.find("push button", "1 thing to look at")
    assert window.saved(path)["wishes"]["density_limit"] == 4
    # The colours run up to the limit: what is as dense as it was is nearer to it now.
    until(lambda: abs(colour_at(window, (60, 60)) - coloured).max() > 1, "the colours follow the limit")
    window.menu("How dense the stitching lies")
    until(lambda: (rectangle(window, (60, 60)) == rectangle_of(plain, window, (60, 60))).all(), "the colours are put away")
    window.fold(PLAN_FOR)
    line = warning(window, re.compile(r"^Leaf over Quince is stitched too dense in 1 place: up to 4\.5 stitches per mm², where 4\.0 are enough"))
    leads_to_plum(window, line, (60, 60))
    window.key("ctrl+z")
    window.gone("push button", THINGS)


def neighbours(gap):
    """Two motifs in different hoopings, so far apart in millimetres, or one over the other where that is negative."""
    return orchard([scenes.motif(1, "Quince", (40, 40), (440, 340), PLUM), scenes.motif(2, "Medlar", (40, 30), (480 + gap, 340), PLUM),
                    scenes.motif(3, "Gate", (40, 40), (60, 60), PLAIN)], apart=[["m1", "m2"]])


@check
def a_gap_smaller_than_the_placing_may_close(open_window):
    window, _ = opened(open_window, neighbours(0.2))
    line = warning(window, re.compile(r"^Quince and Medlar lie 0\.2 mm apart in different hoopings: together they may be 0\.[3-9] mm out"))
    leads_to_plum(window, line, (60, 60))


@check
def an_overlap_smaller_than_the_placing_may_open_to_a_hairline(open_window):
    window, _ = opened(open_window, neighbours(-0.2))
    line = warning(window, re.compile(r"^Quince and Medlar overlap by only 0\.2 mm in different hoopings: .* a hairline of cloth may open"))
    leads_to_plum(window, line, (60, 60))


@check
def a_pinned_frame_that_leaves_the_clamped_cloth_is_not_kept_and_told_of(open_window):
    # The frame is 170 wide and 240 long: its corner nearest to the medlar is at 395, -20.
    scene = orchard([scenes.motif(1, "Quince", (40, 40), (480, 100), PLAIN), scenes.motif(2, "Medlar", (40, 40), (90, 320), PLAIN),
                     scenes.motif(3, "Rose", (20, 20), (375, 60), PLUM)], hold="clamped",
                    pins=[{"hoop": "h1", "centre": [480, 100], "angle": 0, "keep": "all", "motifs": ["m1"]}])
    window, _ = opened(open_window, scene)
    line = warning(window, re.compile(r"^The frame of the pinned hooping with Quince passes the clamped cloth by 20\.0 mm at its top"))
    leads_to_plum(window, line, (90, 320))


@check
def a_stitched_frame_that_leaves_the_clamped_cloth_is_told_of(open_window):
    # The frame is 240 long: it begins at 110 - 120.
    scene = orchard([scenes.motif(1, "Quince", (40, 40), (110, 130), PLUM), scenes.motif(2, "Medlar", (40, 40), (500, 320), PLAIN)], hold="clamped",
                    progress={"frozen": [{"hoop": "h1", "centre": [110, 110], "angle": 0, "motifs": ["m1"]}]})
    window, _ = opened(open_window, scene)
    line = warning(window, re.compile(r"^The frame of stitched hooping 1 passes the clamped cloth by 10\.0 mm at its top"))
    leads_to_plum(window, line, (500, 320))


@check
def a_frame_that_presses_on_finished_stitching(open_window):
    scene = orchard([scenes.motif(1, "Gate", (100, 150), (150, 225), PLUM), scenes.motif(2, "Medlar", (80, 100), (250, 225), PLUM),
                     scenes.motif(3, "Rose", (30, 30), (640, 60), PLAIN)], width=700.0, hold="clamped")
    window, _ = opened(open_window, scene)
    line = warning(window, re.compile(r"^The frame of hooping [23] presses on (Gate|Medlar), stitched by then\. Lay soft cloth between"))
    leads_to_plum(window, line, (640, 60))


@check
def a_hooping_that_no_needle_mark_can_serve(open_window):
    # Stitching up to 1 mm from the edge of the cloth, and a hooping over it.
    scene = orchard([scenes.motif(1, "Wall", (118, 168), (60, 85), PLAIN), scenes.motif(2, "Ivy", (118, 168), (60, 85), PLAIN)], 120.0, 170.0,
                    apart=[["m1", "m2"]])
    window, _ = opened_covered(open_window, scene)
    line = warning(window, re.compile(r"^Hooping 2 has no place for two marks: .* lies within 1\.5 mm of stitching done before"))
    before = window.until_still()
    window.click(line)
    until(lambda: (window.table_picture() != before).any(axis=2).sum() > 200, "the hooping is shown")
    window.unfold("Hoopings")
    assert is_pressed(window.find(None, re.compile(r"^Hooping 2: ")))


def opened_covered(open_window, scene):
    """A cloth that hardly shows below its stitching."""
    path = scenes.write(scenes.folder(), scene)
    window = open_window(path)
    window.until_plan("^2 hoopings")
    window.fold("Scene", "Hoopings")
    return window, path


@check
def a_cloth_too_small_for_its_hoopings_is_told_the_size_to_cut_and_that_size_does(open_window):
    # A frame of 170 mm on a cloth of 160 mm.
    scene = orchard([scenes.motif(1, "Quince", (60, 60), (80, 225), PLUM)], 160.0, 450.0, "clamped")
    window, path = opened(open_window, scene, "^Nothing here can be stitched yet")
    line = warning(window, re.compile(r"^The cloth is too small for its hoopings: a piece of 170 × 450 mm would do\."))
    leads_to_plum(window, line, (80, 30))
    window.unfold("Scene")
    cloth_of_width(window, "170")
    window.until_plan("^1 hooping, proven fewest")
    window.gone("push button", THINGS)


def cloth_of_width(window, width):
    window.menu("Cloth and edge line…")
    until(lambda: len(window.frames()) > 1, "the cloth is shown")
    window.fill_in("Width of the cloth", width)
    window.key("Escape")
    until(lambda: len(window.frames()) == 1, "the cloth is put away")


@check
def in_a_narrow_window_the_place_is_not_left_under_the_drawer(open_window):
    scene = orchard([scenes.motif(1, "Gate", (60, 40), (100, 100), PLAIN), scenes.motif(2, "Pear", (24, 30), (595, 200), PLUM)])
    window, _ = opened(open_window, scene)
    window.resize(1000, 800)
    until(lambda: plum_pixels(window) > 100, "the pear is seen on the table")
    window.click(window.find("push button", THINGS))
    line = window.find("push button", re.compile("^Pear (passes|leaves)"))
    until(lambda: plum_pixels(window) == 0, "the drawer lies over the pear")
    window.bring_into_view(line)
    window.click(line)
    until(lambda: plum_pixels(window) > 100, "the pear is brought out from under the drawer")


run_checks()
