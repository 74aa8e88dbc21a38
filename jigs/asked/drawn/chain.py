"""Lines that meet end to end, made one."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from geometry.plane.edges import FloatArray, lengths_of
from jigs.asked.drawn.strokes import MEETS, closed
from jigs.asked.key import Wrong
from jigs.words.lengths import MM_PER_INCH, Unit, fine_length, inch_decimals

_NOTHING = 1e-6  # mm; a shorter edge has no length


def joined(lines: Sequence[FloatArray], unit: Unit = "mm") -> tuple[FloatArray, float]:
    """One open chain (n, 3) of x, y, bulge through all of these, and the widest gap that it closed, mm.

    They may come in any order and direction; ends within MEETS become one point half-way. Raises Wrong where
    three ends meet, some do not meet, or the chain closes.
    """
    loose = list(lines)
    chain, gap = loose.pop(0), 0.0
    while loose:
        at_end, at_start = _meeting(chain[-1], loose), _meeting(chain[0], loose)
        if max(len(at_end), len(at_start)) > 1:
            raise _branch(chain[-1] if len(at_end) > 1 else chain[0], unit)
        if at_end:
            first, second = chain, _towards(loose.pop(at_end[0]), chain[-1])
        elif at_start:
            first, second = backwards(_towards(loose.pop(at_start[0]), chain[0])), chain
        else:
            raise _apart(chain, loose, unit)
        gap = max(gap, _distance(first[-1], second[0]))
        chain = _after(first, second)
    if len(lines) > 1 and _distance(chain[0], chain[-1]) <= MEETS:
        raise closed("line")
    return chain, gap


def backwards(rows: FloatArray) -> FloatArray:
    """The same chain run the other way."""
    bulges = np.append(-rows[-2::-1, 2], 0.0)
    return np.column_stack((rows[::-1, :2], bulges))


def without_empty_edges(rows: FloatArray) -> FloatArray:
    """The rows whose edges have a length, and the last; (1, 3) where nothing has any."""
    kept = lengths_of(np.diff(rows[:, :2], axis=0)) > _NOTHING
    return np.asarray(rows[np.append(kept, True)])


def _meeting(end: FloatArray, lines: Sequence[FloatArray]) -> list[int]:
    return [
        i for i, rows in enumerate(lines) if min(_distance(end, rows[0]), _distance(end, rows[-1])) <= MEETS
    ]


def _towards(rows: FloatArray, start: FloatArray) -> FloatArray:
    """The line run from its end nearest to `start`."""
    return rows if _distance(start, rows[0]) <= _distance(start, rows[-1]) else backwards(rows)


def _after(first: FloatArray, second: FloatArray) -> FloatArray:
    meeting = second[0].copy()
    meeting[:2] = (first[-1, :2] + second[0, :2]) / 2.0
    return np.vstack((first[:-1], meeting, second[1:]))


def _distance(a: FloatArray, b: FloatArray) -> float:
    return math.hypot(a[0] - b[0], a[1] - b[1])


def _place(at: FloatArray, unit: Unit) -> str:
    return (
        f"x {at[0]:.2f}, y {at[1]:.2f}"
        if unit == "mm"
        else ", ".join(
            f"{name} {inch_decimals(along / MM_PER_INCH)}"
            for name, along in zip("xy", at.tolist(), strict=False)
        )
    )


def _branch(at: FloatArray, unit: Unit) -> Wrong:
    message = f"more than two lines meet at {_place(at, unit)} ({unit}, y up)"
    return Wrong("branching-profile", message, "Leave one line through that point, each drawn once")


def _apart(chain: FloatArray, loose: Sequence[FloatArray], unit: Unit) -> Wrong:
    pairs = [(a, b) for a in (chain[0], chain[-1]) for rows in loose for b in (rows[0], rows[-1])]
    a, b = min(pairs, key=lambda pair: _distance(*pair))
    message = (
        f"the lines do not meet end to end: one ends at {_place(a, unit)}, the nearest other end is at "
        f"{_place(b, unit)} ({unit}, y up), {fine_length(_distance(a, b), unit)} away"
    )
    within = f"{MEETS:g} mm" if unit == "mm" else fine_length(MEETS, unit)
    remedy = (
        f"Let ends meet within {within}: trim lines that cross, draw on what falls short. Put all but the profile on "
        "another layer"
    )
    return Wrong("parts-apart", message, remedy)
