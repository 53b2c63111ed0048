"""Puts pieces of needlework together to a scene file and its needle lists."""
import json
import os

from .contour import contour
from .curves import turn
from .palette import THREADS
from .work import Work

NOTE = 'Drawn for Hoopwright; free to use and share, CC0 1.0.'


class Motif:
    """One design, drawn where it lies on the cloth (or around 0, for a design placed several times)."""

    def __init__(self, ident, name, draw, angle=0.0, shift=0j, close=2.5, note=NOTE):
        work = Work(ident)
        draw(work)
        work.end()
        rings = contour(work.points, close=close)
        level = turn(-angle)
        # The motif's own axes: level, with the middle of its box at the origin.
        flat = [[p * level for p in ring] for ring in rings]
        xs = [p.real for ring in flat for p in ring]
        ys = [p.imag for ring in flat for p in ring]
        middle = complex((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
        self.ident, self.name, self.angle, self.note = ident, name, angle, note
        self.outline = [[p - middle for p in ring] for ring in flat]
        self.points = [(p * level - middle, action, thread) for p, action, thread in work.points]
        self.position = middle * turn(angle) + shift
        self.blocks = [b for b in work.blocks if b[1]]
        self.size = (max(xs) - min(xs), max(ys) - min(ys))

    def placed_middle(self, angle, scale, mirrored):
        """From where the design was drawn around to its middle, when mirrored, scaled and turned about the former."""
        p = self.position
        return turn(angle) * scale * complex(-p.real if mirrored else p.real, p.imag)

    def needle_list(self):
        rows = ['x_mm,y_mm,action,thread']
        rows += [f'{figure(p.real)},{figure(p.imag)},{action},{thread}' for p, action, thread in self.points]
        return '\n'.join(rows) + '\n'

    def record(self, artwork, ident=None, name=None, position=None, angle=None, scale=1.0, mirrored=False):
        position = self.position if position is None else position
        return {
            'id': ident or self.ident,
            'name': name or self.name,
            'outline': [
                [[round(p.real, 2) + 0.0, round(p.imag, 2) + 0.0] for p in ring] for ring in self.outline
            ],
            'position': [round(position.real, 2), round(position.imag, 2)],
            'angle': self.angle if angle is None else angle,
            'scale': scale,
            'mirrored': mirrored,
            'threads': [{'name': n, 'colour': THREADS[n], 'stitches': s} for n, s in self.blocks],
            'artwork': {'path': artwork, 'kind': 'needles'},
            'note': self.note,
        }


def figure(value):
    text = f'{value:.2f}'.rstrip('0').rstrip('.')
    return '0' if text in ('-0', '') else text


def write_needles(folder, motif):
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, f'{motif.ident}.csv'), 'w', encoding='utf-8', newline='\n') as file:
        file.write(motif.needle_list())


def write_scene(path, scene):
    with open(path, 'w', encoding='utf-8', newline='\n') as file:
        file.write(_text(scene, 0) + '\n')


def _text(value, depth):
    """JSON with one key a line, but points and short lists on one line."""
    pad = '  ' * (depth + 1)
    if isinstance(value, dict):
        flat = json.dumps(value, ensure_ascii=False)
        if (
            depth
            and len(flat) < 100
            and not any(isinstance(v, (dict, list)) and len(v) > 2 for v in value.values())
        ):
            return flat
        items = [f'{pad}{json.dumps(k, ensure_ascii=False)}: {_text(v, depth + 1)}' for k, v in value.items()]
        return '{\n' + ',\n'.join(items) + '\n' + '  ' * depth + '}'
    if isinstance(value, list) and value and isinstance(value[0], (dict, list)):
        if isinstance(value[0], list) and not isinstance(value[0][0], list):
            return json.dumps(value)
        return '[\n' + ',\n'.join(pad + _text(v, depth + 1) for v in value) + '\n' + '  ' * depth + ']'
    return json.dumps(value, ensure_ascii=False)
