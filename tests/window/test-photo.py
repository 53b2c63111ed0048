"""A photo of the cloth in the real window: loaded, put square by dragging handles, kept beside the scene or in it, its marks found, and bad photos refused."""
import json
import os
import re
import subprocess

import numpy
import photographs
import scenes
import sight
from lens import Lens
from photographs import SEEN, through
from window import PROGRAM, check, read_scene, run_checks, text_of, until

THREE = "^3 hoopings, proven fewest"
CORNERS = {"upper left": (20, 20), "upper right": (580, 20), "lower right": (580, 430), "lower left": (20, 430)}
CHECKED = [(100, 90), (300, 225), (500, 120), (140, 360), (470, 380), (30, 225)]  # mm; none of them is a handle


def harbour(open_window):
    path = scenes.write(scenes.folder(), scenes.harbour())
    window = open_window(path)
    window.until_plan(THREE)
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    return window, path


def ask_for(window, photo):
    window.choose_file(lambda: window.menu("Photo of the cloth…"), photo)


def add(window, photo, inside=False):
    ask_for(window, photo)
    button = window.find("push button", "Add the photo")
    if inside:
        window.click(window.find(None, re.compile("^In the scene’s own file")))
    window.click(button)
    window.find("image", "The photo, with its handles")


def put_corners(window, lens, closely=True):
    """Drags each handle to the corner of the edge line in the photo: over the whole photo first, then with the photo near."""
    for corner, mm in CORNERS.items():
        (lens.put if closely else lens.drag)("Edge line, " + corner, through(SEEN, mm))


def take(window):
    window.click(window.find("push button", "Put square"))
    window.gone("image", "The photo, with its handles")


def errors_mm(photo):
    """How far the places that are checked lie off, by a fit of the saved points that is not the program's own."""
    matrix = photographs.least_squares([point["px"] for point in photo["points"]], [point["mm"] for point in photo["points"]])
    return [numpy.hypot(*numpy.subtract(through(matrix, through(SEEN, mm)), mm)) for mm in CHECKED]


def disc_on_table(window):
    """Where the middle of the dark disc is seen, in fabric mm by the cloth's place on the screen."""
    picture = sight.screen().astype(int)
    x0, y0 = map(int, window.pixel(330, 215))
    x1, y1 = map(int, window.pixel(390, 275))
    dark = picture[y0:y1, x0:x1].max(axis=2) < 70
    if dark.sum() < 20:
        return None
    rows, columns = numpy.nonzero(dark)
    return window.cloth.millimetres(x0 + columns.mean() + 0.5, y0 + rows.mean() + 0.5)


@check
def a_photo_taken_askew_is_put_square_to_half_a_millimetre(open_window):
    window, path = harbour(open_window)
    photo = photographs.save_turned(photographs.cloth(discs=[(360, 245, 12)]), os.path.join(scenes.folder(), "quay-morning.jpg"))
    add(window, photo)
    lens = Lens(window)
    window.until_reads("Four points always agree")
    put_corners(window, lens)
    take(window)
    until(lambda: disc_on_table(window), "the photo lies on the table")
    seen = until(lambda: numpy.hypot(*numpy.subtract(disc_on_table(window) or (0, 0), (360, 245))) < 1.2 and disc_on_table(window),
                 "the disc lies where it was drawn")
    window.find("push button", "Undo put the photo Quay morning square")
    kept = window.saved(path)["photo"]
    assert kept["shown"] == 0, kept
    photo_kept = kept["stack"][0]
    assert photo_kept["name"] == "Quay morning" and re.match(r"\d{4}-\d\d-\d\d$", photo_kept["taken"]), photo_kept
    assert os.path.exists(os.path.join(os.path.dirname(path), photo_kept["path"])), "it lies beside the scene"
    off = errors_mm(photo_kept)
    print("# off at the places checked, mm:", " ".join(f"{mm:.2f}" for mm in off), f"; disc on the table at {seen[0]:.1f}, {seen[1]:.1f}")
    assert max(off) < 0.5, off
    # The program's own command, from the same points, agrees with the fit above.
    points = os.path.join(scenes.folder(), "points.json")
    with open(points, "w", encoding="utf-8") as out:
        json.dump({"points": photo_kept["points"]}, out)
    said = json.loads(subprocess.run([PROGRAM, "square", photo, points], capture_output=True, text=True, check=True).stdout)
    assert said, "the command reads the same photo and points"
    # Undone, nothing lies on the table; one step takes the squaring back, one more the photo.
    window.key("ctrl+z")
    until(lambda: disc_on_table(window) is None, "the photo is gone from the table")
    assert "points" not in window.saved(path)["photo"]["stack"][0]


@check
def a_photo_is_kept_in_the_scene_faded_over_and_taken_away(open_window):
    window, path = harbour(open_window)
    photo = photographs.save_turned(photographs.cloth(), os.path.join(scenes.folder(), "noon.jpg"))
    with open(photo, "rb") as file:
        size = len(file.read())
    add(window, photo, inside=True)
    put_corners(window, Lens(window), closely=False)
    take(window)
    saved = window.saved(path)["photo"]["stack"][0]
    assert "path" not in saved and len(saved["data"]) > size, "the scene holds it"
    assert not os.path.exists(os.path.join(os.path.dirname(path), "noon.jpg"))
    window.fold("Scene", "Hoopings")
    window.unfold("Photo")
    window.find(("radio button", "check box"), re.compile("^Noon, taken"))
    quiet = window.until_still()
    fade = window.find("slider", "Fade the motifs over it")
    fade.set_value(0.8)
    until(lambda: (window.table_picture() != quiet).any(), "the motifs fade")
    window.find("push button", "Undo fade the motifs")
    assert abs(window.saved(path)["photo"]["fade"] - 0.8) < 0.03
    window.do(window.find("push button", "Take away"))
    window.gone("push button", "Take away")
    assert window.saved(path).get("photo", {}).get("stack", []) == []
    window.key("ctrl+z")
    window.find("push button", "Take away")


@check
def drawn_marks_are_found_shown_and_used_only_when_ticked(open_window):
    window, path = harbour(open_window)
    plan = json.loads(subprocess.run([PROGRAM, "plan", path], capture_output=True, text=True, check=True).stdout)
    marks = [tuple(mark["at"]) for hooping in plan["hoopings"] for mark in hooping["marks"]]
    photo = photographs.save_turned(photographs.cloth(crosses=marks), os.path.join(scenes.folder(), "evening.jpg"))
    add(window, photo)
    lens = Lens(window)
    put_corners(window, lens, closely=False)
    count = len(lens.handles())
    window.click(window.find("push button", "Look for the drawn marks"))
    window.find("push button", "Use those ticked as handles")
    found = window.look("check box", re.compile("^Mark .* from its place$"))
    assert len(found) >= len(marks) - 1, [tick.get_name() for tick in found]
    assert len(lens.handles()) == count, "nothing is used before it is asked for"
    window.click(window.find("push button", "Use those ticked as handles"))
    until(lambda: len(lens.handles()) > count, "they are handles now")
    straight = window.find(None, "Check a straight line")
    window.click(straight)
    lens.whole()
    for x in (60, 250, 400, 540):
        window.click_at(*lens.screen(through(SEEN, (x, 430))))
    said = window.until_reads(r"^Put square, the line is straight to within \d")
    # Three quarters of a millimetre are a pixel of the screen here.
    assert float(re.search(r"within ([0-9.]+) mm", said)[1]) < 1.5, said
    window.click(straight)
    window.until_reads(r"^The points agree to within 0\.\d mm\.$")
    right = lens.handles()["Edge line, upper right"]
    lens.drag("Edge line, upper right", (right[0] - 60, right[1] + 40))
    window.until_reads(r"^Point 2 \(Edge line, upper right\) lies \d+\.\d mm from where the others put it")
    lens.drag("Edge line, upper right", right)
    window.until_reads(r"^The points agree to within 0\.\d mm\.$")
    take(window)
    points = window.saved(path)["photo"]["stack"][0]["points"][count:]
    off = [numpy.hypot(*numpy.subtract(point["px"], through(SEEN, point["mm"]))) for point in points]
    print("# marks found, px off:", " ".join(f"{px:.2f}" for px in off))
    # About 3.3 pixels are a millimetre here.
    assert len(off) >= 4 and max(off) < 1.0, off


@check
def a_sheet_of_paper_is_found_and_gives_the_measure(open_window):
    window, path = harbour(open_window)
    sheet = (150, 120, 297, 210)  # A4, lying
    pixels = photographs.cloth(sheets=[sheet], linen=120)
    add(window, photographs.save_turned(pixels, os.path.join(scenes.folder(), "with-paper.jpg")))
    lens = Lens(window)
    window.click(window.find("push button", "Find it"))
    until(lambda: "Sheet of paper, upper left" in lens.handles(), "handles lie on the sheet")
    handles = lens.handles()
    assert len(handles) == 4, handles
    truth = {"upper left": (0, 0), "upper right": (297, 0), "lower right": (297, 210), "lower left": (0, 210)}
    for corner, (x, y) in truth.items():
        px = through(SEEN, (sheet[0] + x, sheet[1] + y))
        assert numpy.hypot(*numpy.subtract(handles["Sheet of paper, " + corner], px)) < 2, (corner, handles, px)
    window.fill_in("Sheet's corner, across from the cloth's left", "150 mm")
    window.fill_in("Sheet's corner, down from the cloth's top", "12 cm")
    take(window)
    off = errors_mm(window.saved(path)["photo"]["stack"][0])
    print("# by a sheet alone, off at the places checked, mm:", " ".join(f"{mm:.2f}" for mm in off))
    assert max(off) < 0.3, off


def tint(window, x, y):
    """How much redder than blue the table is about a place on the cloth."""
    left, top = map(round, window.pixel(x, y))
    patch = sight.screen()[top - 3:top + 4, left - 3:left + 4].astype(int)
    return patch[:, :, 0].mean() - patch[:, :, 2].mean()


@check
def what_is_stitched_is_seen_in_the_photo_and_a_photo_that_is_gone_is_told(open_window):
    folder = scenes.folder()
    scene = scenes.harbour()
    scene["progress"] = {"frozen": [{"hoop": "h1", "centre": [460, 340], "angle": 0, "motifs": ["m4"]}]}
    points = [{"px": list(through(SEEN, mm)), "mm": list(mm)} for mm in CORNERS.values()]
    scene["photo"] = {"shown": -1, "fade": 0.5, "stack": [{"name": "After day one", "taken": "2026-03-02", "path": "day.jpg", "points": points},
                                                          {"name": "Lost", "path": "gone.jpg", "points": points}]}
    photographs.save_turned(photographs.cloth(), os.path.join(folder, "day.jpg"))
    window = open_window(scenes.write(folder, scene))
    window.until_plan("hoopings")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)
    # Without a photo nothing is faded: the rusty buoy, the wall of slate.
    assert tint(window, 450, 330) > 60 and tint(window, 80, 88) < -30, (tint(window, 450, 330), tint(window, 80, 88))
    window.fold("Scene", "Hoopings")
    window.unfold("Photo")
    window.click(window.find(None, "After day one, taken 2026-03-02"), at=(0.1, 0.5))
    until(lambda: 5 < tint(window, 450, 330) < 40, "the buoy is stitched: the photo is seen in its place")
    assert -30 < tint(window, 80, 88) < 5, "the wall is still to come, and stands back"
    window.click(window.find(None, "Lost"), at=(0.1, 0.5))
    window.until_reads("gone.jpg: there is no such file to read")
    window.find_cloth(scenes.WIDTH, scenes.HEIGHT, scenes.CLOTH)  # what is told takes room from the table
    until(lambda: tint(window, 450, 330) > 60, "without its photo nothing is faded")


@check
def bad_photos_are_refused_in_a_sentence(open_window):
    window, path = harbour(open_window)
    folder = scenes.folder()
    for photo, sentence in ((photographs.save_broken(os.path.join(folder, "torn.jpg")), "torn.jpg: the picture is broken off or damaged"),
                            (photographs.save_vast(os.path.join(folder, "vast.png")), "vast.png: a picture of 60000 × 60000 pixels is too large"),
                            (scenes.write(folder, "no picture", "words.jpg"), "words.jpg: this is neither a JPEG nor a PNG picture")):
        ask_for(window, photo)
        window.until_reads(re.escape(sentence))
    assert not window.look("push button", "Add the photo")
    window.click(window.table(), at=(0.05, 0.05))
    assert "photo" not in read_scene(path)


def stretched(matrix, by, still):
    """The view of cloth that drew in: what was drawn at a place lies nearer to the still point, in the same photo."""
    drawn_in = numpy.array([[by[0], 0, still[0] * (1 - by[0])], [0, by[1], still[1] * (1 - by[1])], [0, 0, 1]])
    return matrix @ drawn_in


@check
def a_photo_with_a_sheet_of_paper_tells_what_the_cloth_drew_in(open_window):
    folder = scenes.folder()
    scene = scenes.harbour()
    marks = {"A": (70, 330), "B": (530, 345), "C": (300, 60)}
    scene["progress"] = {"frozen": [{"hoop": "h1", "centre": [460, 340], "angle": 0, "motifs": ["m4"],
                                     "marks": [{"id": letter, "at": at} for letter, at in marks.items()]}]}
    pixels = photographs.cloth(crosses=marks.values(), linen=120, matrix=stretched(SEEN, (0.988, 0.994), (300, 225)))
    paper = photographs.cloth(sheets=[(150, 120, 297, 210)], linen=120)  # lies on it, and draws in nothing
    pixels[paper[:, :, 0] > 200] = 250
    photo = photographs.save_turned(pixels, os.path.join(folder, "after.jpg"))
    window = open_window(scenes.write(folder, scene))
    window.until_plan("hoopings")
    window.menu("Measure the cloth…")
    window.find("dialog", "Measure the cloth")
    window.do_menu_button("From a photo…")
    window.choose_file(lambda: window.do(window.find("push button", "Another photo…")), photo)
    lens = Lens(window)
    until(lambda: "Sheet of paper, lower left" in lens.handles(), "handles lie on the sheet")
    seen = stretched(SEEN, (0.988, 0.994), (300, 225))
    for letter in "AB":
        name = next(name for name in lens.handles() if name.endswith(f" {letter}"))
        lens.drag(name, through(seen, marks[letter]))
    window.do(window.find("push button", "Look for the drawn marks"))
    window.until_reads("^Look at each in the photo")
    assert text_of(window.field("From A to B")) == "", "nothing is used before it is approved"
    window.do(window.find("push button", "Use these distances"))
    window.until_reads(r"^Drawn in 1\.[12] % across, 0\.[67] % along the grain")


run_checks()
