"""The view of a photo with its handles, driven by hand: photo pixels to screen pixels, handles dragged there."""
import re

import photographs
from window import until, xdo

HANDLE = re.compile(r"Handle (\d+), ([^:]*): ([0-9.]+) across, ([0-9.]+) down\.")
SPOT = re.compile(r"Mark ([^ ,:]+): ([0-9.]+) across, ([0-9.]+) down\.")
NOTCHES = 8


class Lens:
    """How the photo lies in its view: photo pixels to screen pixels."""

    def __init__(self, window):
        self.window = window
        self.view = window.find("image", "The photo, with its handles")
        self.whole()

    def whole(self):
        x, y, width, height = self.window.box(self.view)
        across, down = photographs.SIZE
        self.zoom = min((width - 32) / across, (height - 32) / down)
        self.left = x + (width - across * self.zoom) / 2
        self.top = y + (height - down * self.zoom) / 2

    def screen(self, px):
        return self.left + px[0] * self.zoom, self.top + px[1] * self.zoom

    def nearer(self, px, notches=NOTCHES):
        """Turns the wheel over a place of the photo."""
        x, y = map(round, self.screen(px))
        still = (x - self.left) / self.zoom, (y - self.top) / self.zoom
        xdo("mousemove", x, y, "sleep", "0.05", "click", "--repeat", notches, "--delay", "30", 4)
        self.zoom *= 1.25 ** notches
        self.left, self.top = x - still[0] * self.zoom, y - still[1] * self.zoom

    def handles(self):
        """Place and name of each handle, as the view tells it."""
        return {name: (float(x), float(y)) for _, name, x, y in HANDLE.findall(self.view.get_description())}

    def spots(self):
        """The same of each mark that is shown."""
        return {name: (float(x), float(y)) for name, x, y in SPOT.findall(self.view.get_description())}

    def drag(self, name, to):
        before = self.handles()[name]
        self.window.drag(self.screen(before), self.screen(to))
        until(lambda: self.handles()[name] != before, f"{name} moves")

    def put(self, name, to):
        """Over the whole photo first, then with the photo near."""
        self.drag(name, to)
        self.nearer(to)
        self.drag(name, to)
        self.window.click(self.window.find("push button", "Whole photo"))
        self.whole()
