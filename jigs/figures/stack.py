"""The vessel's section in its rings: numbers, heights, joints, what is turned away."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from html import escape

from geometry.plane.contour import Contour
from jigs.figures.colours import colour_of
from jigs.forms.vessel.plan import VesselPlan
from jigs.stages.stack.plan import Layer
from jigs.words.lengths import show_length

MARGIN, TOP = 40.0, 70.0
DRAWN = 640.0  # width of the drawing; words stand beside it
LINE = 18.0
SIZE, TITLE, LETTER = (
    13.0,
    20.0,
    0.6,
)  # of the words; a letter is that much of their size wide, and seldom more
LONG = 90  # letters of one row
INK, GREY = "#222222", "#777777"
PALE = 0.35  # opacity of wood that is turned away


def stack_picture(plan: VesselPlan) -> str:
    """The picture as SVG text: each ring in its wood's colour on both sides of the axis, full where it stays."""
    stack = plan.stack
    scale = min((DRAWN - 2 * MARGIN) / (2 * stack.largest_radius), 900.0 / (stack.top - stack.bottom))
    at = _Placed(scale, DRAWN / 2, TOP + stack.top * scale)
    height = TOP + (stack.top - stack.bottom) * scale + 2.5 * MARGIN
    title, key = plan.job.title, _key(plan)
    said = [_said(plan, layer, at) for layer in stack.layers]
    longest = max(len(row) for rows in said for row in rows)
    wide = round(max(
        DRAWN + _width(longest), MARGIN + _width(len(key)), MARGIN + _width(len(title), TITLE)
    ) + MARGIN)  # fmt: skip
    wood = [*(item for layer in stack.layers for item in _wood(plan, layer, at)), *_floating(plan, at)]
    finished = " ".join(at.path(plan.section.contour, side) for side in (1, -1))
    body = [
        _words(MARGIN, 30, title, size=TITLE),
        f'<clipPath id="finished"><path d="{finished}"/></clipPath>',
        f'<g fill-opacity="{PALE}">',
        *wood,
        '</g>\n<g clip-path="url(#finished)">',
        *wood,
        f'</g>\n<path d="{finished}" fill="none" stroke="{INK}"/>',
        at.line((0.0, stack.bottom - 3), (0.0, stack.top + 3), "8 3 2 3"),
        *(
            item
            for layer, rows in zip(stack.layers, said, strict=True)
            for item in _beside(plan, layer, rows, at)
        ),
        _words(MARGIN, height - 20, key, GREY),
    ]
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}" height="{height:.0f}" '
        f'viewBox="0 0 {wide} {height:.0f}" font-family="sans-serif" font-size="{SIZE:g}">'
    )
    return "\n".join(
        [head, f'<rect width="{wide}" height="{height:.0f}" fill="#ffffff"/>', *body, "</svg>", ""]
    )


class _Placed:
    """Where the section's plane lies in the picture: y runs down there."""

    def __init__(self, scale: float, axis: float, foot: float) -> None:
        self.scale, self.axis, self.foot = scale, axis, foot

    def point(self, x: float, z: float) -> tuple[float, float]:
        return self.axis + x * self.scale, self.foot - z * self.scale

    def line(self, a: tuple[float, float], b: tuple[float, float], dashes: str = "none") -> str:
        (x0, y0), (x1, y1) = self.point(*a), self.point(*b)
        return (
            f'<line x1="{x0:.2f}" y1="{y0:.2f}" x2="{x1:.2f}" y2="{y1:.2f}" stroke="{INK}" stroke-width="0.8" '
            f'stroke-dasharray="{dashes}"/>'
        )

    def path(self, contour: Contour, side: int) -> str:
        """The contour, mirrored for side -1; arcs stay arcs."""
        edges = contour.edges()
        x, y = self.point(side * edges[0].start[0], edges[0].start[1])
        path = [f"M{x:.2f} {y:.2f}"]
        for edge in edges:
            x, y = self.point(side * edge.end[0], edge.end[1])
            if edge.is_arc:
                radius, large = edge.radius * self.scale, int(abs(edge.bulge) > 1)
                path.append(
                    f"A{radius:.2f} {radius:.2f} 0 {large} {int(edge.bulge * side < 0)} {x:.2f} {y:.2f}"
                )
            else:
                path.append(f"L{x:.2f} {y:.2f}")
        return " ".join([*path, "Z"])


def _wood(plan: VesselPlan, layer: Layer, at: _Placed) -> list[str]:
    """Through the flats of the first segment and the one opposite; staves lean."""
    low, high, band = layer.ring.bottom, layer.ring.top, plan.stack.staves
    if layer.kind == "staves" and band:
        sides = [(band.inner_at(low), band.outer_at(low)), (band.inner_at(high), band.outer_at(high))]
    else:
        sides = [(layer.filled.core, layer.ring.outer)] * 2
    found = []
    for side, fill in zip((1, -1), _fills(plan, layer), strict=True):
        corners = [(sides[0][0], low), (sides[0][1], low), (sides[1][1], high), (sides[1][0], high)]
        found.append(_polygon([(side * x, z) for x, z in corners], fill, at))
    return found


def _floating(plan: VesselPlan, at: _Placed) -> list[str]:
    """The disc of a floating base, with the room round it."""
    disc = plan.stack.floating
    if disc is None:
        return []
    base, low = disc.base, disc.base.ledge
    room = [(-base.groove, low), (base.groove, low), (base.groove, base.joint), (-base.groove, base.joint)]
    over = [
        (-base.opening, low),
        (base.opening, low),
        (base.opening, base.floor),
        (-base.opening, base.floor),
    ]
    top = low + base.tongue_thickness
    wood = [(base.tongue, low), (base.tongue, top), (base.field, top), (base.field, base.floor)]
    body = [*wood, *((-x, z) for x, z in reversed(wood))]
    return [
        _polygon(room, "#ffffff", at),
        _polygon(over, "#ffffff", at),
        _polygon(body, _colour(disc.species), at),
    ]


def _polygon(corners: Sequence[tuple[float, float]], fill: str, at: _Placed) -> str:
    places = " ".join("{:.2f},{:.2f}".format(*at.point(x, z)) for x, z in corners)
    return f'<polygon points="{places}" fill="{fill}" stroke="{GREY}" stroke-width="0.6"/>'


def _fills(plan: VesselPlan, layer: Layer) -> tuple[str, str]:
    """Of the first segment and of the one opposite; of a layup its first ply and the next."""
    layup = plan.job.layup
    if layup and layer.plied(layup):
        plies = (layup.plies[0], layup.plies[1 % len(layup.plies)])
        one, other = (ply.colour or _colour(ply.name) for ply in plies)
        return one, other
    return _colour(layer.species[0]), _colour(layer.species[len(layer.species) // 2])


def _colour(wood: str) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour_of(wood))


def _said(plan: VesselPlan, layer: Layer, at: _Placed) -> list[str]:
    """What a layer is, in rows where it is long and the layer is as high as they are."""
    unit, ring = plan.job.unit, layer.ring
    kinds = {"disc": "disc", "open": f"{ring.segments} open", "staves": f"{ring.segments} staves"}
    kind = "upright" if layer.upright else kinds.get(layer.kind, f"{ring.segments} segments")
    woods = "layup" if layer.plied(plan.job.layup) else ", ".join(dict.fromkeys(layer.species))
    what = f"{layer.number}: {kind}, {woods},"
    sizes = f"{show_length(ring.height, unit)} high, {show_length(2 * ring.outer, unit)} across flats"
    one = f"{what} {sizes}"
    rows = [one] if len(one) <= LONG else [*textwrap.wrap(what, LONG, break_on_hyphens=False), sizes]
    return rows if len(rows) * LINE <= ring.height * at.scale else [one]


def _beside(plan: VesselPlan, layer: Layer, rows: list[str], at: _Placed) -> list[str]:
    """The rows beside a layer's middle, and a line that leads to them."""
    ring = layer.ring
    middle = (ring.bottom + ring.top) / 2
    _, y = at.point(0.0, middle)
    first = y + 5 - LINE * (len(rows) - 1) / 2
    leader = at.line((ring.outer, middle), (plan.stack.largest_radius * 1.03, middle), "2 3")
    return [leader, *(_words(DRAWN, first + LINE * k, row) for k, row in enumerate(rows))]


def _width(letters: int, size: float = SIZE) -> float:
    return letters * LETTER * size


def _key(plan: VesselPlan) -> str:
    unit = plan.job.unit
    return (
        f"height {show_length(plan.section.height, unit)}; full colour: finished, pale: turned away; "
        "ring 1 stands on the faceplate's side"
    )


def _words(x: float, y: float, text: str, colour: str = INK, size: float = SIZE) -> str:
    return f'<text x="{x:.2f}" y="{y:.2f}" fill="{colour}" font-size="{size:g}">{escape(text)}</text>'
