"""Statics: whether contacts and clamps hold a piece against every force of a cut, friction not counted.

Any right-handed frame, lengths mm, forces N. A piece is held when, for every force, contacts that only push and
clamps that press with their least force balance it; pieces that touch each other are held when all of them are.
That is a linear program for each force (Reuleaux 1876 and Lakshminarayana 1978 on what form closure takes, from
memory).
The forces that can be balanced make a convex set, so what is held against the corners of a cone of forces, at the
ends of where they act, is held against all between.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.records import Record
from geometry.statics.contacts import Clamp, Contact, Load, Pin, Vector
from geometry.statics.holding_program import Program

SIDEWAYS = 1 / 3  # of the cutting force, either way: common practice, no source
# Of the cutting force, least, with which the feed presses wood and teeth together: common practice.
THRUST = 1 / 3
LOW_FRICTION = 0.2  # smooth wood on smooth wood, or on a lining: a low value, common practice
# Wood on abrasive paper, 80 to 120 grit, not worn smooth: 0.4 to 0.5 is common practice, no source.
ABRASIVE = 0.4
# N. Power over blade speed: 2.2 kW at 50 m/s are 44 N, 1.5 kW at 15 m/s are 100 N; the motors are common practice.
CUTTING_FORCE = 100.0
_SAME = 1e-9  # share by which two strengths may differ that are one: the first of such loads is the worst
_TURNS = 0.3  # share of a motion, at the piece's reach, above which it is called a turn


class Motion(Record):
    """How the piece gets away: the velocity of its middle, and its turning over that velocity's time (radians)."""

    velocity: Vector
    turning: Vector
    middle: Vector
    reach: float  # of the farthest place from the middle

    @property
    def kind(self) -> Literal["slides", "turns"]:
        """A slide where hardly anything turns. A piece that turns may also slide along the axis of its turn."""
        rate = float(np.linalg.norm(self.turning))
        slow = rate * self.reach < _TURNS * float(np.linalg.norm(self.velocity))
        return "slides" if slow else "turns"

    @property
    def direction(self) -> Vector:
        """Of the slide, or the axis of the turn (right-handed)."""
        return _vector(_unit(self.velocity if self.kind == "slides" else self.turning))

    @property
    def place(self) -> Vector:
        """On the axis of the turn; the middle where it slides."""
        if self.kind == "slides":
            return self.middle
        turning = np.array(self.turning)
        arm = np.cross(turning, self.velocity) / float(turning @ turning)
        return _vector(np.array(self.middle) + arm)

    def at(self, place: Vector) -> Vector:
        """The velocity of a place on the piece."""
        return _vector(np.array(self.velocity) + np.cross(self.turning, np.subtract(place, self.middle)))


class Holding(Record):
    """What a piece is held against. `worst` is None where the clamps alone already move it.

    `strength` is the largest cutting force (N) that is balanced whatever its direction and place; infinite where no
    force moves the piece.
    """

    strength: float
    force: float  # asked for
    worst: Load | None
    motion: Motion | None  # under the worst load; None where it is held

    @property
    def held(self) -> bool:
        return self.strength >= self.force - 1e-6

    @property
    def margin(self) -> float:
        """How many times the cutting force is held."""
        return self.strength / self.force


def cutting_loads(
    places: Sequence[tuple[str, Vector]], down: Vector, operator: Vector, sideways: float = SIDEWAYS
) -> tuple[Load, ...]:
    """The corners of a saw's cone of forces at each named place of the cut.

    The teeth of a table saw press down near the table and towards the operator at the top of the blade, those of a
    bandsaw down; no tooth cuts unless the feed presses the wood against it. So the force goes from down, with a
    least thrust, to straight towards the operator, and a share of it sideways, either way.
    """
    forces = _cone(down, operator, sideways)
    return tuple(Load(place, force, f"{way}, {where}") for where, place in places for way, force in forces)


@lru_cache(maxsize=64)
def _cone(down: Vector, operator: Vector, sideways: float) -> tuple[tuple[str, Vector], ...]:
    d, o = _unit(down), _unit(operator)
    across = np.cross(o, d)
    mains = (("down", _unit(d + THRUST * o)), ("down and back", _unit(d + o)), ("back", o))
    return tuple((way, _vector(main + side * sideways * across)) for way, main in mains for side in (-1, 1))


def hold(
    contacts: Sequence[Contact],
    clamps: Sequence[Clamp],
    loads: Sequence[Load],
    force: float = CUTTING_FORCE,
    friction: float = 0.0,
    pins: Sequence[Pin] = (),
) -> Holding:
    """The holding of one piece in one cut.

    With `friction`, of contacts and clamps alike, the strength is what friction could add at its best, every clamp
    pressing with its least force; the motion is then None. Contacts and clamps with a friction of their own have that
    instead. Pins take no more than their most either way.
    """

    centre, reach = _middle([c.place for c in contacts] + [c.place for c in clamps] + [p.place for p in pins])
    program = Program(contacts, clamps, friction, centre, reach, pins)
    if program.stirred():
        return Holding(0.0, force, None, _motion(program.start(None, 0.0), centre, reach))
    found = program.strengths(loads)
    strength = min(found)
    worst = next(load for most, load in zip(found, loads, strict=True) if most <= strength * (1 + _SAME))
    if strength >= force or friction:
        return Holding(strength, force, worst, None)
    return Holding(strength, force, worst, _motion(program.start(worst, 2 * strength + 1), centre, reach))


def _middle(places: Sequence[Vector]) -> tuple[FloatArray, float]:
    """The middle of all places and how far the farthest lies from it."""
    points = np.array(places, dtype=np.float64)
    centre = (points.min(axis=0) + points.max(axis=0)) / 2
    return centre, max(1.0, float(np.linalg.norm(points - centre, axis=1).max()))


def _motion(start: FloatArray, centre: FloatArray, reach: float) -> Motion:
    """A velocity of the middle, and a turning times reach, of the piece that is fastest."""
    fastest = max(start.reshape(-1, 6), key=lambda each: float(np.linalg.norm(each)))
    return Motion(_vector(fastest[:3]), _vector(fastest[3:] / reach), _vector(centre), reach)


def _unit(vector: Vector | FloatArray) -> FloatArray:
    array = np.asarray(vector, dtype=np.float64)
    return np.asarray(array / np.linalg.norm(array), dtype=np.float64)


def _vector(array: FloatArray) -> Vector:
    return (float(array[0]), float(array[1]), float(array[2]))
