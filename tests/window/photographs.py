"""Photographs of a cloth that were never taken: a flat drawing seen askew through a known homography, saved with a turn noted in EXIF."""
import io
import struct
import zlib

import numpy
from PIL import Image, ImageFilter

SIZE = (2400, 1800)  # pixels, upright


def homography(places, pixels):
    """The plane homography from four places to four pixels: the eight equations of the direct linear transform, solved outright."""
    rows, right = [], []
    for (x, y), (u, v) in zip(places, pixels):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        right += [u, v]
    return numpy.append(numpy.linalg.solve(numpy.array(rows, float), numpy.array(right, float)), 1).reshape(3, 3)


def least_squares(places, pixels):
    """The same from any number of pairs, by the smallest singular vector, with both sides brought to their middle (Hartley and Zisserman)."""
    def norm(points):
        middle = points.mean(axis=0)
        scale = numpy.sqrt(2) / numpy.linalg.norm(points - middle, axis=1).mean()
        return numpy.array([[scale, 0, -scale * middle[0]], [0, scale, -scale * middle[1]], [0, 0, 1]])

    places, pixels = numpy.array(places, float), numpy.array(pixels, float)
    a, b = norm(places), norm(pixels)
    rows = []
    for p, q in zip(places, pixels):
        x, y, _ = a @ [*p, 1]
        u, v, _ = b @ [*q, 1]
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y, -u], [0, 0, 0, x, y, 1, -v * x, -v * y, -v]]
    return numpy.linalg.inv(b) @ numpy.linalg.svd(numpy.array(rows))[2][-1].reshape(3, 3) @ a


def through(matrix, point):
    u, v, w = matrix @ [*point, 1]
    return u / w, v / w


# Where the corners of a 600 x 450 mm cloth are seen, photo pixels from the upper left: held askew, nearer at the lower left.
SEEN = homography([(0, 0), (600, 0), (600, 450), (0, 450)], [(310, 265), (2085, 190), (2230, 1490), (160, 1650)])


def places(matrix, size):
    """Where each pixel lies, mm."""
    width, height = size
    across, down = numpy.meshgrid(numpy.arange(width) + 0.5, numpy.arange(height) + 0.5)
    back = numpy.linalg.inv(matrix)
    w = back[2, 0] * across + back[2, 1] * down + back[2, 2]
    return (back[0, 0] * across + back[0, 1] * down + back[0, 2]) / w, (back[1, 0] * across + back[1, 1] * down + back[1, 2]) / w


# Where the corners of a frame of 170 x 240 mm are seen: held askew over the hoop.
HOOPED = homography([(-85, -120), (85, -120), (85, 120), (-85, 120)], [(690, 215), (1640, 160), (1760, 1600), (600, 1660)])


def hooped(crosses, frame=(170, 240), ring=10, matrix=HOOPED, size=SIZE, seed=11):
    """Linen in a wooden hoop with a notch in the middle of each side, crosses drawn on it (u, v and how far they are turned), under a lamp, a little out of focus. Places in
    hoop axes, mm."""
    x, y = places(matrix, size)
    across, down = frame[0] / 2, frame[1] / 2
    grey = numpy.full(x.shape, 70.0)
    on_ring = (abs(x) < across) & (abs(y) < down)
    grey[on_ring] = 128
    rim = numpy.maximum(abs(x) - across, abs(y) - down)
    grey[on_ring & (rim > -6) & ((abs(x) < 0.5) | (abs(y) < 0.5))] = 225
    inside = (abs(x) < across - ring) & (abs(y) < down - ring)
    grey[inside] = 196 + 6 * numpy.sin(x[inside] * 5.2) * numpy.sin(y[inside] * 5.2)
    for u, v, turn in crosses:
        a = numpy.radians(turn)
        along, aside = (x - u) * numpy.cos(a) + (y - v) * numpy.sin(a), (y - v) * numpy.cos(a) - (x - u) * numpy.sin(a)
        grey[((abs(along) < 0.3) & (abs(aside) < 5)) | ((abs(aside) < 0.3) & (abs(along) < 5))] = 95
    soft = Image.fromarray(numpy.clip(grey, 0, 255).astype(numpy.uint8)).filter(ImageFilter.GaussianBlur(1.2))
    lamp = numpy.linspace(1.08, 0.85, size[0])[None, :] * numpy.linspace(0.95, 1.05, size[1])[:, None]
    grey = numpy.asarray(soft, float) * lamp + numpy.random.default_rng(seed).normal(0, 4, x.shape)
    warm = numpy.stack([grey, grey * 0.97, grey * 0.90], axis=2)
    return numpy.clip(warm, 0, 255).astype(numpy.uint8)


def cloth(crosses=(), discs=(), sheets=(), matrix=SEEN, size=SIZE, edge=(20, 20, 580, 430), linen=205, seed=7):
    """A linen cloth with its edge line, drawn crosses (10 mm across), dark discs and white sheets of paper (left, top, width, height), as an array of
    pixels, upright. All places in fabric mm."""
    x, y = places(matrix, size)
    grey = numpy.full(x.shape, 96.0)
    on_cloth = (x >= 0) & (x <= 600) & (y >= 0) & (y <= 450)
    grey[on_cloth] = linen + 4 * numpy.sin(x[on_cloth] * 4.1) * numpy.sin(y[on_cloth] * 4.1)

    def draw(inside, ink):
        grey[inside] = ink

    if edge:
        x0, y0, x1, y1 = edge
        rim = numpy.maximum(numpy.maximum(x0 - x, x - x1), numpy.maximum(y0 - y, y - y1))
        draw(abs(rim) < 0.5, 90)
    for cx, cy in crosses:
        arms = ((abs(x - cx) < 0.45) & (abs(y - cy) < 5)) | ((abs(y - cy) < 0.45) & (abs(x - cx) < 5))
        draw(arms, 60)
    for left, top, wide, tall in sheets:
        draw((x > left) & (x < left + wide) & (y > top) & (y < top + tall), 250)
    for cx, cy, r in discs:
        draw((x - cx) ** 2 + (y - cy) ** 2 < r * r, 25)
    grey += numpy.random.default_rng(seed).normal(0, 2.5, grey.shape)
    warm = numpy.stack([grey, grey * 0.97, grey * 0.90], axis=2)
    return numpy.clip(warm, 0, 255).astype(numpy.uint8)


def save_turned(pixels, path):
    """As a camera held upright on its side saves it: the picture lies, and EXIF orientation 6 (CIPA DC-008: to be turned by 90 degrees clockwise) says so."""
    picture = Image.fromarray(numpy.rot90(pixels))
    exif = Image.Exif()
    exif[0x0112] = 6
    picture.save(path, "JPEG", quality=93, exif=exif)
    return path


def save_broken(path):
    """The first half of a JPEG."""
    whole = io.BytesIO()
    Image.fromarray(numpy.full((300, 400, 3), 180, numpy.uint8)).save(whole, "JPEG")
    with open(path, "wb") as out:
        out.write(whole.getvalue()[:len(whole.getvalue()) // 2])
    return path


def save_vast(path, side=60000):
    """A PNG that says it is vast, in a few hundred bytes."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    with open(path, "wb") as out:
        out.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0))
                  + chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b""))
    return path
