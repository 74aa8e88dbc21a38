"""What may be changed about a job, and how dear that is to the turner."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from geometry.records import Record
from jigs.asked.by_job import by_job
from jigs.asked.change import raw_value
from jigs.asked.jobfile import AnyJob
from jigs.asked.keys import DIAMETERS
from jigs.asked.toml_source import Source
from jigs.remedies.ladder import ALL, Rung, Way, held, rungs
from jigs.words.findings import Finding

if TYPE_CHECKING:  # a job of one form need not load the other's
    from jigs.asked.job import TorusJob
    from jigs.asked.vessel_job import VesselJob

MACHINE = 7.0
SIZE = 3.0  # how much dearer a change is for each time its key's own size
# Dearness of a change by table or key; the first that fits counts. What only the tool decides is cheap, what
# the turner wished dear, and what a machine is dearest: nobody changes a lathe's swing by typing.
DEARNESS: Mapping[str, float] = {
    "form.outer_diameter": 3.0, "form.hole_diameter": 3.0, "form.tube_diameter": 2.5, "form.tube_height": 2.5,
    "form.core_opening": 0.6, "form.ring_across_flats": 0.6, "form.clean_up": 0.6, "form.half_sanding": 0.3,
    "form.lining": 0.5, "form": 1.0,
    "profile": 3.0, "inside": 3.0, "wall.thickness": 2.0, "wall.inner_corner": 0.4, "wall": 1.2,
    "foot": 1.0, "rings.species": 3.0, "rings.base": 3.0, "rings": 1.0, "staves": 1.0, "reversing": 0.6, "layup": 1.5,
    "gauges": 0.3, "cutting": 0.3, "holding": 0.6, "bolts": 0.4, "made": 0.5, "sled": 0.6, "clamping": 0.5,
    "boards": 1.5, "stock": 1.0,
    "saw": MACHINE, "bandsaw": MACHINE, "lathe": MACHINE, "printer": MACHINE, "cutter": MACHINE,
}  # fmt: skip


class View(Record):
    """A refused job as a lever sees it: its file with the changes so far, the job, the finding that is to go."""

    source: Source
    job: AnyJob
    finding: Finding

    def raw(self, key: str) -> Any:
        """What the file states for a key."""
        return raw_value(self.source, key)

    def has(self, key: str) -> bool:
        """Whether the job or its workshop file states a key."""
        return key in self.job.places or self.raw(key) is not None


class Lever(Record):
    """One thing to change: rungs to try for a view, nearest first.

    A steady ladder works from some rung on; of another the first rung that works is taken.
    """

    key: str
    ladder: Callable[[View], Sequence[Rung]]
    way: Way | None = None
    steady: bool = True
    dear: float | None = None

    @property
    def name(self) -> str:
        """Tells levers of a job apart."""
        return f"{self.key} {self.way} {id(self)}"

    @property
    def dearness(self) -> float:
        return dearness(self.key) if self.dear is None else self.dear


def dearness(key: str) -> float:
    """How dear a change of this key is."""
    return DEARNESS.get(key) or DEARNESS.get(key.partition(".")[0], 1.0)


def of_torus(ladder: Callable[[View, TorusJob], Sequence[Rung]]) -> Callable[[View], Sequence[Rung]]:
    """A ladder that no vessel has."""
    return lambda view: by_job(view.job, torus=lambda job: ladder(view, job), vessel=lambda _: ())


def of_vessel(ladder: Callable[[View, VesselJob], Sequence[Rung]]) -> Callable[[View], Sequence[Rung]]:
    """A ladder that no torus has."""
    return lambda view: by_job(view.job, torus=lambda _: (), vessel=lambda job: ladder(view, job))


def up(key: str) -> Lever:
    return Lever(key, lambda view: _along(view, key, "up"), "up")


def down(key: str) -> Lever:
    return Lever(key, lambda view: _along(view, key, "down"), "down")


def up_from(key: str, start: float) -> Lever:
    """Upward from what holds, or where nothing does from a start in mm."""
    return Lever(
        key, lambda view: rungs(view.job, key, "up", start if held(view.job, key) is None else None), "up"
    )


def _along(view: View, key: str, way: Way) -> Sequence[Rung]:
    """Of the three diameters only those that the file states can be changed."""
    stated = key not in DIAMETERS or view.has(key)
    return rungs(view.job, key, way) if stated else []


def one_of(key: str, *values: object, dear: float | None = None) -> Lever:
    """Each of some values."""

    def ladder(view: View) -> Sequence[Rung]:
        return [Rung({key: value}, 0.0) for value in values if value != held(view.job, key)]

    return Lever(key, ladder, None, False, dear)


def without(key: str) -> Lever:
    """The key left out, so that the plan decides, or common practice holds."""

    def ladder(view: View) -> Sequence[Rung]:
        return [Rung({key: None}, 0.0)] if view.raw(key) is not None else []

    return Lever(key, ladder, None, False)


def others_of(key: str) -> Lever:
    """Each other choice of a key."""
    return one_of(key, *(ALL[key].choices or ()))
