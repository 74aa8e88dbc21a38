"""Values of a key to try one after another, nearest first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import ceil, floor
from typing import Any, Literal, cast

from geometry.records import Record
from jigs.asked.change import Changes, typed
from jigs.asked.jobfile import AnyJob
from jigs.asked.key import Key
from jigs.asked.keys import KEYS
from jigs.words.lengths import MM_PER_INCH, Unit

Way = Literal["up", "down"]

ALL = {key.path: key for key in KEYS}
# What makes the work safer or sounder is never offered below common practice, which is its default, but for these.
LEAST = {"holding.tool_room": 2.0, "holding.least_flat": 15.0}
SAFE = ("form.least_segment", "form.least_thin_edge", "form.least_wall", "rings.least_face",
        "rings.least_glue", "rings.least_segment", "wall.least", "sled.clear_of_blade", "sled.hands_clear",
        "clamping.clear_of_form", "holding.solid_under", "holding.least_flat", "holding.tool_room",
        "holding.least_overlap", "holding.board_clearance")  # fmt: skip
FARTHEST = 8.0  # times as much, or as little, as the job states is the farthest that is tried
MOST_RUNGS = 600


class Rung(Record):
    """Changes to try; `far` is how far they go from what the job states, 1 for its own size again."""

    changes: Changes
    far: float
    at: float = 0.0  # the value, of a ladder of one key's


def held(job: AnyJob, key: str) -> Any:
    """What holds for a key in a job, lengths in mm, None where the plan decides."""
    table, _, name = key.rpartition(".")
    owner: Any = {**vars(job), **vars(job.workshop)}.get(table)
    return getattr(owner, name, None)


def number_held(job: AnyJob, key: str) -> float | None:
    """What holds for a key where that is one number, or one for all rings; lengths in mm."""
    value = held(job, key)
    if isinstance(value, tuple) and len(set(value)) == 1:
        value = value[0]
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def rungs(job: AnyJob, key: str, way: Way, start: float | None = None) -> list[Rung]:
    """Values of a number, count or length from what holds, or `start`, on towards the end of the key's range."""
    own = ALL[key]
    value = held(job, key) if start is None else start
    if isinstance(value, tuple):
        return _of_list(job.unit, own, value, way)
    if not isinstance(value, int | float) or isinstance(value, bool):
        return []
    return [
        Rung({key: raw}, abs(at - value) / max(abs(value), 1.0), at)
        for at, raw in _values(own, job.unit, float(value), way, start is not None)
    ]


def _values(
    key: Key, unit: Unit, value: float, way: Way, inclusive: bool = False
) -> Iterator[tuple[float, Any]]:
    """Values in mm, and as they are typed."""
    low, high = _ends(key, value)
    if key.kind in ("count", "counts"):
        step: float = 2 if key.even else 1
        as_typed: Callable[[float], Any] = int
    elif key.kind == "number":
        step, as_typed = 0.05 if value < 3 else 1.0, lambda at: round(at, 2)
    else:
        step = _step(value, unit)
        step *= max(1, ceil(max(high - value, value - low) / step / MOST_RUNGS))
        as_typed = lambda at: typed(at, unit)  # noqa: E731
    onward = 1 if way == "up" else -1
    place = floor(value / step + 1e-6) + 1 if way == "up" else ceil(value / step - 1e-6) - 1
    place -= onward if inclusive else 0
    for at in (step * (place + onward * k) for k in range(MOST_RUNGS)):
        if not low - 1e-9 <= at <= high + 1e-9:
            return
        yield at, as_typed(at)


def _ends(key: Key, value: float) -> tuple[float, float]:
    low, high = max(key.least, value / FARTHEST), min(key.most, value * FARTHEST + 20)
    if key.path in SAFE and isinstance(key.default, int | float):
        low = max(low, min(value, LEAST.get(key.path, float(key.default))))
    return low, high


def _step(value: float, unit: Unit) -> float:
    """Of a length: the finer, the smaller it is."""
    if unit == "in":
        return MM_PER_INCH / (64 if value < 6 else 32 if value < 25 else 16)
    return 0.1 if value < 6 else 0.5 if value < 25 else 1.0


def _of_list(unit: Unit, key: Key, values: tuple[Any, ...], way: Way) -> list[Rung]:
    """All entries of a list brought up, or down, to a value, as many as there were; one alone is typed as a number."""
    if not all(isinstance(value, int | float) for value in values) or not values:
        return []
    worst = min(values) if way == "up" else max(values)
    found = []
    for at, raw in _values(key, unit, float(worst), way):
        plain = [raw if (v < at if way == "up" else v > at) else _typed(key, v, unit) for v in values]
        changes = {key.path: plain if len(plain) > 1 else plain[0]}
        found.append(Rung(changes, abs(at - worst) / worst, at))
    return found


def last_rungs(job: AnyJob, key: str, way: Way) -> list[Rung]:
    """The last entry of a list alone brought up, or down."""
    own, values = ALL[key], held(job, key)
    if not isinstance(values, tuple) or len(values) < 2:
        return []
    before, last = [_typed(own, value, job.unit) for value in values[:-1]], values[-1]
    return [
        Rung({key: [*before, raw]}, abs(at - last) / last, at)
        for at, raw in _values(own, job.unit, float(last), way)
    ]


def as_many(job: AnyJob, key: str, raw: object) -> object:
    """A value typed as often as the job has entries for a key: a list stays one."""
    values = held(job, key)
    return [raw] * len(values) if isinstance(values, tuple) and len(values) > 1 else raw


def _typed(key: Key, value: float, unit: Unit) -> Any:
    return int(value) if key.kind == "counts" else typed(value, unit)


def nearest(
    ladder: Sequence[Rung], works: Callable[[Rung], bool], wanted: float | None = None
) -> Rung | None:
    """The first rung that works of a ladder that does from some rung on: by growing strides, then by halves.

    What the check itself worked out comes first, the rung that reaches `wanted`; if that fails, it goes on from there.
    """
    if not ladder:
        return None
    rises, last = ladder[0].at < ladder[-1].at, -1
    if wanted is not None:
        short = [rung.at < wanted - 1e-6 if rises else rung.at > wanted + 1e-6 for rung in ladder]
        if not all(short):
            last = short.index(False)
            if works(ladder[last]):
                return ladder[last]
    at, stride = min(last + 1, len(ladder) - 1), 1
    while not works(ladder[at]):
        if at == len(ladder) - 1:
            return None
        last, at, stride = at, min(at + stride, len(ladder) - 1), stride * 2
    while at - last > 1:
        middle = (last + at) // 2
        last, at = (last, middle) if works(ladder[middle]) else (middle, at)
    return ladder[at]


def own_raw(job: AnyJob, key: str, value: object) -> Any:
    """A mm length as this job's file types it, other values as they are."""
    return typed(cast(float, value), job.unit) if ALL[key].kind in ("length", "heights") else value
