"""Brick and wood: two stretches of garden wall and the gate between them."""
import math

from .curves import arc, smooth, turn
from .forms import ragged, tuft
from .work import taper


def block(x0, y0, x1, y1, r=0.8):
    """A brick with its corners taken off."""
    return [
        complex(x0 + r, y0),
        complex(x1 - r, y0),
        complex(x1, y0 + r),
        complex(x1, y1 - r),
        complex(x1 - r, y1),
        complex(x0 + r, y1),
        complex(x0, y1 - r),
        complex(x0, y0 + r),
    ]


COURSE = 8.3  # mm from course to course
JOINT = 1.25


def bricks_of(x0, x1, y0, courses):
    """Flemish bond: stretchers and headers in turn. Gives (course, ring, chance-free number)."""
    out = []
    for c in range(courses):
        y = y0 + c * COURSE
        x = x0 - (0 if c % 2 == 0 else 11.8)
        k = 0
        while x < x1:
            wide = 15.6 if k % 2 == 0 else 7.4
            a, b = max(x, x0), min(x + wide, x1)
            if b - a > 3:
                out.append((c, a, y, b, y + COURSE - JOINT, (c * 31 + k * 17 + (c * k) % 7) % 12))
            x += wide + JOINT
            k += 1
    return out


def draw_wall(w, x0, x1, keep, faint):
    """keep(x, y): 1 stitched, 0 only its line, below that left out."""
    top, courses = 299.0, 11
    stones = []
    x = x0
    while x < x1 - 4:
        stones.append((x, min(x + 22.5, x1)))
        x += 23.6
    w.thread('stone')
    for n, (a, b) in enumerate(stones):
        if keep((a + b) / 2, top - 5) > 0:
            w.fill(block(a, top - 4.6, b, top - 1.2, 0.6), 0, length=3.6)
    w.thread('chalk')
    for n, (a, b) in enumerate(stones):
        if keep((a + b) / 2, top - 5) > 0:
            w.fill(
                smooth(
                    [
                        complex(a, top - 4.8),
                        complex(a + 0.6, top - 9),
                        complex((a + b) / 2, top - 10.2),
                        complex(b - 0.6, top - 9),
                        complex(b, top - 4.8),
                    ]
                ),
                90 if n % 2 else 84,
                length=3.0,
            )
    bricks = [b for b in bricks_of(x0, x1, top, courses)]
    for name, numbers in (('dust', (0, 5, 9)), ('clay', (1, 3, 6, 8, 11)), ('brick', (2, 4, 7, 10))):
        w.thread(name)
        mine = [b for b in bricks if b[5] in numbers]
        mine.sort(key=lambda b: (b[0], b[1] if b[0] % 2 == 0 else -b[1]))
        for c, xa, ya, xb, yb, number in mine:
            k = keep((xa + xb) / 2, (ya + yb) / 2)
            if k > 0:
                w.fill(
                    block(xa, ya, xb, yb),
                    (0, 3, -3, 90)[number % 4] if xb - xa < 9 else (0, 4, -4)[number % 3],
                    length=3.8,
                )
            elif k > faint and c < courses - 1:
                ring = block(xa + 0.3, ya + 0.3, xb - 0.3, yb - 0.3)
                w.run(ring + ring[:1], 2.0)


def _noise(x, y):
    return (
        0.5 * math.sin(x * 0.11 + y * 0.23)
        + 0.35 * math.sin(x * 0.29 - y * 0.17 + 1.3)
        + 0.25 * math.sin(x * 0.05 + y * 0.41 + 4)
    )


def draw_wall_west(w):
    def keep(x, y):
        left = (x - 112) / 34  # ragged towards the left
        low = (360 - y) / 16  # and towards the ground
        return min(left, low, 2) + 0.75 * _noise(x, y)

    draw_wall(w, 70, 298, keep, -0.85)


def draw_wall_east(w):
    def keep(x, y):
        right = (592 - x) / 34
        low = (360 - y) / 16
        return min(right, low, 2) + 0.75 * _noise(x + 60, y)

    draw_wall(w, 402, 630, keep, -0.85)


GATE_X, SPRING, FOOT, HALF, RING = 350.0, 294.0, 393.0, 38.0, 16.0


def draw_gate(w):
    heart = complex(GATE_X, SPRING)
    _gate_view(w, heart)
    _gate_planks(w)
    _gate_iron(w, heart)
    _gate_stone(w, heart)


def _gate_view(w, heart):
    """What shows above the planks: far trees, worked openly."""
    w.thread('mist')
    hills = (
        [heart + complex(-HALF + 1.5, -1)]
        + smooth(
            [
                heart + complex(x, y)
                for x, y in (
                    (-HALF + 2, -9),
                    (-26, -17),
                    (-16, -13),
                    (-6, -21),
                    (6, -24),
                    (16, -15),
                    (27, -18),
                    (HALF - 2, -9),
                )
            ]
        )
        + [heart + complex(HALF - 1.5, -1)]
    )
    w.fill(hills, 8, row=0.75, length=3.6)
    w.thread('sage')
    near = (
        [heart + complex(-HALF + 1.5, -1)]
        + smooth(
            [
                heart + complex(x, y)
                for x, y in (
                    (-HALF + 2, -5),
                    (-30, -10),
                    (-20, -6),
                    (-10, -8),
                    (2, -5),
                    (12, -9),
                    (24, -7),
                    (32, -10),
                    (HALF - 2, -4),
                )
            ]
        )
        + [heart + complex(HALF - 1.5, -1)]
    )
    w.fill(near, -10, row=0.6, length=3.2)


def _plank(x0, x1, y0, y1):
    return lambda u, t: complex(x0 + (x1 - x0) * u, y0 + (y1 - y0) * t)


def _gate_planks(w):
    n = 7
    wide = 2 * (HALF - 1.2) / n
    for part, thread in ((0, 'pool'), (1, 'copper green')):
        w.thread(thread)
        for k in range(n):
            x0 = GATE_X - HALF + 1.2 + k * wide
            place = _plank(x0 + 0.45, x0 + wide - 0.45, SPRING + 1.5, FOOT - 1)
            # Each plank is weathered from one side, at a height of its own.
            shift = (0.55, 0.28, 0.7, 0.42, 0.6, 0.33, 0.5)[k]
            edge = (
                lambda u, j, s=shift, k=k: s
                + 0.22 * math.sin(3.1 * u + k)
                + 0.10 * ((j * 3 + k) % 5) / 2
                - 0.1
            )
            bands = [('pool', edge, 1), ('copper green', 0, lambda u, j, e=edge: e(u, j) + 0.03)]
            w.patch(place, wide - 0.9, bands[part : part + 1], row=0.44, length=4.4)
    w.thread('copper green')
    for y in (SPRING + 12, FOOT - 14):
        w.column([complex(GATE_X - HALF + 2, y), complex(GATE_X + HALF - 2, y)], 6.4)
    w.column([complex(GATE_X - HALF + 6, FOOT - 18), complex(GATE_X + HALF - 6, SPRING + 16)], 5.2, lean=0.2)
    w.column([complex(GATE_X - HALF + 1, SPRING), complex(GATE_X + HALF - 1, SPRING)], 5.0)


def _gate_iron(w, heart):
    w.thread('slate')
    for degrees in range(198, 343, 24):
        w.column([heart + turn(degrees) * 9, heart + turn(degrees) * (HALF - 2)], 1.7, lean=0.4)
    w.column(arc(heart, 10, 180, 360), 2.0)
    w.column(arc(heart, 24, 180, 360), 1.6)
    w.column(arc(heart, HALF - 1.6, 180, 360), 2.4)
    for y in (SPRING + 12, FOOT - 14):
        w.column([complex(GATE_X - HALF + 2, y), complex(GATE_X - 4, y)], taper(3.4, 1.2), lean=0.3)
        w.dot(complex(GATE_X - 3, y), 2.0)
    w.thread('honey')
    w.column(arc(complex(GATE_X + 28, 346), 4.2, 0, 350), 1.3)
    w.dot(complex(GATE_X + 28, 341.4), 1.7)


def _gate_stone(w, heart):
    """Jambs of alternating stones; the arch of bricks on edge; the keystone."""
    jambs = []
    for side in (-1, 1):
        y, k = SPRING + 0.5, 0
        while y < FOOT - 3:
            high = min(12.4, FOOT - y)
            out = HALF + (RING + 1 if k % 2 == 0 else RING - 4)
            a, b = sorted((GATE_X + side * HALF, GATE_X + side * out))
            jambs.append((k, block(a + 0.5, y, b - 0.5, y + high - 1.1)))
            y += high
            k += 1
    w.thread('stone')
    for k, ring in jambs:
        if k % 2:
            w.fill(ring, 12)
    _path_stones(w, 0)
    wedges = 19
    wedge = lambda n: arc(
        heart, HALF + 0.8, 180 + 180 / wedges * n + 1.1, 180 + 180 / wedges * (n + 1) - 1.1
    ) + arc(heart, HALF + RING, 180 + 180 / wedges * (n + 1) - 0.9, 180 + 180 / wedges * n + 0.9)
    w.thread('chalk')
    for k, ring in jambs:
        if k % 2 == 0:
            w.fill(ring, -6)
    w.fill(
        [
            heart + complex(-3.6, -HALF - 0.4),
            heart + complex(-6, -HALF - RING - 4),
            heart + complex(6, -HALF - RING - 4),
            heart + complex(3.6, -HALF - 0.4),
        ],
        0,
    )
    _path_stones(w, 1)
    for thread, odd in (('clay', 0), ('brick', 1)):
        w.thread(thread)
        for n in range(wedges):
            if n % 2 == odd and n != wedges // 2:
                w.fill(wedge(n), 180 + 180 / wedges * (n + 0.5), length=3.8)
    _path_grass(w)


STONES = (
    (350, 402, 20, 4.6, 2),
    (356, 416, 18, 5.2, -3),
    (367, 432, 21, 6.0, 3),
    (383, 450, 21, 6.8, -3),
    (402, 470, 25, 7.6, 3),
)


def _path_stones(w, part):
    for n, (x, y, a, b, tilt) in enumerate(STONES):
        lower = lambda u, j, n=n: ragged(0.62 + 0.16 * math.sin(5 * u + n), 0.2)(u, j)
        place = lambda u, t, x=x, y=y, a=a, b=b, tilt=tilt: complex(x, y) + turn(tilt) * complex(
            (2 * u - 1) * a, (2 * t - 1) * b * max(0.05, 1 - abs(2 * u - 1) ** 2.6) ** 0.5
        )
        bands = [('stone', lambda u, j, l=lower: l(u, j) - 0.08, 1), ('chalk', 0, lower)]
        w.patch(place, 2 * a, bands[part : part + 1], row=0.45, length=3.6)


def _path_grass(w):
    w.thread('moss')
    for foot in (
        335 + 414j,
        377 + 418j,
        346 + 436j,
        391 + 434j,
        362 + 456j,
        407 + 455j,
        376 + 478j,
        428 + 474j,
    ):
        tuft(w, foot, 9, 5, 46)
    w.thread('leaf')
    for foot in (331 + 404j, 371 + 405j, 341 + 424j, 392 + 440j, 361 + 446j, 371 + 468j, 430 + 466j):
        tuft(w, foot, 7, 4, 52)
