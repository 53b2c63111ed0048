"""What climbs: the rose that goes over the gate, and the pear trained flat against the wall."""
from .curves import Course, bend, nearest, smooth, turn
from .forms import petal, ragged, round_place, tuft
from .work import taper


def rose_leaf(base, way, size, lean=0):
    """Five leaflets on a stalk, as (start, tip, width)."""
    end = base + turn(way) * size * 0.62
    spine = Course(bend(base, end, 0.06))
    out = [(end, end + turn(way) * size * 0.48, size * 0.15)]
    p = spine.at(0.66)
    for side in (-1, 1):
        out.append((p + turn(way + side * 60) * 1.0, p + turn(way + side * 58) * size * 0.46, size * 0.14))
    return spine.knots, out


ROSES = (  # where, size, tilt
    (274 + 262j, 12.5, 10),
    (298 + 238j, 11.5, 40),
    (330 + 223j, 13.5, 20),
    (371 + 224j, 12.5, 55),
    (401 + 246j, 12, 5),
    (240 + 280j, 11, 30),
    (262 + 306j, 12, 60),
    (216 + 296j, 9.5, 15),
    (282 + 342j, 10.5, 25),
    (350 + 230j, 9, 0),
)
BUDS = (
    (308 + 216j, -70),
    (420 + 270j, 60),
    (204 + 286j, -150),
    (390 + 216j, -60),
    (250 + 258j, -100),
    (252 + 340j, 120),
)


def draw_rose(w):
    trunk = smooth(
        [
            268 + 392j,
            262 + 366j,
            271 + 336j,
            263 + 304j,
            266 + 276j,
            284 + 250j,
            312 + 231j,
            346 + 225j,
            380 + 230j,
            404 + 250j,
            412 + 276j,
        ]
    )
    shoot = smooth([264 + 308j, 248 + 288j, 228 + 282j, 208 + 292j])
    low = smooth([269 + 342j, 282 + 350j, 288 + 366j])
    w.thread('bark')
    w.column(low, taper(2.4, 1.2), lean=0.4)
    w.column(shoot, taper(3.0, 1.2), lean=0.4)
    w.column(trunk, taper(6.0, 1.6, 0.7), lean=0.3)
    stems = (trunk, shoot, low)
    leaves = [
        rose_leaf(*x)
        for x in (
            (258 + 356j, 200, 26),
            (276 + 366j, 40, 24),
            (254 + 322j, 190, 26),
            (280 + 322j, -10, 24),
            (288 + 366j, 74, 24),
            (242 + 290j, 110, 24),
            (228 + 282j, -100, 24),
            (210 + 292j, 150, 25),
            (216 + 300j, 80, 22),
            (262 + 270j, -140, 25),
            (286 + 252j, 50, 22),
            (284 + 244j, -120, 24),
            (318 + 230j, 78, 22),
            (314 + 226j, -80, 20),
            (354 + 224j, -66, 20),
            (350 + 232j, 96, 22),
            (384 + 232j, 78, 22),
            (396 + 236j, -30, 24),
            (412 + 262j, 15, 24),
            (408 + 276j, 110, 26),
            (250 + 300j, -170, 22),
            (266 + 336j, 0, 20),
        )
    ]
    for thread, half, part in (
        ('pine', 1, leaves[::2]),
        ('moss', -1, leaves[::2]),
        ('moss', 1, leaves[1::2]),
        ('leaf', -1, leaves[1::2]),
    ):
        w.thread(thread)
        for spine, leaflets in part:
            if half == 1:
                w.run([nearest(spine[0], stems)] + spine, 2.0, double=True)
            for n, (a, b, wide) in enumerate(leaflets):
                w.leaf(a, b, wide * 2, curve=0.05 if n % 2 else -0.05, full=0.48, halves=(half,))
    w.thread('leaf')
    for foot in (262 + 393j, 270 + 394j, 279 + 393j):
        tuft(w, foot, 12, 5, 44)
    for p, way in BUDS:
        w.column(bend(p, nearest(p - turn(way) * 9, stems), 0.1), 1.2, lean=0.6)
        for side in (-34, 0, 34):
            w.lozenge(p, p + turn(way + side) * 7.5, 1.8)
    w.thread('shell')
    for p, size, tilt in ROSES[::2]:
        for k in range(5):
            petal(w, p, tilt + 72 * k, size * 0.3, size, 78)
    w.thread('blush')
    for p, size, tilt in ROSES[1::2]:
        for k in range(5):
            petal(w, p, tilt + 72 * k, size * 0.3, size, 78)
    for p, size, tilt in ROSES[::2]:
        for k in range(5):
            petal(w, p, tilt + 36 + 72 * k, size * 0.16, size * 0.66, 76)
    w.thread('rose')
    for p, size, tilt in ROSES[1::2]:
        for k in range(5):
            petal(w, p, tilt + 36 + 72 * k, size * 0.16, size * 0.66, 76)
    for p, size, tilt in ROSES[::2]:
        for k in range(4):
            petal(w, p, tilt + 90 * k, size * 0.08, size * 0.38, 84)
    for p, way in BUDS:
        w.leaf(p + turn(way) * 1.2, p + turn(way) * 10.5, 5.6, full=0.5)
    w.thread('wine')
    for p, size, tilt in ROSES[1::2]:
        for k in range(4):
            petal(w, p, tilt + 90 * k, size * 0.08, size * 0.38, 84)
    w.thread('straw')
    for p, size, tilt in ROSES:
        w.dot(p, size * 0.13, tilt)


PEAR = (0.3, 2.0, 3.0, 3.6, 4.4, 6.0, 8.0, 9.2, 9.4, 8.4, 6.0, 0.4)


def pear_fruit(w, stalk, axis, size, part):
    length = 27 * size
    place = round_place(stalk + turn(axis) * (length / 2 + 1), axis, length, [x * size for x in PEAR])
    edge = lambda u, j: ragged(0.80 + 0.9 * (u - 0.3) ** 2, 0.16)(u, j) if u > 0.08 else 0.6
    cheek = lambda u, j: ragged(0.40 + 0.5 * max(0, 0.5 - u), 0.16)(u, j)
    bands = [
        ('lime', 0, lambda u, j: cheek(u, j)),
        ('straw', lambda u, j: cheek(u, j) - 0.06, edge),
        ('russet', lambda u, j: edge(u, j) - 0.06, 1),
    ]
    w.patch(place, 18.8 * size, bands[part : part + 1], length=3.0)


def draw_pear(w):
    """Three pairs of arms on wires."""
    x, foot, arms = 512, 396, (374, 342, 308)
    w.thread('pewter')
    for y in arms:
        w.run([complex(x - 80, y + 4), complex(x + 80, y + 4)], 2.4, double=True)
    w.thread('walnut')
    for y, reach in zip(arms, (74, 76, 70)):
        for side in (-1, 1):
            w.column(
                smooth(
                    [
                        complex(x, y + 15),
                        complex(x + side * 9, y + 7),
                        complex(x + side * 24, y + 3),
                        complex(x + side * reach * 0.7, y + 2.4),
                        complex(x + side * reach, y + 1),
                    ]
                ),
                taper(5.0, 2.0),
                lean=0.25,
            )
    w.column(
        smooth(
            [
                complex(x - 2, foot),
                complex(x + 1, 372),
                complex(x - 0.5, 340),
                complex(x + 0.5, 308),
                complex(x, 282),
            ]
        ),
        taper(9.0, 3.0),
        lean=0.2,
    )
    spots = []
    for row, y in enumerate(arms):
        for side in (-1, 1):
            for k, d in enumerate((20, 36, 52, 68)):
                spots.append((complex(x + side * d, y + 2), side, row * 5 + k))
    leaves = []
    for p, side, n in spots:
        leaves += [
            (p, -90 + side * (12 + 9 * (n % 4)), 17 + n % 3),
            (p + side * 3, 90 - side * (26 + 10 * (n % 3)), 15 + n % 4),
        ]
        if n % 2:
            leaves.append((p + side * 2, -90 - side * 40, 15))
    leaves += [(complex(x, 284), -90, 19), (complex(x, 288), -140, 17), (complex(x, 288), -40, 17)]
    for thread, half, part in (
        ('pine', 1, leaves[::2]),
        ('lime', -1, leaves[1::2]),
        ('leaf', 1, leaves[1::2]),
        ('leaf', -1, leaves[::2]),
    ):
        w.thread(thread)
        for n, (base, way, size) in enumerate(part):
            a = base + turn(way) * 2.5
            if thread != 'leaf':
                w.run([base, a], 1.2, double=True)
            w.leaf(
                a,
                base + turn(way) * size,
                size * 0.50,
                curve=0.06 if n % 2 else -0.06,
                full=0.42,
                halves=(half,),
            )
    w.thread('leaf')
    for foot in (502 + 397j, 512 + 398j, 522 + 397j):
        tuft(w, foot, 12, 5, 44)
    pears = [
        (complex(x + dx, y + 3), 90 + tilt, size)
        for dx, y, tilt, size in (
            (-44, 374, 4, 0.62),
            (28, 374, -5, 0.66),
            (60, 374, 6, 0.58),
            (-60, 342, 3, 0.7),
            (-28, 342, -4, 0.74),
            (44, 342, 4, 0.76),
            (-44, 308, -3, 0.78),
            (-12, 310, 5, 0.7),
            (28, 308, -4, 0.8),
            (60, 308, 5, 0.7),
            (70, 342, -6, 0.62),
        )
    ]
    for part in range(3):
        for fruit in pears:
            pear_fruit(w, *fruit, part)
