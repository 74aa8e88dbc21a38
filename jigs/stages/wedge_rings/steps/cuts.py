"""The second cuts of the wedge rings, on either wedge: what they are set to, and what comes of them."""

from __future__ import annotations

from math import cos, tan

from geometry.blanks.sawing import stop_arm
from geometry.blanks.truing import end_wedge
from jigs.plans.torus import TorusPlan
from jigs.stages.boards.runs import Run
from jigs.words.quantity import Quantity, calliper


def ordinary_cut(plan: TorusPlan) -> Run:
    """Of all rings but those at the ends of halves, where these keep what truing takes."""
    return _run(plan, tuple(number for number in plan.left if number not in _ends(plan)))


def end_cut(plan: TorusPlan) -> Run | None:
    """Of the rings at the ends of halves; None where halves are not trued, or all of these are glued."""
    ends = _ends(plan)
    told = tuple(
        Quantity(
            f"face-{face}",
            f"Face {face} is the END, sawn last: rings",
            " and ".join(str(ring) for ring in sorted(ends) if ends[ring] == face),
            "text",
        )
        for face in (1, 2)
    )
    return _run(plan, tuple(sorted(ends)), plan.job.form.end_spare, told) if ends else None


def _ends(plan: TorusPlan) -> dict[int, int]:
    """Those still to be cut, and the face of each that is an end."""
    return plan.half_ends if plan.job.form.half_sanding > 0 else {}


def _run(plan: TorusPlan, rings: tuple[int, ...], spare: float = 0.0, told: tuple[Quantity, ...] = ()) -> Run:
    """The wedge lies on the fence of the sled as it is set; `spare` stays on one face of each."""
    cut, blank = plan.ring_cut, plan.blank
    thick = end_wedge(cut.wedge_at_stop, blank.half_wedge, spare)
    thick += stop_arm(blank.segments, blank.apothem)[0] * tan(cut.wedge_angle)
    more = spare / cos(blank.half_wedge)
    return Run(
        plan.cutting.rings_on,
        rings,
        len(rings),
        (calliper("wedge-at-stop", "Wedge at the stop", thick), *told),
        (
            calliper("thick-edge", "Thick edge", cut.thick_edge + more),
            calliper("thin-edge", "Thin edge", cut.thin_edge + more),
        ),
    )
