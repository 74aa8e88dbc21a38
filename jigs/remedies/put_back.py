"""From a job that passes back to the turner's own, as far as that passes too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from geometry.grouping import gathered
from geometry.records import replace
from jigs.asked.by_job import by_job
from jigs.asked.change import Changes, raw_value, rounded, typed
from jigs.asked.job import TorusJob
from jigs.asked.jobfile import AnyJob
from jigs.asked.keys import DIAMETERS
from jigs.asked.starter import suggested_core
from jigs.asked.vessel_job import VesselJob
from jigs.remedies.ladder import ALL, as_many, own_raw
from jigs.remedies.lessened import Passes, confirmed, last, without_idle
from jigs.remedies.lever import View, dearness
from jigs.remedies.order import of_a_machine
from jigs.remedies.shapes import Rows, points, rows_of
from jigs.remedies.trial import Outcome, Trials

Unit = tuple[str, ...]  # keys that are put back together


def put_back(trials: Trials) -> Changes | None:
    """What of a job in common proportions a refused one needs; None where no such job passes."""
    outcome = trials.outcome({})
    if outcome.job is None:
        return None
    whole = _whole(trials, outcome)
    if whole is None:
        return None
    begins = without_idle(trials, whole)
    ways: tuple[Passes, ...] = (trials.can_be_solved, trials.passes)
    for passes in ways:  # drawing takes long, and mostly tells nothing more
        least = last(begins, _fewer(begins, _units(begins), passes))
        if confirmed(trials, least):
            return least
    return begins


def _whole(trials: Trials, outcome: Outcome) -> Changes | None:
    """The nearest job in common proportions that passes; on other machines only where none does on the turner's."""
    job = outcome.job
    if job is None:
        return None
    view = View(trials.source, job, outcome.findings[0])
    candidates = list(afresh(view))
    machines, sawn = usual_machines(job), all_cut(job)
    for changes in (*candidates, *({**changes, **machines} for changes in candidates if machines)):
        if trials.passes(changes):
            return changes
        if "larger-than-bed" in trials.outcome(changes).codes and trials.passes({**changes, **sawn}):
            return {**changes, **sawn}
    return None


def _units(changes: Changes) -> list[Unit]:
    """The dearest first: they are the first that are tried without."""
    tables = ((key.partition(".")[0], key) for key in changes)
    found = gathered((table if table in WHOLE else key, key) for table, key in tables)
    units = [tuple(keys) for keys in found.values()]
    return sorted(units, key=lambda unit: max(dearness(key) for key in unit), reverse=True)


def _fewer(changes: Changes, units: Sequence[Unit], passes: Passes) -> Iterator[Changes]:
    """The changes without more and more of the units, all of which pass: without all, else half by half."""
    waiting = [units]
    while waiting:
        some = waiting.pop()
        gone = {key for unit in some for key in unit}
        fewer = {key: value for key, value in changes.items() if key not in gone}
        if passes(fewer):
            yield (changes := fewer)
        elif len(some) > 1:
            half = len(some) // 2
            waiting += [some[half:], some[:half]]


# A torus of these proportions passes at any size in SIZES on machines that are large enough; so does a cone.
RINGS, SEGMENTS, LEAST_SHARE, MOST_SHARE = 10, 8, 0.2, 0.25
SIZES = (170.0, 600.0)
OF_THE_SWING = 0.6  # of what the lathe clears, an outer diameter that leaves room for boards and blocks
PROFILE_OF_THE_SWING = 0.8  # of what the lathe clears, a vessel that leaves room for its blank's corners
SLED = 40.0  # mm of blade over the tube's diameter: allowance, ring and sled
WALL, FLOOR, VESSEL_SEGMENTS = 8.0, 8.0, 12
HEIGHTS = (20.0, 23.0)  # of rings: where those of one end at the rim, those of the other do not
CONE = ((50.0, 200.0), (90.0, 220.0))  # least and most of its height and of its mouth
WHOLE = ("profile", "inside", "staves", "layup")  # tables whose keys only make sense together
LEFT_IN = ("title", "name", "unit", "workshop_file", "rings.species", "form.species")


def afresh(view: View) -> Iterator[Changes]:
    """Whole jobs in common proportions, nearest first; the machines' sizes, and what is only a name, as they are."""
    job = view.job
    stated = [
        key for key in (*_stated(view), *_of_the_shop(job)) if key not in LEFT_IN and not of_a_machine(key)
    ]
    usual = {key: None if key.partition(".")[0] in WHOLE else _usual(job, key) for key in stated}
    for shape in by_job(job, torus=lambda own: _tori(view, own), vessel=lambda own: _vessels(view, own)):
        yield {**usual, **shape}


def usual_machines(job: AnyJob) -> Changes:
    """What the file and its workshop file state of machines, each as it is assumed where nobody states it."""
    return {key: value for key in job.places if of_a_machine(key) and (value := _usual(job, key)) is not None}


def all_cut(job: AnyJob) -> Changes:
    """Every jig that is printed, in the file or by common practice, cut from sheet instead."""
    made = {f"made.{name}": process for name, process in job.workshop.made.by_family().items()}
    return {key: "cut" for key, process in made.items() if "print" in (process, ALL[key].default)}


def _stated(view: View) -> list[str]:
    """The keys that the job file itself states."""
    return [key for key in ALL if raw_value(view.source, key) is not None]


def _of_the_shop(job: AnyJob) -> list[str]:
    """The keys that only the workshop file states, and that have a usual value."""
    own = str(job.workshop_source)
    return [key for key, place in job.places.items() if place.file == own and _usual(job, key) is not None]


def _usual(job: AnyJob, key: str) -> Any:
    """A key's default as this job's file types it; None where there is not one value."""
    if key not in ALL:  # a table
        return None
    value = ALL[key].default_in(job.unit)
    if ALL[key].kind == "bed" and isinstance(value, tuple):
        return [typed(float(size), job.unit) for size in value if isinstance(size, float)]
    return None if value is None or isinstance(value, tuple) else own_raw(job, key, value)


def _tori(view: View, job: TorusJob) -> Iterator[Changes]:
    outer, tube = job.form.outer_diameter, job.form.tube_diameter
    workshop = job.workshop
    tallest = max(workshop.saw.blade_height, workshop.bandsaw.height or 0.0) - SLED
    most = min(SIZES[1], OF_THE_SWING * workshop.lathe.swing_over_bed, tallest / LEAST_SHARE)
    wide = min(max(outer, SIZES[0]), max(most, SIZES[0]))
    for size in dict.fromkeys((wide, 250.0, 200.0, SIZES[0])):
        for thick in dict.fromkeys(
            (min(max(tube, LEAST_SHARE * size), MOST_SHARE * size), LEAST_SHARE * size)
        ):
            yield _torus(view, job, size, thick)


def _torus(view: View, job: TorusJob, outer: float, tube: float) -> Changes:
    stated = job.form.tube_height
    high = None if stated is None else stated * tube / job.form.tube_diameter
    sized = replace(job.form, outer_diameter=outer, hole_diameter=outer - 2 * tube, tube_diameter=tube,
                    tube_height=high, wedge_rings=RINGS, segments=SEGMENTS, least_wall=8.0)  # fmt: skip
    lengths = {"form.outer_diameter": outer, "form.tube_diameter": tube,
               "form.core_opening": suggested_core(sized, job.unit),
               **({} if high is None else {"form.tube_height": high})}  # fmt: skip
    changes: dict[str, Any] = {key: typed(rounded(mm, job.unit), job.unit) for key, mm in lengths.items()}
    unstated = {key: None for key in DIAMETERS if key not in changes and view.has(key)}
    return {**changes, **unstated, "form.wedge_rings": RINGS, "form.segments": SEGMENTS}


def _vessels(view: View, job: VesselJob) -> Iterator[Changes]:
    """The profile as it is, then with straight edges, then wider, then a cone; walls and rings as they are common."""
    unit = job.unit
    for shape in _shapes(view, job):
        for height in HEIGHTS:
            lengths = {"wall.thickness": WALL, "wall.floor": FLOOR, "rings.heights": height}
            sizes: dict[str, Any] = {key: typed(rounded(mm, unit), unit) for key, mm in lengths.items()}
            sizes["rings.segments"] = VESSEL_SEGMENTS
            listed = {key: as_many(job, key, sizes[key]) for key in ("rings.heights", "rings.segments")}
            yield {**sizes, **listed, **shape}


def _shapes(view: View, job: VesselJob) -> Iterator[Mapping[str, Any]]:
    """The profile as it is, within the lathe's swing; with straight edges; wider where it is slim; a cone."""
    own = {key: view.raw(key) for key in ALL if key.startswith("profile.") and view.raw(key) is not None}
    yield own
    others = dict.fromkeys(own)
    for key in ("profile.stations", "profile.edges"):
        if rows := rows_of(view, key):
            clears = PROFILE_OF_THE_SWING * job.workshop.lathe.swing_over_bed
            times = min(1.0, clears / max(row[1] for row in rows))
            within = [[row[0], times * row[1], *row[2:]] for row in rows]
            if times < 1:
                yield {**own, key: points(view, key, within)}
            for least in (0.0, CONE[1][0] * 2 / 3):
                straight = [[z, max(across, least)] for z, across, *_ in within]
                yield {**others, "profile.edges": points(view, key, straight)}
    yield {**others, "profile.edges": points(view, "profile.edges", _cone(job))}


def _cone(job: VesselJob) -> Rows:
    """From foot to rim, as high and as wide as the vessel within what is common and what the lathe clears."""
    mouth, height = job.outside.profile.end
    swing = OF_THE_SWING * job.workshop.lathe.swing_over_bed
    sizes = [min(max(size, low), high) for size, (low, high) in zip((height, 2 * mouth), CONE, strict=True)]
    mouth = min(sizes[1], max(swing, CONE[1][0]))
    return [[0.0, max(60.0, 0.7 * mouth)], [sizes[0], mouth]]
