"""The linear programs behind `geometry.statics.holding`.

Rows, for each piece: force, and moment about one middle over the reach, so that all are newtons; the last, how much of
all that is limited is used up. Columns: what each contact presses with; and all that is limited at once, each one way.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache
from math import cos, inf, pi, sin
from typing import TYPE_CHECKING

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.statics.contacts import Contact
from geometry.statics.simplex import Columns, Corners, balanced, most_of

if TYPE_CHECKING:
    from geometry.statics.contacts import Clamp, Load, Pin, Vector

Push = tuple["Vector", "Sequence[float]"]  # a place and a direction
_UP = (0.0, 0.0, 1.0)
_SIDES = 8  # of the pyramid inside a cone of friction
_MOST = 1e5  # N: what is held against this is held against anything
_STIRS = 1e-7  # of what presses and what is limited, left unbalanced, by which the clamps move the piece


class Program:
    """Contacts and clamps of one piece, asked for one load after another."""

    def __init__(
        self,
        contacts: Sequence[Contact],
        clamps: Sequence[Clamp],
        friction: float,
        centre: FloatArray,
        reach: float,
        pins: Sequence[Pin] = (),
    ) -> None:
        self._centre, self._reach = centre, reach
        self._bodies = 1 + max((c.body for c in contacts), default=0)
        firm = [(c, _own(c, friction)) for c in contacts]
        firm += [(Contact(c.place, c.direction), 0.0) for c in clamps if not (c.gives or friction)]
        touching = [(c, (c.place, way)) for c, own in firm for way in _edges(c.normal, own)]
        unlimited = [Contact(pin.place, _UP) for pin in pins if pin.most == inf]
        touching += [(c, (c.place, way)) for c in unlimited for way in _drag(_UP, 1.0)]
        pressed = self._wrenches([push for _, push in touching], [c.body for c, _ in touching])
        back = [(k, push, c.on) for k, (c, push) in enumerate(touching) if c.on is not None]
        pressed[[k for k, *_ in back]] -= self._wrenches(
            [push for _, push, _ in back], [on for *_, on in back]
        )
        limited = [(c.place, _drag(c.direction, _own(c, friction)), _rubs(c)) for c in clamps if friction]
        limited += [(pin.place, _drag(_UP, 1.0), pin.most) for pin in pins if pin.most < inf]
        total = sum(max(0.0, most) for *_, most in limited)
        self._columns = Columns(pressed.T, self._mixed(limited, total or 1.0))
        forces = np.array([c.force for c in clamps]).reshape(-1, 1)
        pressing = self._wrenches([(c.place, _edges(c.direction, 0.0)[0]) for c in clamps])
        self._right = -(forces * pressing).sum(axis=0)
        self._right[-1] = total

    def _mixed(
        self, limited: Sequence[tuple[Vector, Sequence[list[float]], float]], total: float
    ) -> FloatArray:
        """(m, sides, rows): what each can do, every way, for its share of the total. Ways go all round, so that mixed
        they can also do nothing."""
        found = self._wrenches([(place, way) for place, ways, _ in limited for way in ways])
        found[:, -1] = 1.0
        shares = np.array([max(0.0, most) / total for *_, most in limited])
        return np.asarray(found.reshape(len(limited), _SIDES, found.shape[1]) * shares[:, None, None])

    def _wrenches(self, pushes: Sequence[Push], body: int | Sequence[int] = 0) -> FloatArray:
        """(n, rows): six numbers for each place and direction, zeros for all bodies but its own."""
        places, ways = np.array(pushes, dtype=np.float64).reshape(-1, 2, 3).swapaxes(0, 1)
        (x, y, z), (a, b, c) = ((places - self._centre) / self._reach).T, ways.T
        found = np.zeros((len(pushes), 6 * self._bodies + 1))
        arm = (y * c - z * b, z * a - x * c, x * b - y * a)  # crossed with the force
        of_bodies = found[:, :-1].reshape(len(pushes), self._bodies, 6)
        of_bodies[np.arange(len(pushes)), body] = np.column_stack((a, b, c, *arm))
        return found

    def _loads(self, loads: Sequence[Load]) -> FloatArray:
        """(k, rows)."""
        found = self._wrenches([(load.place, load.direction) for load in loads])
        both = [k for k, load in enumerate(loads) if load.also]
        found[both] += self._wrenches([load.also for load in loads if load.also])
        return found

    @cached_property
    def _balanced(self) -> Corners:
        return balanced(self._columns, self._right)

    def stirred(self) -> bool:
        """Whether the clamps alone move the piece."""
        return self._balanced.lack > _STIRS * float(np.abs(self._right).sum())

    def strengths(self, loads: Sequence[Load]) -> list[float]:
        """The most of each load (N of cutting force) that is balanced; infinite where nothing moves the piece."""
        found = most_of(self._columns, self._balanced, self._loads(loads), _MOST)
        return [max(0.0, float(one)) for one in found]

    def start(self, load: Load | None, force: float) -> FloatArray:
        """How the piece starts to move under the clamps and a load: velocity of the middle, and turning times reach.

        It goes as what is left of the forces when the contacts have taken all they can: Gauss's principle of least
        constraint, for a body whose radius of gyration is its reach.
        """
        pushed = -self._right
        if load is not None:
            pushed = pushed + force * self._loads([load])[0]
        pushed, columns = pushed[:-1], self._columns.all[:-1]
        return np.asarray(pushed + columns @ non_negative(columns, -pushed))


def non_negative(matrix: FloatArray, wanted: FloatArray) -> FloatArray:
    """The x, nowhere negative, for which matrix @ x comes nearest to `wanted`.

    The active-set method of Lawson and Hanson, Solving Least Squares Problems, 1974, chapter 23 (from memory).
    """
    x = np.zeros(matrix.shape[1])
    used = np.zeros(matrix.shape[1], dtype=bool)
    for _ in range(10 * matrix.shape[1]):
        gain = np.where(used, -inf, matrix.T @ (wanted - matrix @ x))
        best = int(np.argmax(gain))
        if gain[best] <= 1e-9 * (1.0 + float(np.abs(wanted).max())):
            break
        used[best] = True
        while True:
            trial = np.zeros_like(x)
            trial[used] = np.linalg.lstsq(matrix[:, used], wanted, rcond=None)[0]
            falling = used & (trial <= 0)
            if not falling.any():
                break
            x += float((x[falling] / (x[falling] - trial[falling])).min()) * (trial - x)
            used &= x > 1e-12
        x = trial
    return x


def _own(one: Contact | Clamp, friction: float) -> float:
    """Of one contact or clamp, if friction is counted."""
    return friction if one.friction is None or not friction else one.friction


def _unit(vector: Vector) -> FloatArray:
    array = np.array(vector, dtype=np.float64)
    return np.asarray(array / np.linalg.norm(array), dtype=np.float64)


@lru_cache(maxsize=256)  # most contacts of a piece look the same few ways
def _across(direction: Vector) -> tuple[FloatArray, ...]:
    """Unit vectors all round a direction."""
    along = _unit(direction)
    first = np.cross(along, np.eye(3)[int(np.argmin(np.abs(along)))])
    first /= np.linalg.norm(first)
    second = np.cross(along, first)
    turns = [2 * pi * k / _SIDES for k in range(_SIDES)]
    return tuple(np.asarray(cos(a) * first + sin(a) * second) for a in turns)


@lru_cache(maxsize=256)
def _edges(normal: Vector, friction: float) -> tuple[list[float], ...]:
    """Of the cone of what a contact can press with."""
    n = _unit(normal)
    return tuple((n + friction * t).tolist() for t in _across(normal)) if friction else (n.tolist(),)


def _rubs(clamp: Clamp) -> float:
    """Of its force, what friction under it goes by."""
    return clamp.force if clamp.rubs is None else clamp.rubs


@lru_cache(maxsize=256)
def _drag(direction: Vector, friction: float) -> tuple[list[float], ...]:
    """What friction under a clamp that presses so can do, for each newton of its force."""
    return tuple((friction * t).tolist() for t in _across(direction))
