"""Labels for whatever could be turned the wrong way: wedge rings, flat rings, staves, pieces of a layup."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from math import ceil, degrees, floor

from geometry.records import Record, replace
from jigs.figures.clear import text_width
from jigs.figures.figure import Figure
from jigs.figures.items import Item, Point, Words
from jigs.paper.page import SMALLEST, Room, arrow, line, outline, page, rectangle, room, words
from jigs.plans.plan import Plan, by_form
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.stack.plan import Layer
from jigs.words.lengths import show_length
from jigs.words.quantity import ring_list

GAP = 2.0  # between labels
LONG, MANY = 24, 3  # letters of a line of woods, and lines
HOW = (
    "Stick a label on the outer side of its piece, arrow up; anywhere else its thick edge lies to the outer side. "
    '"Tie on": the piece has no room for it.'
)
FACES = "Face 1 lies on the left, face 2 on the right; segment 1 lies straight down."
HALF_ENDS = "END WEDGE: the end of a half, the face that is sawn on the end wedge."
TURNED = (
    "The tick: the middle of segment 1. Its degrees say where it stands in the stack, counter-clockwise seen from "
    "above."
)
FOR_BOXES = "Those without an arrow are for the boxes of a layup's pieces."


def label_pages(plan: Plan) -> list[Figure]:
    """Each page; none where nothing can be turned the wrong way."""
    own = [*by_form(plan, torus=_of_torus, vessel=_of_vessel)]
    boxes = [label for layup in plan.layups for label in _of_layup(layup)]
    paper, told = plan.job.workshop.paper.size, " ".join(_told(plan, bool(boxes)))
    bodies = list(_bodies([*own, *boxes], room(paper)))
    headings = (f"{plan.job.title}: labels, page {k} of {len(bodies)}" for k in range(1, len(bodies) + 1))
    return [
        page(paper, plan.job.unit, heading, told, body)
        for heading, body in zip(headings, bodies, strict=True)
    ]


def _told(plan: Plan, boxes: bool) -> Iterator[str]:
    yield HOW
    yield from by_form(plan, torus=_told_of_faces, vessel=_told_of_turning)
    if boxes:
        yield FOR_BOXES


def _bodies(labels: Sequence[Label], place: Room) -> Iterator[list[Item]]:
    """What is drawn on each page: rows of labels, each as high as its highest."""
    left, top, right, bottom = place
    body, x, y, high = list[Item](), left, top, 0.0
    for label in labels:
        width, height = label.box
        if x + width > right + 1e-6 and x > left:
            x, y, high = left, y + high + GAP, 0.0
        if y + height > bottom + 1e-6 and body:
            yield body
            body, x, y, high = [], left, top, 0.0
        body += drawn(label, (x, y))
        x, high = x + width + GAP, max(high, height)
    if body:
        yield body


def _of_torus(plan: TorusPlan) -> Iterator[Label]:
    """Each wedge ring, then the spare ones; face 2 of a ring meets face 1 of the next."""
    total, ends, spares = plan.blank.wedge_rings, plan.half_ends, plan.spare_rings
    mark = "END WEDGE" if plan.job.form.half_sanding > 0 else "HALF'S END"
    on = _free_flat(plan)
    for ring in plan.left:
        end, before, after = ends.get(ring), (ring - 2) % total + 1, ring % total + 1
        yield replace(
            on,
            title=f"RING {ring} of {total}",
            lines=woods_lines(plan.species[ring - 1]),
            left=("FACE 1", f"meets ring {before}", mark if end == 1 else ""),
            right=("FACE 2", f"meets ring {after}", mark if end == 2 else ""),
        )
    for number, rings in enumerate(spares, 1):
        title = f"SPARE RING {number}" if len(spares) > 1 else "SPARE RING"
        woods = woods_lines(plan.species[rings[0] - 1])
        yield replace(
            on, title=title, lines=woods, left=("FACE 1", "for ring ...", ""), right=("FACE 2", "", "")
        )


def _free_flat(plan: TorusPlan) -> Label:
    """The flat above those that touch the stop; tied on where that one would lie on the base once it is flipped."""
    blank = plan.blank
    number = blank.free_flat
    if number is None:
        return Label("", (), space=(0.0, 0.0))
    return Label("", (), edge=f"on segment {number}", space=(blank.middle_length, blank.flat_width))


def woods_lines(species: Sequence[str]) -> tuple[str, ...]:
    """The woods in their order round a ring, where there are several."""
    if len(set(species)) < 2:
        return ()
    rows = textwrap.wrap(", ".join(_repeat(species)), LONG)
    return tuple(rows) if len(rows) <= MANY else ("woods: see its tape",)


def _repeat(species: Sequence[str]) -> Sequence[str]:
    """What repeats round a ring, once; all of it where nothing does."""
    whole = range(1, len(species))
    starts = (species[:k] for k in whole if all(name == species[i % k] for i, name in enumerate(species)))
    return next(starts, species)


def _told_of_faces(plan: TorusPlan) -> tuple[str, ...]:
    return (FACES, HALF_ENDS) if plan.job.form.half_sanding > 0 else (FACES,)


def _told_of_turning(plan: VesselPlan) -> tuple[str, ...]:
    return (TURNED,) if any(layer.cut is not None for layer in plan.stack.layers) else ()


def _of_vessel(plan: VesselPlan) -> Iterator[Label]:
    for layer in plan.stack.to_make:
        if layer.kind == "staves":
            yield from _of_staves(plan, layer)
        else:
            yield _of_ring(plan, layer)


def _of_ring(plan: VesselPlan, layer: Layer) -> Label:
    """A disc has no segment to begin at, and its rim is as long as any label."""
    ring, unit = layer.ring, plan.job.unit
    title = f"RING {layer.number} of {len(plan.stack.layers)}"
    high = f"{show_length(ring.height, unit, exact=unit == 'in')} high"
    across = show_length(2 * ring.outer, unit, exact=unit == "in")
    if layer.cut is None:
        what = "grain upright" if layer.upright else "disc"
        return Label(title, (f"{what}, {across} across", high), space=(2 * ring.outer, ring.height))
    wide, stands = f"{across} across", f"segment 1: {degrees(layer.turned):.4g}°"
    woods = woods_lines(layer.species)
    label = Label(title, (), middle=True, space=(layer.cut.outer_edge, ring.height))
    ways = (
        replace(label, lines=(wide, high, stands, *woods)),
        replace(label, lines=(f"{wide}, {high}", stands, *woods)),
        replace(label, lines=(f"{wide}, {high}", *woods), edge=f"{label.edge}, {stands}"),
    )
    return next((way for way in ways if not way.tied), ways[0])


def _of_staves(plan: VesselPlan, layer: Layer) -> Iterator[Label]:
    """Each stave with its place round the band and its wide end; upright ones have none."""
    band = plan.stack.staves
    if band is None:
        return
    up = "wide end up" if band.lean > 0 else "narrow end up" if band.lean < 0 else "this end up"
    space = (min(band.outer_width(band.low), band.outer_width(band.high)), band.slant_length)
    for k, name in enumerate(layer.species, 1):
        wood = (name,) if len(set(layer.species)) > 1 else ()
        stands = (f"stave 1: {degrees(layer.turned):.4g}°",) if layer.turned and k == 1 else ()
        lines = (f"of {band.count}", f"in ring {layer.number}", up, *stands, *wood)
        yield Label(f"STAVE {k}", lines, edge="outer face", space=space)


def _of_layup(layup: LayupPlan) -> Iterator[Label]:
    """For the boxes that pieces and segments are sorted into, the work's own and those to spare apart."""
    over = layup.pieces * layup.turned_over // layup.per_segment
    if layup.turned_over:
        yield _box(layup, f"{layup.pieces - over} PIECES", "as cut")
        yield _box(layup, f"{over} PIECES", "turned over")
        yield _box(layup, f"{layup.spares} SPARE PIECES", "turned over as they are used")
    if layup.seams.other_hand:
        other = layup.seams.other_hand
        yield _box(layup, f"{layup.segments - other} SEGMENTS", "as glued")
        yield _box(layup, f"{other} SEGMENTS", "of the other hand", "their back is the outer side")


def _box(layup: LayupPlan, title: str, *lines: str) -> Label:
    rings = textwrap.wrap(ring_list(layup.rings), LONG)
    return Label(title, (*lines, *rings), edge="", arrow=False)


PAD = 1.0  # between words and the box
PITCH = 1.2  # from line to line, of the size of the words
EDGE = 1.0  # thickness of the edge that lies to the outer side
LARGEST, TIED = 3.6, 3.1  # sizes of words
ROUND = 1.0  # of the piece's own side that the label leaves free
TICK = 1.0
BESIDE_ARROW = 1.8  # of the size of the words, from a label's side to its title
APART = 0.6  # the same, between what stands side by side
TIE_ON = "tie on"


class Label(Record):
    """Lines below each other, the title beside the arrow; `left` and `right` stand side by side below them.

    `space` is the width and the height of the side that it is stuck on; without one it is as large as it likes.
    `edge` names the side to which its thick edge lies.
    """

    title: str
    lines: tuple[str, ...]
    left: tuple[str, ...] = ()
    right: tuple[str, ...] = ()
    edge: str = "outer side"
    arrow: bool = True
    middle: bool = False  # a tick at its middle, to be laid on that of its piece
    space: tuple[float, float] | None = None

    @property
    def tied(self) -> bool:
        """Whether its piece is too small for it."""
        return self.space is not None and self._largest(self.space) < SMALLEST

    @property
    def size(self) -> float:
        """Of its words."""
        if self.space is None or self.tied:
            return TIED
        return min(LARGEST, self._largest(self.space))

    @property
    def foot(self) -> tuple[str, ...]:
        """The last lines."""
        return (*((TIE_ON,) if self.tied else ()), *((self.edge,) if self.edge else ()))

    @property
    def box(self) -> tuple[float, float]:
        """Width and height in mm: as large as its words ask, to a whole millimetre where there is room."""
        size = self.size
        rows = self._rows + self.tied
        asked = (self._wide * size + 2 * PAD, rows * PITCH * size + 2 * PAD + EDGE)
        if self.space is None or self.tied:
            return float(ceil(asked[0])), float(ceil(asked[1]))
        most = [floor(mm - 2 * ROUND) for mm in self.space]
        width, height = (min(ceil(mm - 1e-9), limit) for mm, limit in zip(asked, most, strict=True))
        return float(width), float(height)

    @property
    def _wide(self) -> float:
        """Of the longest line, in its own size; the arrow takes as much again on the title's other side."""
        beside = max((text_width(text, 1.0) for text in (*self.left, *self.right)), default=0.0)
        title = text_width(self.title, 1.0) + (2 * BESIDE_ARROW if self.arrow else 0.0)
        rest = (text_width(text, 1.0) for text in (*self.lines, self.edge, TIE_ON))
        return max(title, *rest, 2 * (beside + APART))

    @property
    def _rows(self) -> int:
        beside = max(len(self.left), len(self.right))
        return 1 + len(self.lines) + beside + bool(self.edge)

    def _largest(self, space: tuple[float, float]) -> float:
        """Size of words on a side of the piece."""
        across, up = (floor(mm - 2 * ROUND) - 2 * PAD for mm in space)
        return min(across / self._wide, (up - EDGE) / (PITCH * self._rows))


def drawn(label: Label, at: Point) -> list[Item]:
    """The label with its upper left corner there."""
    (x, y), (width, height), size = at, label.box, label.size
    pitch, middle = PITCH * size, x + width / 2
    rows: list[Item] = [*_lines((label.title, *label.lines), middle, y + PAD + size, size)]
    below = y + PAD + size + pitch * (1 + len(label.lines))
    quarter = width / 4
    rows += _lines(label.left, middle - quarter, below, size)
    rows += _lines(label.right, middle + quarter, below, size)
    last = y + height - EDGE - PAD - pitch * (len(label.foot) - 1)
    rows += _lines(label.foot, middle, last, size)
    if label.edge:
        rows.append(line((x, y + height - EDGE / 2), (x + width, y + height - EDGE / 2), EDGE))
    if label.arrow:
        rows.append(arrow((x + PAD + 0.6 * size, y + PAD), 1.1 * size))
    if label.middle:
        rows.append(line((middle, y), (middle, y + TICK)))
    return [outline(rectangle(x, y, width, height)), *rows]


def _lines(texts: Sequence[str], middle: float, first: float, size: float) -> list[Words]:
    """Centred below each other; an empty one keeps its place."""
    places = ((middle, first + k * PITCH * size) for k in range(len(texts)))
    return [words(at, text, size, "middle") for at, text in zip(places, texts, strict=False) if text]
