"""What can be seen on the screen: pictures of it as arrays, and where the cloth lies in them."""
import ctypes
import functools

import numpy


class NotSeen(Exception):
    """What was looked for is not on the screen."""


class _Image(ctypes.Structure):
    """The beginning of Xlib's XImage."""

    _fields_ = [(name, ctypes.c_int) for name in ("width", "height", "xoffset", "format")] + [("data", ctypes.c_void_p)] + \
        [(name, ctypes.c_int) for name in ("byte_order", "bitmap_unit", "bitmap_bit_order", "bitmap_pad", "depth", "bytes_per_line", "bits_per_pixel")]


@functools.lru_cache(None)
def _display():
    x = ctypes.CDLL("libX11.so.6")
    x.XOpenDisplay.restype = ctypes.c_void_p
    x.XDefaultRootWindow.restype = ctypes.c_ulong
    x.XDefaultRootWindow.argtypes = [ctypes.c_void_p]
    x.XDisplayWidth.argtypes = x.XDisplayHeight.argtypes = [ctypes.c_void_p, ctypes.c_int]
    x.XGetImage.restype = ctypes.POINTER(_Image)
    x.XGetImage.argtypes = [ctypes.c_void_p, ctypes.c_ulong, ctypes.c_int, ctypes.c_int, ctypes.c_uint, ctypes.c_uint, ctypes.c_ulong, ctypes.c_int]
    x.XFree.argtypes = [ctypes.c_void_p]
    x.XInternAtom.restype = ctypes.c_ulong
    x.XInternAtom.argtypes = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_int]
    x.XGetWindowProperty.argtypes = [ctypes.c_void_p, ctypes.c_ulong, ctypes.c_ulong, ctypes.c_long, ctypes.c_long, ctypes.c_int, ctypes.c_ulong] + [ctypes.c_void_p] * 5
    x.XGetGeometry.argtypes = [ctypes.c_void_p, ctypes.c_ulong] + [ctypes.c_void_p] * 7
    x.XTranslateCoordinates.argtypes = [ctypes.c_void_p, ctypes.c_ulong, ctypes.c_ulong, ctypes.c_int, ctypes.c_int] + [ctypes.c_void_p] * 3
    x.XSetErrorHandler(_let_be)
    return x, x.XOpenDisplay(None)


@ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p, ctypes.c_void_p)
def _let_be(_display, _error):
    """A window that goes while it is asked about ends nothing: what was asked is then not told."""
    return 0


def _property(window, name):
    """What a window says of itself under a name: bytes, or long numbers as the X library hands them out."""
    x, display = _display()
    kind, width, count, left, data = ctypes.c_ulong(), ctypes.c_int(), ctypes.c_ulong(), ctypes.c_ulong(), ctypes.c_void_p()
    told = x.XGetWindowProperty(display, window, x.XInternAtom(display, name.encode(), 0), 0, 1 << 16, 0, 0, *map(ctypes.byref, (kind, width, count, left, data)))
    if told != 0 or not data.value:
        return b""
    size = count.value * (ctypes.sizeof(ctypes.c_long) if width.value == 32 else width.value // 8)
    raw = ctypes.string_at(data.value, size)
    x.XFree(data)
    return raw


def windows():
    """The windows that the window manager keeps: title, and x, y, width, height on the screen."""
    x, display = _display()
    root = x.XDefaultRootWindow(display)
    kept = []
    for window in numpy.frombuffer(_property(root, "_NET_CLIENT_LIST_STACKING"), ctypes.c_long)[::-1]:
        parent, child = ctypes.c_ulong(), ctypes.c_ulong()
        left, top, at_x, at_y, width, height, border, depth = (ctypes.c_int() for _ in range(8))
        if x.XGetGeometry(display, int(window), *map(ctypes.byref, (parent, left, top, width, height, border, depth))) and \
                x.XTranslateCoordinates(display, int(window), root, 0, 0, *map(ctypes.byref, (at_x, at_y, child))):
            kept.append((_property(int(window), "_NET_WM_NAME").decode(), at_x.value, at_y.value, width.value, height.value))
    return kept


def screen():
    """The screen now, as an array of height x width x 3 bytes."""
    x, display = _display()
    every_plane, z_pixmap = ctypes.c_ulong(-1).value, 2
    image = x.XGetImage(display, x.XDefaultRootWindow(display), 0, 0, x.XDisplayWidth(display, 0), x.XDisplayHeight(display, 0), every_plane, z_pixmap)
    told = image.contents
    assert told.bits_per_pixel == 32 and told.byte_order == 0, "the desk has a screen of 24 bits, blue first"
    raw = ctypes.string_at(told.data, told.height * told.bytes_per_line)
    pixels = numpy.frombuffer(raw, numpy.uint8).reshape(told.height, told.bytes_per_line)[:, :told.width * 4].reshape(told.height, told.width, 4)
    x.XFree(told.data)
    x.XFree(image)
    return numpy.ascontiguousarray(pixels[:, :, 2::-1])


def like(picture, colour, near):
    """Which pixels are of the colour '#rrggbb', each part within near."""
    wanted = numpy.array([int(colour[i:i + 2], 16) for i in (1, 3, 5)], numpy.int16)
    return (abs(picture.astype(numpy.int16) - wanted) <= near).all(axis=2)


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
