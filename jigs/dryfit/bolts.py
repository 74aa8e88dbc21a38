"""What a drawn round hole is for: the bolt, the screw or the pin that passes through it, metric or in inches."""

from __future__ import annotations

from collections.abc import Sequence
from math import dist

from geometry.hardware.fittings import IN_INCHES, METRIC, called, clearance_hole, in_inches
from jigs.dryfit.bench import SLACK, hole_checks
from jigs.dryfit.model import Check, Drawn, Drill, counted, near

SIZES = (METRIC, IN_INCHES)
BOLTS = tuple(sizes.bolt for sizes in SIZES)
SCREWS = tuple(sizes.screw for sizes in SIZES)
PINS = tuple(sizes.pin for sizes in SIZES)
ALIKE = 0.3  # mm


def thread_of(drill: Drill, threads: Sequence[str]) -> str:
    """The one of these threads that a hole is for."""
    return min(threads, key=lambda thread: abs(drill.diameter - clearance_hole(thread)))


def bolt_in(plate: Drawn) -> Drill:
    """The hole of a sled's bolt: the one nearest to its size."""
    return min(plate.drills, key=bolt_off)


def pin_in(plate: Drawn) -> Drill:
    """The hole of a steel pin."""
    return min(plate.drills, key=lambda d: pin_off(d)[1])


def pins_in(plate: Drawn) -> list[Drill]:
    """All holes of steel pins."""
    return sorted(
        (d for d in plate.drills if pin_off(d)[1] < min(ALIKE, bolt_off(d))), key=lambda d: d.centre
    )


def bolt_off(drill: Drill) -> float:
    """How far a hole is from the nearest bolt's."""
    return abs(drill.diameter - clearance_hole(thread_of(drill, BOLTS)))


def pin_off(drill: Drill) -> tuple[float, float]:
    """The pin that a hole is nearest to, and how far from it."""
    return min(((pin, abs(drill.diameter - pin)) for pin in PINS), key=lambda each: each[1])


def is_screw(drill: Drill) -> bool:
    """Whether a hole is a countersunk screw's; others are for larger bolts."""
    return abs(drill.diameter - clearance_hole(thread_of(drill, SCREWS))) < bolt_off(drill)


def thread_checks(where: str, what: str, drills: Sequence[Drill], thread: str) -> list[Check]:
    """Round holes for one thread, by its standard's medium fit."""
    standard = "ASME B18.2.8" if in_inches(thread) else "ISO 273"
    return hole_checks(where, f"{what} ({called(thread)}, {standard})", list(drills), clearance_hole(thread))


def screw_checks(where: str, drills: Sequence[Drill]) -> list[Check]:
    """Holes for screws, all as the first is."""
    return thread_checks(where, "hole", drills, thread_of(drills[0], SCREWS)) if drills else []


def on_pins_checks(stop: str, ours: Sequence[Drill], theirs: Sequence[Drill]) -> list[Check]:
    """A stop's holes over the base's, on the same pins."""
    pairs = zip(ours, theirs, strict=False)
    return [
        counted(stop, "pins", len(ours), len(theirs)),
        *pin_checks(stop, [*theirs, *ours]),
        *(near(stop, "hole over its pin's", dist(a.centre, b.centre), 0.0, SLACK) for a, b in pairs),
    ]


def pin_checks(where: str, drills: Sequence[Drill]) -> list[Check]:
    """Holes for pins, all as the first is."""
    return hole_checks(where, "pin's hole", list(drills), pin_off(drills[0])[0]) if drills else []
