"""What can be seen on the screen: pictures of it as arrays, and where the cloth lies in them."""
import subprocess

import numpy


class NotSeen(Exception):
    """What was looked for is not on the screen."""


def screen():
    """The screen now, as an array of height x width x 3 bytes."""
    size = subprocess.run(["xdotool", "getdisplaygeometry"], check=True, capture_output=True, text=True).stdout.split()
    raw = subprocess.run(["import", "-silent", "-window", "root", "-depth", "8", "rgb:-"], check=True, capture_output=True).stdout
    return numpy.frombuffer(raw, numpy.uint8).reshape(int(size[1]), int(size[0]), 3)


def like(picture, colour, near):
    """Which pixels are of the colour '#rrggbb', each part within near."""
    wanted = numpy.array([int(colour[i:i + 2], 16) for i in (1, 3, 5)])
    return (abs(picture.astype(int) - wanted) <= near).all(axis=2)


class Cloth:
    """Where a cloth of a colour found nowhere else lies on the screen: fabric millimetres to screen pixels and back."""

    def __init__(self, width, height, colour, near=24):
        seen = like(screen(), colour, near)
        # A row or column belongs to the cloth when a good part of it is of its colour.
        rows = numpy.flatnonzero(seen.sum(axis=1) > 0.1 * seen.sum(axis=1).max())
        columns = numpy.flatnonzero(seen.sum(axis=0) > 0.1 * seen.sum(axis=0).max())
        if not seen.any() or len(rows) < 20:
            raise NotSeen("the cloth is not to be seen")
        self.left, self.top = columns[0], rows[0]
        self.scale = (columns[-1] + 1 - columns[0]) / width
        upright = (rows[-1] + 1 - rows[0]) / height
        if abs(upright - self.scale) > 0.02 * self.scale:
            raise NotSeen(f"the cloth looks stretched or cut off: {self.scale:.3f} and {upright:.3f} pixels a millimetre")

    def pixel(self, x, y):
        return self.left + x * self.scale, self.top + y * self.scale

    def millimetres(self, x, y):
        return (x - self.left) / self.scale, (y - self.top) / self.scale
