"""Takes pictures of the workbench for people to look at: screens.py FOLDER [PNG].

Into FOLDER go the window at two sizes, light and dark, in the states a person meets most. With PNG, the picture that the README and the
metainfo show is written there as well. Needs a compositing manager (xcompmgr) for soft corners; without one menus have square corners.
"""
import os
import re
import shutil
import subprocess
import sys

FOLDER = os.path.abspath(sys.argv[1])
SHOWN = os.path.abspath(sys.argv[2]) if len(sys.argv) > 2 else None
SIZES = [(1280, 800), (1920, 1080)]

if "HOOPWRIGHT_SIZE" not in os.environ:
    # One desk for each size.
    os.makedirs(FOLDER, exist_ok=True)
    for size in SIZES:
        environment = {**os.environ, "HOOPWRIGHT_SIZE": "%dx%d" % size}
        status = subprocess.run([sys.executable, *sys.argv], env=environment).returncode
        if status:
            sys.exit(status)
    sys.exit(0)

import desk  # noqa: E402

SIZE = tuple(map(int, os.environ["HOOPWRIGHT_SIZE"].split("x")))
BORDER = 5  # what a window draws around itself where there is no desktop that would draw shadows; it is cut off
desk.run_on_desk(SIZE[0] + 2 * BORDER, SIZE[1] + 2 * BORDER)
if shutil.which("xcompmgr"):
    compositor = subprocess.Popen(["xcompmgr", "-n"], stderr=subprocess.DEVNULL)
else:
    compositor = None

import json  # noqa: E402

import window  # noqa: E402
from window import until  # noqa: E402

RULER, PADDING = 26, 36  # pixels; how the table fits a whole cloth
DEMO = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "data", "demo", "walled-garden.hoopscene")


class Fitted:
    """Where the whole cloth lies on the table when it is shown whole."""

    def __init__(self, table, fabric):
        x, y, width, height = table
        x, y, width, height = x + RULER, y + RULER, width - RULER, height - RULER
        self.scale = min((width - 2 * PADDING) / fabric["width"], (height - 2 * PADDING) / fabric["height"])
        self.left = x + (width - fabric["width"] * self.scale) / 2
        self.top = y + (height - fabric["height"] * self.scale) / 2

    def pixel(self, x, y):
        return self.left + x * self.scale, self.top + y * self.scale


class Photographer:
    def __init__(self, look):
        self.look = look
        with open(DEMO, encoding="utf-8") as scene:
            self.scene = json.load(scene)
        self.window = window.Window(DEMO, environment={"GTK_THEME": "Adwaita:dark"} if look == "dark" else {})
        self.window.until_plan("hoopings")
        self.window.cloth = Fitted(self.window.box(self.window.table()), self.scene["fabric"])
        self.still()

    def still(self):
        """Waits until two pictures in a row are the same."""
        def same():
            first = window.sight.screen()
            return (first == window.sight.screen()).all() and (first == window.sight.screen()).all()
        until(same, "the picture stands still", 30)

    def take(self, name):
        window.xdo("mousemove", SIZE[0] - 2, 2)
        self.still()
        self.shoot(name)

    def shoot(self, name):
        path = os.path.join(FOLDER, f"{SIZE[0]}x{SIZE[1]}-{self.look}-{name}.png")
        window.screenshot(path)
        subprocess.run(["convert", path, "-crop", "%dx%d+%d+%d" % (*SIZE, BORDER, BORDER), "+repage", path], check=True)
        print(path, flush=True)
        return path

    def place_of(self, name):
        return next(motif["position"] for motif in self.scene["motifs"] if motif["name"] == name)

    def dialog(self, ask, name):
        before = len(self.window.frames())
        ask()
        until(lambda: len(self.window.frames()) > before, f"{name} opens")
        self.take(name)
        self.window.key("Escape")
        if len(self.window.frames()) > before:
            self.window.key("alt+F4", "Escape")
        until(lambda: len(self.window.frames()) == before, f"{name} closes")


def explained(at):
    """What the plan says for itself, and what can be decided about the chosen hooping."""
    screen = at.window
    screen.click(screen.find(None, "Why not fewer?", screen.foot()))
    at.still()
    at.shoot("why-not-fewer")
    screen.key("Escape")
    screen.fold("Scene")
    screen.click(screen.find(None, "Why hooping 1 is here"))
    at.still()
    at.shoot("why-here")
    screen.key("Escape")
    card = screen.find(None, "Decide about hooping 1")
    screen.click(card)
    at.still()
    at.shoot("hooping-menu")
    screen.do(screen.find("menu item", "Join with"))
    at.dialog(lambda: screen.do(screen.find("menu item", re.compile("^Hooping 2: "))), "join")
    shared = screen.find(None, re.compile(r"^Hooping \d+: .*\. [^.,]+, [^.]+\. "))
    screen.click(screen.find(None, "Decide about " + shared.get_name().split(":")[0].lower()))
    at.dialog(lambda: screen.do(screen.find("menu item", "Split…")), "split")
    screen.fold("Hoopings")
    helps = screen.find("push button", re.compile("^What would help"))
    screen.click(helps)
    screen.find("push button", re.compile("^(Do|Add) it: "))
    at.take("what-would-help")
    screen.click(helps)
    wishes = re.compile("^Plan for: ")
    screen.unfold(wishes)
    for field in (screen.find(None, "Warn of more stitches to the square millimetre"), screen.find("combo box", "Plan for")):
        screen.bring_into_view(field)
    at.take("wishes")
    screen.fold(wishes)
    screen.unfold("Hoopings")


def series(look):
    at = Photographer(look)
    screen = at.window
    at.take("start")
    screen.menu("Start page")
    screen.find("push button", re.compile("^The Orchard Frieze"))
    at.take("start-page")
    screen.key("Escape")
    motif = at.scene["motifs"][len(at.scene["motifs"]) // 2]["name"]

    screen.click_cloth(at.place_of(motif))
    at.take("motif")
    x, y = at.place_of(motif)
    with screen.held_on_cloth((x, y), (x, 30)):
        at.still()
        at.shoot("held-past-the-edge-line")
        screen.key("Escape")
    screen.key("Escape", "ctrl+Next")
    at.take("hooping")
    explained(at)
    screen.key("Escape")
    beads = screen.look("push button", None, screen.find("panel", "The course: one bead for each hooping"))
    screen.click(beads[min(4, len(beads) - 2)])
    at.take("course")
    screen.click(beads[0])
    screen.unfold("Stitch order")
    at.take("stitch-order")
    screen.fold("Stitch order")
    screen.click(screen.find("push button", "Menu"))
    at.still()
    at.shoot("menu")
    screen.key("Escape")
    screen.click_cloth(at.place_of(motif), 3)
    at.still()
    at.shoot("motif-menu")
    screen.key("Escape")
    screen.key("Escape")
    screen.menu("How dense the stitching lies")
    at.take("density")
    screen.menu("How dense the stitching lies")
    at.dialog(lambda: screen.key("ctrl+p"), "paper")
    at.dialog(lambda: screen.menu("Hoops…"), "hoops")
    at.dialog(lambda: screen.menu("Cloth and edge line…"), "cloth")
    at.dialog(lambda: screen.key("ctrl+n"), "new-scene")
    at.dialog(lambda: screen.menu("Keys"), "keys")
    at.dialog(lambda: screen.key("F1"), "guide")
    at.dialog(lambda: screen.menu("About Hoopwright"), "about")
    screen.close()


def main():
    manager = desk.start_window_manager()
    for look in ("light", "dark"):
        series(look)
    if SHOWN and SIZE == SIZES[0]:
        os.makedirs(os.path.dirname(SHOWN), exist_ok=True)
        shutil.copy(os.path.join(FOLDER, "%dx%d-light-start.png" % SIZE), SHOWN)
    for ended in (manager, compositor):
        if ended is not None:
            ended.terminate()
            ended.wait()


main()
