"""Forms that several designs are made of: lobed leaves, round fruits, roses, tufts of grass."""
import math

from .curves import Course, bend, smooth, turn
from .work import taper


def ragged(base, depth=0.05):
    """A border between two threads where long and short stitches mingle."""
    return lambda u, j: base + depth * ((0.0, 0.9, 0.3, 1.4, 0.6)[j % 5] - 0.6)


def round_place(centre, axis, length, widths):
    """A place function for a round form: axis: degrees from stalk to eye; widths: half widths at even steps along it."""
    profile = smooth([complex(k, w) for k, w in enumerate(widths)], step=0.05)
    course, i = [], 0
    for k in range(241):
        x = k / 240 * (len(widths) - 1)
        while i < len(profile) - 2 and profile[i + 1].real < x:
            i += 1
        a, b = profile[i], profile[i + 1]
        course.append(
            max(0.0, a.imag + (b.imag - a.imag) * min(1.0, (x - a.real) / max(b.real - a.real, 1e-9)))
        )

    def place(u, t):
        return centre + turn(axis) * complex((t - 0.5) * length, -(2 * u - 1) * course[round(t * 240)])

    return place


FIG_LOBES = ((-108, 0.56), (-54, 0.86), (0, 1.0), (54, 0.86), (108, 0.56))
FIG_BAYS = ((-80, 0.40), (-27, 0.52), (27, 0.52), (80, 0.40))


class LobedLeaf:
    """A hand-shaped leaf: each lobe two satin halves from its vein to the bay beside it."""

    def __init__(self, base, way, size, lobes=FIG_LOBES, bays=FIG_BAYS, stalk=0.2, round_by=19, squash=1.0):
        self.base, self.way, self.size, self.squash = base, way, size, squash
        self.heart = base + turn(way) * size * stalk
        reach = size * (1 - stalk)
        at = lambda degrees, r: self.heart + turn(way) * self._flat(turn(degrees) * r * reach)
        self.tips = [at(d, r) for d, r in lobes]
        bay_points = (
            [at(lobes[0][0] - 42, 0.16)] + [at(d, r) for d, r in bays] + [at(lobes[-1][0] + 42, 0.16)]
        )
        self.halves = []  # (vein, opposite line), for each lobe first the left half, then the right
        for i, (degrees, r) in enumerate(lobes):
            vein = [self.heart, self.tips[i]]
            for side, bay in ((-1, bay_points[i]), (1, bay_points[i + 1])):
                shoulder = at(degrees + side * round_by / max(r, 0.6), r * 0.80)
                cheek = at(degrees + side * round_by * 0.55 / max(r, 0.6), r * 0.945)
                edge = smooth(
                    [
                        bay,
                        bay + (shoulder - bay) * 0.5 + (shoulder - bay) * 1j * side * -0.06,
                        shoulder,
                        cheek,
                        self.tips[i],
                    ]
                )
                self.halves.append((vein, [self.heart + (bay - self.heart) * k / 6 for k in range(6)] + edge))

    def _flat(self, p):
        return complex(p.real, p.imag * self.squash)

    def sew_half(self, work, side):
        """side 0: the left halves of all lobes, 1: the right ones."""
        for i in (0, 4, 1, 3, 2) if len(self.halves) == 10 else range(len(self.halves) // 2):
            vein, opposite = self.halves[2 * i + side]
            line = Course(vein)
            work.satin([line.at(k / 12 * 0.86) for k in range(13)], opposite, step=0.86)

    def sew_veins(self, work):
        for tip in self.tips:
            work.run([self.heart, self.heart + (tip - self.heart) * 0.78], 1.9, double=True)
        work.stem(bend(self.base, self.heart, 0.06), 1.1)


def petal(work, centre, degrees, inner, outer, spread, notch=0.12):
    """A satin fan from an inner to an outer arc."""
    steps = 14
    near, far = [], []
    for k in range(steps + 1):
        f = 2 * k / steps - 1
        swell = (1 - abs(f) ** 2.6) ** 0.5
        r = inner + (outer - inner) * (0.30 + 0.70 * swell) * (1 - notch * math.exp(-((f / 0.28) ** 2)))
        near.append(centre + turn(degrees + f * spread * 0.42) * inner * 0.8)
        far.append(centre + turn(degrees + f * spread * 0.5) * r)
    work.satin(near, far, step=0.9)


def tuft(work, foot, height, blades, spread=50, lean=0, width=1.3):
    """Blades of grass from one foot."""
    for k in range(blades):
        f = (k + 0.5) / blades * 2 - 1
        tall = height * (0.65 + 0.35 * work.chance.random()) * (1 - 0.25 * abs(f))
        tip = foot + turn(-90 + lean + f * spread) * tall
        work.column(
            bend(foot + f * 1.5, tip, 0.10 * (1 if f > 0 else -1)), taper(width, 0.4), step=0.9, lean=1.2
        )


def coils_of(foot, wide, tall, n):
    """The straw coils of a hive, from the lowest to the top, and how thick they are. wide: half its width."""
    coils = []
    for k in range(n):
        f = (k + 0.5) / n
        h = wide * (1 - f**2.6) ** 0.5 + 0.8
        coils.append(
            [
                foot
                + complex(h * math.sin(a * math.pi / 48), 3.2 * math.cos(a * math.pi / 48) - 2.2 - tall * f)
                for a in range(-24, 25)
            ]
        )
    return coils, tall / n + 0.5


def sew_coils(work, coils, thick):
    for line in coils:
        work.column(line, lambda t: thick * (0.55 + 0.45 * min(1, 8 * t * (1 - t))), lean=0.35)


def shade_coils(work, coils, thick):
    """The side away from the light, in a deeper straw."""
    work.thread('honey')
    for line in coils:
        course = Course(line)
        work.column(
            [course.at(0.66 + 0.34 * k / 12) for k in range(13)],
            lambda t: thick * (0.15 + 0.8 * t**0.7) * (1 if t < 0.9 else 0.7),
            lean=0.35,
            step=1.0,
        )


def seam_coils(work, coils, thick):
    for line in coils[:-1]:
        course = Course(line)
        work.run([course.at(0.02 + 0.96 * k / 30) - 1j * (thick / 2 - 0.1) for k in range(31)], 2.0)
