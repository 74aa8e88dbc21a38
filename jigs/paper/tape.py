"""Tape layouts: a ring's segments side by side at their developed spacing, to be laid on tape and rolled up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos

from jigs.job_wood import PaperSize
from jigs.lengths import show_length
from jigs.paper.page import SMALLEST, box, fitting, line, page, room, up_arrow, words
from jigs.plan import Plan
from jigs.plan.torus import TorusPlan
from jigs.plan.vessel import VesselPlan
from jigs.words.wood.numbers import ring_list

OVERLAP = 40.0  # of the tape past the last segment
TALLEST = 60.0  # of a segment as drawn; only widths are true above it
ROW_GAP = 14.0
PURPOSE = "the segments of a ring side by side at their developed spacing, to be laid on tape"


@dataclass(frozen=True)
class Strip:
    """Rings alike: `edge` is a segment's outer edge as glued, `between` what stands between two of them."""

    rings: tuple[int, ...]
    edge: float
    between: float
    height: float
    species: tuple[str, ...]

    @property
    def pitch(self) -> float:
        return self.edge + self.between

    @property
    def length(self) -> float:
        """All round."""
        return len(self.species) * self.pitch


def tape_pages(plan: Plan) -> list[tuple[str, str, str]]:
    """File, purpose and SVG text of each page; rings alike share theirs, discs and staves have none."""
    strips = _of_vessel(plan) if plan.kind == "vessel" else _of_torus(plan)
    return [page for strip in strips for page in _pages(plan, strip)]


def _of_torus(plan: TorusPlan) -> list[Strip]:
    rings: dict[tuple[str, ...], list[int]] = {}
    for number, species in enumerate(plan.species, 1):
        rings.setdefault(species, []).append(number)
    height = plan.ring_cut.ring_thickness
    return [
        Strip(tuple(numbers), plan.blank.flat_width, 0.0, height, species)
        for species, numbers in rings.items()
    ]


def _of_vessel(plan: VesselPlan) -> list[Strip]:
    """Between two segments a strip, or a gap, shows wider than it is: it is square to neither flat."""
    alike: dict[tuple[object, ...], list[int]] = {}
    sizes: dict[tuple[object, ...], Strip] = {}
    for layer in plan.stack.layers:
        if layer.cut is not None:
            ring = layer.ring
            strip = Strip((), ring.outer_edge, ring.spacer / cos(ring.mitre), ring.height, layer.species)
            key = (round(strip.edge, 3), round(strip.between, 3), round(strip.height, 3), strip.species)
            sizes.setdefault(key, strip)
            alike.setdefault(key, []).append(layer.number)
    return [
        Strip(tuple(numbers), sizes[key].edge, sizes[key].between, sizes[key].height, sizes[key].species)
        for key, numbers in alike.items()
    ]


def _pages(plan: Plan, strip: Strip) -> Iterator[tuple[str, str, str]]:
    """As many rows on a page as it holds, as many segments in a row as it is wide."""
    paper, unit = plan.job.workshop.paper.size, plan.job.unit
    heading = f"{plan.job.title}: {ring_list(strip.rings)}, tape layout"
    edge, length, overlap = (show_length(mm, unit) for mm in (strip.edge, strip.length, OVERLAP))
    between = f", {show_length(strip.between, unit)} between" if strip.between else ""
    said = (
        f"{len(strip.species)} outer edges of {edge} as glued{between}: {length} all round. Outer sides on the tape, "
        f"up as the arrow, {overlap} of tape left over to close the ring."
    )
    left, top, right, bottom = room(paper)
    each = int((right - left - 1e-9) // strip.pitch)
    if not each:
        text = page(paper, heading, said, _too_wide(plan, strip))
        yield _file(strip, 1), PURPOSE, text
        return
    high = min(strip.height, TALLEST)
    rows = int((bottom - top + ROW_GAP) // (high + ROW_GAP))
    for number, start in enumerate(range(0, len(strip.species), each * rows), 1):
        body = _rows(strip, paper, each, range(start, min(len(strip.species), start + each * rows), each))
        yield _file(strip, number), PURPOSE, page(paper, heading, said, body)


def _file(strip: Strip, number: int) -> str:
    return f"paper/tape-ring-{strip.rings[0]}{f'-page-{number}' if number > 1 else ''}.svg"


def _too_wide(plan: Plan, strip: Strip) -> list[str]:
    left, top, right, _ = room(plan.job.workshop.paper.size)
    every = show_length(strip.pitch, plan.job.unit)
    text = f"A segment is wider than this paper: mark the tape by rule, every {every}."
    return [words(left, top + 8.0, text, fitting([text], right - left, 4.0))]


def _rows(strip: Strip, paper: PaperSize, each: int, starts: Sequence[int]) -> list[str]:
    left, top, _, _ = room(paper)
    high, items = min(strip.height, TALLEST), list[str]()
    for row, start in enumerate(starts):
        y = top + row * (high + ROW_GAP)
        for k in range(start, min(start + each, len(strip.species))):
            items += _segment(strip, k, left + (k - start) * strip.pitch, y, high)
        last = min(start + each, len(strip.species))
        items += _joins(strip, start, last, left, y + high)
    return items


def _segment(strip: Strip, k: int, x: float, y: float, high: float) -> list[str]:
    """Number, wood, and on the first an arrow; what stands behind it is dashed."""
    middle, texts = x + strip.edge / 2, (str(k + 1), strip.species[k])
    size = fitting(texts, strip.edge - 1.0, 3.5)
    items = [box(x, y, strip.edge, high), words(middle, y + high / 2, texts[0], size, "middle")]
    if size >= SMALLEST or strip.edge > 6.0:
        items.append(words(middle, y + high / 2 + 1.3 * size, texts[1], size, "middle"))
    if k == 0:
        items.append(up_arrow(middle, y + 1.0, min(4.0, high / 4)))
    if strip.between:
        items.append(box(x + strip.edge, y, strip.between, high))
    return items


def _joins(strip: Strip, start: int, last: int, left: float, y: float) -> list[str]:
    """Which segment a row follows, and which follows it."""
    total = len(strip.species)
    before, after = start or total, last % total + 1
    end = left + (last - start) * strip.pitch
    begins = f"| after {before}" if start else f"| tape starts; {before} closes here"
    size = 2.6
    items = [line((left, y), (left, y + 3.0)), words(left + 0.8, y + 4.4, begins.removeprefix("| "), size)]
    items.append(line((end, y), (end, y + 3.0)))
    if last < total or start:
        text = f"{after} follows" if last < total else "tape goes on, then round to 1"
        items.append(words(end - 0.8, y + 8.0, text, size, "end"))
    return items
