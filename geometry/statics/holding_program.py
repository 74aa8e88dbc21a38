"""The linear programs behind `geometry.statics.holding`.

Rows, for each piece: force, and moment about one middle over the reach, so that all are newtons. Columns: what each
contact presses with, then what is left of each limit.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property, lru_cache
from math import cos, inf, pi, sin
from typing import TYPE_CHECKING

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.statics.contacts import Contact
from geometry.statics.simplex import Corners, balanced, most_of

if TYPE_CHECKING:
    from geometry.statics.contacts import Clamp, Load, Pin, Vector

_SIDES = 8  # of the pyramid inside a cone of friction
_MOST = 1e5  # N: what is held against this is held against anything
_STIRS = 1e-7  # of the clamps' forces, left unbalanced, by which they move the piece


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
        self._centre, self._reach = centre.tolist(), reach
        self._bodies = 1 + max((c.body for c in contacts), default=0)
        firm = [(c, _own(c, friction)) for c in contacts]
        firm += [(Contact(c.place, c.direction), 0.0) for c in clamps if not (c.gives or friction)]
        pressed = [self._touch(c, n) for c, f in firm for n in _edges(c.normal, f)]
        pressing = sum(
            (c.force * self._wrench(c.place, _unit(c.direction)) for c in clamps),
            start=np.zeros(6 * self._bodies),
        )
        limited = [(_drag(c, _own(c, friction)), _rubs(c)) for c in clamps] if friction else []
        limited += [([(pin.place, t) for t in _across((0.0, 0.0, 1.0))], pin.most) for pin in pins]
        columns = [*pressed, *(self._wrench(p, d) for ways, _ in limited for p, d in ways)]
        self._columns = np.array(columns).reshape(-1, 6 * self._bodies).T
        self._right = -pressing
        firsts = range(len(pressed), len(columns), _SIDES)
        self._limits = [
            (first, max(0.0, most)) for first, (_, most) in zip(firsts, limited, strict=True) if most < inf
        ]

    def _wrench(self, place: Vector, direction: Sequence[float] | FloatArray, body: int = 0) -> FloatArray:
        """Six numbers for each body, zeros for all but this one."""
        x, y, z = ((at - middle) / self._reach for at, middle in zip(place, self._centre, strict=True))
        a, b, c = map(float, direction)
        wrench = np.zeros(6 * self._bodies)
        wrench[6 * body : 6 * body + 6] = [
            *(a, b, c),
            *(y * c - z * b, z * a - x * c, x * b - y * a),  # the arm crossed with the force
        ]
        return wrench

    def _touch(self, contact: Contact, direction: FloatArray) -> FloatArray:
        """What a contact does to the piece, and back to the one that touches it."""
        wrench = self._wrench(contact.place, direction, contact.body)
        return wrench if contact.on is None else wrench - self._wrench(contact.place, direction, contact.on)

    def _load(self, load: Load) -> FloatArray:
        wrench = self._wrench(load.place, load.direction)
        return wrench if load.also is None else wrench + self._wrench(*load.also)

    @cached_property
    def _balanced(self) -> Corners:
        right = np.concatenate([self._right, [most for _, most in self._limits]])
        return balanced(self._limited, right, len(self._limits))

    @cached_property
    def _limited(self) -> FloatArray:
        """The columns, each with the limit that it counts towards, and what is left of each limit."""
        rows, count = self._columns.shape
        limits = np.zeros((len(self._limits), count + len(self._limits)))
        for i, (first, _) in enumerate(self._limits):
            limits[i, first : first + _SIDES] = 1.0
            limits[i, count + i] = 1.0
        left = np.zeros((rows, len(self._limits)))
        return np.vstack([np.hstack([self._columns, left]), limits])

    def stirred(self) -> bool:
        """Whether the clamps alone move the piece."""
        return self._balanced.lack > _STIRS * float(np.abs(self._right).sum())

    def strengths(self, loads: Sequence[Load]) -> list[float]:
        """The most of each load (N of cutting force) that is balanced; infinite where nothing moves the piece."""
        asked = np.zeros((len(loads), len(self._limited)))
        asked[:, : len(self._right)] = [self._load(load) for load in loads]
        found = most_of(self._limited, self._balanced, asked, _MOST)
        return [max(0.0, float(one)) for one in found]

    def start(self, load: Load | None, force: float) -> FloatArray:
        """How the piece starts to move under the clamps and a load: velocity of the middle, and turning times reach.

        It goes as what is left of the forces when the contacts have taken all they can: Gauss's principle of least
        constraint, for a body whose radius of gyration is its reach.
        """
        pushed = -self._right
        if load is not None:
            pushed = pushed + force * self._load(load)
        return pushed + self._columns @ non_negative(self._columns, -pushed)


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
def _edges(normal: Vector, friction: float) -> tuple[FloatArray, ...]:
    """Of the cone of what a contact can press with."""
    n = _unit(normal)
    return tuple(n + friction * t for t in _across(normal)) if friction else (n,)


def _rubs(clamp: Clamp) -> float:
    """Of its force, what friction under it goes by."""
    return clamp.force if clamp.rubs is None else clamp.rubs


def _drag(clamp: Clamp, friction: float) -> list[tuple[Vector, FloatArray]]:
    """What friction under a clamp can do, for each newton of its force."""
    return [(clamp.place, friction * t) for t in _across(clamp.direction)]
