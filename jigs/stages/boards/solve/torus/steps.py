"""The steps of a torus, from boards to the closed blank."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import cos, tan

from geometry.blanks.sawing import WedgeRingCut
from geometry.blanks.truing import end_wedge, half_ends
from geometry.bodies.torus import Blank
from jigs.asked.job import TorusJob
from jigs.measured.glued import rings_left
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.plan.steps import SCRAP, Scrap, Step
from jigs.stages.boards.plan.stock import WoodClass
from jigs.stages.boards.solve.prepared import prepared_steps
from jigs.stages.boards.solve.steps import (
    angle,
    layup_segments,
    layup_steps,
    leaf_steps,
    numbered,
    slip_steps,
    step,
    wanted,
)
from jigs.stages.gauging.solve.torus import check_corner
from jigs.stages.layup.plan.layup import LayupPlan
from jigs.stages.segments.plan import CuttingPlan
from jigs.stages.segments.saws import rings_height
from jigs.stages.wedge_rings.layout.sled import stop_arm
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity, calliper, ruled

CLOSING = ("check-corner", "half-check", "truing-carrier")


def torus_steps(
    job: TorusJob,
    blank: Blank,
    ring_cut: WedgeRingCut,
    cutting: CuttingPlan,
    spares: Sequence[tuple[int, ...]],
    lots: Sequence[Lot],
    classes: Sequence[WoodClass],
    layups: Sequence[LayupPlan],
) -> tuple[Step, ...]:
    """In the order of the work; `spares` says for each whole ring to spare which it can stand in for."""
    left = rings_left(job.readings, blank.wedge_rings)
    made = len(left) + len(spares)
    in_rings = [lot for lot in lots if lot.piece != "ring strip"]
    return numbered(
        [
            *layup_steps(layups),
            *prepared_steps(job, lots, classes),
            *_mitred(left, blank, cutting, [lot for lot in lots if lot.piece == "segment"], layups),
            *slip_steps(lots),
            *leaf_steps(lots),
            *_ringed(job, blank, left, ring_cut, in_rings, made),
            *_wedge_rings(job, blank, left, ring_cut, cutting, in_rings),
            *_spare_rings(left, spares, in_rings),
            step("close", "bench", _rings(blank), lots, blank.wedge_rings, (), CLOSING),
        ]
    )


def _rings(blank: Blank) -> tuple[int, ...]:
    return tuple(range(1, blank.wedge_rings + 1))


def _mitred(
    rings: tuple[int, ...],
    blank: Blank,
    cutting: CuttingPlan,
    lots: Sequence[Lot],
    layups: Sequence[LayupPlan],
) -> Iterator[Step]:
    """One setting serves every segment."""
    layout = cutting.carrier
    settings = (
        angle("tilt", "Blade tilt", blank.mitre),
        angle("fence", "Fence off square", 0.0),
        Quantity("stop", "Stop to the blade's kept side, at the base's top", layout.stop),
        ruled("blade-height", "Blade above the table, along the tilt", layout.blade_height),
    )
    pieces = wanted(lots) + layup_segments(layups, rings)
    yield step(
        "mitre",
        cutting.segments_on,
        rings,
        lots,
        pieces,
        settings,
        ("tilt-plate", "segment-stop", "joint-plate"),
        (
            calliper("outer-edge", "Outer edge", layout.cut.outer_edge),
            calliper("inner-edge", "Inner edge", layout.cut.inner_edge),
        ),
    )


def _ringed(
    job: TorusJob,
    blank: Blank,
    rings: tuple[int, ...],
    ring_cut: WedgeRingCut,
    lots: Sequence[Lot],
    made: int,
) -> Iterator[Step]:
    """Segments, and the strips between them, to rings; these flattened."""
    yield step(
        "rings",
        "bench",
        rings,
        lots,
        made,
        _sanded(job.form.joint_sanding),
        ("joint-plate",),
        _across(blank),
    )
    off = (calliper("flattening", "Take off both faces together", job.form.flattening),)
    yield step(
        "flatten",
        "bench",
        rings,
        lots,
        made,
        off,
        checks=(calliper("thickness", "Thickness", ring_cut.ring_thickness),),
    )


def _across(blank: Blank) -> tuple[Quantity, ...]:
    """An odd count has no two flats that face each other."""
    return () if blank.segments % 2 else (calliper("across-flats", "Across the flats", 2 * blank.apothem),)


def _sanded(sanding: float) -> tuple[Quantity, ...]:
    return (calliper("sanding", "Sand off each end of a segment", sanding),)


def _wedge_rings(
    job: TorusJob, blank: Blank, left: tuple[int, ...], ring_cut: WedgeRingCut, cutting: CuttingPlan,
    lots: Sequence[Lot],
) -> Iterator[Step]:  # fmt: skip
    """All rings but those at the ends of halves, then these, which keep what truing takes."""
    spare = job.form.end_spare
    ends = half_ends(blank.wedge_rings) if job.form.half_sanding > 0 else {}
    ends = {number: face for number, face in ends.items() if number in left}
    rings = tuple(number for number in left if number not in ends)
    thick = ring_cut.wedge_at_stop
    settings, jigs = (
        _wedge(job, blank, ring_cut, cutting, thick),
        ("sled-wedge", "sled-rod-stick", "check-corner"),
    )
    own = _of_rings(lots, rings)
    yield step("wedge", cutting.rings_on, rings, own, len(rings), settings, jigs, _edges(ring_cut, 0.0))
    if ends:
        thick, more = end_wedge(thick, blank.half_wedge, spare), spare / cos(blank.half_wedge)
        settings = (*_wedge(job, blank, ring_cut, cutting, thick), *_end_faces(ends))
        own, checks = _of_rings(lots, ends), _edges(ring_cut, more)
        yield step(
            "end wedge",
            cutting.rings_on,
            tuple(sorted(ends)),
            own,
            len(ends),
            settings,
            ("end-wedge", "sled-rod-stick"),
            checks,
        )


def _end_faces(ends: Mapping[int, int]) -> tuple[Quantity, ...]:
    """Which face of which ring is its end: the saw cuts it last, the other face on the end wedge."""
    return tuple(
        Quantity(
            f"face-{face}",
            f"Face {face} is the END, sawn last: rings",
            " and ".join(str(ring) for ring in sorted(ends) if ends[ring] == face),
            "text",
        )
        for face in (1, 2)
    )


def _of_rings(lots: Sequence[Lot], rings: Iterable[int]) -> list[Lot]:
    return [lot for lot in lots if set(rings) & set(lot.rings)]


def _spare_rings(
    left: tuple[int, ...], spares: Sequence[tuple[int, ...]], lots: Sequence[Lot]
) -> Iterator[Step]:
    """One step for each order of woods; the rings that have none to spare are named in the last."""
    sorts = list(dict.fromkeys(spares))
    without = [ring for ring in left if not any(ring in rings for rings in sorts)]
    none = (Quantity("none-for", "None for rings", ", ".join(map(str, without)), "text"),) if without else ()
    for rings in sorts:
        told = none if rings == sorts[-1] else ()
        yield step("spare", "bench", rings, _of_rings(lots, rings[:1]), spares.count(rings), told)


def _edges(ring_cut: WedgeRingCut, more: float) -> tuple[Quantity, ...]:
    """One face of an end ring lies `more` farther out, along the tube."""
    return (
        calliper("thick-edge", "Thick edge", ring_cut.thick_edge + more),
        calliper("thin-edge", "Thin edge", ring_cut.thin_edge + more),
    )


def _wedge(
    job: TorusJob, blank: Blank, ring_cut: WedgeRingCut, cutting: CuttingPlan, thick: float
) -> tuple[Quantity, ...]:
    return (
        angle("fence", "Fence to blade", ring_cut.half_wedge),
        Quantity("stop", "Stop to the apex, along the fence", ring_cut.stop),
        calliper(
            "wedge-at-stop",
            "Wedge at the stop",
            thick + stop_arm(blank.segments, blank.apothem)[0] * tan(ring_cut.wedge_angle),
        ),
        ruled("blade-height", "Blade above the table", rings_height(job, blank.apothem, cutting.rings_on)),
    )


def torus_scraps(blank: Blank, cutting: CuttingPlan, unit: Unit) -> tuple[Scrap, ...]:
    """One ring, then wedge rings that make a right angle."""
    check, n, rings = check_corner(blank).rings, blank.segments, _rings(blank)
    depth, held, cut = blank.apothem - blank.core_apothem, cutting.carrier.held, cutting.carrier.cut
    width = cut.length
    one, all_of = (max(SCRAP[unit], cut.strip_length(count) + held) for count in (n, check * n))
    return (
        Scrap("ring", rings, 1, n, depth, width, 1, one, ("joint-plate",)),
        Scrap("quarter", rings, check, n, depth, width, 1, all_of, ("check-corner",)),
    )
