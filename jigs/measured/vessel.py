"""A vessel's stack, outside and wall as they are, against the plan."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from geometry.measuring.estimate import Estimate
from geometry.measuring.harmonics import harmonic
from geometry.measuring.vessel import best_raise, least_left
from jigs.measured.advice import Advice, Verdict, Words, listed, sentences
from jigs.measured.known import boxes
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.forms.vessel.plan import VesselPlan
    from jigs.work.model import Work

TOPIC = "vessel"
STACK, STATIONS, WALL = "stack.rings", "outside.finished-stations.across", "inside.sand.wall"
MOST_RAISED = 5.0  # mm
COUNT = 8


def vessel_advice(plan: VesselPlan, work: Work) -> Iterator[Advice]:
    """Of the stack as it grows, then of the outside, then of the wall."""
    yield from _stack(plan)
    yield from _stations(plan, work)
    yield from _wall(plan)


def _tops(plan: VesselPlan) -> dict[int, Estimate]:
    """By ring, the height of its top over the stack's foot, where it was read."""
    readings = plan.job.readings
    found = {}
    for id in readings.under(STACK):
        read = readings.length(id, "rule")
        if read is not None and ".up-to." in id:
            found[int(id.rpartition(".")[2])] = read
    return found


def _stack(plan: VesselPlan) -> Iterator[Advice]:
    """Only the last reading counts for what to do next; all of them for what the rings still hold."""
    read, words = _tops(plan), Words(plan.job.unit)
    if not read:
        return
    layers = plan.stack.layers
    by_number = {layer.number: layer.ring for layer in layers}
    last = max(read)
    planned = by_number[last].top - plan.stack.bottom
    off = Estimate(read[last].value - planned, read[last].accuracy)
    told: tuple[Quantity, ...] = (
        Quantity("off", f"Top of ring {last}, over its plan", off.value, "calliper"),
    )
    if not off.sure:
        says: tuple[str, ...] = (
            f"The stack is at its height, as well as a rule tells: {words.rule(off.value)} off.",
        )
        yield Advice(f"{TOPIC}.stack", TOPIC, "right", told, says)
        return
    rings = [layer.filled for layer in layers]
    tops, shift = [], 0.0
    for ring in rings:
        shift = read[ring.number].value - (ring.top - plan.stack.bottom) if ring.number in read else shift
        tops.append(ring.top + shift)
    left, at = least_left(plan.section, rings, tops)
    sanding = plan.job.gauges.sanding_allowance
    following = next((ring for ring in rings if ring.number == last + 1), None)
    high = "high" if off.value > 0 else "low"
    told = (*told, Quantity("left", f"Least wood left, in ring {at}", left, "calliper"))
    if left > sanding:
        yield Advice(f"{TOPIC}.stack", TOPIC, "correct", told, sentences(
            f"The stack is {words.rule(abs(off.value))} too {high} at the top of ring {last}; {words.fine(left)} of "
            f"wood is left, in ring {at}.",
            _next(following.number, following.height - off.value, following.height, words) if following else "",
        ))  # fmt: skip
        return
    by, raised = best_raise(plan.section, rings, tops, MOST_RAISED)
    if raised > sanding:
        way = "higher" if by > 0 else "lower"
        says = (
            f"The stack is {words.rule(abs(off.value))} too {high} at ring {last}, and ring {at} no longer holds the "
            "wall.",
            f"Turn the whole vessel {words.rule(abs(by))} {way} in it: {words.fine(raised)} of wood is left then. Set "
            "the gauges' rail by as much.",
        )
        found = (*told, Quantity("raise", "Vessel higher in the stack by", by, "calliper"))
        yield Advice(f"{TOPIC}.stack", TOPIC, "correct", found, says)
        return
    says = (
        f"The stack is {words.rule(abs(off.value))} too {high} at ring {last}: ring {at} lacks "
        f"{words.fine(sanding - left)} of wood, wherever the vessel is turned in it.",
        "Take the rings off down to the one that errs, or draw the profile anew for these heights.",
    )
    yield Advice(f"{TOPIC}.stack", TOPIC, "short", told, says)


def _next(number: int, height: float, planned: float, words: Words) -> str:
    if height > planned:
        return (
            f"Ring {number} would have to be {words.rule(height)} high, planned {words.rule(planned)}: if it is "
            "flattened already, go on; every joint above lies lower by as much."
        )
    return (
        f"Flatten ring {number} to {words.rule(height)} instead of {words.rule(planned)}: every joint above it then "
        "lies as planned."
    )


def _stations(plan: VesselPlan, work: Work) -> Iterator[Advice]:
    """Diameters as turned: what is over is turned off, what is under is lost from the wall."""
    readings, words = plan.job.readings, Words(plan.job.unit)
    over: list[str] = []
    under: list[str] = []
    told = []
    for id, box in boxes(work.operations).items():
        read = readings.length(id) if id.startswith(STATIONS) else None
        if read is None or box.planned is None or isinstance(box.planned.value, str):
            continue
        off = read.value - box.planned.value
        told.append(Quantity(box.id, f"{box.label}, over its size", off, "calliper"))
        if abs(off) > read.accuracy:
            (over if off > 0 else under).append(f"{box.label} by {words.fine(abs(off))}")
    if not told:
        return
    verdict: Verdict = "correct" if over or under else "right"
    says = sentences(
        f"Over its size: {listed(over)}. Turn it off." if over else "",
        f"Under its size: {listed(under)}. The wall there loses half of that if you hollow by the gauge: go by the "
        "wall calliper at that height."
        if under
        else "",
        "" if over or under else "All stations have their size, as well as you can measure.",
    )
    yield Advice(f"{TOPIC}.stations", TOPIC, verdict, tuple(told), says)


def _wall(plan: VesselPlan) -> Iterator[Advice]:
    """Round the rim: whether inside and outside have one axis."""
    words = Words(plan.job.unit)
    read = [one for one in plan.job.readings.each(WALL) if one is not None]
    if not read:
        return
    walls = np.array([one.value for one in read])
    told = (
        Quantity("least", "Thinnest", float(walls.min()), "calliper"),
        Quantity("spread", "from thinnest to thickest", float(np.ptp(walls)), "calliper"),
    )
    if len(walls) != COUNT:
        says: tuple[str, ...] = (f"Read the wall at {COUNT} equal angles at one height.",)
        yield Advice(f"{TOPIC}.wall", TOPIC, "unclear", told, says)
        return
    first = harmonic(walls, 1)
    if first.amplitude <= first.accuracy(read[0].accuracy):
        says = (f"The wall is even to {words.fine(float(np.ptp(walls)))}: leave it.",)
        yield Advice(f"{TOPIC}.wall", TOPIC, "right", told, says)
        return
    place = round(first.angle % (2 * np.pi) / (2 * np.pi / COUNT)) % COUNT + 1
    says = (
        f"The inside is {words.fine(first.amplitude)} off the outside's axis: the wall is thickest at reading {place}.",
        f"Sand the outside there by up to {words.fine(2 * first.amplitude)}, running out to nothing half round; the "
        f"thinnest place, {words.fine(float(walls.min()))}, stays.",
    )
    yield Advice(
        f"{TOPIC}.wall",
        TOPIC,
        "correct",
        (*told, Quantity("off", "Off the axis by", first.amplitude, "calliper")),
        says,
    )
