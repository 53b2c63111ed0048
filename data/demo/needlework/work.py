"""A piece of needlework under way: the needle goes from hole to hole, thread by thread."""
import math
import random

from .curves import Course, bend, resample, turn

ROW = 0.4  # mm between rows of fill (common practice, no source)
LONGEST = 7.0  # mm: longer satin is split
SHORTEST = 0.3  # mm


class Work:
    def __init__(self, seed):
        self.points = []  # (complex, action, thread)
        self.now = None  # where the needle is
        self.colour = None
        self.blocks = []  # [thread, stitches], in order
        self.chance = random.Random(seed)

    # --- single movements
    def thread(self, name):
        if name == self.colour:
            return
        if self.colour is not None:
            self._trim()
            self.points.append((self.now, 'colour', name))
        self.colour = name
        self.blocks.append([name, 0])

    def _trim(self):
        if self.points and self.points[-1][1] == 'stitch':
            self.points.append((self.now, 'trim', self.colour))

    def to(self, p):
        """Brings the needle to p without a stitch; the thread is cut when it would lie open for more than 2 mm."""
        if self.now is not None and abs(p - self.now) < SHORTEST:
            return
        if self.now is not None and abs(p - self.now) > 2.0:
            self._trim()
        self.points.append((p, 'jump', self.colour))
        self.now = p

    def sew(self, p):
        d = abs(p - self.now)
        if d < SHORTEST:
            return
        parts = math.ceil(d / (LONGEST + 0.01))
        start = self.now
        for k in range(1, parts + 1):
            self.points.append((start + (p - start) * k / parts, 'stitch', self.colour))
            self.blocks[-1][1] += 1
        self.now = p

    def end(self):
        self._trim()
        self.points.append((self.now, 'end', self.colour))

    # --- lines
    def run(self, line, length=2.0, double=False):
        """Running stitch; double: there and back."""
        points = resample(line, length)
        self.to(points[0])
        for p in points[1:]:
            self.sew(p)
        if double:
            for p in points[-2::-1]:
                self.sew(p)

    def stem(self, line, width=0.8):
        """A thin line of satin."""
        self.column(line, width, step=0.7, lean=0.6)

    # --- satin
    def satin(self, left, right, step=0.8, split=LONGEST):
        """Stitches to and fro between two lines."""
        a, b = Course(left), Course(right)
        n = max(2, math.ceil(max(a.length, b.length) / step))
        tight_a, tight_b = a.length / n < 0.17, b.length / n < 0.17
        for k in range(n + 1):
            t = k / n
            p, q = a.at(t), b.at(min(1.0, (k + 0.5) / n))
            # Where a fan is tight, every second stitch stops short so that holes do not fall on each other.
            if tight_a and k % 2:
                p += (q - p) * 0.2
            if tight_b and k % 2:
                q += (p - q) * 0.2
            if k == 0:
                self.to(p)
            else:
                self._span(p, k, split)
            self._span(q, k, split)

    def _span(self, p, k, split):
        d = abs(p - self.now)
        if d <= split:
            self.sew(p)
            return
        start, parts = self.now, math.ceil(d / (split * 0.75))
        shift = ((k * 0.37) % 1.0 - 0.5) * 0.8
        for i in range(1, parts):
            self.sew(start + (p - start) * min(0.95, max(0.05, (i + shift) / parts)))
        self.sew(p)

    def column(self, line, width, step=0.72, lean=0.0):
        """Satin along a line; width: mm, a number or a function of t from 0 to 1. lean: how far the stitches lean
        forward, as a part of the width."""
        course = Course(line)
        wide = width if callable(width) else (lambda t: width)
        n = max(4, int(course.length / 0.6))
        left, right = [], []
        for k in range(n + 1):
            t = k / n
            w = max(wide(t), 0.35) / 2
            ahead = lean * w / max(course.length, 1e-6)
            left.append(course.at(t + ahead) - course.side(t) * w)
            right.append(course.at(t - ahead) + course.side(t) * w)
        self.satin(left, right, step)

    def lozenge(self, start, end, width, curve=0.0, step=0.8):
        """A small leaf or petal in one piece, worked across."""
        self.column(
            bend(start, end, curve, 10) if curve else [start, end],
            lambda t: 0.5 + width * max(0.0, 4 * t * (1 - t)) ** 0.6,
            step,
            lean=0.3,
        )

    def dot(self, centre, radius, degrees=0):
        """A small satin dot."""
        u, v = turn(degrees), turn(degrees + 90)
        n = max(3, int(2 * radius / 0.36))
        first = True
        for k in range(n + 1):
            y = -radius + 2 * radius * (k + 0.5) / (n + 1)
            x = math.sqrt(max(radius * radius - y * y, 0.01))
            a, b = centre + v * y - u * x, centre + v * y + u * x
            if first:
                self.to(a)
                first = False
            else:
                self.sew(a)
            self.sew(b)

    # --- leaves and petals
    def leaf(
        self, base, tip, width, curve=0.08, full=0.5, slant=0.22, thread2=None, halves=(1, -1), gap=0.12
    ):
        """Two satin halves that meet at the midrib. width: whole, mm; full: where it is widest, 0 base to 1 tip. A second
        thread sews the second half."""
        spine = Course(bend(base, tip, curve))
        power = math.log(0.5) / math.log(full)

        def profile(t):
            u = t**power
            return max(0.0, 4 * u * (1 - u)) ** 0.72

        n = max(8, int(spine.length / 0.7))
        for i, sign in enumerate(halves):
            if i == 1 and thread2 is not None:
                self.thread(thread2)
            edge = [
                spine.at(k / n) + sign * spine.side(k / n) * (gap + width / 2 * profile(k / n))
                for k in range(n + 1)
            ]
            rib = [spine.at(k / n * (1 - slant)) + sign * spine.side(k / n) * gap for k in range(n + 1)]
            self.satin(rib, edge)
        return spine

    def patch(self, place, across, bands, row=ROW, length=3.6):
        """Rows that follow a form: place(u, t) with u from 0 to 1 across the rows and t from 0 to 1 along them; across: mm
        at the widest. bands: list of (thread, from, to) with from and to functions (u, j) -> t or numbers: long and short
        stitches where one thread meets the next."""
        n = max(2, round(across / row))
        value = lambda f, u, j: f(u, j) if callable(f) else f
        for name, start, stop in bands:
            if name is not None:
                self.thread(name)
            there = True
            for j in range(n + 1):
                u = j / n
                a, b = value(start, u, j), value(stop, u, j)
                a, b = max(0.0, a), min(1.0, b)
                if b - a < 0.01:
                    continue
                line = self._row(place, u, j, n, a, b, length)
                if len(line) < 2:
                    continue
                if not there:
                    line.reverse()
                there = not there
                if self.now is None or abs(line[0] - self.now) > 1.6:
                    self.to(line[0])
                for p in line:
                    self.sew(p)

    def _row(self, place, u, j, n, a, b, length):
        """One row from t = a to b, left out where rows crowd together."""
        need = 0.0 if j % 4 == 0 else 0.13 if j % 2 == 0 else 0.24
        pieces = 24
        ts = [a + (b - a) * k / pieces for k in range(pieces + 1)]
        other = u + 1 / n if u + 1 / n <= 1.0001 else u - 1 / n
        free = [t for t in ts if abs(place(min(other, 1.0), t) - place(u, t)) >= need]
        if len(free) < 3:
            return []
        a, b = free[0], free[-1]
        line = Course([place(u, a + (b - a) * k / pieces) for k in range(pieces + 1)])
        if line.length < 0.5:
            return []
        stagger = (0.0, 0.5, 0.25, 0.75)[j % 4] * length
        holes = [0.0]
        s = stagger if stagger > 0.5 else length
        while s < line.length - 0.5:
            holes.append(s)
            s += length
        holes.append(line.length)
        return [line.at(h / line.length) for h in holes]

    # --- filling rows
    def fill(self, rings, degrees=0, row=ROW, length=4.0, ragged=0.0):
        """Rows of stitches inside rings (even-odd), at an angle, with staggered holes."""
        if rings and not isinstance(rings[0], (list, tuple)):
            rings = [rings]
        level = turn(-degrees)
        flat = [[p * level for p in ring] for ring in rings]
        low = min(p.imag for ring in flat for p in ring)
        high = max(p.imag for ring in flat for p in ring)
        sections, open_now = [], []
        count = max(1, math.floor((high - low) / row))
        for j in range(count + 1):
            y = low + (high - low - (count * row)) / 2 + j * row
            y = min(max(y, low + 0.02), high - 0.02)
            spans = self._spans(flat, y)
            if ragged:
                spans = [
                    (a + self.chance.uniform(0, ragged), b - self.chance.uniform(0, ragged)) for a, b in spans
                ]
            spans = [(a, b) for a, b in spans if b - a > 0.35]
            following, taken = [], set()
            for section in open_now:
                a0, b0 = section[-1][1], section[-1][2]
                hits = [i for i, (a, b) in enumerate(spans) if a < b0 and b > a0 and i not in taken]
                if len(hits) == 1:
                    section.append((y, *spans[hits[0]], j))
                    taken.add(hits[0])
                    following.append(section)
            for i, span in enumerate(spans):
                if i not in taken:
                    section = [(y, *span, j)]
                    sections.append(section)
                    following.append(section)
            open_now = following
        back = turn(degrees)
        while sections:
            here = self.now * level if self.now is not None else complex(sections[0][0][1], sections[0][0][0])
            section = min(
                sections,
                key=lambda s: min(
                    abs(complex(s[0][1], s[0][0]) - here), abs(complex(s[-1][1], s[-1][0]) - here)
                ),
            )
            sections.remove(section)
            if abs(complex(section[-1][1], section[-1][0]) - here) < abs(
                complex(section[0][1], section[0][0]) - here
            ):
                section = section[::-1]
            self._sew_rows(section, back, length)

    @staticmethod
    def _spans(rings, y):
        xs = []
        for ring in rings:
            for a, b in zip(ring, ring[1:] + ring[:1]):
                if (a.imag <= y) != (b.imag <= y):
                    xs.append(a.real + (y - a.imag) / (b.imag - a.imag) * (b.real - a.real))
        xs.sort()
        return list(zip(xs[::2], xs[1::2]))

    def _sew_rows(self, section, back, length):
        forward = True
        for y, a, b, j in section:
            stagger = (0.0, 0.5, 0.25, 0.75)[j % 4] * length
            holes = [a]
            x = math.floor(a / length) * length + stagger
            while x < b - 0.5:
                if x > a + 0.5:
                    holes.append(x)
                x += length
            holes.append(b)
            if not forward:
                holes.reverse()
            forward = not forward
            first = complex(holes[0], y) * back
            if self.now is None or abs(first - self.now) > 1.6:
                self.to(first)
            for x in holes:
                self.sew(complex(x, y) * back)


def taper(start, end, power=1.0):
    """A width that goes from start to end along a line."""
    return lambda t: start + (end - start) * t**power


def swell(wide, least=0.4, power=0.6):
    """A width that is nothing at both ends."""
    return lambda t: least + wide * max(0.0, 4 * t * (1 - t)) ** power
