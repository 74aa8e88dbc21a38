"""Plates made by hand, and random ones, to try the writers on."""

from math import cos, pi, sin, sqrt

import numpy as np
from hypothesis import strategies as st

from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.plane.edges import bulge_about
from geometry.strokes.lettering import text_width
from geometry.strokes.letters import GLYPHS
from jigs.parts.part import Bevel, Dimension, Lettering, Line, Part
from jigs.parts.probes import ArcRadius, EdgeAngle, EdgeGap, EdgeLength, Extent, HoleDiameter, Thickness
from tests.geometry.shapes import rotated

RADIUS = 38.0
SLOPE = 1.5


def part(outline, **fields):
    given = {"name": "plate", "purpose": "to be written", "process": "print"}
    return Part(**{**given, "material": "PLA", "outline": outline, "thickness": 4.0, **fields})


def mouth(radius, inset=0.0):
    """A square 120 mm wide with a concave arc about (0, 60); the mouth's side is moved in by `inset`."""
    x, y = sqrt((radius + inset) ** 2 - inset**2), 60 - inset
    bulge = bulge_about((0, 60), (x, y), (-x, y), ccw=False)
    rows = [(-60, -60, 0), (60, -60, 0), (60, y, 0), (x, y, bulge), (-x, y, 0), (-60, y, 0)]
    return Contour(np.array(rows))


def gauge(**fields):
    """A gauge with one arc, one hole, three lines of text and a line."""
    given = {
        "name": "outer-gauge",
        "holes": (circle((50, -50), 3).cw(),),
        "marks": (
            Lettering("OUTER GAUGE ROUGH", (-55, -10), 4),
            Lettering("Ø70.00 22.5° +3.5 MM", (-55, -25), 4),
            Lettering("LATHE STOPPED! 1/8", (-55, -40), 4),
            Line(((-50, -50), (20, -50)), "base"),
        ),
        "dimensions": (
            Dimension("radius", RADIUS, ArcRadius((0.0, 60.0), pi, 2 * pi)),
            Dimension("width", 120, Extent("x")),
            Dimension("hole", 6, HoleDiameter((50, -50))),
            Dimension("thickness", 4, Thickness()),
        ),
    }
    return part(mouth(RADIUS), **{**given, **fields})


def bevelled(land=1.0):
    return gauge(bevel=Bevel(land, mouth(RADIUS, SLOPE)))


def wedge(angle=pi / 16, **fields):
    """A right-angled wedge with its thin end cut off, a round and a square hole."""
    low, high = 20 * sin(angle) / cos(angle), 150 * sin(angle) / cos(angle)
    square = polygon([(100, 5), (100, 15), (110, 15), (110, 5)])
    given = {
        "name": "sled-wedge",
        "process": "cut",
        "thickness": 6.0,
        "holes": (circle((130, 10), 2.5).cw(), square),
        "marks": (Lettering("THICK END → APEX", (40, 2), 3),),
        "dimensions": (
            Dimension("angle", angle * 180 / pi, EdgeAngle((80, 0), (80, 80 * low / 20))),
            Dimension("thick end", high, EdgeLength((150, high / 2))),
            Dimension("length", 130, EdgeGap((20, low / 2), (150, high / 2))),
            Dimension("bolt", 5, HoleDiameter((130, 10))),
            Dimension("thickness", 6, Thickness()),
        ),
    }
    return part(polygon([(20, 0), (150, 0), (150, high), (20, low)]), **{**given, **fields})


@st.composite
def plates(draw):
    """Bowed rectangles with up to four holes and a line of text in the middle, turned and moved about."""
    width, height = draw(st.floats(100, 200)), draw(st.floats(60, 120))
    bulges = draw(st.lists(st.floats(-0.15, 0.15), min_size=4, max_size=4))
    corners = [
        (-width / 2, -height / 2),
        (width / 2, -height / 2),
        (width / 2, height / 2),
        (-width / 2, height / 2),
    ]
    outline = Contour(np.column_stack([corners, bulges]))
    places = draw(st.lists(st.sampled_from(corners), max_size=4, unique=True))
    holes = [circle((0.7 * x, 0.5 * y), draw(st.floats(0.5, 4))) for x, y in places]
    text = draw(st.text(st.sampled_from(sorted(GLYPHS)), min_size=1, max_size=8))
    size = min(5.0, 20 / max(text_width(text, 1), 0.1))
    turn, lean = (
        draw(st.sampled_from([0.0, pi / 2]) | st.floats(-pi, pi)),
        draw(st.just(0.0) | st.floats(-pi, pi)),
    )
    dx, dy = draw(st.floats(-300, 300)), draw(st.floats(-300, 300))
    half = text_width(text, size) / 2
    origin = (dx - half * cos(turn + lean), dy - half * sin(turn + lean))
    return part(
        rotated(outline, turn).moved(dx, dy),
        holes=tuple(rotated(hole.cw(), turn).moved(dx, dy) for hole in holes),
        marks=(Lettering(text, origin, size, turn + lean),),
        thickness=draw(st.floats(1, 20)),
    )


@st.composite
def pierced(draw):
    """Rectangles, some with a thinned edge or raised lines, with holes wherever they fall: they touch and meet too."""
    whole, few = st.integers(-18, 18), {"max_size": 2}
    outline = rectangle(-20, -20, 20, 20)
    holes = [circle((x, y), 2).cw() for x, y in draw(st.lists(st.tuples(whole, whole), **few))]
    holes += [rectangle(x, y, x + 2, y + 3).cw() for x, y in draw(st.lists(st.tuples(whole, whole), **few))]
    ends = st.tuples(whole, whole, whole, whole).filter(lambda of: of[:2] != of[2:])
    lines = draw(st.lists(ends, **few))
    inset = draw(st.sampled_from([None, -1, 1]))
    return part(
        outline,
        holes=tuple(holes),
        bevel=inset and Bevel(1.0, rectangle(-20 - inset, -20, 20, 20)),
        marks=tuple(Line(((a, b), (c, d)), f"line {k}") for k, (a, b, c, d) in enumerate(lines)),
    )
