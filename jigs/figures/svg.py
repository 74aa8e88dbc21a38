"""Figures as SVG: in mm of paper, y down; arcs as cubics of at most 30 degrees, which every program draws round."""

from __future__ import annotations

from html import escape
from math import atan, ceil, cos, degrees, sin, tan

from jigs.figures.figure import Dimension, Figure, Paint, Shape, Words, dimension_items

MARGIN = 2.0  # mm round the figure
TURN = 0.5236  # of one cubic at most, radians
PAINTS: dict[Paint, str] = {  # told apart without colour too, by how dark they are
    "ink": "#1a1a1a",
    "grey": "#7a7a7a",
    "pale": "#e4e4e4",
    "paper": "#ffffff",
    "wood": "#ecd9b5",
    "other wood": "#b98b5a",
    "waste": "#c9a36a",
    "finished": "#8fb58f",
    "turned": "#6f93bb",
    "jig": "#d6dde6",
    "metal": "#9aa4ad",
    "blade": "#c0392b",
}


def figure_svg(figure: Figure) -> str:
    """The figure as SVG text, its title and what it shows in it."""
    scale = figure.scale
    x0, y0, x1, y1 = figure.bounds(scale)
    wide, high = (x1 - x0) * scale + 2 * MARGIN, (y1 - y0) * scale + 2 * MARGIN
    place = _Place(scale, MARGIN - x0 * scale, MARGIN + y1 * scale)
    drawn = [
        part
        for item in figure.items
        for part in (dimension_items(item, scale) if isinstance(item, Dimension) else (item,))
    ]
    body = "\n".join(_shape(one, place) if isinstance(one, Shape) else _words(one, place) for one in drawn)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.2f}mm" height="{high:.2f}mm" '
        f'viewBox="0 0 {wide:.2f} {high:.2f}" font-family="sans-serif" role="img">'
    )
    told = f"<title>{escape(figure.title)}</title>\n<desc>{escape(figure.alt)}</desc>"
    return f"{head}\n{told}\n{body}\n</svg>\n"


class _Place:
    """Where a place of the work lies on the paper."""

    def __init__(self, scale: float, left: float, top: float) -> None:
        self.scale, self.left, self.top = scale, left, top

    def __call__(self, x: float, y: float) -> str:
        return f"{self.left + x * self.scale:.3f} {self.top - y * self.scale:.3f}"


def _shape(shape: Shape, place: _Place) -> str:
    rows = shape.rows
    path = [f"M{place(rows[0][0], rows[0][1])}"]
    following = rows[1:] + (rows[:1] if shape.closed else ())
    for (x, y, bulge), (x2, y2, _) in zip(rows, following, strict=False):
        path.append(_cubics((x, y), (x2, y2), bulge, place) if bulge else f"L{place(x2, y2)}")
    if shape.closed:
        path.append("Z")
    fill = PAINTS[shape.fill] if shape.fill else "none"
    stroke = f' stroke="{PAINTS[shape.stroke]}" stroke-width="{shape.width:g}"' if shape.stroke else ""
    dashes = f' stroke-dasharray="{" ".join(f"{d:g}" for d in shape.dashes)}"' if shape.dashes else ""
    return f'<path d="{"".join(path)}" fill="{fill}"{stroke}{dashes} stroke-linejoin="round"/>'


def _cubics(a: tuple[float, float], b: tuple[float, float], bulge: float, place: _Place) -> str:
    """An arc, bulge the tangent of a quarter of its angle: each piece's handles are 4/3 tan(angle/4) of the radius."""
    turn = 4 * atan(bulge)
    cx = (a[0] + b[0]) / 2 - (b[1] - a[1]) * (1 - bulge * bulge) / (4 * bulge)
    cy = (a[1] + b[1]) / 2 + (b[0] - a[0]) * (1 - bulge * bulge) / (4 * bulge)
    count = max(1, ceil(abs(turn) / TURN))
    step = turn / count
    handle = 4 / 3 * tan(step / 4)
    x, y = a[0] - cx, a[1] - cy
    found = []
    for _ in range(count):
        nx, ny = x * cos(step) - y * sin(step), x * sin(step) + y * cos(step)
        one = place(cx + x - handle * y, cy + y + handle * x)
        two = place(cx + nx + handle * ny, cy + ny - handle * nx)
        found.append(f"C{one} {two} {place(cx + nx, cy + ny)}")
        x, y = nx, ny
    return "".join(found)


def _words(words: Words, place: _Place) -> str:
    at = place(*words.at)
    turn = f' transform="rotate({-degrees(words.angle):.2f} {at})"' if words.angle else ""
    x, y = at.split()
    bold = ' font-weight="bold"' if words.bold else ""
    return (
        f'<text x="{x}" y="{y}" font-size="{words.size:g}" text-anchor="{words.anchor}" '
        f'fill="{PAINTS[words.paint]}"{bold}{turn}>{escape(words.text)}</text>'
    )
