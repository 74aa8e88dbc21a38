"""Candidates tried as the job file would have them: read, solved, every jig drawn. Only what passes is named."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from math import ceil
from pathlib import Path
from typing import Literal

from geometry.blanks.sawing import included_angle_error
from jigs.asked.change import Changes, changed
from jigs.asked.job import TorusJob
from jigs.asked.jobfile import job_of
from jigs.asked.toml_source import Source
from jigs.compare.ranked import Ranked
from jigs.compare.wish import PIECES, By, Wish
from jigs.forms.solve import solve
from jigs.forms.torus.plan import TorusPlan
from jigs.forms.work import work
from jigs.sets.proof import draw
from jigs.words.lengths import Unit
from jigs.words.quantity import Quantity, calliper, ruled

MOST_TRIALS = 40
FIGURE: Mapping[By, str] = {"wood": "taken", "cuts": "cuts", "time": "work", "gap": "gap", "piece": "piece"}
SAME = 0.02  # mm


@dataclass(frozen=True)
class Compared:
    """One way to build the torus. `changes` is nothing for the job as it is."""

    changes: Changes
    figures: tuple[Quantity, ...]


def compared(source: Source, path: Path, job: TorusJob, found: Ranked, wish: Wish) -> list[Compared]:
    """The best of those that pass, in order: twice as many as are wanted are tried, for estimates are not figures."""
    passed: list[Compared] = []
    for changes in islice(_changes(found, job), MOST_TRIALS):
        if len(passed) == 2 * wish.best:
            break
        one = tried(source, path, changes, wish)
        passed += [one] if one else []
    passed.sort(key=lambda one: _figure(one, wish.by))
    return passed[: wish.best]


def _figure(one: Compared, by: By) -> float:
    """What is ordered by; less is better."""
    value = next(figure.value for figure in one.figures if figure.id == FIGURE[by])
    assert not isinstance(value, str)
    return -value if by == "piece" else value


def tried(source: Source, path: Path, changes: Changes, wish: Wish) -> Compared | None:
    """A job with changes, or None where it is refused."""
    try:
        plan = solve(job_of(changed(source, changes), path))
        if not isinstance(plan, TorusPlan):
            return None
        return Compared(changes, tuple(figures(plan, wish)))
    except Exception:  # refused; and what breaks the tool is none that anybody is offered
        return None


def figures(plan: TorusPlan, wish: Wish) -> Iterator[Quantity]:
    """What is set side by side. Raises Refused where a jig cannot be drawn."""
    proof = draw(plan)
    told = work(plan, proof.parts, proof.notes)
    facts = {fact.id: fact for fact in told.facts}
    blank, classes = plan.blank, plan.wood.classes
    yield Quantity("wedge-rings", "Wedge rings", blank.wedge_rings, "count")
    yield Quantity("segments", "Segments in a ring", blank.segments, "count")
    yield ruled("board", "Board, as planed", plan.segment.depth)
    yield ruled("core", "Core, across flats", 2 * blank.core_apothem)
    if plan.job.layup:
        yield Quantity("mirrored", "Layup mirrored", plan.job.layup.mirrored, "text")
    yield Quantity("cuts", "Cuts on the sleds", _cuts(plan), "count")
    yield calliper("piece", "Smallest edge held", min(plan.segment.outer_edge, blank.thin_edge))
    yield ruled("segment-height", "Blade above the table, segments", _blade_height(plan, "mitre"))
    yield ruled("ring-height", "Blade above the table, rings", _blade_height(plan, "wedge"))
    yield calliper("gap", "Last joint may open", included_angle_error(blank, wish.saw_error))
    yield Quantity("used", "Wood in the blank", blank.volume, "timber")
    taken = [*(one.volumes.stock for one in classes), *(layup.volumes.stock for layup in plan.layups)]
    yield Quantity("taken", "Boards and plies taken", sum(taken), "timber")
    yield Quantity("bought", "Boards bought", sum(one.least for one in classes), "count")
    yield facts["work"]
    yield facts["days"]


def _blade_height(plan: TorusPlan, cut: Literal["mitre", "wedge"]) -> float:
    """What the saw has to give, as the book sets it: the sled's base and what stands above the wood counted."""
    step = next(step for step in plan.wood.steps if step.work == cut)
    height = next(setting.value for setting in step.settings if setting.id == "blade-height")
    assert isinstance(height, float)
    return height


def _cuts(plan: TorusPlan) -> int:
    parts = PIECES[plan.job.layup.mirrored] if plan.job.layup else 1
    return plan.segments_total * (1 + parts if parts > 1 else 1) + 2 * plan.blank.wedge_rings


def _changes(found: Ranked, job: TorusJob) -> Iterator[Changes]:
    """As they would be typed; what the job has already is left out, and none comes twice."""
    form, many = job.form, found.found
    own: str = job.layup.mirrored if job.layup else ""
    known = {(form.wedge_rings, form.segments, form.core_opening, own)}
    for k, mirrored in enumerate(found.mirrored):
        core = 2 * float(many.core[k])
        same = abs(core - form.core_opening) < SAME
        counts = int(many.wedge_rings[k]), int(many.segments[k])
        key = (*counts, form.core_opening if same else round(core, 2), mirrored)
        if key in known:
            continue
        known.add(key)
        changes: dict[str, object] = dict(zip(("form.wedge_rings", "form.segments"), counts, strict=True))
        if not same:
            changes["form.core_opening"] = _typed(core, job.unit)
        if mirrored != own:
            changes["layup.mirrored"] = mirrored
        yield changes


def _typed(core: float, unit: Unit) -> float | str:
    """Rounded up, so that no board is asked to be thicker than it is."""
    size = ceil(core * 100 - 1e-6) / 100
    return size if unit == "mm" else f"{size:g} mm"
