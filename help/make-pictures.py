"""Makes the pictures of the guide and the screenshots, with the program itself and the demo scene: make-pictures.py PROGRAM

    /usr/bin/python3 help/make-pictures.py build/src/hoopwright

The window is driven on a display without a screen, as in the window's tests; papers are drawn by the commands. What is written: help/C/figures/ and
data/screenshots/. Needs what the window's tests need, ImageMagick and poppler-utils.
"""
import json
import math
import os
import re
import shutil
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
TOP = os.path.dirname(HERE)
sys.path.insert(0, os.path.join(TOP, "tests", "window"))
PROGRAM = os.environ["HOOPWRIGHT"] = os.path.abspath(sys.argv[1])
FIGURES = os.path.join(HERE, "C", "figures")
SCREENSHOTS = os.path.join(TOP, "data", "screenshots")
DEMO = os.path.join(TOP, "data", "demo")
BORDER = 5  # what a window draws around itself where no desktop draws shadows; it is cut off
SIZES = {"figures": (1120, 720), "screenshots": (1280, 800)}

if "HOOPWRIGHT_SERIES" not in os.environ:
    # One desk for each series: its size is another.
    for folder in (FIGURES, SCREENSHOTS):
        os.makedirs(folder, exist_ok=True)
    for series in SIZES:
        status = subprocess.run([sys.executable, *sys.argv], env={**os.environ, "HOOPWRIGHT_SERIES": series}).returncode
        if status:
            sys.exit(status)
    sys.exit(0)

import desk  # noqa: E402

SERIES = os.environ["HOOPWRIGHT_SERIES"]
SIZE = SIZES[SERIES]
FOLDER = FIGURES if SERIES == "figures" else SCREENSHOTS
desk.run_on_desk(SIZE[0] + 2 * BORDER, SIZE[1] + 2 * BORDER)

import photographs  # noqa: E402
import window  # noqa: E402
from lens import Lens  # noqa: E402
from PIL import Image  # noqa: E402
from window import until  # noqa: E402

RULER, PADDING = 26, 36  # pixels; how the table fits a whole cloth
GARDEN = "walled-garden.hoopscene"


def settings(folder):
    """Nobody's hints lie over the pictures."""
    place = os.path.join(folder, "glib-2.0", "settings")
    os.makedirs(place)
    with open(os.path.join(place, "keyfile"), "w", encoding="utf-8") as out:
        out.write("[org/hoopwright/Hoopwright]\nhints=false\n")
    os.makedirs(os.path.join(folder, "gtk-4.0"))
    with open(os.path.join(folder, "gtk-4.0", "settings.ini"), "w", encoding="utf-8") as out:
        out.write("[Settings]\ngtk-enable-animations=0\n")
    return {"GSETTINGS_BACKEND": "keyfile", "XDG_CONFIG_HOME": folder}


class Look:
    """A window on a scene, and pictures of it."""

    def __init__(self, *arguments, change=None):
        self.folder = tempfile.mkdtemp(prefix="hoopwright-pictures-")
        self.path = None
        if arguments:
            shutil.copytree(DEMO, os.path.join(self.folder, "demo"), ignore=shutil.ignore_patterns("*.py", "needlework"))
            self.path = os.path.join(self.folder, "demo", arguments[0])
            self.scene = json.load(open(self.path, encoding="utf-8"))
            if change:
                change(self.scene)
                json.dump(self.scene, open(self.path, "w", encoding="utf-8"))
        self.window = window.Window(*([self.path] if self.path else []), environment=settings(os.path.join(self.folder, "config")))
        if self.path:
            self.window.until_plan("hooping")
            self.find_cloth()
        self.still()

    def find_cloth(self):
        x, y, width, height = self.window.box(self.window.table())
        x, y, width, height = x + RULER, y + RULER, width - RULER, height - RULER
        fabric = self.scene["fabric"]
        self.scale = min((width - 2 * PADDING) / fabric["width"], (height - 2 * PADDING) / fabric["height"])
        self.left = x + (width - fabric["width"] * self.scale) / 2
        self.top = y + (height - fabric["height"] * self.scale) / 2

    def pixel(self, at):
        return self.left + at[0] * self.scale, self.top + at[1] * self.scale

    def place_of(self, name):
        return next(motif["position"] for motif in self.scene["motifs"] if motif["name"] == name)

    def click(self, at, button=1):
        self.window.click_at(*self.pixel(at), button)

    @staticmethod
    def still():
        """Waits until three pictures in a row are the same."""
        until(lambda: (lambda first: (first == window.sight.screen()).all() and (first == window.sight.screen()).all())(window.sight.screen()),
              "the picture stands still", 60)

    def take(self, name, area=None, width=None, slip=False):
        """The whole window, or an area (x, y, width, height on the screen), no wider than width pixels. slip: one lies over it, whose shadow is black where
        no desktop mixes it."""
        window.xdo("mousemove", SIZE[0] - 2, SIZE[1] - 2)
        self.still()
        whole = os.path.join(self.folder, "screen.png")
        window.screenshot(whole)
        x, y, w, h = map(round, area) if area else (BORDER, BORDER, *SIZE)
        write(name, ["convert", whole, *(shadow_away() if slip else []), "-crop", f"{w}x{h}+{x}+{y}", "+repage"], width)

    def part(self, widgets, room=10):
        """The area that holds them."""
        boxes = [self.window.box(one) for one in widgets]
        x, y = min(box[0] for box in boxes) - room, min(box[1] for box in boxes) - room
        right, below = max(box[0] + box[2] for box in boxes) + room, max(box[1] + box[3] for box in boxes) + room
        x, y = max(x, BORDER), max(y, BORDER)
        return x, y, min(right, SIZE[0] + BORDER) - x, min(below, SIZE[1] + BORDER) - y

    def dialog(self, ask, name, then=None, width=None):
        before = len(self.window.frames())
        ask()
        until(lambda: len(self.window.frames()) > before, f"{name} opens")
        shown = self.window.frames()[-1]
        if then:
            then(shown)
        self.take(name, self.part([shown], 0), width)
        self.window.key("Escape")
        until(lambda: len(self.window.frames()) == before, f"{name} closes")

    def close(self):
        self.window.close()
        shutil.rmtree(self.folder, ignore_errors=True)


def shadow_away():
    """Fills the black about a slip, from the row that has most of it, with the grey of the window."""
    black = (window.sight.screen().astype(int).sum(axis=2) == 0)
    row = int(black.sum(axis=1).argmax())
    column = int(black[row].argmax())
    return ["-fuzz", "4%", "-fill", "#e9e6df", "-draw", f"color {column},{row} floodfill"]


def write(name, words, width=None):
    """As few colours as a palette holds, and no note of when: the same picture is the same file."""
    path = os.path.join(FOLDER, name + ".png")
    small = ["-filter", "Lanczos", "-resize", f"{width}x>"] if width else []
    subprocess.run([*words, *small, "-strip", "+dither", "-colors", "256", "-define", "png:compression-level=9", "-define", "png:exclude-chunks=date,time",
                    "PNG8:" + path], check=True)
    print(f"{path}: {os.path.getsize(path) // 1024} KB", flush=True)


def paper(name, command, heading, width):
    """The first page on which the heading is a line's beginning."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([PROGRAM, *command, "-o", folder + "/paper.pdf"], check=True)
        texts = subprocess.run(["pdftotext", folder + "/paper.pdf", "-"], check=True, capture_output=True, text=True).stdout.split("\f")
        page = next(number for number, text in enumerate(texts, 1) if re.search(rf"^{heading}$", text, re.MULTILINE))
        subprocess.run(["pdftoppm", "-r", "110", "-png", "-f", str(page), "-l", str(page), "-singlefile", folder + "/paper.pdf", folder + "/page"],
                       check=True)
        write(name, ["convert", folder + "/page.png", "-bordercolor", "#8a8a84", "-border", "1"], width)


# --- at the machine

def begun(at):
    scene = json.load(open(at.path, encoding="utf-8"))
    return next((pin for pin in scene.get("pins", []) if "work" in pin), None)


def step(at, name):
    return until(lambda: begun(at) and begun(at)["work"]["step"] == name and begun(at), f"the step is {name}", 30)


def needle_over(pin, mark, turn, shift):
    """Where the needle stands over a mark, in hoop axes, when the cloth lies turned and shifted in the hoop: the design's place of the mark, moved with the
    cloth. Clockwise as seen, y down."""
    a = math.radians(-pin["angle"])
    dx, dy = mark["at"][0] - pin["centre"][0], mark["at"][1] - pin["centre"][1]
    u, v = dx * math.cos(a) - dy * math.sin(a), dx * math.sin(a) + dy * math.cos(a)
    t = math.radians(turn)
    return u * math.cos(t) - v * math.sin(t) + shift[0], u * math.sin(t) + v * math.cos(t) + shift[1]


def spoken(value, positive, negative):
    return f"{abs(value):.1f} {positive if value >= 0 else negative}"


def machine(at, pictures):
    """Through the first hooping as far as the first thread, the cloth set a little crooked."""
    show = at.window
    show.key("F8")
    show.until_reads("^Next: hooping 1")
    at.still()
    show.key("Return")
    step(at, "mark")
    for name in ("hoop", "stick", "centre", "read"):
        at.still()
        show.key("Return")
        pin = step(at, name)
    at.still()
    for mark in pin["marks"]:
        u, v = needle_over(pin, mark, 0.8, (1.6, -2.1))
        for text in (spoken(u, "right", "left"), spoken(v, "towards", "away")):
            show.type(text)
            show.key("Return")
            at.still()
    show.until_reads("^Shift ")
    if "needle-check" in pictures:
        at.take("needle-check", width=860)
    show.key("Return")
    step(at, "enter")
    if "correction" in pictures:
        at.take("correction", width=860)
    if "machine" in pictures:
        at.take("machine")
    show.key("Return")
    step(at, "template-off")
    at.still()
    show.key("space")
    at.still()
    show.key("Return")
    step(at, "stitch")
    if "stitching" in pictures:
        at.take("stitching", width=860)


# --- cloth that is stitched in part

def first_hoopings_stitched(count):
    """Changes a scene to one of which so many hoopings are stitched, as they were planned."""
    def change(scene):
        planned = json.loads(subprocess.run([PROGRAM, "plan", os.path.join(DEMO, GARDEN)], check=True, capture_output=True, text=True).stdout)["hoopings"]
        scene["progress"] = {"frozen": [{key: hooping[key] for key in ("hoop", "centre", "angle", "motifs", "marks")} for hooping in planned[:count]]}
    return change


def drawn_in(at):
    """The cloth measured: the marks came nearer by a good hundredth."""
    def measure(shown):
        a, b = [mark["at"] for mark in at.scene["progress"]["frozen"][-1]["marks"]]
        at.window.click(at.window.find("text", re.compile("^From . to .$"), shown))
        at.window.type(f"{0.988 * math.dist(a, b):.1f}")
        at.window.key("Tab")
        at.window.until_reads("^Drawn in 1.2 %")
    at.dialog(lambda: at.window.menu("Measure the cloth…"), "draw-in", measure, width=760)


def photo_of(scene_path, motifs, folder):
    """A photograph that was never taken: the cloth with these motifs stitched, seen askew on a dark table. Returns its path and how the cloth lies in it."""
    with open(scene_path, encoding="utf-8") as whole:
        scene = json.load(whole)
    width, height = scene["fabric"]["width"], scene["fabric"]["height"]
    scene["motifs"] = [motif for motif in scene["motifs"] if motif["id"] in motifs]
    path = os.path.join(os.path.dirname(scene_path), "stitched.hoopscene")
    with open(path, "w", encoding="utf-8") as out:
        json.dump(scene, out)
    flat, photo = os.path.join(folder, "flat.png"), os.path.join(folder, "saturday.jpg")
    subprocess.run([PROGRAM, "picture", path, "--plain", "--width", "2100", "-o", flat], check=True)
    seen = photographs.homography([(0, 0), (width, 0), (width, height), (0, height)], [(330, 215), (2075, 150), (2225, 1570), (185, 1660)])
    with Image.open(flat) as cloth:
        scale = cloth.size[0] / width
        back = photographs.homography([photographs.through(seen, at) for at in ((0, 0), (width, 0), (width, height), (0, height))],
                                      [(0, 0), (width * scale, 0), (width * scale, height * scale), (0, height * scale)])
        view = cloth.convert("RGB").transform(photographs.SIZE, Image.Transform.PERSPECTIVE, list(back.flatten()[:8]), Image.Resampling.BICUBIC, fillcolor=(78, 70, 62))
        view.save(photo, quality=92)
    return photo, seen


def put_square(at):
    show = at.window
    photo, seen = photo_of(at.path, {"m1", "m9", "m10"}, at.folder)
    show.choose_file(lambda: show.menu("Photo of the cloth…"), photo)
    show.click(show.find("push button", "Add the photo"))
    lens = Lens(show)
    width, height = at.scene["fabric"]["width"], at.scene["fabric"]["height"]
    for name, corner in {"upper left": (0, 0), "upper right": (width, 0), "lower right": (width, height), "lower left": (0, height)}.items():
        lens.drag("Cloth, " + name, photographs.through(seen, corner))
    at.take("photo-square", at.part([show.find("dialog", re.compile("^Put square"))], 0), width=820)


def chosen_sheet(shown):
    """A bench sheet's page of a hooping in the paper dialog."""
    def choose(at):
        at.window.click(at.window.find("check box", "Bench sheet", shown))
        at.window.until_reads(r"^Page 1 of \d")
        for page in range(2, 6):
            at.window.click(at.window.find("push button", "Next page", shown))
            at.window.until_reads(rf"^Page {page} of \d")
    return choose


def figures():
    at = Look()
    at.window.until_reads("^The Walled Garden$")
    at.take("start", width=860)
    at.close()

    at = Look(GARDEN)
    show = at.window
    middle = at.scene["motifs"][len(at.scene["motifs"]) // 2]["name"]
    at.take("table", width=860)
    at.click(at.place_of(middle))
    x, y = at.pixel(at.place_of(middle))
    at.still()
    tx, ty, tw, th = show.box(show.table())
    w, h = 620, 400
    at.take("motif", (min(max(x - w / 2, tx), tx + tw - w), min(max(y - h / 2, ty), ty + th - h), w, h))
    show.key("Escape")
    show.click(show.find(None, "Why not fewer?", show.foot()))
    at.take("why", width=860, slip=True)
    show.key("Escape")
    show.key("ctrl+Next", "ctrl+Next")
    at.take("hooping", width=860)
    show.key("Escape")
    beads = show.look("push button", None, show.find("panel", "The course: one bead for each hooping"))
    show.click(beads[min(4, len(beads) - 2)])
    at.take("course", width=860)
    show.click(beads[0])
    show.fold("Hoopings")
    show.unfold("Stitch order")
    x, y, width, height = at.part([show.find("push button", "Stitch order"), show.find("list", "Stitch order, back to front")], 4)
    at.take("stitch-order", (x, y, width, min(height, ty + th - y)))
    show.fold("Stitch order")
    show.menu("How dense the stitching lies")
    at.still()
    at.take("density", show.box(show.table()), width=760)
    show.menu("How dense the stitching lies")
    at.dialog(lambda: show.key("ctrl+p"), "paper", lambda shown: chosen_sheet(shown)(at), width=760)
    at.dialog(lambda: show.menu("Marks to draw…"), "marks", width=640)
    at.close()

    def past_the_edge(scene):
        scene["motifs"][-1]["position"][0] += 110

    at = Look(GARDEN, change=past_the_edge)
    at.window.click(at.window.find("push button", re.compile("things? to look at$"), at.window.foot()))
    at.take("problems", width=860)
    at.close()

    at = Look(GARDEN)
    machine(at, {"needle-check", "correction", "stitching"})
    at.close()

    at = Look(GARDEN, change=first_hoopings_stitched(2))
    drawn_in(at)
    at.close()
    at = Look(GARDEN)
    put_square(at)
    at.close()

    demo = os.path.join(DEMO, GARDEN)
    paper("template-page", ["templates", demo], "Straw hive", 420)
    paper("bench-page", ["sheet", demo], "Hooping 1", 520)
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([PROGRAM, "picture", demo, "--stage", "2", "--width", "760", "-o", folder + "/stage.png"], check=True)
        write("stage", ["convert", folder + "/stage.png"])


def screenshots():
    at = Look(GARDEN)
    at.take("workbench")
    at.window.key("ctrl+Next", "ctrl+Next")
    at.take("hooping")
    at.window.key("Escape")
    before = len(at.window.frames())
    at.window.key("ctrl+p")
    until(lambda: len(at.window.frames()) > before, "the papers open")
    chosen_sheet(at.window.frames()[-1])(at)
    at.take("paper")
    at.window.key("Escape")
    until(lambda: len(at.window.frames()) == before, "the papers close")
    machine(at, {"machine"})
    at.close()


manager = desk.start_window_manager()
try:
    figures() if SERIES == "figures" else screenshots()
finally:
    manager.terminate()
    manager.wait()
