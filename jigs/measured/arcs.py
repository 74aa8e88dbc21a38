"""Arcs of a form that is there already: [arc.NAME] with a chord and the height over its middle, or points."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from geometry.measuring.arcs import best_circle, radius_of_arc
from jigs.asked.readings.readings import Readings
from jigs.measured.advice import Advice, Words, estimated
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity

TOPIC = "arc"
PARTS = ("chord", "height", "x", "y")


def names_of(readings: Readings) -> list[str]:
    """The arcs of the file, as they were called."""
    return list(dict.fromkeys(id.split(".")[1] for id in readings.under(f"{TOPIC}.") if id.count(".") > 1))


def arc_advice(readings: Readings, unit: Unit) -> Iterator[Advice]:
    for name in names_of(readings):
        yield _arc(readings, name, Words(unit))


def _arc(readings: Readings, name: str, words: Words) -> Advice:
    id = f"{TOPIC}.{name}"
    chord, height = (readings.length(f"{id}.{part}") for part in ("chord", "height"))
    try:
        if chord is not None and height is not None:
            radius = radius_of_arc(chord, height)
            says: tuple[str, ...] = (f"{name}: radius {words.within(radius)}.",)
            return Advice(id, TOPIC, "right", estimated("radius", "Radius", radius), says)
        return _through(readings, name, words)
    except ValueError as error:
        return Advice(id, TOPIC, "unclear", (), (f"{name}: {error}. Measure a longer arc.",))


def _through(readings: Readings, name: str, words: Words) -> Advice:
    """Raises ValueError for points that have no circle."""
    id = f"{TOPIC}.{name}"
    x, y = ([one for one in readings.each(f"{id}.{axis}") if one is not None] for axis in "xy")
    if len(x) != len(y) or len(x) < 3:
        raise ValueError("give chord and height, or as many x as y, three at least")
    circle = best_circle(np.array([(a.value, b.value) for a, b in zip(x, y, strict=True)]), x[0].accuracy)
    told = (
        *estimated("radius", "Radius", circle.radius),
        Quantity("centre.x", "Middle, x", circle.centre[0], "calliper"),
        Quantity("centre.y", "y", circle.centre[1], "calliper"),
        Quantity("worst", "A point is off it by, at most", circle.worst, "calliper"),
    )
    says = (
        f"{name}: radius {words.within(circle.radius)}; middle at x {words.fine(circle.centre[0])}, y "
        f"{words.fine(circle.centre[1])}; a point is off it by {words.fine(circle.worst)} at most.",
    )
    return Advice(id, TOPIC, "right", told, says)
