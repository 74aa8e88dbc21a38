"""The coupon: what the machine does to sizes, and what that makes of the jigs it has made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, sin
from typing import TYPE_CHECKING

from geometry.measuring.drawn_size import Side
from geometry.measuring.printer import LEAST, MachineFit
from jigs.asked.readings.machine import machine_fit, pairs
from jigs.measured.advice import Advice, Verdict, Words, estimated, listed
from jigs.parts.part import Part, Point
from jigs.parts.probes import ArcRadius, EdgeGap, EdgeLength, HoleDiameter
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.asked.job import Job

TOPIC = "machine"
KEEP, ROUGH = 0.15, 0.5  # mm: a gauge that is out by more roughs only, or is made again
BESIDE = 0.2  # mm beside an edge, to see on which side of it the part is


def machine_advice(job: Job, parts: Sequence[Part]) -> Iterator[Advice]:
    """What to set on the machine, and which gauges that it has made still serve."""
    readings, words = job.readings, Words(job.unit)
    read = [*pairs(readings, "outside"), *pairs(readings, "inside")]
    if not read:
        return
    fit = machine_fit(readings)
    if fit is None:
        says: tuple[str, ...] = (
            f"Read {LEAST} outsides and {LEAST} insides of the coupon; fewer do not tell a width from a scale.",
        )
        yield Advice(f"{TOPIC}.too-few", TOPIC, "unclear", (), says)
        return
    found = (*estimated("outside", "Outsides, own error", fit.outside), *estimated("inside", "Insides", fit.inside),
             Quantity("scale", "Scale of the machine", 1 + fit.scale.value, "ratio"))  # fmt: skip
    if not fit.alike:
        says = (
            "Outsides and insides do not grow with their lengths in the same way, so nothing is corrected.",
            "Measure the coupon again, flat on the bed side; a lip there makes insides small.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", found, says)
        return
    yield _setting(fit, found, job.workshop.made.coupon == "print", words)
    process = next((part.process for part in parts if part.jig.first), "print")
    made = [part for part in parts if part.process == process and not part.jig.first]
    if made:
        yield _gauges(fit, made, words)


def _setting(fit: MachineFit, found: tuple[Quantity, ...], printed: bool, words: Words) -> Advice:
    if fit.outside.value == fit.inside.value == fit.scale.value == 0:
        says: tuple[str, ...] = (
            f"Out by no more than {words.fine(fit.outside.accuracy)}, which you cannot measure: leave it as it is.",
        )
        return Advice(f"{TOPIC}.setting", TOPIC, "right", found, says)
    says = (
        f"Outsides come out {_out(fit.outside.value, words)}, insides {_out(fit.inside.value, words)}, and all lengths "
        f"{100 * fit.scale.value:+.2f} %.",
        f"Drawn right for that: scale {100 / (1 + fit.scale.value):.2f} %, outlines "
        f"{words.fine(-fit.outside.value / 2)} outward, openings {words.fine(-fit.inside.value / 2)} outward.",
        "make draws all prints so, but for the coupon, which has to show what the machine does: set nothing of it in "
        "the printer's own program."
        if printed
        else f"The part of it that is alike everywhere is the cut: kerf = {words.fine(_kerf(fit))} in [cutter].",
    )
    return Advice(f"{TOPIC}.setting", TOPIC, "correct", found, says)


def _kerf(fit: MachineFit) -> float:
    """What outsides lack and openings have too much of."""
    return max(0.0, (fit.inside.value - fit.outside.value) / 2)


def _out(mm: float, words: Words) -> str:
    if mm == 0:
        return "right"
    return f"{words.fine(abs(mm))} too {'large' if mm > 0 else 'small'}"


def _gauges(fit: MachineFit, parts: Sequence[Part], words: Words) -> Advice:
    """By the error at each part's largest working size."""
    errors = {
        part.name: max((abs(fit.size.made(*size) - size[0]) for size in working_sizes(part)), default=0.0)
        for part in parts
    }
    rough = [name for name, error in errors.items() if KEEP < error <= ROUGH]
    again = [name for name, error in errors.items() if error > ROUGH]

    def worst(names: Sequence[str]) -> str:
        return words.fine(max(errors[name] for name in names))

    found = tuple(Quantity(f"error.{name}", name, error, "calliper") for name, error in errors.items())
    verdict: Verdict = "correct" if rough or again else "right"
    says: tuple[str, ...] = (
        *((f"Good for roughing only, out by up to {worst(rough)}: {listed(rough)}.",) if rough else ()),
        *((f"Make again, out by up to {worst(again)}: {listed(again)}.",) if again else ()),
        f"All others made before are out by no more than {words.fine(KEEP)}: keep them.",
    )
    return Advice(f"{TOPIC}.made", TOPIC, verdict, found, says)


def working_sizes(part: Part) -> Iterator[tuple[float, Side]]:
    """Its working sizes, and on which side of the part each lies; a radius errs by half of what its diameter does."""
    for dimension in part.dimensions:
        match dimension.probe:
            case ArcRadius(centre, start, end):
                turn, radius = (start + end) / 2, dimension.value
                beyond, within = (
                    (centre[0] + r * cos(turn), centre[1] + r * sin(turn))
                    for r in (radius + BESIDE, radius - BESIDE)
                )
                yield 2 * radius, _side(part, within) if _side(part, beyond) == "outside" else "outside"
            case EdgeGap(first, second):
                middle = (first[0] + second[0]) / 2, (first[1] + second[1]) / 2
                yield dimension.value, _side(part, middle)
            case EdgeLength():
                yield dimension.value, "outside"
            case HoleDiameter():
                yield dimension.value, "opening"
            case _:
                pass


def _side(part: Part, place: Point) -> Side:
    """What a size spans that has this place between its ends."""
    if any(hole.contains([place])[0] for hole in part.holes):
        return "opening"
    return "outside" if part.outline.contains([place])[0] else "hollow"
