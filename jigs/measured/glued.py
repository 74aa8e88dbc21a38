"""Rings that are glued already, as they were measured: they stay as they are, the others are planned round them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from geometry.measuring.estimate import Estimate
from jigs.asked.readings.readings import Readings

GROWN = "stack."  # a stack's operations, in however many parts the book has them
UP_TO = ".up-to."


@dataclass(frozen=True)
class Glued:
    """Rings 1 to `count` of a vessel, from the foot up. mm, by ring, where they were read."""

    count: int
    tops: Mapping[int, Estimate]  # over the stack's foot


def glued_rings(readings: Readings) -> Glued:
    """Every ring up to the highest one whose top was read; none where nothing was."""
    tops = {}
    for id in readings.under(GROWN):
        read = readings.length(id, "rule")
        if UP_TO in id and read is not None:
            tops[int(id.rpartition(".")[2])] = read
    return Glued(max(tops, default=0), tops)
