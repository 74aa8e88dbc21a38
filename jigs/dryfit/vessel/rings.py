"""The rings that the job asks for: where each stands, and what it has to hold by brute force."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, cos, inf, pi, sin

import numpy as np
import shapely

from geometry.blanks.ring_heights import fewest_rings, least_wood
from geometry.blanks.ring_stack import ring, shared_sizes
from geometry.records import Record, replace
from jigs.asked.vessel_job import by_ring
from jigs.dryfit.vessel.work import Work

FACED = 1.0  # mm of the top ring over the rim, less where the allowance is less
MOST_DEPTH = 130.0  # mm of a segment of a base that the job leaves open
LEAST_RIM = 1.0  # mm of a ring at the rim; what leaves less is not chosen where anything else is
NOTHING = 0.01  # mm
THINNED = 1 / 3  # of a ring's height that may be taken off it so that the joints above lie as planned
NARROW = {"mm": 75.0, "in": 3 * 25.4}  # mm, of a disc
WIDEST_PLUG, LEAST_END, LEAST_DEPTH = 75.0, 3.0, 12.0  # mm, of a plug, a segment's end and its depth
BORED = 1.0  # mm from the corners of an opening to the plug that it is bored for


class Held(Record):
    """One ring of segments: `least` and `most` are the radii of the wall and its allowance over its heights."""

    number: int
    bottom: float
    top: float
    segments: int
    spacer: float  # thickness of a strip, or width of a gap, at each joint
    least: float  # 0 where it reaches the axis, or of the opening for a plug
    most: float
    plugged: bool  # opened only for a plug in its middle
    open: bool  # gaps between its segments, which are placed one by one: no halves, no board

    @property
    def mitre(self) -> float:
        return pi / self.segments

    @property
    def core(self) -> float:
        """The largest apothem that the opening may have: the wall clears its corners."""
        return self.least * cos(self.mitre)

    def outside(self, apothem: float | None = None) -> shapely.Polygon:
        """The ring from above, filled, one flat straight down."""
        return regular(self.segments, self.most if apothem is None else apothem)

    def opening(self) -> shapely.Polygon:
        return regular(self.segments, self.core)


def regular(count: int, apothem: float) -> shapely.Polygon:
    """A regular polygon about the origin, one flat straight down."""
    turns = [-pi / 2 + (2 * k + 1) * pi / count for k in range(count)]
    radius = apothem / cos(pi / count)
    return shapely.Polygon([(radius * cos(turn), radius * sin(turn)) for turn in turns])


def rings_of(work: Work) -> list[Held]:
    """Every ring of segments, from the foot up, as it is cut; discs and staves are none.

    Those that are glued were cut as planned. Those over them stand where these end; one that holds the wall with half
    of the allowance there is cut as planned too.
    """
    planned = _held(work, placed(work))
    if work.glued is None:
        return planned
    before = {held.number: held for held in planned}
    above = _held(work, placed_above(work, *work.glued))
    return [
        *(_as_measured(work, held) for held in planned if held.number <= work.glued[0]),
        *(_as_cut(work, before[held.number], held) if held.number in before else held for held in above),
    ]


def _as_measured(work: Work, held: Held) -> Held:
    """A glued ring with the sizes that the readings file states: across flats, or from a flat to the corner over it."""
    across, opening = work.own.get(held.number, (None, None))
    share = 1 + 1 / cos(held.mitre) if held.segments % 2 else 2.0
    most = held.most if across is None else across / share
    least = held.least if opening is None or held.plugged else opening / share / cos(held.mitre)
    return replace(held, most=most, least=least)


def _as_cut(work: Work, planned: Held, now: Held) -> Held:
    """As planned where that serves; one that is flattened to less comes from the same board."""
    bottom = min(now.bottom, now.top - (planned.top - planned.bottom))
    if not _serves(work, planned, now):
        return replace(now, bottom=bottom)
    return replace(now, bottom=bottom, least=planned.least, most=planned.most)


def _serves(work: Work, planned: Held, now: Held) -> bool:
    need = work.needs(now.bottom, now.top, work.job.rings.turning_allowance / 2)
    alike = (planned.segments, planned.plugged, planned.open) == (now.segments, now.plugged, now.open)
    return (
        need is not None
        and alike
        and planned.most >= need[1]
        and (planned.plugged or planned.least <= need[0])
    )


def placed_above(work: Work, count: int, top: float) -> list[tuple[int, float, float]]:
    """Rings on so many glued ones that end at this height: the next is as much lower as they end too high."""
    if top >= work.height - 1e-9:
        return []
    rim = work.height + min(work.job.rings.turning_allowance, FACED)
    heights = _heights(work, count, top, rim, count + 1)
    planned = {number: bottom + height for number, bottom, height in placed(work)}
    over = top - planned.get(count, top)
    if heights and not isinstance(work.job.rings.heights, str) and 0 < over <= heights[0] * THINNED:
        heights = [heights[0] - over, *_heights(work, count + 1, top + heights[0] - over, rim)]
    return _stacked(work, count + 1, top, heights)


def _held(work: Work, places: Sequence[tuple[int, float, float]]) -> list[Held]:
    wish, found = work.job.rings, list[Held]()
    for number, bottom, height in places:
        need = work.needs(bottom, bottom + height)
        if need is None:
            continue
        closed = need[0] <= 0.0
        if _is_solid(work, number, bottom, bottom + height):
            continue
        count = by_ring(wish.segments, number)
        whole = closed or (wish.gap > 0 and work.section.through and number == 1)
        between, is_open = (0.0, False) if whole else (wish.between, wish.gap > 0)
        plug = _plug(work, count, need[1]) if closed and wish.base != "floating" else 0.0
        least = plug / 2 - BORED if plug else need[0]
        if closed and wish.base == "floating":
            least = _round_base(work, bottom + height)
        found.append(Held(number, bottom, bottom + height, count, between, least, need[1], plug > 0, is_open))
    return _shared(work, found)


def _shared(work: Work, rings: list[Held]) -> list[Held]:
    """Rings of the layup that are almost alike are of one size."""
    layup = work.job.layup
    if layup is None:
        return rings
    own = [held for held in rings if layup.covers(held.number) and held.least > 0 and not held.plugged]
    found: dict[int, Held] = {}
    for kind in {_kind(held) for held in own}:
        alike = [held for held in own if _kind(held) == kind]
        sizes = shared_sizes([(held.most, held.core) for held in alike])
        for held, (most, core) in zip(alike, sizes, strict=True):
            found[held.number] = replace(held, most=most, least=core / cos(held.mitre))
    return [found.get(held.number, held) for held in rings]


def _kind(held: Held) -> tuple[int, float, float]:
    return held.segments, round(held.top - held.bottom, 6), held.spacer


class Solid(Record):
    """A disc, or a piece with its grain upright: what it has to fill, to radius `most`."""

    number: int
    bottom: float
    top: float
    most: float


def solids_of(work: Work) -> Iterator[Solid]:
    """Every ring that is one solid piece, from the foot up."""
    for number, bottom, height in placed(work):
        need = work.needs(bottom, bottom + height)
        if need is not None and _is_solid(work, number, bottom, bottom + height):
            yield Solid(number, bottom, bottom + height, need[1])


def _is_solid(work: Work, number: int, low: float, high: float) -> bool:
    """A piece asked for upright, or a base that is asked for solid, is narrow, or takes no plug."""
    wish, need = work.job.rings, work.section.needs(low, high, work.job.rings.turning_allowance)
    if number in (wish.upright or ()):
        return True
    if need is None or need[0] > 0.0 or wish.base is not None:
        return need is not None and need[0] <= 0.0 and wish.base == "solid"
    finished = work.section.outer.radii(max(0.0, low), min(work.height, high))[1]
    count = by_ring(wish.segments, number)
    plug = _plug(work, count, need[1])
    deep = need[1] - (plug / 2 - BORED) * cos(pi / count)
    return 2 * finished <= NARROW[work.job.unit] or not plug or deep > MOST_DEPTH


def _round_base(work: Work, top: float) -> float:
    """Radius to which a ring round or over a floating base may be open: its hollow, and the wall over the floor."""
    allowance = work.job.rings.turning_allowance
    low = work.section.inner.bottom + allowance
    wall = work.needs(low, top) if top > low else None
    hollow = work.job.foot.recess_diameter / 2 - allowance
    return max(0.0, min(hollow, wall[0]) if wall else hollow)


def _plug(work: Work, count: int, outer: float) -> float:
    """Diameter of a plug, 0 for none: as asked, else the least, to the next mm or 1/16 in, round which segments have
    an end 3 mm wide and are deep enough."""
    wish, step = work.job.rings, 1.0 if work.job.unit == "mm" else 25.4 / 16
    if wish.core_plug is not None:
        return wish.core_plug
    plug = ceil((2 * BORED + LEAST_END / sin(pi / count)) / step) * step
    deep = outer - (plug / 2 - BORED) * cos(pi / count)
    if plug > WIDEST_PLUG or deep < LEAST_DEPTH:
        return 0.0
    wider = ceil(2 * (BORED + (outer - MOST_DEPTH) / cos(pi / count)) / step) * step
    return wider if plug < wider <= WIDEST_PLUG else plug


def first_radius(work: Work) -> float:
    """From the axis to the corners of the lowest ring, or to the edge of the lowest disc."""
    number, bottom, height = placed(work)[0]
    need = work.needs(bottom, bottom + height)
    if need is None:
        return 0.0
    return (
        need[1]
        if _is_solid(work, number, bottom, bottom + height)
        else need[1] / cos(pi / by_ring(work.job.rings.segments, number))
    )


def placed(work: Work) -> list[tuple[int, float, float]]:
    """Number, bottom and height of every ring; the staves count as one."""
    staves, allowance = work.job.staves, work.job.rings.turning_allowance
    top = work.height + min(allowance, FACED)
    if staves is None:
        return _stacked(work, 1, -allowance, _heights(work, 0, -allowance, top))
    heights = _heights(work, 0, -allowance, staves.low)
    below = _stacked(work, 1, -allowance, heights)
    last, bottom, height = below[-1]
    over = bottom + height - staves.low
    below[-1] = (last, bottom, height - over if over > NOTHING else height)
    if staves.high >= work.height:
        return below
    above = _heights(work, len(heights), staves.high, top, last + 2)
    return [*below, *_stacked(work, last + 2, staves.high, above)]


def _stacked(work: Work, first: int, low: float, heights: Sequence[float]) -> list[tuple[int, float, float]]:
    bottoms = np.cumsum([low, *heights[:-1]]).tolist()
    return [
        (number, bottom, height)
        for number, (bottom, height) in enumerate(zip(bottoms, heights, strict=True), first)
        if bottom < work.height - 1e-9
    ]


def _heights(work: Work, used: int, low: float, high: float, first: int = 1) -> list[float]:
    """Ring heights between two heights: as asked, from the one after those used; or chosen from the boards."""
    asked = work.job.rings.heights
    if isinstance(asked, str):
        return _chosen(work, asked, low, high, first)
    found: list[float] = []
    while low + sum(found) < high - NOTHING:
        found.append(asked[min(used + len(found), len(asked) - 1)])
    return found


def _chosen(work: Work, asked: str, low: float, high: float, first: int) -> list[float]:
    """From the boards at hand; each ring only from those of its woods."""
    rings = work.job.rings
    alike = max(1, max(len(rings.segments), len(rings.species)) - first + 1)
    best = fewest_rings if asked == "fewest rings" else least_wood

    def wood(number: int, bottom: float, height: float) -> float:
        return _wood(work, number + first - 1, low + bottom, height)

    def worth(number: int, bottom: float, height: float) -> float:
        left = work.height - low - bottom
        return inf if 1e-9 < left < LEAST_RIM else wood(number, bottom, height)

    boards = {height for _, height in _rings_of_boards(work)}
    try:
        return list(best(boards, high - low, worth, alike).heights)
    except ValueError:
        return list(best(boards, high - low, wood, alike).heights)


def _rings_of_boards(work: Work) -> set[tuple[str, float]]:
    """Woods, and the heights of rings from boards of them when they are flattened."""
    flat, boards = work.job.rings.flattening, work.job.workshop.stock.boards
    return {(board.species, round(board.thickness - flat, 9)) for board in boards}


def _wood(work: Work, number: int, bottom: float, height: float) -> float:
    """Volume of a ring as it would be glued, infinite where its woods have no board of this thickness."""
    rings, listed = work.job.rings, _rings_of_boards(work)
    if any((name, height) not in listed for name in rings.woods(number)):
        return inf
    need = work.section.needs(bottom, bottom + height, rings.turning_allowance)
    closed = need is not None and need[0] <= 0.0
    disc = _is_solid(work, number, bottom, bottom + height)
    count = 0 if disc else by_ring(rings.segments, number)
    between = 0.0 if closed else rings.between
    try:
        made = ring(work.section, number, bottom, height, count, rings.turning_allowance, between)
    except ValueError:
        return inf
    return made.wood_volume if rings.gap and not closed else made.volume
