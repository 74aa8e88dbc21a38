"""The linear programs behind `geometry.statics.holding`; the module that has their solver (HiGHS, MIT).

Rows, for each piece: force, and moment about one middle over the reach, so that all are newtons. Columns: what each
contact presses with, then the load.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import cos, inf, pi, sin
from typing import TYPE_CHECKING

import highspy
import numpy as np

from geometry.plane.arcs import FloatArray
from geometry.statics.holding import Contact
from geometry.statics.silent import silent_solver

if TYPE_CHECKING:
    from geometry.statics.holding import Clamp, Load, Pin, Vector

_SIDES = 8  # of the pyramid inside a cone of friction
_MOST = 1e5  # N: what is held against this is held against anything
_STIRS = (
    1e-7  # of the clamps' forces, left unbalanced, by which they move the piece: the solver's own tolerance
)
_FREE = highspy.kHighsInf
# What else the solver does takes as long as such small programs themselves, and all their numbers are of one size.
_OPTIONS: dict[str, str | int] = {
    "presolve": "off",
    "simplex_scale_strategy": 0,
    "simplex_dual_edge_weight_strategy": 0,
}


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
        self._limits = [most for _, most in limited]
        self._pressed = len(pressed)

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

    def stirred(self) -> bool:
        """Whether the clamps alone move the piece."""
        scale = float(np.abs(self._right).sum())
        eye = np.eye(6 * self._bodies)
        solver = self._solved(np.hstack([eye, -eye])[None], np.ones(12 * self._bodies))
        return bool(solver.getInfo().objective_function_value > _STIRS * scale)

    def strengths(self, loads: Sequence[Load]) -> list[float]:
        """The most of each load (N of cutting force) that is balanced; 0 where the clamps alone are not."""
        blocks = np.array([self._wrench(load.place, load.direction) for load in loads])
        solver = self._solved(blocks[:, :, None], np.array([-1.0]), _MOST)
        if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return [0.0] * len(loads)
        most = np.array(solver.getSolution().col_value)[-len(loads) :]
        return [inf if one >= _MOST * (1 - 1e-6) else max(0.0, float(one)) for one in most]

    def start(self, load: Load | None, force: float) -> FloatArray:
        """How the piece starts to move under the clamps and a load: velocity of the middle, and turning times reach.

        It goes as what is left of the forces when the contacts have taken all they can: Gauss's principle of least
        constraint, for a body whose radius of gyration is its reach.
        """
        pushed = -self._right
        if load is not None:
            pushed = pushed + force * self._wrench(load.place, load.direction)
        return pushed + self._columns @ non_negative(self._columns, -pushed)

    def _solved(self, blocks: FloatArray, cost: FloatArray, most: float = _FREE) -> highspy.Highs:
        """One program of many that know nothing of each other: the contacts with each block's own columns, which
        alone cost something."""
        limits = np.zeros((len(self._limits), self._columns.shape[1]))
        for i in range(len(self._limits)):
            start = self._pressed + i * _SIDES
            limits[i, start : start + _SIDES] = 1.0
        solver = silent_solver()
        for option, value in _OPTIONS.items():
            solver.setOptionValue(option, value)
        shared = np.vstack([self._columns, limits])
        _pass(solver, shared, blocks, self._right, np.array(self._limits), cost, most)
        solver.run()
        return solver


def _pass(
    solver: highspy.Highs,
    shared: FloatArray,
    blocks: FloatArray,
    right: FloatArray,
    limits: FloatArray,
    cost: FloatArray,
    most: float,
) -> None:
    """Minimize `cost` of each block's own columns (k, rows, own), which come after the shared ones of all blocks.

    The first rows of a block equal `right`, its others stay below `limits`; no column is below 0 and none of the
    costly ones above `most`.
    """
    count, (rows, free), own = len(blocks), shared.shape, len(cost)
    across, down = np.nonzero(shared.T)
    which, own_across, own_down = np.nonzero(blocks.transpose(0, 2, 1))
    each = np.tile(np.bincount(across, minlength=free), count)
    own_each = np.bincount(which * own + own_across, minlength=count * own)
    repeated = down + rows * np.arange(count)[:, None]
    values = np.concatenate([np.tile(shared[down, across], count), blocks[which, own_down, own_across]])
    solver.passModel(  # arrays as they are: the fields of a model are filled number by number
        count * (free + own),
        count * rows,
        len(values),
        int(highspy.MatrixFormat.kColwise),
        int(highspy.ObjSense.kMinimize),
        0.0,
        np.concatenate([np.zeros(count * free), np.tile(cost, count)]),
        np.zeros(count * (free + own)),
        np.concatenate([np.full(count * free, _FREE), np.full(count * own, most)]),
        np.tile(np.concatenate([right, np.full(len(limits), -_FREE)]), count),
        np.tile(np.concatenate([right, limits]), count),
        np.concatenate([[0], np.cumsum(np.concatenate([each, own_each]))]),
        np.concatenate([repeated.ravel(), own_down + rows * which]),
        values,
        np.zeros(count * (free + own), dtype=np.int32),  # none of them is a whole number
    )


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
