"""Figures as SVG: in mm of paper, y down; arcs as cubics of at most 30 degrees, which every program draws round."""

from __future__ import annotations

from html import escape
from math import atan, ceil, cos, degrees, sin, tan

from jigs.figures.figure import Figure
from jigs.figures.items import Paint, Rows, Shape, Words, arc_of

TURN = 0.5236  # of one cubic at most, radians
# Told apart without colour by how dark they are, and those that a hand acts on by their lines.
LINED: dict[Paint, tuple[int, float]] = {"turned": (45, 1.6), "waste": (-45, 2.6), "finished": (90, 2.2)}
PAINTS: dict[Paint, str] = {
    "ink": "#1a1a1a",
    "grey": "#7a7a7a",
    "pale": "#d9dde1",
    "paper": "#ffffff",
    "wood": "#dfc79b",
    "other wood": "#b98b5a",
    "waste": "#ead6ad",
    "finished": "#cfe3cf",
    "turned": "#a9c4e2",
    "jig": "#eef1f5",
    "metal": "#9aa4ad",
    "blade": "#c0392b",
}


def figure_svg(figure: Figure) -> str:
    """The figure as SVG text, its title and what it shows in it."""
    scale = figure.scale
    drawn = figure.drawn(scale)
    x0, y0, x1, y1 = figure.bounds(scale)
    wide, high = (x1 - x0) * scale + 2 * figure.margin, (y1 - y0) * scale + 2 * figure.margin
    place = _Place(scale, figure.margin - x0 * scale, figure.margin + y1 * scale)
    body = "\n".join(_shape(one, place) if isinstance(one, Shape) else _words(one, place) for one in drawn)
    fills = {one.fill for one in drawn if isinstance(one, Shape) and one.fill}
    lined = "".join(_lined(paint) for paint in LINED if paint in fills)
    body = f"<defs>{lined}</defs>\n{body}" if lined else body
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
    path = _chain(shape.rows, shape.closed, place) + "".join(
        _chain(hole, True, place) for hole in shape.holes
    )
    fill = f"url(#{shape.fill})" if shape.fill in LINED else PAINTS[shape.fill] if shape.fill else "none"
    stroke = f' stroke="{PAINTS[shape.stroke]}" stroke-width="{shape.width:g}"' if shape.stroke else ""
    dashes = f' stroke-dasharray="{" ".join(f"{d:g}" for d in shape.dashes)}"' if shape.dashes else ""
    rule = ' fill-rule="evenodd"' if shape.holes else ""
    clear = f' fill-opacity="{shape.opacity:g}"' if shape.opacity < 1.0 else ""
    head = (
        f'<path d="{path}" fill="{shape.colour or fill}"{rule}{clear}{stroke}{dashes} stroke-linejoin="round"'
    )
    return f"{head}><title>{escape(shape.name)}</title></path>" if shape.name else f"{head}/>"


def _chain(rows: Rows, closed: bool, place: _Place) -> str:
    path = [f"M{place(rows[0][0], rows[0][1])}"]
    following = rows[1:] + (rows[:1] if closed else ())
    for (x, y, bulge), (x2, y2, _) in zip(rows, following, strict=False):
        path.append(_cubics((x, y), (x2, y2), bulge, place) if bulge else f"L{place(x2, y2)}")
    return "".join([*path, "Z"] if closed else path)


def _cubics(a: tuple[float, float], b: tuple[float, float], bulge: float, place: _Place) -> str:
    """An arc, bulge the tangent of a quarter of its angle: each piece's handles are 4/3 tan(angle/4) of the radius."""
    turn = 4 * atan(bulge)
    (cx, cy), _ = arc_of((*a, bulge), (*b, 0.0))
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


def _lined(paint: Paint) -> str:
    """A fill with lines over it."""
    turn, pitch = LINED[paint]
    return (
        f'<pattern id="{paint}" width="{pitch:g}" height="{pitch:g}" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate({-turn})"><rect width="{pitch:g}" height="{pitch:g}" fill="{PAINTS[paint]}"/>'
        f'<path d="M0 {pitch / 2:g}H{pitch:g}" stroke="{PAINTS["ink"]}" stroke-width="0.15"/></pattern>'
    )
