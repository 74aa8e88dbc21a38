"""The peg's hole as drawn in the fence, beside the drawn wedge: room to bore through it, and stack enough there."""

from __future__ import annotations

from math import hypot, tan

from geometry.hardware.fasteners import NUTS
from geometry.hardware.wedge_peg import LEAST_DEPTH, PEG_FLOOR, PEG_WALL
from jigs.asked.job import TorusJob
from jigs.dryfit.bench import OVER, SLACK
from jigs.dryfit.check import Check, counted, near
from jigs.dryfit.draw_rod import WEDGES, fence_drills, peg_drill, rod_in
from jigs.dryfit.files import Files
from jigs.dryfit.plates import Drawn, Drill
from jigs.dryfit.ring import thin_end, wedge_taper


def peg_checks(
    job: TorusJob, files: Files, fence: Drawn, shift: float, stop: float, arms: float
) -> list[Check]:
    """`shift` takes the fence's x to s along the fence, where the stop stands at `stop` and its arms reach so far."""
    peg = peg_drill(fence)
    if peg is None:
        return [counted("sled-fence", "hole of the wedge's peg", 0, 1)]
    rod, _ = fence_drills(fence)
    from_stop, wedges = stop - peg.centre[0] - shift, [files.drawn(n) for n in WEDGES if files.has(n)]
    return [
        near("sled-fence", "hole of the wedge's peg, across", peg.diameter, job.fittings.peg_hole, SLACK),
        Check("sled-fence", "wood under the peg's hole", peg.centre[1] - peg.diameter / 2, PEG_WALL - OVER),
        Check("sled-fence", "from the peg's hole to the gussets", _beside_mortises(job, fence, peg), PEG_WALL - OVER),
        Check("sled-fence", "peg clear of the draw rod's nut", _beside_rod(job, fence, peg), PEG_WALL - OVER),
        Check("sled-fence", "peg nearer to the thick end than the rod", rod.centre[0] - peg.centre[0], 0.0),
        *(check for wedge in wedges for check in _stack_checks(job, wedge, from_stop - arms)),
    ]  # fmt: skip


def _stack_checks(job: TorusJob, wedge: Drawn, along: float) -> list[Check]:
    """The peg, so far along from the thin end, has wood behind its bore and beside it."""
    left, _, right, _ = wedge.outline.bounds
    thick = thin_end(wedge) + along * tan(wedge_taper(wedge))
    return [
        Check(
            wedge.name,
            "wood from its peg to the thick end",
            right - left - along - job.fittings.peg / 2,
            PEG_WALL,
        ),
        Check(wedge.name, "thickness at its peg", thick, LEAST_DEPTH + PEG_FLOOR - OVER),
    ]


def _beside_mortises(job: TorusJob, fence: Drawn, peg: Drill) -> float:
    """From the hole to the nearest gusset, which stands behind the fence from the base up."""
    half = job.workshop.boards.sheet / 2
    middles = [(h.bounds[0] + h.bounds[2]) / 2 for h in fence.holes if not any(e.is_arc for e in h.edges())]
    return min(abs(m - peg.centre[0]) for m in middles) - half - peg.diameter / 2


def _beside_rod(job: TorusJob, fence: Drawn, peg: Drill) -> float:
    """Between the peg and the largest nut that the rod's bore is for."""
    rod = fence_drills(fence)[0]
    apart = hypot(rod.centre[0] - peg.centre[0], rod.centre[1] - peg.centre[1])
    nut = NUTS[rod_in(job, rod)][0]
    return apart - max(nut, rod.diameter) / 2 - job.fittings.peg / 2
