"""The data of a STEP file (ISO 10303-21): points, curves, surfaces and what lies between them, each by its number."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from math import hypot

Vector = tuple[float, float, float]
Bound = Sequence[tuple[str, bool]]  # edges in their order, each along its way or against it
UP: Vector = (0.0, 0.0, 1.0)
ALONG: Vector = (1.0, 0.0, 0.0)
DIGITS = 12  # decimals
RADIUS_DIGITS = 9  # of a radius in mm: what a bulge keeps of it
NUMBER = re.compile(r"#(\d+)")


def cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


@lru_cache(maxsize=1 << 14)
def number(value: float) -> str:
    """A real number always has a point, and our small ones no exponent."""
    text = repr(round(value, DIGITS) + 0.0)
    return f"{value:.{DIGITS}f}" if "e" in text else text


def quoted(text: str) -> str:
    """A string: what is not printable ASCII by its code."""
    plain = text.replace("\\", "\\\\").replace("'", "''")
    return "'" + re.sub("[^ -~]", lambda found: _code(ord(found[0])), plain) + "'"


def _code(letter: int) -> str:
    return f"\\X2\\{letter:04X}\\X0\\" if letter < 0x10000 else f"\\X4\\{letter:08X}\\X0\\"


def listed(numbers: Iterable[str]) -> str:
    return "(" + ",".join(numbers) + ")"


class Entities:
    """What is asked for twice is written once: so faces of a body share their edges. Bodies share geometry alone."""

    def __init__(self) -> None:
        self._numbers: dict[tuple[int, str], int] = {}
        self._body = 0

    def text(self) -> str:
        return "".join(f"#{k}={line};\n" for (_, line), k in self._numbers.items())

    def add(self, text: str, body: int = 0) -> str:
        """Its number, with the sign before it."""
        return f"#{self._numbers.setdefault((body, text), len(self._numbers) + 1)}"

    def own(self, text: str) -> str:
        """Of this body alone."""
        return self.add(text, self._body)

    def embedded(self, rows: Mapping[int, str], root: int) -> str:
        """An entity of another file and all that it stands on, `rows` by their numbers there."""
        self._body += 1
        known: dict[int, str] = {}

        def moved(k: int) -> str:
            if k not in known:
                known[k] = self.own(NUMBER.sub(lambda found: moved(int(found[1])), rows[k]))
            return known[k]

        return moved(root)

    # ---- geometry
    def point(self, at: Vector) -> str:
        return self.add(f"CARTESIAN_POINT('',({','.join(map(number, at))}))")

    def direction(self, along: Vector) -> str:
        long = hypot(*along)
        return self.add(f"DIRECTION('',({','.join(number(part / long) for part in along)}))")

    def placement(self, origin: Vector, axis: Vector = UP, x: Vector = ALONG) -> str:
        """A frame by its z and its x."""
        place = (self.point(origin), self.direction(axis), self.direction(x))
        return self.add(f"AXIS2_PLACEMENT_3D('',{','.join(place)})")

    def circle(self, centre: Vector, radius: float, axis: Vector = UP, x: Vector = ALONG) -> str:
        return self.add(
            f"CIRCLE('',{self.placement(centre, axis, x)},{number(round(radius, RADIUS_DIGITS))})"
        )

    def plane(self, through: Vector, outward: Vector) -> str:
        square = cross(outward, UP if abs(outward[2]) < 0.9 * hypot(*outward) else ALONG)
        return self.add(f"PLANE('',{self.placement(through, outward, square)})")

    def surface(self, kind: str, origin: Vector, *sizes: float, axis: Vector = UP) -> str:
        """One about an axis, by its sizes in the order of its kind."""
        return self.add(f"{kind}('',{self.placement(origin, axis)},{','.join(map(number, sizes))})")

    def revolved(self, curve: str) -> str:
        """A curve about z."""
        axis = self.add(f"AXIS1_PLACEMENT('',{self.point((0.0, 0.0, 0.0))},{self.direction(UP)})")
        return self.add(f"SURFACE_OF_REVOLUTION('',{curve},{axis})")

    def ruled(self, low: Sequence[tuple[Vector, float]], high: Sequence[tuple[Vector, float]]) -> str:
        """Between two arcs or lines, each by its ends and a middle control point, weighted."""
        pairs = list(zip(low, high, strict=True))
        points = listed(listed(self.point(at) for at, _ in pair) for pair in pairs)
        weights = listed(listed(number(weight) for _, weight in pair) for pair in pairs)
        return self.add(
            f"(BOUNDED_SURFACE()B_SPLINE_SURFACE(2,1,{points},.UNSPECIFIED.,.F.,.F.,.F.)"
            "B_SPLINE_SURFACE_WITH_KNOTS((3,3),(2,2),(0.,1.),(0.,1.),.UNSPECIFIED.)"
            f"GEOMETRIC_REPRESENTATION_ITEM()RATIONAL_B_SPLINE_SURFACE({weights})"
            "REPRESENTATION_ITEM('')SURFACE())"
        )

    # ---- what bounds a body
    def edge(self, start: Vector, end: Vector, curve: str = "") -> str:
        """Along a curve that runs that way, straight without one."""
        if not curve:
            way = tuple(b - a for a, b in zip(start, end, strict=True))
            vector = self.add(f"VECTOR('',{self.direction((way[0], way[1], way[2]))},1.)")
            curve = self.add(f"LINE('',{self.point(start)},{vector})")
        ends = ",".join(self.own(f"VERTEX_POINT('',{self.point(at)})") for at in (start, end))
        return self.own(f"EDGE_CURVE('',{ends},{curve},.T.)")

    def face(self, surface: str, bounds: Iterable[Bound], outward: bool = True) -> str:
        """The outer bound first, the wood to the left of each as seen from outside; `outward` if the surface is so."""
        loops = []
        for k, bound in enumerate(bounds):
            edges = (self.own(f"ORIENTED_EDGE('',*,*,{edge},{_flag(along)})") for edge, along in bound)
            loop = self.own(f"EDGE_LOOP('',{listed(edges)})")
            loops.append(self.own(f"FACE{'' if k else '_OUTER'}_BOUND('',{loop},.T.)"))
        return self.own(f"ADVANCED_FACE('',{listed(loops)},{surface},{_flag(outward)})")

    def body(self, faces: Iterable[str]) -> str:
        """Of faces, made while it is."""
        self._body += 1
        shell = self.own(f"CLOSED_SHELL('',{listed(faces)})")
        return self.own(f"MANIFOLD_SOLID_BREP('',{shell})")


def _flag(true: bool) -> str:
    return ".T." if true else ".F."
