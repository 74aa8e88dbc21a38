"""Segments of flat rings sawn from strips, or from a layup's blocks, on the sled with two fences: the operations."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from geometry.grouping import grouped
from jigs.plans.vessel import VesselPlan
from jigs.stages.boards.plan import Scrap, rings_of, wanted
from jigs.stages.boards.runs import Run, batches, kept_long, merged, spares_of
from jigs.stages.flat_segments.parts.flat_sleds import angle_plates, flat_sleds, stop_sticks
from jigs.stages.flat_segments.plan import FlatSled, StopSetting
from jigs.words.quantity import Quantity, calliper, ruled
from jigs.work.minutes import CHECKED, SETTING, each
from jigs.work.model import Once, Operation, Rack, Reading, Stage, at_table_saw, right_if, uses
from jigs.work.steps import DRY_RING, PLATE, nth, split
from jigs.work.woods import by_wood

ID = "flat-segments"
CAUTIONS = ("table-saw.stop", "saw.bin", "table-saw")
CUT = (
    "Cut the square end off a new strip first, the stop swung clear.",
    "Lay the strip against the fence, its tip at the pinned stop; press both levers down.",
    "Saw off, sled drawn back: tug at strip and segment. What moves is not cut.",
    "Pull the pin, swing the stop clear; switch on, push through until the strip is cut, switch off.",
    "When the blade stands still, lift the segment out with a stick.",
    "Slide the strip across to the other fence, the same face up, and start again.",
)
RAIL = (
    "Lay the rail against the fence, the first block's outer corner at the kerf; press the levers down.",
    "Saw off, sled clear of the blade: tug at the pieces. Pull the pin, swing the stop clear, and cut that end.",
    "Slide the rail across to the other fence, the same face up, the mitred end at the stop.",
    "Press both levers down, pull the pin, swing the stop clear, and cut: the segment comes free.",
    "When the blade stands still, lift the segment out with a stick; then the next block.",
)


MOST = 6  # settings of the stop in one operation, each with its stick and its box


def operations(plan: VesselPlan, rack: Rack) -> list[Operation]:
    """For each count of segments: the sled set up, a trial ring, then every ring's segments at its stop."""
    found: list[Operation] = []
    rails: list[Run] = []
    once, cuts = Once(), 0
    for sled in plan.saws.sleds:
        own = list(_runs(plan, sled))
        if own:
            end = nth(sled.number)
            found += [_sled(sled, rack, end), _holds(sled, rack, end), *_trial(plan, sled, rack, end, once)]
        for batch in _batches(own, MOST * (1 + sled.layout.varied)):
            cuts += 1
            found.append(_cut(plan, sled, batch, rack, nth(cuts), once))
        rails += [run for run in own if not run.lots]
    if rails:
        rings = tuple(sorted({ring for run in rails for ring in run.rings}))
        found.append(split(ID, sum(run.pieces for run in rails), rings))
    return found


def _runs(plan: VesselPlan, sled: FlatSled) -> Iterator[Run]:
    """For each stop of a sled and each thickness its rings' pieces, of every wood, then those of layups."""
    for setting in sled.settings:
        own = set(setting.rings)
        lots = [lot for lot in plan.wood.lots if lot.way == "slid across" and own.issuperset(lot.rings)]
        for alike in grouped(lots, lambda lot: lot.blade).values():
            numbers = tuple(lot.number for lot in alike)
            yield _run(sled, setting, rings_of(alike), wanted(alike), alike[0].thickness, numbers)
        for layup in plan.layups:
            if rings := tuple(sorted(own.intersection(setting.blocks, layup.rings))):
                yield _run(sled, setting, rings, layup.blocks, layup.rail.thickness, ())


def _run(
    sled: FlatSled,
    setting: StopSetting,
    rings: tuple[int, ...],
    pieces: int,
    high: float,
    lots: tuple[int, ...],
) -> Run:
    """Of strips or rails so high."""
    stop = Quantity("stop", "Stop to the blade's kept side, square to it", setting.stop)
    edge = calliper("outer-edge", "Outer edge", setting.outer_edge)
    return Run("table saw", rings, pieces, (*_blade(sled, high), stop), (edge,), lots, (_stick(setting),))


def _blade(sled: FlatSled, high: float) -> tuple[Quantity, ...]:
    """Where the sled's strips differ; else it stays as it was set up."""
    own = ruled("blade-height", "Blade above the table", sled.layout.blade_over(high))
    return (own,) if sled.layout.varied else ()


def _stick(setting: StopSetting) -> str:
    return f"stop-stick-ring-{'-'.join(map(str, setting.rings))}"


def _batches(runs: Sequence[Run], most: int) -> Iterator[list[Run]]:
    """Those that are cut from strips, then those that are cut from a layup's rails."""
    yield from batches([run for run in runs if run.lots], most)
    yield from batches([run for run in runs if not run.lots], most)


def _sled(sled: FlatSled, rack: Rack, end: str) -> Operation:
    n = f"n{sled.segments}"
    return at_table_saw(
        f"{ID}.sled{end}",
        f"Set up the {sled.called} segments, the blade upright.",
        how=(
            "Set the sled on the saw; it slides freely and does not rock.",
            "Prove the blade upright with a square against the flat of the blade.",
        ),
        settings=(
            Quantity("tilt", "Blade tilt", 0.0, "angle"),
            Quantity("fence", "Each fence off square", sled.layout.mitre, "angle"),
            ruled("blade-height", _over(sled), sled.layout.saw_height),
        ),
        jigs=uses(rack.named(f"joint-plate-{n}", f"plan-angle-base-{n}"), notes=True),
        checks=right_if(
            "fences",
            "Joint plate between the two fences: no light along either",
            if_not="glue card to the fence where the light is, until the plate touches along both",
        ),
        cautions=("saw.guard-sled", *CAUTIONS[-1:]),
        minutes=SETTING * 2,
    )


def _over(sled: FlatSled) -> str:
    return f"Blade above the table{', for the thickest strip' if sled.layout.varied else ''}"


def _holds(sled: FlatSled, rack: Rack, end: str) -> Operation:
    """What has notes on the sled beside its base."""
    n, base = f"n{sled.segments}", rack.named(f"plan-angle-base-n{sled.segments}")
    parts = [p for p in rack.named("plan-angle") if p.notes and p.name.endswith(n) and p not in base]
    return at_table_saw(
        f"{ID}.holds{end}",
        "Try the hold-downs and the stop with a piece of scrap, the saw unplugged.",
        how=(
            "Renew abrasive paper that is smooth: friction holds the pieces.",
            "Look at the pins under the fingers: sharp, brass, all there.",
            "Press both levers down on the scrap and tug at it.",
        ),
        jigs=uses(parts, notes=True),
        checks=right_if(
            "tug",
            "Neither strip nor segment moves when you pull hard at it",
            if_not="renew the paper, sharpen the pins; press the levers harder",
        ),
        cautions=CAUTIONS,
        minutes=SETTING,
        figure=f"building.flat-sled-{n}-holds",
    )


def _trial(plan: VesselPlan, sled: FlatSled, rack: Rack, end: str, once: Once) -> Iterator[Operation]:
    for scrap in plan.wood.scraps:
        if scrap.of == "ring" and f"joint-plate-n{sled.segments}" in scrap.jigs:
            yield _first(sled, scrap, rack, end, once)
            yield _trial_ring(sled, scrap, end)


FIRST = 2  # segments of scrap that are checked before the trial ring is cut


def _first(sled: FlatSled, scrap: Scrap, rack: Rack, end: str, once: Once) -> Operation:
    """By the moves that all are cut by."""
    sticks = [rack.part(_stick(one)) for one in sled.settings if scrap.rings[0] in one.rings]
    return at_table_saw(
        f"{ID}.first{end}",
        "Cut two segments of scrap, move by move, and check them.",
        how=(
            f"Set the stop by the stick of ring {scrap.rings[0]}: the scrap is as wide as its strips.",
            *CUT,
        ),
        makes=(FIRST, "scrap segment"),
        settings=_blade(sled, scrap.thickness),
        jigs=(*uses(rack.named(*scrap.jigs)), *once.uses(sticks, "sets the stop")),
        checks=right_if(
            "plate",
            PLATE,
            if_not="smaller at the long edge: turn both fences farther off square; larger: nearer to square",
        ),
        cautions=CAUTIONS,
        minutes=each(FIRST, sled.seconds / 60, CHECKED),
    )


def _trial_ring(sled: FlatSled, scrap: Scrap, end: str) -> Operation:
    return at_table_saw(
        f"{ID}.trial{end}",
        "Cut the other segments of a ring in scrap, and close it dry in a band.",
        how=("Cut them as you cut the first two, once the check holds.",),
        makes=(scrap.segments - FIRST, "scrap segment"),
        checks=right_if(
            "ring",
            "Dry ring in a band, held to a window: no light at any joint",
            if_not="light at the outside: turn both fences farther off square; light at the hole: nearer",
        ),
        cautions=CAUTIONS,
        readings=DRY_RING,
        minutes=each(scrap.segments - FIRST, sled.seconds / 60, CHECKED),
    )


def _cut(
    plan: VesselPlan, sled: FlatSled, runs: Sequence[Run], rack: Rack, end: str, once: Once
) -> Operation:
    run, several = merged(runs, "segment", spares=spares_of(plan, runs)), len(runs) > 1
    from_strips = bool(run.lots)
    whence = "" if from_strips else ", from the layup's rails"
    return at_table_saw(
        f"{ID}.cut{end}",
        f"Ring by ring{whence}: set {'the blade, and ' if sled.layout.varied else ''}the stop by its stick; cut its "
        "segments."
        if several
        else f"Set the stop by the ring's stick and cut its segments{whence}.",
        how=CUT if from_strips else RAIL,
        makes=(run.pieces, "segment"),
        rings=run.rings,
        settings=(*run.settings, *_woods(plan, run), *_held(sled, from_strips)),
        known=kept_long(plan, run.lots),
        jigs=once.uses([rack.part(name) for name in run.jigs], "sets the stop"),
        checks=right_if(
            "edge",
            "Calliper over the long edge of each ring's first two segments, then of every tenth",
            () if several else run.checks,
            f"move the stop {sled.layout.stop_for(1.0):.2f} × the error, square to the blade: away from it if the edge "
            "is short",
        ),
        cautions=CAUTIONS,
        readings=tuple(Reading(edge.id, edge.label, edge, 2) for edge in run.checks),
        minutes=each(run.pieces, sled.seconds / 60, SETTING / 2 * len(runs)),
    )


def _held(sled: FlatSled, from_strips: bool) -> tuple[Quantity, ...]:
    """Of a strip, what the hold-down needs; rails are cut to the end."""
    told = "Stop when the strip left is shorter than"
    return (ruled("held", told, sled.layout.held, bound="least"),) if from_strips else ()


def _woods(plan: VesselPlan, run: Run) -> tuple[Quantity, ...]:
    """How many of each wood."""
    lots = [plan.wood.lot(number) for number in run.lots]
    return by_wood("Segments", ((lot.species, lot.wanted) for lot in lots))


STAGE: Stage[VesselPlan] = Stage(
    ID, "Cut the segments", operations, jigs=(angle_plates, flat_sleds, stop_sticks)
)
