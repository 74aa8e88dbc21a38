"""Labels for whatever could be turned the wrong way: wedge rings, flat rings, staves, pieces of a layup."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import degrees

from jigs.lengths import show_length
from jigs.paper.page import SMALLEST, box, fitting, line, page, room, up_arrow, words
from jigs.plan import Plan
from jigs.plan.layup.layup import LayupPlan
from jigs.plan.torus import TorusPlan
from jigs.plan.vessel import VesselPlan
from jigs.plan.vessel.stack import Layer

WIDE, HIGH = 62.0, 18.0  # of a label, where the piece is no smaller
NARROW, LOW = 58.0, 12.0  # below these its words are too small, and it is tied on
MIDDLE = 0.4  # of the width, for the middle column
GAP = 3.0
LONG, SHORT = 20, 12  # letters of a line in the middle, and beside it
PURPOSE = (
    "labels to cut out: each piece that could be turned the wrong way, its up, its outer side, its faces"
)
HEADING = "labels"
SAID = (
    "Arrow up, outer side towards you. END WEDGE: that face is the end of a half, cut on the end wedge. TIE ON: the "
    "label is larger than its piece."
)


@dataclass(frozen=True)
class Label:
    """Three columns of lines; `room` is the piece's own outer side, mm, where it is known."""

    left: tuple[str, ...]
    middle: tuple[str, ...]
    right: tuple[str, ...]
    room: tuple[float, float] = (WIDE, HIGH)

    @property
    def tied(self) -> bool:
        return self.room[0] < NARROW or self.room[1] < LOW


def label_pages(plan: Plan) -> list[tuple[str, str, str]]:
    """File, purpose and SVG text of each page; none where nothing can be turned the wrong way."""
    labels = [*(_of_vessel(plan) if plan.kind == "vessel" else _of_torus(plan)), *_of_layups(plan.layups)]
    if not labels:
        return []
    paper = plan.job.workshop.paper.size
    size = (
        min([WIDE, *(label.room[0] for label in labels if not label.tied)]),
        min([HIGH, *(label.room[1] for label in labels if not label.tied)]),
    )
    left, top, right, bottom = room(paper)
    across, down = int((right - left + GAP) // (size[0] + GAP)), int((bottom - top + GAP) // (size[1] + GAP))
    each = across * down
    found = []
    for number, start in enumerate(range(0, len(labels), each), 1):
        body = []
        for k, label in enumerate(labels[start : start + each]):
            x, y = left + (k % across) * (size[0] + GAP), top + (k // across) * (size[1] + GAP)
            body += _drawn(label, x, y, size)
        text = page(paper, f"{plan.job.title}: {HEADING} {number}", SAID, body)
        found.append((f"paper/labels-{number}.svg", PURPOSE, text))
    return found


def _drawn(label: Label, x: float, y: float, size: tuple[float, float]) -> list[str]:
    width, height = size
    outer = (1 - MIDDLE) / 2 * width
    columns = (
        (label.left, x, outer),
        (label.middle, x + outer, MIDDLE * width),
        (label.right, x + width - outer, outer),
    )
    items = [box(x, y, width, height), line((x, y), (x + width, y), 0.8), up_arrow(x + 2.2, y + 1.2, 2.6)]
    for lines, start, wide in columns:
        items += _column(lines, start + wide / 2, y + 1.0, wide - 1.0, height - 1.6)
    if label.tied:
        items.append(words(x + width - 0.8, y + height - 0.8, "TIE ON", SMALLEST, "end"))
    return items


def _column(lines: Sequence[str], middle: float, top: float, width: float, height: float) -> list[str]:
    size = min(fitting(lines, width, 4.0), height / (1.2 * max(1, len(lines))))
    first = top + (height - 1.2 * size * len(lines)) / 2 + size
    return [words(middle, first + 1.2 * size * k, text, size, "middle") for k, text in enumerate(lines)]


def _of_torus(plan: TorusPlan) -> Iterator[Label]:
    """Each wedge ring, then the spare ones; face 2 of a ring meets face 1 of the next."""
    total = plan.blank.wedge_rings
    ends = {1: "left", total // 2: "right", total // 2 + 1: "left", total: "right"}
    space = (plan.ring_cut.thick_edge, plan.blank.flat_width)
    for ring in range(1, total + 1):
        yield Label(
            _face(1, (ring - 2) % total + 1, ends.get(ring) == "left"),
            (f"RING {ring} of {total}", "OUTER SIDE", *_woods(plan.species[ring - 1])),
            _face(2, ring % total + 1, ends.get(ring) == "right"),
            space,
        )
    for _ in range(plan.job.workshop.spares.rings):
        yield Label(("FACE 1",), ("SPARE RING", "OUTER SIDE"), ("FACE 2",), space)


def _face(number: int, other: int, half_end: bool) -> tuple[str, ...]:
    meets = (f"FACE {number}", f"to ring {other}")
    return (*meets, "END WEDGE") if half_end else meets


def _woods(species: Sequence[str]) -> tuple[str, ...]:
    """The woods in their order, where there are several."""
    if len(set(species)) == 1:
        return ()
    told = ", ".join(_round(species))
    return (told if len(told) <= LONG else "woods as on its tape",)


def _round(species: Sequence[str]) -> list[str]:
    """What repeats round a ring, once."""
    for length in range(1, len(species)):
        if all(name == species[k % length] for k, name in enumerate(species)):
            return list(species[:length])
    return list(species)


def _of_vessel(plan: VesselPlan) -> Iterator[Label]:
    total = len(plan.stack.layers)
    for layer in plan.stack.layers:
        if layer.kind == "staves":
            yield from _of_staves(plan, layer)
        else:
            yield _of_ring(plan, layer, total)


def _of_ring(plan: VesselPlan, layer: Layer, total: int) -> Label:
    unit, ring = plan.job.unit, layer.ring
    kind = f"{ring.segments} segments" if ring.segments else "disc"
    size = f"{show_length(ring.height, unit)} high"
    height = (size,) if len(size) <= SHORT else ()
    turned = (f"turn {degrees(layer.turned):.4g}°",) if layer.turned else ()
    below = f"on ring {layer.number - 1}" if layer.number > 1 else "at the foot"
    return Label(
        ("UP", below),
        (
            f"RING {layer.number} of {total}",
            "ON SEGMENT 1" if ring.segments else "ON THE RIM",
            *_woods(layer.species),
        ),
        (kind, *height, *turned),
        (ring.outer_edge, ring.height) if ring.segments else (WIDE, ring.height),
    )


def _of_staves(plan: VesselPlan, layer: Layer) -> Iterator[Label]:
    """Each stave with its place round the band and its wide end."""
    band = plan.stack.staves
    if band is None:
        return
    leans = "WIDE END UP" if band.lean > 0 else "NARROW END UP" if band.lean < 0 else "UP"
    space = (band.slant_length, min(band.outer_width(band.low), band.outer_width(band.high)))
    for k, name in enumerate(layer.species, 1):
        yield Label((leans,), (f"STAVE {k} of {band.count}", "OUTER FACE"), (name,), space)


def _of_layups(layups: Sequence[LayupPlan]) -> Iterator[Label]:
    """For the boxes that pieces are sorted into: how many lie as cut, how many turned over."""
    for layup in layups:
        which = (
            f"rings {layup.rings[0]} to {layup.rings[-1]}"
            if len(layup.rings) > 1
            else f"ring {layup.rings[0]}"
        )
        total = layup.pieces + layup.spares
        over = total * layup.turned_over // layup.per_segment
        if over:
            yield Label((which,), ("PIECES AS CUT", f"{total - over}"), ("marked face", "towards you"))
            yield Label((which,), ("TURNED OVER", f"{over}"), ("marked face", "away from you"))
        if layup.seams.other_hand:
            yield Label((which,), ("OTHER HAND", f"{layup.seams.other_hand}"), ("segments", "turned over"))
