"""Whether each wedge ring is held to its sled: room for the draw rod and its plug and for the wedge's peg, and
the statics of both cuts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil, floor

import numpy as np

from geometry.hardware.draw_rod import METAL_CLEAR
from geometry.hardware.fittings import LEAST_CORE
from geometry.hardware.wedge_peg import LEAST_DEPTH, PEG_FLOOR
from geometry.records import replace
from geometry.statics.contacts import Vector
from geometry.statics.holding import Holding
from jigs.asked.job import TorusJob
from jigs.stages.blank.size import solve_blank, wall
from jigs.stages.held.statics.rings import DIRECTIONS
from jigs.stages.wedge_rings.layout.sled import SledBody
from jigs.stages.wedge_rings.sled import end_wedge_thinner, solve_rings_held, solve_sled
from jigs.words.findings import Finding
from jigs.words.lengths import Unit, force_texts

CUTS = ("in cut 1", "in cut 2", "in cut 2, with the end wedge,")  # as a plan lists their holdings


def rod_findings(job: TorusJob, sled: SledBody, bare: bool = False) -> Iterator[Finding]:
    """Room for the rod and its plug; if `bare` without looking for what would do."""
    rod, show = sled.rod, job.show
    if rod.fits:
        return
    if rod.core < rod.fittings.smallest_core:
        yield job.finding(
            "core-too-small-to-hold",
            f"a core {show(rod.core)} across has no room for the rod that holds the ring to the sled's fence; "
            f"it needs {show(rod.fittings.smallest_core)}",
            key="form.core_opening",
            remedy=("" if bare else _larger_core(job)) or "use a thicker tube, and a core as wide as that",
            wants={"form.core_opening": rod.fittings.smallest_core},
        )
        return
    middle = (sled.cut.thick_edge + sled.cut.thin_edge) / 2
    short = (
        f"a ring {show(middle)} long at its middle is too short to hold: the rod that holds it to the sled's fence "
        f"ends {show(METAL_CLEAR)} from the cut; that leaves its plug {show(max(0.0, rod.rubber))} of the core, and "
        f"it needs {show(rod.least_rubber)}"
    )
    if smaller := "use a smaller core" if bare else _smaller_core(job):
        yield job.finding("core-too-large-to-hold", short, key="form.core_opening", remedy=smaller)
        return
    yield job.finding(
        "ring-too-short-to-hold", short, key="form.wedge_rings", remedy="" if bare else _fewer_rings(job)
    )


def peg_findings(job: TorusJob, sled: SledBody, bare: bool = False) -> Iterator[Finding]:
    """Room for the peg that holds the wedge stack to the fence; if `bare` without looking for what would do."""
    if not sled.rod.fits or _pegged(job, sled):
        return
    peg, show = sled.peg, job.show
    if peg is None:
        why = "the bore for the draw rod leaves no room for it in the wedge"
    else:
        thick, least = peg.thickness(end_wedge_thinner(job, sled)), LEAST_DEPTH + PEG_FLOOR
        why = f"the wedge is {show(thick)} thick where it would stand, and it needs {show(least)}"
    yield job.finding(
        "wedge-not-pegged",
        "in cut 2 on the sled a peg in the fence keeps the ring from squeezing the wedge out towards the apex; "
        f"{why}",
        key="form.clean_up",
        remedy="" if bare else _more_clean_up(job, sled) or _fewer_rings(job),
    )


def _pegged(job: TorusJob, sled: SledBody) -> bool:
    """Whether the peg has room in every wedge."""
    return sled.peg is not None and sled.peg.fits(end_wedge_thinner(job, sled))


def _more_clean_up(job: TorusJob, sled: SledBody) -> str:
    """The clean-up that makes the wedge thick enough for its peg; "" where that does not do."""
    if sled.peg is None:
        return ""
    short = LEAST_DEPTH + PEG_FLOOR - sled.peg.thickness(end_wedge_thinner(job, sled))
    for more in (short, short + 1):
        wanted = ceil(2 * (sled.cut.wedge_at_stop + more)) / 2
        if _held(replace(job, form=replace(job.form, clean_up=wanted))):
            return f"use a clean_up of at least {job.at_least(wanted)}"
    return ""


def ring_findings(job: TorusJob, holdings: Sequence[Holding], bare: bool = False) -> list[Finding]:
    """The ring in every cut; if `bare` without looking for what would do."""
    if all(holding.held for holding in holdings):
        return []
    cut, worst = min(zip(CUTS, holdings, strict=False), key=lambda each: each[1].strength)
    return [
        job.finding(
            "ring-not-held",
            f"{cut} on the sled the ring {told(worst, DIRECTIONS, job.unit)}",
            key="form.wedge_rings",
            remedy="" if bare else _fewer_rings(job),
        )
    ]


def _larger_core(job: TorusJob) -> str:
    """The least core for a rod that can be held; "" without one."""
    for core in (LEAST_CORE[bolt] for bolt in job.fittings.rods):
        if core > job.form.core_opening and _held(replace(job, form=replace(job.form, core_opening=core))):
            return f"use a core_opening of at least {job.at_least(core)}"
    return ""


def _smaller_core(job: TorusJob) -> str:
    """The largest core with which the ring is held, where that is not less than half of what was asked for."""
    now = floor(2 * job.form.core_opening) / 2
    for core in np.arange(now, max(job.fittings.smallest_core, now / 2) - 1e-9, -0.5).tolist():
        if _held(replace(job, form=replace(job.form, core_opening=core))):
            return f"use a core_opening of at most {job.at_most(core)}"
    return ""


def _fewer_rings(job: TorusJob) -> str:
    """The most wedge rings with which the ring is held."""
    for rings in range(job.form.wedge_rings - 2, 4, -2):
        if _held(replace(job, form=replace(job.form, wedge_rings=rings))):
            return f"use at most {rings} wedge rings"
    return "use a larger hole"


def _held(job: TorusJob) -> bool:
    """Whether a job's rings are held, and keep wall and edge."""
    blank = solve_blank(job)
    sled = solve_sled(job, blank)
    return (
        sled.rod.fits
        and _pegged(job, sled)
        and blank.thin_edge >= job.form.least_thin_edge
        and wall(job, blank) >= job.form.least_wall
        and all(holding.held for holding in solve_rings_held(job, sled))
    )


_PART = 0.5  # of a motion that is worth a word


def told(holding: Holding, ways: Mapping[str, Vector], unit: Unit = "mm") -> str:
    """What moves the piece and how, as the end of "the piece ...". `ways` are directions by what they are called."""
    if holding.worst is None:
        return f"is moved by its clamps alone: it {_moves(holding, ways)}"
    stands, pushed = force_texts(holding.strength, holding.force, unit)
    return (
        f"is held against {stands}, and the saw may push with {pushed}: "
        f"{holding.worst.what}, it {_moves(holding, ways)}"
    )


def _moves(holding: Holding, ways: Mapping[str, Vector]) -> str:
    motion = holding.motion
    if motion is None:
        return "moves"
    if motion.kind == "slides":
        return f"slides {_way(motion.direction, ways)}"
    if holding.worst is None:
        return "turns"
    return f"turns, and goes {_way(motion.at(holding.worst.place), ways)} there"


def _way(direction: Vector, ways: Mapping[str, Vector]) -> str:
    """The one or two named ways that a direction goes most."""
    unit = np.array(direction) / max(1e-12, float(np.linalg.norm(direction)))
    shares = sorted(((float(unit @ np.array(way)), name) for name, way in ways.items()), reverse=True)
    return " and ".join(name for share, name in shares[:2] if share > _PART) or shares[0][1]
