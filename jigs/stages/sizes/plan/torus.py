"""The sizes of a torus by stages, and which of them share a gauge."""

from __future__ import annotations

from geometry.bodies.tube import Tube
from geometry.records import Record


class SizeStage(Record):
    """One stage as three sizes. mm."""

    number: int  # from 1, lettered at its step
    label: str  # for people, such as "+1 mm"
    tube: Tube
    outer: float  # radius across the rim
    hole: float  # radius of the hole
    chord: float  # how far short of the hole's wall a flat plate across it stops


class SizesPlan(Record):
    """Width forks and sticks: `groups` are the stages that one fork, and one hole stick, has steps for."""

    plate: float
    stages: tuple[SizeStage, ...]
    groups: tuple[tuple[SizeStage, ...], ...]
    above: float  # the tube's centre, clear of the blank's front
    leg: float  # width of a fork's legs, narrow enough for the hole
