"""How high each ring is: as asked, or chosen from the boards at hand."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from math import inf

from geometry.blanks.ring_heights import Choice, Wood, fewest_rings, least_wood
from geometry.bodies.section import Section
from geometry.records import Record
from jigs.asked.key import FEWEST, LEAST_WOOD
from jigs.asked.vessel_job import HeightChoice, VesselJob
from jigs.stages.stack.layers import FACED, LEAST_RIM, THINNEST, layer_of
from jigs.stages.stack.plan import HeightsChoice
from jigs.words.findings import Finding, Refused, RefusedSoon
from jigs.words.lengths import example_length

NOTHING = 1e-9


class Span(Record):
    """A range of heights that rings fill; where staves stand above, the last is planed to end there."""

    low: float
    high: float
    exact: bool


def spans_of(job: VesselJob, height: float, bottom: float | None = None) -> tuple[Span, ...]:
    """The ranges of heights that are filled with rings, from `bottom` up: all, or those below and above the staves.

    From under the foot by the allowance unless given.
    """
    allowance = job.rings.turning_allowance
    top = height + min(allowance, FACED)
    if job.staves is None:
        return (Span(-allowance if bottom is None else bottom, top, False),)
    above = () if job.staves.high >= height else (Span(job.staves.high, top, False),)
    return (Span(-allowance, job.staves.low, True), *above)


def solve_heights(
    job: VesselJob, section: Section, bottom: float | None = None, below: int = 0
) -> tuple[tuple[tuple[float, ...], ...], HeightsChoice | None]:
    """The heights of the rings in each span, and the choice where there was one.

    On `below` rings, which end at `bottom`.
    """
    spans = spans_of(job, section.height, bottom)
    if isinstance(job.rings.heights, tuple):
        return _as_asked(job, job.rings.heights, spans, below), None
    wood = _wood_of(job, section)
    ways: dict[HeightChoice, Callable[..., Choice]] = {FEWEST: fewest_rings, LEAST_WOOD: least_wood}
    other: HeightChoice = LEAST_WOOD if job.rings.heights == FEWEST else FEWEST
    chosen, compared = (
        _chosen(job, section, spans, wood, ways[way], below) for way in (job.rings.heights, other)
    )
    within = max(found.within for found in (*chosen, *compared))
    choice = HeightsChoice(job.rings.heights, *_sums(chosen), other, *_sums(compared), within)
    return tuple(_fitted(span, found.heights) for span, found in zip(spans, chosen, strict=True)), choice


def _sums(choices: Sequence[Choice]) -> tuple[int, float]:
    return sum(choice.count for choice in choices), sum(choice.wood for choice in choices)


def _as_asked(
    job: VesselJob, asked: Sequence[float], spans: Sequence[Span], below: int
) -> tuple[tuple[float, ...], ...]:
    """The list from the foot up; its last height goes on.

    On rings that are glued already it may be too long: these may have turned out higher.
    """
    used, filled = below, []
    for span in spans:
        heights: list[float] = []
        while span.low + sum(heights) < span.high - THINNEST:
            heights.append(asked[min(used + len(heights), len(asked) - 1)])
        used += len(heights)
        filled.append(_fitted(span, heights))
    if used < len(asked) and not below:
        message = f"{len(asked)} heights are given, and {used} fill the vessel"
        remedy = f"leave the last {len(asked) - used} out"
        raise RefusedSoon([job.finding("too-many", message, key="rings.heights", remedy=remedy)])
    return tuple(filled)


def _fitted(span: Span, heights: Sequence[float]) -> tuple[float, ...]:
    """Under staves the last ring is planed to end where they begin."""
    over = span.low + sum(heights) - span.high
    if span.exact and heights and over > THINNEST:
        return (*heights[:-1], heights[-1] - over)
    return tuple(heights)


def _chosen(
    job: VesselJob,
    section: Section,
    spans: Sequence[Span],
    wood: Wood,
    best: Callable[..., Choice],
    below: int,
) -> list[Choice]:
    """From the foot up, so that each ring's number, and with it its woods and segments, is known."""
    flat = job.rings.flattening
    thicknesses = sorted({round(board.thickness - flat, 9) for board in job.workshop.stock.boards})
    if not thicknesses:
        message = "no boards are listed to choose the heights from"
        thickness = example_length(22.0, job.unit)
        remedy = f'list them under boards in [stock], such as [{{species = "ash", thickness = {thickness}}}]'
        raise RefusedSoon([job.finding("no-boards", message, key="rings.heights", remedy=remedy)])
    alike, found = max(len(job.rings.segments), len(job.rings.species)), list[Choice]()
    first = below + 1
    for span in spans:

        def here(
            number: int, bottom: float, height: float, first: int = first, low: float = span.low
        ) -> float:
            return wood(first + number - 1, low + bottom, height)

        rim, height, others = section.height - span.low, span.high - span.low, max(1, alike - first + 1)
        try:
            try:
                way = best(thicknesses, height, _no_sliver(rim, here), others)
            except ValueError:
                way = best(thicknesses, height, here, others)
            found.append(_below(rim, way, here))
        except ValueError as error:
            raise RefusedSoon([_lacking(job)]) from error
        first += found[-1].count + 1  # the staves stand between
    return found


def _no_sliver(rim: float, wood: Wood) -> Wood:
    """The same, but for rings of which hardly anything is left at the rim."""
    return lambda number, low, high: inf if NOTHING < rim - low < LEAST_RIM else wood(number, low, high)


def _below(rim: float, choice: Choice, wood: Wood) -> Choice:
    """Without rings that would only be faced away over the rim."""
    bottoms = [sum(choice.heights[:k]) for k in range(choice.count)]
    kept = [(low, high) for low, high in zip(bottoms, choice.heights, strict=True) if low < rim - NOTHING]
    volume = sum(wood(number, low, high) for number, (low, high) in enumerate(kept, 1))
    return Choice(tuple(high for _, high in kept), volume, choice.within)


def _lacking(job: VesselJob) -> Finding:
    listed = {board.species for board in job.workshop.stock.boards}
    missing = sorted({name for ring in job.rings.species for name in ring} - listed)
    what = (
        f"no boards of {', '.join(missing)} are listed"
        if missing
        else _mixed(job) or "the boards listed do not fill the height"
    )
    remedy = "list boards of every wood in [stock], or give heights"
    return job.finding("no-boards", what, key="stock.boards", remedy=remedy)


def _mixed(job: VesselJob) -> str:
    """The first ring whose woods are listed in no common thickness, and in which they are; "" where there is none."""
    for number in range(1, len(job.rings.species) + 1):
        listed = {
            name: sorted({board.thickness for board in job.workshop.stock.boards if board.species == name})
            for name in job.rings.woods(number)
        }
        if not set.intersection(*map(set, listed.values())):
            told = [
                f"{name} ({', '.join(job.show(size) for size in sizes)})" for name, sizes in listed.items()
            ]
            return (
                f"ring {number} mixes {' and '.join(told)}, and boards of one thickness are not listed of all"
            )
    return ""


def _wood_of(job: VesselJob, section: Section) -> Wood:
    """Volume of a ring standing there, infinite where its woods have no such board; asked by both choices."""
    flat = job.rings.flattening
    boards = {(board.species, round(board.thickness - flat, 9)) for board in job.workshop.stock.boards}

    @cache
    def wood(number: int, bottom: float, height: float) -> float:
        if any((name, height) not in boards for name in job.rings.woods(number)):
            return inf
        try:
            return layer_of(job, section, number, bottom, height).wood
        except Refused:
            return inf

    return wood
