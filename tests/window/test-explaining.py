"""The plan explains itself: how sure its count is, what it saves, why it is so, what would help; and what a person decides is weighed and kept."""
import re

import scenes
from window import check, run_checks, until

RED, BLUE = ("rust", "#a0401c"), ("slate", "#33506b")
PLAN_FOR = re.compile("^Plan for: ")
CARD = re.compile(r"^Hooping \d+: ")
WALL, LIGHTHOUSE, BUOY = (80, 90), (320, 100), (460, 340)
THREE = "^3 hoopings, proven fewest"


def orchard(motifs, width=600.0, height=450.0, **more):
    """Fruit trees on a cloth whose edge line is its edge, with one hoop."""
    edge = [[0, 0], [width, 0], [width, height], [0, height]]
    hoop = {"id": "h1", "name": "130 x 180", "field": [130, 180], "frame": [170, 240], "clearance": 2.0, "turn": "any"}
    return {"format": "hoopwright-scene", "version": 1, "name": "Orchard",
            "fabric": {"width": width, "height": height, "colour": scenes.CLOTH, "hold": "floated"},
            "edge_line": {"points": edge, "margin": 0.0}, "hoops": [hoop], "motifs": motifs, **more}


def opened(open_window, scene, planned):
    path = scenes.write(scenes.folder(), scene)
    window = open_window(path)
    window.until_plan(planned)
    window.find_cloth(scene["fabric"]["width"], scene["fabric"]["height"], scenes.CLOTH)
    return window, path


def cards(window):
    return [card.get_name() for card in window.look(None, CARD)]


def number_of(window, name):
    """The number of the hooping that stitches a motif."""
    return next(int(re.search(r"\d+", said)[0]) for said in cards(window) if name in said)


def decide(window, number, *entries):
    """Does an entry of the menu on the card of a hooping."""
    button = window.find(None, f"Decide about hooping {number}")
    window.bring_into_view(button)
    window.click(button)
    for entry in entries:
        window.do(window.find("menu item", entry))
    window.gone("menu item", entries[-1])


def poses(window, path, count):
    """Hoop, centre and angle of each hooping, as the file keeps them when it is held."""
    found = []
    for number in range(1, count + 1):
        decide(window, number, "Hold as it is")
        window.find("push button", "Let this hooping go")
        found += window.saved(path)["pins"]
        window.key("ctrl+z")
        window.gone("push button", "Let this hooping go")
    return found


def choose(window, name, entry):
    """Takes the entry of a drop-down list, counted from 0."""
    wish = window.find("combo box", name)
    window.bring_into_view(wish)
    window.click(wish)
    window.key("Home", *["Down"] * entry, "Return")


def fill_in(window, label, text):
    window.bring_into_view(window.field(label))
    window.fill_in(label, text)


def three_trees():
    """At each of three places far from one another a red fruit and a blue leaf over it."""
    trees = []
    for k, (name, x, y) in enumerate([("Apple", 100, 100), ("Pear", 320, 100), ("Plum", 460, 340)]):
        trees += [scenes.motif(2 * k + 1, name, (40, 40), (x, y), RED), scenes.motif(2 * k + 2, name + " leaf", (30, 30), (x + 15, y + 15), BLUE)]
    return orchard(trees)


@check
def a_nudge_that_changes_nothing_keeps_numbers_and_poses(open_window):
    window, path = opened(open_window, scenes.harbour(), THREE)
    window.fold("Scene")
    before, lain = cards(window), poses(window, path, 3)
    window.click_cloth(LIGHTHOUSE)
    window.find("push button", "Motif")
    for step in range(1, 6):
        window.key("Right", "Down")
        assert cards(window) == before, "the cards stay"
    until(lambda: window.saved(path)["motifs"][1]["position"] == [322.5, 102.5], "five nudges are done")
    window.until_plan(THREE)
    window.key("Escape")
    assert cards(window) == before
    after = poses(window, path, 3)
    assert after == lain, (lain, after)


@check
def a_plan_that_is_not_proven_says_how_far_it_may_be_off(open_window):
    grains = [scenes.motif(row * 20 + column + 1, f"Grain {row * 20 + column + 1}", (20, 14),
                           (30 + 38.7 * column + 17 * (row * 7 % 5) / 5, 30 + 44.3 * row + 13 * (column * 3 % 7) / 7), RED)
              for row in range(13) for column in range(20)]
    window, _ = opened(open_window, orchard(grains, 820.0, 620.0), r"^\d+ hoopings, at most \d+ more than the fewest · ")
    window.click(window.find(None, "Why not fewer?", window.foot()))
    window.until_reads(r"^\d+ hoopings, at most \d+ more than the fewest\.$")


@check
def what_the_order_saves_in_thread_changes_is_told(open_window):
    fruit = [scenes.motif(i + 1, name, (20, 20), (80 + 30 * (i % 2), 80 + 30 * (i // 2)), [RED, BLUE][i % 2])
             for i, name in enumerate(["Apple", "Sloe", "Cherry", "Damson"])]
    window, _ = opened(open_window, orchard(fruit), r"^1 hooping, proven fewest · 1 thread change · ")
    window.until_reads(r"^Stitched one by one it would be 3 thread changes\.")


@check
def neighbours_may_take_turns_when_the_person_allows_it(open_window):
    both = [{"name": "rust", "colour": "#a0401c", "stitches": 900}, {"name": "slate", "colour": "#33506b", "stitches": 900}]
    window, path = opened(open_window, orchard([{**scenes.motif(1, "Apple", (30, 30), (80, 80), RED), "threads": both},
                                                {**scenes.motif(2, "Pear", (30, 30), (125, 80), RED), "threads": both}]),
                          r"^1 hooping, proven fewest · 3 thread changes · ")
    window.unfold(PLAN_FOR)
    turns = window.find("check box", re.compile("^Threads of neighbouring motifs"))
    window.bring_into_view(turns)
    window.click(turns)
    window.until_plan(r"^1 hooping, proven fewest · 1 thread change · ")
    assert window.saved(path)["wishes"]["interleave"] is True
    window.key("ctrl+z")
    window.until_plan(r" · 3 thread changes · ")


@check
def the_time_follows_the_pace_and_least_time_may_take_more_hoopings_than_the_fewest(open_window):
    window, path = opened(open_window, three_trees(), r"^3 hoopings, proven fewest · 5 thread changes · about (40|41) minutes$")
    window.fold("Scene", "Hoopings")
    window.unfold(PLAN_FOR)
    # 6 x 900 stitches at 600 a minute are 9 minutes.
    fill_in(window, "Minutes for setting a hooping", "1")
    window.until_plan(r"about 2[01] minutes$")  # 3 x 1 + 5 x 1.5 + 9
    fill_in(window, "Minutes for a thread change", "5")
    window.until_plan(r"^3 hoopings, proven fewest · 5 thread changes · about 37 minutes$")  # 3 x 1 + 5 x 5 + 9
    fill_in(window, "Stitches per minute", "900")
    window.until_plan(r"about 34 minutes$")
    # All reds, then all blues; only the tree where the thread is changed is stitched in one hooping.
    choose(window, "Plan for", 1)
    window.until_plan(r"^5 hoopings · 1 thread change · about 16 minutes, proven least time$")  # 5 x 1 + 1 x 5 + 6
    window.key("ctrl+z")
    window.until_plan(r"^3 hoopings, proven fewest · 5 thread changes · about 34 minutes$")
    machine = window.saved(path)["machine"]
    assert (machine["minutes_per_hooping"], machine["minutes_per_change"], machine["stitches_per_minute"]) == (1, 5, 900), machine


@check
def a_held_hooping_stays_while_its_motif_moves_and_is_told_of_when_it_cannot(open_window):
    window, path = opened(open_window, scenes.harbour(), THREE)
    window.fold("Scene")
    decide(window, number_of(window, "Buoy"), "Hold as it is")
    window.find("push button", "Let this hooping go")
    held = window.saved(path)["pins"]
    window.drag_on_cloth(BUOY, (490, 340))
    until(lambda: window.saved(path)["motifs"][3]["position"][0] > 480, "the buoy is dragged")
    window.find("push button", "Let this hooping go")
    assert window.saved(path)["pins"] == held
    assert not window.look("push button", re.compile("to look at$"))
    window.drag_on_cloth((490, 340), (400, 340))
    window.find("push button", "1 thing to look at")
    window.until_plan(THREE)
    window.fold("Motif", "Hoopings")
    window.click(window.find("push button", "1 thing to look at"))
    window.find("push button", "The pinned hooping with Buoy no longer takes all its motifs where it is pinned.")


@check
def a_stitched_hooping_never_moves(open_window):
    scene = scenes.harbour()
    scene["progress"] = {"frozen": [{"hoop": "h1", "centre": [110, 130], "angle": 0, "motifs": ["m1", "m3"]}]}
    window, path = opened(open_window, scene, "^3 hoopings")
    window.fold("Scene")
    first = cards(window)[0]
    assert re.match(r"^Hooping 1: 130 x 180, stitched\. Sea wall, Rowing boat\.", first), first
    window.drag_on_cloth(LIGHTHOUSE, (300, 140))
    until(lambda: window.saved(path)["motifs"][1]["position"][1] > 130, "the lighthouse is dragged")
    assert cards(window)[0] == first and window.saved(path)["progress"] == scene["progress"]
    window.click(window.find(None, "Decide about hooping 1"))
    until(lambda: window.look("menu item"), "the menu opens")
    assert not window.look("menu item", re.compile("^(Split|Join)"))


@check
def contradicting_wishes_are_answered_by_the_fewest_of_them_by_name(open_window):
    scene = scenes.harbour()
    scene["motifs"][1]["position"] = [100, 160]
    scene["motifs"][2]["position"] = [300, 300]
    # A tie that contradicts nothing is not to be named.
    scene["motifs"][2]["before"] = ["m4"]
    window, path = opened(open_window, scene, THREE)
    window.fold("Scene")
    decide(window, number_of(window, "Sea wall"), "Keep these motifs together")
    window.find("push button", "Let this hooping go")
    assert number_of(window, "Sea wall") == number_of(window, "Lighthouse")
    for first, second, entry in (((80, 90), BUOY, "Stitch Sea wall before Buoy"), ((100, 170), BUOY, "Stitch Buoy before Lighthouse")):
        window.click_cloth(first)
        window.click_cloth(second, hold="shift")
        window.until_reads("2 motifs")
        window.menu_on_cloth(second, entry)
    window.fold("2 motifs", "Hoopings")
    window.click(window.find("push button", re.compile("things? to look at")))
    said = window.find("push button", re.compile("contradict one another")).get_name()
    assert re.search("because the pinned hooping with (Sea wall|Lighthouse)", said), said
    assert all(wish in said for wish in ("the tie of Sea wall before Buoy", "the tie of Buoy before Lighthouse")), said
    assert "Rowing boat" not in said, said
    assert "the order goes Sea wall before Buoy, Buoy before Lighthouse" in said, said
    window.key("ctrl+z")
    window.gone("push button", re.compile("contradict one another"))


@check
def a_hooping_that_cannot_lie_along_the_grain_is_answered_by_name(open_window):
    # Two trees on their corners, one up and left of the other: together they fit the hoop only when it is turned by about 45 degrees.
    trees = [{**scenes.motif(1, "Apple", (30, 30), (110, 110), RED), "angle": 45},
             {**scenes.motif(2, "Pear", (30, 30), (200, 200), RED), "angle": 45}]
    window, path = opened(open_window, orchard(trees), "^1 hooping, proven fewest")
    window.fold("Scene")
    decide(window, 1, "Hold as it is")
    window.find("push button", "Let this hooping go")
    turned = window.saved(path)["pins"][0]["angle"] % 90
    assert 30 < turned < 60, turned
    window.key("ctrl+z")
    window.gone("push button", "Let this hooping go")
    decide(window, 1, "Keep along the grain (0° or 90°)…")
    window.until_reads(r"^The hooping with Apple and Pear cannot lie along the grain: no hoop in use takes its motifs at 0 or 90 degrees\. "
                       r"It takes 2 hoopings along the grain: 1 hooping becomes 2, as many thread changes, 8 minutes more\.$")
    window.do(window.find("push button", "Leave"))
    window.gone("push button", "Leave")
    assert not window.saved(path).get("pins")
    decide(window, 1, "Keep along the grain (0° or 90°)…")
    window.until_reads("It takes 2 hoopings along the grain")
    window.do(window.find("push button", "Take"))
    window.until_plan("^2 hoopings, proven fewest")
    pins = window.saved(path)["pins"]
    assert sorted((pin["keep"], *pin["motifs"]) for pin in pins) == [("grain", "m1"), ("grain", "m2")], pins
    window.find("push button", "Undo keep hooping 1 along the grain")
    window.key("ctrl+z")
    window.until_plan("^1 hooping, proven fewest")
    assert not window.saved(path).get("pins")


@check
def a_wish_that_is_not_kept_is_seen_and_taken_back_after_the_file_was_opened_anew(open_window):
    trees = [{**scenes.motif(1, "Apple", (30, 30), (110, 110), RED), "angle": 45},
             {**scenes.motif(2, "Pear", (30, 30), (200, 200), RED), "angle": 45}]
    scene = orchard(trees, pins=[{"keep": "grain", "hoop": "h1", "centre": [155, 155], "angle": 0, "motifs": ["m1", "m2"]}])
    window, path = opened(open_window, scene, "^1 hooping, proven fewest")
    wish = "Held: Apple and Pear share a hooping, along the grain – not kept"

    def back():
        window.key("ctrl+z")
        assert window.saved(path)["pins"]

    window.click(window.find("push button", "Take back: " + wish))
    window.gone("push button", "Take back: " + wish)
    assert not window.saved(path).get("pins")
    back()
    window.click_cloth((110, 110))
    window.find("push button", "Motif")
    line = window.find("push button", "Take back: " + wish)
    window.bring_into_view(line)
    window.click(line)
    window.gone("push button", "Take back: " + wish)
    back()
    window.key("Escape")
    window.fold("Scene")
    decide(window, 1, "Let go")
    until(lambda: not window.saved(path).get("pins"), "the menu lets it go")
    back()
    window.fold("Hoopings")
    window.click(window.find("push button", "1 thing to look at"))
    window.find("push button", re.compile("^The hooping with Apple and Pear cannot lie along the grain"))
    window.click(window.find("push button", "Take the wish back: " + wish))
    window.gone("push button", "1 thing to look at")
    assert not window.saved(path).get("pins")


@check
def a_held_hooping_keeps_its_hoop_though_it_is_set_aside(open_window):
    scene = scenes.harbour()
    scene["hoops"].append({"id": "h2", "name": "200 x 300", "field": [200, 300], "frame": [240, 360], "clearance": 2.0, "turn": "any"})
    window, path = opened(open_window, scene, "^2 hoopings, proven fewest")
    window.fold("Scene")
    number = number_of(window, "Lighthouse")
    decide(window, number, "Hold as it is")
    window.find("push button", "Let this hooping go")
    window.menu("Hoops…")
    hoops = until(lambda: len(window.frames()) > 1 and window.frames()[-1], "the hoops are shown")
    window.click(next(row for row in until(lambda: window.look("list item", None, hoops), "rows")
                      if any("200 x 300" in text for text in window.texts(row))))
    window.click(window.find("check box", "Set aside: not used for new hoopings", hoops))
    window.key("Escape")
    window.until_alone("the hoops are put away")
    assert window.saved(path)["hoops"][1]["set_aside"] is True
    window.until_plan("^2 hoopings")
    assert any("Hoop 200 x 300" in said and "Lighthouse" in said for said in cards(window)), cards(window)
    window.click(window.find("push button", "Let this hooping go"))
    window.until_plan(THREE)
    window.key("ctrl+z")
    window.until_plan("^2 hoopings")


@check
def why_a_hooping_is_here(open_window):
    scene = scenes.harbour()
    scene["motifs"].append(scenes.motif(5, "Jetty", (110, 150), (150, 170), RED))
    window, _ = opened(open_window, scene, THREE.replace("3", "[34]"))
    window.fold("Scene")
    number = number_of(window, "Jetty")
    window.click(window.find(None, f"Why hooping {number} is here"))
    window.until_reads(r"^Hoop: 130 × 180 mm, the only one in use\.$")
    window.until_reads(r"^Angle: ")
    window.until_reads(r"^Room: \d+\.\d mm stay free on the tightest side; 2\.0 mm is asked for\.$")
    window.until_reads(r"^Place: (first|after hooping \d, because Jetty lies over )")
    window.until_reads(r"^Could not be one with hooping \d: ")


def changed_at(window, plain, at, half):
    """How many pixels about a place of the cloth are not as in a picture of the table."""
    left, top = window.box(window.table())[:2]
    x, y = (round(a - b) for a, b in zip(window.pixel(*at), (left, top)))
    there = slice(y - half, y + half), slice(x - half, x + half)
    return (window.table_picture()[there] != plain[there]).any(axis=2).sum()


@check
def why_not_fewer_points_out_the_motifs_that_can_never_share_and_no_others(open_window):
    scene = scenes.harbour()
    # The gull shares the hooping of the buoy; the buoy alone is named.
    scene["motifs"].append(scenes.motif(5, "Gull", (24, 24), (505, 385), BLUE))
    window, _ = opened(open_window, scene, THREE)
    window.fold("Scene")
    plain = window.until_still()
    window.click(window.find(None, "Why not fewer?", window.foot()))
    window.until_reads(r"^Sea wall, Lighthouse and Buoy can never share a hooping, two by two\.$")
    # From 305 to 40 they are 265 mm apart; the hoop takes 130 - 2 x 2 by 180 - 2 x 2.
    window.until_reads(r"^• Sea wall and Lighthouse need .* together; the 130 × 180 mm hoop takes 126 × 176 mm, \d+\.\d mm too little\.$")
    until(lambda: changed_at(window, plain, LIGHTHOUSE, 26) > 100 and changed_at(window, plain, BUOY, 26) > 100, "a line is drawn about each")
    window.until_still()
    assert changed_at(window, plain, LIGHTHOUSE, 8) == 0 and changed_at(window, plain, BUOY, 8) == 0, "they keep their colours"
    assert changed_at(window, plain, (505, 385), 6) == 144, "the others fade"
    window.key("Escape")
    until(lambda: (window.table_picture() == plain).all(), "nothing is pointed out any more")


@check
def a_chain_in_the_order_is_given_as_the_reason(open_window):
    # The branch fits with the gate, but lies over the trellis, which lies over the gate and fits with neither.
    window, _ = opened(open_window, orchard([scenes.motif(1, "Gate", (40, 40), (100, 100), RED),
                                             scenes.motif(2, "Trellis", (120, 170), (170, 190), BLUE),
                                             scenes.motif(3, "Fig branch", (30, 30), (100, 200), RED)]), THREE)
    window.click(window.find(None, "Why not fewer?", window.foot()))
    window.until_reads(r"^• Gate could only share with what must come between "
                       r"\(the order goes Gate before Trellis, Trellis before Fig branch\); Gate, Trellis and Fig branch need ")


@check
def a_motif_no_hoop_takes_is_made_to_fit_by_one_click(open_window):
    scene = scenes.harbour()
    scene["motifs"][3]["outline"] = scenes.box(150, 200)
    scene["motifs"][3]["position"] = [440, 310]
    window, path = opened(open_window, scene, "^2 hoopings, not the whole scene")
    window.fold("Scene", "Hoopings")
    window.click(window.find("push button", re.compile(r"^What would help: \d+$")))
    window.find("push button", re.compile(r"^Add it: With a 160 × 260 mm hoop the whole scene can be stitched, in 3 hoopings\."))
    advice = window.find("push button", re.compile(r"^Do it: At 84 % of its size here, Buoy fits\."))
    window.bring_into_view(advice)
    window.click(advice)
    window.until_plan(THREE)
    assert 0.835 < window.saved(path)["motifs"][3]["scale"] <= 0.84, "126 / 150"
    window.key("ctrl+z")
    window.until_plan("^2 hoopings, not the whole scene")


@check
def a_motif_askew_before_a_hoop_of_quarter_turns_is_turned_by_one_click(open_window):
    scene = scenes.harbour()
    scene["hoops"][0]["turn"] = "quarter"
    scene["motifs"][3].update(outline=scenes.box(170, 80), position=[440, 310], angle=40)
    window, path = opened(open_window, scene, "^2 hoopings, not the whole scene")
    window.fold("Scene", "Hoopings")
    window.click(window.find("push button", re.compile(r"^What would help: \d+$")))
    advice = window.find("push button", re.compile(r"^Do it: Turned 3\d\.\d° anticlockwise on the cloth, Buoy fits\.$"))
    turn = float(re.search(r"[\d.]+", advice.get_name())[0])
    window.bring_into_view(advice)
    window.click(advice)
    window.until_plan(THREE)
    window.find("push button", "Undo turn Buoy")
    buoy = window.saved(path)["motifs"][3]
    assert abs(buoy["angle"] - (40 - turn)) < 1e-6 and buoy.get("scale", 1) == 1 and buoy["position"] == [440, 310], buoy
    window.key("ctrl+z")
    window.until_plan("^2 hoopings, not the whole scene")


@check
def a_common_hoop_the_person_does_not_own_is_named_with_what_it_saves_and_added_by_one_click(open_window):
    # Two rows of two, each too far apart for the hoop there is, and one tree by itself.
    places = [(100, 80), (230, 80), (100, 370), (230, 370), (500, 225)]
    names = ["Apple", "Pear", "Plum", "Fig", "Quince"]
    trees = [scenes.motif(i + 1, name, (60, 60), place, RED) for i, (name, place) in enumerate(zip(names, places))]
    window, path = opened(open_window, orchard(trees), "^5 hoopings, proven fewest")
    window.fold("Scene", "Hoopings")
    window.click(window.find("push button", re.compile(r"^What would help: \d+$")))
    advice = window.find("push button", re.compile(r"^Add it: With a 200 × 300 mm hoop: 3 hoopings in place of 5\.$"))
    window.bring_into_view(advice)
    window.click(advice)
    window.until_plan("^3 hoopings, proven fewest")
    assert [hoop["field"] for hoop in window.saved(path)["hoops"]] == [[130, 180], [200, 300]]
    window.key("ctrl+z")
    window.until_plan("^5 hoopings, proven fewest")


run_checks()
