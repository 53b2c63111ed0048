"""What grows and stands before the wall: foxgloves, lavender with the watering can, the straw hive among daisies."""
import math

from .curves import Course, arc, bend, ellipse, smooth, turn
from .forms import coils_of, petal, ragged, seam_coils, sew_coils, shade_coils, tuft
from .work import swell, taper

BELL = (1.5, 2.5, 3.2, 3.6, 3.9, 4.2, 4.5, 4.8, 5.2, 5.8)


def bells_of(foot, top, lean):
    """The bells of one stalk from the lowest to the buds: (place, way, size)."""
    stalk = Course(bend(foot, top, lean))
    out = []
    n = 10
    for k in range(n):
        f = k / (n - 1)
        t = 0.42 + 0.55 * f
        size = 1.16 * (1 - f) ** 0.7 + 0.16
        for side in (-1, 1) if k % 2 == 0 else (1, -1):
            spread = (58 - 22 * (1 - f)) * side
            out.append(
                (
                    stalk.at(t + (0.012 if side > 0 else 0)) + side * 0.6,
                    90 - spread - 8 * math.sin(k * 2.1),
                    size,
                )
            )
        if k % 2 == 0 and size > 0.6:
            out.append((stalk.at(t), 90 + 10 * math.sin(k), size * 1.02))
    return stalk, out


def draw_foxgloves(w):
    stalks = [
        bells_of(*x)
        for x in (
            (112 + 478j, 100 + 292j, -0.02),
            (140 + 480j, 150 + 318j, 0.03),
            (84 + 480j, 74 + 346j, -0.03),
            (168 + 482j, 180 + 372j, 0.03),
        )
    ]
    base = [  # foot, way, length, tone
        (112 + 476j, -170, 52, 0),
        (114 + 477j, -150, 50, 1),
        (140 + 478j, -12, 54, 0),
        (140 + 478j, -34, 50, 1),
        (88 + 478j, -118, 40, 0),
        (166 + 480j, -66, 38, 1),
        (118 + 478j, -126, 52, 0),
        (134 + 478j, -56, 50, 0),
        (124 + 480j, -92, 44, 1),
        (104 + 484j, -184, 44, 1),
        (150 + 484j, 2, 46, 1),
        (128 + 486j, 176, 34, 0),
        (130 + 486j, 6, 34, 0),
    ]
    for thread, half, tone in (('pine', 1, 0), ('moss', -1, 0), ('moss', 1, 1), ('sage', -1, 1)):
        w.thread(thread)
        for p, way, size, kind in base:
            if kind == tone:
                w.leaf(
                    p,
                    p + turn(way) * size,
                    size * 0.34,
                    curve=0.10 if math.cos(math.radians(way)) > 0 else -0.10,
                    full=0.52,
                    halves=(half,),
                )
    w.thread('leaf')
    for stalk, _ in stalks:
        w.column(stalk.knots, taper(3.8, 1.4), lean=0.4)
    w.thread('lime')
    for p, way, size, _ in base:
        bow = 0.10 if math.cos(math.radians(way)) > 0 else -0.10
        w.run(bend(p, p + turn(way) * size * 0.86, bow), 2.4)
    for _, bells in stalks:
        for p, way, size in bells:
            if size < 0.42:
                w.lozenge(p, p + turn(way) * (3.5 + 9 * size), 1.5 + 4 * size)
    full = [b for _, bells in stalks for b in sorted(bells, key=lambda b: -b[0].imag)[::-1] if b[2] >= 0.42]
    bell = lambda size: (lambda t: size * 2 * BELL[min(len(BELL) - 1, int(t * len(BELL)))])
    w.thread('foxglove')
    for p, way, size in full:
        w.column([p, p + turn(way) * 16.5 * size], bell(size), step=0.92)
    w.thread('mauve')
    for p, way, size in full:
        side = turn(way) * 1j * 1.5 * size * (-1 if math.cos(math.radians(way)) < 0.2 else 1)
        w.lozenge(
            p + turn(way) * 3 * size - side * 0.4, p + turn(way) * 14.5 * size - side, 3.0 * size, step=1.1
        )
    w.thread('shell')
    for p, way, size in full:
        mouth = p + turn(way) * 16.5 * size
        w.lozenge(mouth - turn(way) * 5.8j * size, mouth + turn(way) * 5.8j * size, 4.6 * size, step=0.86)
    w.thread('wine')
    for p, way, size in full:
        mouth = p + turn(way) * (16.8 * size)
        for a, b in ((0.3, -2.6), (-0.8, -0.3), (0.4, 2.2))[: 3 if size > 0.6 else 2]:
            q = mouth + turn(way) * complex(a, b) * size
            w.run([q - turn(way) * 0.5, q + turn(way) * 0.5, q - turn(way) * 0.45], 0.9)
    w.thread('leaf')
    for p, way, size in full:
        w.lozenge(p - turn(way) * 1.6, p + turn(way) * 4.2 * size, 3.0 * size, step=0.9)


def draw_lavender(w):
    foot = 226 + 486j
    stems = []
    for k in range(25):
        f = (k + 0.5) / 25 * 2 - 1
        wobble = w.chance.uniform(-1, 1)
        tall = 92 * (1 - 0.34 * abs(f) ** 1.6) * (0.88 + 0.12 * w.chance.random())
        tip = foot + f * 9 + turn(-90 + 40 * f + 3 * wobble) * tall
        stems.append((bend(foot + f * 9, tip, 0.07 * f), f))
    order = sorted(stems, key=lambda s: -abs(s[1]))
    w.thread('sage')
    for line, f in order:
        w.run(line[:20], 2.2, double=True)
    for k in range(26):
        f = (k + 0.5) / 26 * 2 - 1
        tall = 30 * (0.7 + 0.3 * w.chance.random())
        p = foot + f * 13
        w.lozenge(p, p + turn(-90 + 62 * f) * tall, 2.8, curve=0.08 * (1 if f > 0 else -1), step=0.9)
    for part, thread in ((0, 'dusk'), (1, 'lavender'), (2, 'mauve')):
        w.thread(thread)
        for line, f in order:
            spike = Course(line[13:])
            n = 8
            for k in range(n):
                t = k / (n - 1) * 0.93
                p, way = spike.at(t), spike.way(t)
                size = 5.6 * (1 - 0.45 * t)
                if part == 0:
                    w.lozenge(p - way, p + way * turn(-30) * size * 1.1, 2.3)
                elif part == 1:
                    w.lozenge(p - way, p + way * turn(28) * size * 1.1, 2.3)
                elif k % 2 == 0:
                    w.lozenge(p, p + way * turn(4) * size * 0.9, 1.8)
    _watering_can(w)


def _watering_can(w):
    cx, top, low = 286.0, 438.0, 484.0
    wall = lambda u, t: complex(
        cx + (2 * u - 1) * (18.5 + 2.5 * t),
        top + (low - top) * t + 2.6 * math.sqrt(max(0, 1 - (2 * u - 1) ** 2)) * (1 if t > 0 else 1),
    )
    spout = smooth(
        [complex(cx - 17, 474), complex(cx - 28, 462), complex(cx - 38, 444), complex(cx - 46, 432)]
    )
    w.thread('slate')
    w.column(
        smooth([complex(cx + 18, 476), complex(cx + 33, 470), complex(cx + 36, 452), complex(cx + 22, 442)]),
        3.4,
        lean=0.2,
    )
    w.column(spout, taper(8.5, 4.0), lean=0.1)
    w.column([complex(cx - 51, 437), complex(cx - 42, 427)], 5.0)
    w.patch(
        wall,
        42,
        [('slate', lambda u, j: 0 if u > 0.66 + 0.05 * (j % 3) / 2 or u < 0.10 - 0.03 * (j % 2) else 1, 1)],
        length=3.8,
    )
    w.thread('pewter')
    w.patch(
        wall,
        42,
        [('pewter', 0, lambda u, j: 1 if 0.08 - 0.03 * (j % 2) < u < 0.70 + 0.05 * (j % 3) / 2 else 0)],
        length=3.8,
    )
    w.column(
        smooth([complex(cx - 19, 470), complex(cx - 29, 458), complex(cx - 38, 442)]),
        taper(2.4, 1.0),
        lean=0.3,
    )
    w.thread('chalk')
    w.patch(
        lambda u, t: wall(0.26 + 0.10 * u, 0.06 + 0.88 * t),
        4.2,
        [('chalk', lambda u, j: ragged(0.06, 0.1)(u, j), lambda u, j: ragged(0.92, 0.12)(u, j))],
        row=0.8,
        length=3.4,
    )
    w.thread('slate')
    for t, wide in ((0.02, 2.6), (0.34, 1.3), (0.98, 2.6)):
        w.column([wall(u / 30, t) for u in range(31)], wide, lean=0.2)
    w.fill(ellipse(complex(cx, top), 18.2, 3.4, 0, 30), 0, length=3.4)
    w.column(
        smooth(
            [
                complex(cx - 13, 437),
                complex(cx - 11, 420),
                complex(cx + 3, 414),
                complex(cx + 16, 421),
                complex(cx + 17, 438),
            ]
        ),
        3.2,
        lean=0.2,
    )


def daisy(w, p, size, tilt, part, petals=11):
    if part == 0:
        for k in range(petals):
            way = tilt + 360 / petals * k
            w.lozenge(p + turn(way) * size * 0.2, p + turn(way) * size, size * 0.36)
    else:
        w.dot(p, size * 0.28, tilt)


def draw_hive(w):
    cx, seat, tall = 556.0, 448.0, 70.0
    bees = ((512 + 398j, 200, 1.0), (606 + 404j, -30, 0.9), (532 + 372j, 160, 0.8))
    w.thread('mist')
    for p, way, s in bees:
        for side in (-1, 1):
            w.lozenge(p, p + turn(way + side * 112) * 7 * s, 3.2 * s)
    w.thread('oak')
    for x in (cx - 40, cx + 36):
        w.fill(
            [complex(x, seat + 9), complex(x + 8, seat + 9), complex(x + 9, 486), complex(x + 1, 486)],
            90,
            length=3.6,
        )
    w.column([complex(cx - 34, seat + 22), complex(cx + 38, seat + 22)], 4.0)
    w.fill(
        [
            complex(cx - 50, seat + 1),
            complex(cx + 50, seat + 1),
            complex(cx + 50, seat + 9),
            complex(cx - 50, seat + 9),
        ],
        0,
        length=4,
    )
    coils, thick = coils_of(complex(cx, seat - 0.5), 37.0, tall, 11)
    w.thread('straw')
    for p, way, s in bees:
        w.column([p - turn(way) * 5 * s, p + turn(way) * 4 * s], swell(3.8 * s, 0.8), step=0.6)
    sew_coils(w, coils, thick)
    shade_coils(w, coils, thick)
    w.thread('bark')
    w.column([complex(cx - 50, seat + 9.4), complex(cx + 50, seat + 9.4)], 1.4, lean=0.3)
    for y, a, b in ((seat + 3.4, -44, -8), (seat + 6, -20, 30), (seat + 4.4, 10, 46)):
        w.run([complex(cx + a, y), complex(cx + b, y)], 2.4)
    seam_coils(w, coils, thick)
    w.thread('walnut')
    door = smooth(
        [
            complex(cx - 9, seat),
            complex(cx - 9, seat - 8),
            complex(cx, seat - 15),
            complex(cx + 9, seat - 8),
            complex(cx + 9, seat),
        ]
    )
    w.fill(door + [complex(cx - 9, seat)], 90, length=3.4)
    w.column(arc(complex(cx, seat - tall - 1), 3.0, 180, 360), 1.6)
    # Daisies and marigolds around its feet.
    plants = [
        (470, 444, 9.5),
        (486, 428, 10),
        (500, 452, 9),
        (456, 462, 8.5),
        (480, 464, 8.5),
        (514, 470, 8),
        (606, 462, 9),
        (622, 446, 9.5),
        (612, 478, 7.5),
        (590, 474, 8),
        (444, 476, 7),
    ]
    gold = [(494, 474, 7.5), (464, 478, 7), (530, 478, 7.5), (628, 470, 7.5), (572, 480, 7)]
    w.thread('moss')
    for x, y, s in plants + gold:
        foot = complex(x + (484 - x) * 0.12 if x < 540 else x + (606 - x) * 0.12, 488)
        if 488 - y > 8:
            w.run(bend(complex(x, y), foot, 0.04), 2.0, double=True)
    for foot in (
        452 + 488j,
        474 + 488j,
        498 + 489j,
        520 + 488j,
        546 + 489j,
        574 + 489j,
        600 + 488j,
        624 + 488j,
    ):
        tuft(w, foot, 16, 6, 48, width=1.6)
    w.thread('leaf')
    for foot in (462 + 488j, 486 + 489j, 510 + 489j, 534 + 489j, 588 + 489j, 612 + 489j, 560 + 489j):
        tuft(w, foot, 21, 6, 42, width=1.8)
    for part, white, yellow in ((0, 'cream', 'honey'), (1, 'honey', 'russet')):
        w.thread(white)
        for n, (x, y, s) in enumerate(plants):
            daisy(w, complex(x, y), s, n * 23, part)
        w.thread(yellow)
        for n, (x, y, s) in enumerate(gold):
            if part == 0:
                for k in range(8):
                    petal(w, complex(x, y), n * 17 + 45 * k, s * 0.2, s, 50, notch=0.05)
            else:
                for k in range(6):
                    petal(w, complex(x, y), n * 17 + 60 * k, s * 0.1, s * 0.52, 60, notch=0)
    w.thread('ink')
    for p, way, s in bees:
        for at in (-3, -0.6):
            w.column([p + turn(way) * (at * s - 0.45), p + turn(way) * (at * s + 0.45)], 3.6 * s, step=0.5)
        w.dot(p + turn(way) * 4.4 * s, 1.3 * s)
