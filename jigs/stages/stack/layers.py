"""One ring as it is cut and glued."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, cos, pi, sin

from geometry.blanks.ring_stack import NoEdge, Ring, ring, shared_sizes
from geometry.bodies.floating_base import FloatingBase
from geometry.bodies.section import Section
from geometry.bodies.torus import SegmentCut
from geometry.grouping import gathered
from geometry.records import replace
from jigs.asked.defaults import WIDE_DISC
from jigs.asked.vessel_job import VesselJob, by_ring, round_ring
from jigs.stages.floating_base.groove import floating_base
from jigs.stages.stack.plan import Kind, Layer
from jigs.words.findings import Finding, RefusedSoon
from jigs.words.lengths import MM_PER_INCH

FACED = 1.0  # mm over the rim to be faced; the outside's own allowance may be more
LEAST_RIM = 1.0  # mm of the top ring that a glued-on rim is worth; less comes off in facing. Common practice, no source
THINNEST = 0.01  # mm; what is left of a height is nothing


LEAST_END = 1.0  # mm by which a segment is wider than nothing at its narrow end
# mm by which the hole for a plug is bored past the corners of a ring's opening, so that it is round.
BORED = 1.0
TIP = 3.0  # least width of a segment's inner end beside a plug
MOST_PLUG = 75.0  # mm, as the key allows
# mm of a segment from plug to outside: common practice, no source. Deeper ones want strips wider than usual boards
# give, and a large sled, so that only a job that asks for them gets them.
LEAST_DEPTH, USUAL_DEPTH = 12.0, 130.0


def layer_of(job: VesselJob, section: Section, number: int, bottom: float, height: float) -> Layer:
    """The ring of this number, standing there. Raises Refused where there can be none."""
    wish = job.rings
    need = section.needs(bottom, bottom + height, wish.turning_allowance)
    closed = need is not None and need[0] <= 0.0
    upright = number in (wish.upright or ())
    count = by_ring(wish.segments, number)
    floats = floating_base(job, section) if closed and not upright else None
    plug = _plug_of(job, count, need[1]) if closed and need and not upright and not floats else 0.0
    deep = bool(need and plug and need[1] - _core_for(plug, count) > USUAL_DEPTH)
    disc = upright or (closed and _is_disc(job, section, bottom, bottom + height, bool(plug) and not deep))
    count = 0 if disc else count
    # Without a floor ring 1 is glued to the waste block whole, so it has no gaps.
    whole = closed or (wish.gap > 0 and section.through and number == 1)
    try:
        made = ring(
            section, number, bottom, height, count, wish.turning_allowance, 0.0 if whole else wish.between
        )
    except NoEdge as error:
        raise RefusedSoon([_no_edge(job, number, count, error.most)]) from error
    plug = 0.0 if disc else plug
    if plug:
        made = _round_plug(job, made, plug)
    elif floats:
        made = _round_base(job, section, made, floats)
    kind: Kind = "disc" if disc else "open" if wish.gap and not whole else "segments"
    names = wish.woods(number)
    return Layer(
        ring=made,
        kind=kind,
        species=names[:1] if disc else round_ring(names, count),
        turned=0.0,
        cut=None if disc else cut_of(job, made),
        wood=made.wood_volume if kind == "open" else replace(made, core=0.0).volume if plug else made.volume,
        plug=plug,
        upright=upright,
    )


def with_shared_sizes(job: VesselJob, layers: Sequence[Layer]) -> list[Layer]:
    """Rings with the layup that are almost alike made of one size: each size has two sleds and stacks of its own."""
    kinds = gathered(
        ((layer.ring.segments, round(layer.ring.height, 6), layer.ring.spacer), layer)
        for layer in layers
        if job.layup and layer.plied(job.layup) and layer.cut and layer.ring.core > 0 and not layer.plug
    )
    found: dict[int, Layer] = {}
    for own in kinds.values():
        sizes = shared_sizes([(layer.ring.outer, layer.ring.core) for layer in own])
        found.update(
            {layer.number: resized(job, layer, *size) for layer, size in zip(own, sizes, strict=True)}
        )
    return [found.get(layer.number, layer) for layer in layers]


def resized(job: VesselJob, layer: Layer, outer: float, core: float) -> Layer:
    """A ring with these apothems, its segments cut to them."""
    made = replace(layer.ring, outer=outer, core=core)
    wood = (
        made.wood_volume if layer.kind == "open" else replace(made, core=0.0 if layer.plug else core).volume
    )
    return replace(layer, ring=made, cut=cut_of(job, made) if layer.cut else None, wood=wood)


def _is_disc(job: VesselJob, section: Section, low: float, high: float, pieced: bool) -> bool:
    """Whether a ring that closes over the middle is a disc: where the job leaves it open, one that hardly moves, or
    that cannot well be `pieced`."""
    if job.rings.base is not None:
        return job.rings.base == "solid"
    finished = section.outer.radii(max(0.0, low), min(section.height, high))[1]
    return 2 * finished <= WIDE_DISC[job.unit] or not pieced


def _plug_of(job: VesselJob, count: int, outer: float) -> float:
    """Diameter of the plug in a closed ring of this apothem, 0 for none: as asked, else the least that fits, and round
    which segments are no deeper than usual, where there is one. A solid disc as wide as those would move far more."""
    if job.rings.core_plug is not None:
        return job.rings.core_plug
    step = 1.0 if job.unit == "mm" else MM_PER_INCH / 16
    least = ceil(least_plug(count) / step) * step
    if least > MOST_PLUG or outer - _core_for(least, count) < LEAST_DEPTH:
        return 0.0
    shallow = ceil(2 * ((outer - USUAL_DEPTH) / cos(pi / count) + BORED) / step) * step
    return shallow if least < shallow <= MOST_PLUG else least


def _core_for(plug: float, count: int) -> float:
    """Apothem of the opening that is bored round for a plug."""
    return (plug / 2 - BORED) * cos(pi / count)


def turned(job: VesselJob, layers: Sequence[Layer]) -> list[Layer]:
    """The rings as they stand on one another: every second one turned by half a piece, or as the job says."""
    turn, found, angle = job.rings.turn, list[Layer](), 0.0
    for layer in layers:
        mitre = layer.ring.mitre
        if turn is None:
            angle = mitre if layer.number % 2 == 0 else 0.0
        elif layer.number > 1:
            angle += 2 * mitre * turn[(layer.number - 2) % len(turn)]
        found.append(replace(layer, turned=angle % (2 * pi)))
    return found


def least_plug(segments: int) -> float:
    """Diameter of the smallest plug beside which segments have an end, not a point."""
    return TIP / sin(pi / segments) + 2 * BORED


def _round_plug(job: VesselJob, closed: Ring, plug: float) -> Ring:
    """A ring that would be closed, opened for a plug. Raises Refused where it leaves no end, or no wood round it."""
    made = replace(closed, core=_core_for(plug, closed.segments))
    where, least = f"ring {made.number}", least_plug(made.segments)
    if plug < least - 1e-6:
        small, number = job.show(plug), made.segments
        message = f"{where}: beside a core plug of {small} its {number} segments end in points"
        remedy = f"use a core_plug of at least {job.at_least(least)}, or fewer segments"
        raise RefusedSoon([job.finding("core-plug", message, key="rings.core_plug", remedy=remedy)])
    if made.depth < LEAST_DEPTH:
        message = f"{where}: a core plug of {job.show(plug)} leaves segments only "
        message += f"{job.show(made.depth)} deep"
        most = 2 * ((made.outer - LEAST_DEPTH) / cos(made.mitre) + BORED)
        remedy = f"use a core_plug of at most {job.at_most(most)}" if most >= least else "use fewer segments"
        raise RefusedSoon([job.finding("core-plug", message, key="rings.core_plug", remedy=remedy)])
    return made


def _round_base(job: VesselJob, section: Section, closed: Ring, floats: FloatingBase) -> Ring:
    """A ring that a floating base would close, opened to its hollow less the allowance, or to the wall's over it."""
    allowance = job.rings.turning_allowance
    over = max(closed.bottom, floats.floor + allowance)
    wall = section.needs(over, closed.top, allowance) if closed.top > over else None
    radius = max(0.0, min(floats.opening - allowance, wall[0] if wall else floats.opening))
    return replace(closed, core=radius * cos(closed.mitre))


def _no_edge(job: VesselJob, number: int, count: int, most: float) -> Finding:
    """Strips or gaps as wide as the segments of a ring are at their narrow end."""
    what, wide = ("gap", job.rings.gap) if job.rings.gap else ("spacer", job.rings.spacer)
    message = f"ring {number}: with a {what} of {job.show(wide)} its {count} segments end in points"
    least = most - LEAST_END
    some = f"use a {what} of at most {job.at_most(least)}, or " if least > 0 else "use "
    return job.finding("no-ring", message, key=f"rings.{what}", remedy=f"{some}fewer segments")


def cut_of(job: VesselJob, made: Ring) -> SegmentCut:
    extra = 2 * job.rings.end_sanding(made.spacer) / cos(made.mitre)
    return SegmentCut(
        outer_edge=made.outer_edge + extra,
        inner_edge=made.inner_edge + extra,
        depth=made.depth,
        length=made.height + job.rings.flattening,
        tilt=made.mitre,
        kerf=job.workshop.saw.kerf,
    )
