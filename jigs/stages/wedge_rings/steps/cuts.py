"""The second cuts of the wedge rings, on either wedge, and a trial quarter in scrap before a good ring is cut."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, sin, tan

from geometry.blanks.sawing import stop_arm
from geometry.blanks.truing import end_wedge
from jigs.plans.torus import TorusPlan
from jigs.stages.boards.plan import Scrap
from jigs.stages.boards.runs import Run
from jigs.words.quantity import Quantity, calliper, ring_list
from jigs.work.minutes import CHECKED, CLAMPED, each
from jigs.work.model import Check, Operation, Place, Rack, Reading, uses


def ordinary_cut(plan: TorusPlan) -> Run:
    """Of all rings but those at the ends of halves, where these keep what truing takes."""
    return _run(plan, tuple(number for number in plan.left if number not in _ends(plan)))


def end_cut(plan: TorusPlan) -> Run | None:
    """Of the rings at the ends of halves; None where halves are not trued, or all of these are glued."""
    ends = _ends(plan)
    told = tuple(
        Quantity(
            f"face-{face}",
            f"Face {face}, sawn last, is the END of",
            ring_list([ring for ring in sorted(ends) if ends[ring] == face]),
            "text",
        )
        for face in sorted(set(ends.values()))
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


LIGHT = "light at the rim: paper under the wedge's thick end; light at the hole: sand its thick end"
LAST = "Leave the scrap ring marked LAST uncut: the end wedge is tried on it."


def cautions(saw: Place) -> tuple[str, ...]:
    """Of a cut on the wedge."""
    return ("sled.rod", "sled.peg", "table-saw" if saw == "table saw" else "bandsaw.guides")


def trial(of: str, plan: TorusPlan, run: Run, rack: Rack) -> Iterator[Operation]:
    for scrap in plan.wood.scraps:
        if scrap.of == "quarter":
            yield _trial_cuts(of, plan, run, scrap, rack)


def _trial_cuts(of: str, plan: TorusPlan, run: Run, scrap: Scrap, rack: Rack) -> Operation:
    errors, check = plan.errors, plan.check
    return Operation(
        f"{of}.trial",
        "Cut both faces of the scrap rings and try them dry in the check corner.",
        run.place,
        how=(
            "Cut the first faces, then the second faces on the wedge, as in the next two steps.",
            *((LAST,) if plan.job.form.end_spare else ()),
            "Lay the rings dry in the check corner, face to face, one end face on an arm.",
            "Push them towards its point until they touch both arms; read the light at the rim or the hole.",
            "Set right what the check shows, make new scrap rings as before, and try again before you cut good wood.",
        ),
        makes=(scrap.count, "scrap wedge ring"),
        known=(
            calliper("shim", "A sheet of paper under the wedge's thick end, thick", errors.shim),
            calliper("shim-closes", "It closes light at the rim of", errors.shim_closes),
            Quantity("shim-turns", "It makes each ring's angle larger by", errors.shim_turns, "angle"),
            Quantity("ring-error", "If every ring is too small by", errors.ring, "angle"),
            calliper("gap", "the last joint opens at the rim by", errors.gap),
        ),
        jigs=uses(rack.named("check-corner"), notes=True),
        checks=(
            Check(
                "corner",
                "The rings fill the check corner: no light along either arm",
                (
                    Quantity("rings", "Rings in the corner", check.rings, "count"),
                    Quantity("angle", "Their angle together", check.angle, "angle"),
                ),
                LIGHT,
            ),
            Check(
                "edges",
                "Calliper over the thick and the thin edge",
                run.checks,
                "both off: pack or plane the stop",
            ),
        ),
        cautions=cautions(run.place),
        readings=corner_readings(plan, scrap.count, run),
        minutes=each(2 * scrap.count, CLAMPED, CHECKED),
    )


def corner_readings(plan: TorusPlan, rings: int, run: Run) -> tuple[Reading, ...]:
    """Of rings in the check corner: the light, a second way by chord and edges, and the wedge that they were cut on."""
    cut, check = plan.ring_cut, plan.check
    chord = 2 * cut.outer_radius / cos(cut.half_wedge) * sin(check.angle / 2)
    thick = next(size for size in run.checks if size.id == "thick-edge")
    return (
        Reading("gap-at-rim", "Light at the rim", by="feeler"),
        Reading("gap-at-hole", "Light at the hole", by="feeler"),
        Reading(
            "chord", "Across the outer corners of the first and the last face", calliper("planned", "", chord)
        ),
        Reading("thick-edge", thick.label, thick, rings),
        Reading(
            "wedge-angle",
            "Angle lettered on the wedge",
            Quantity("planned", "", plan.ring_cut.wedge_angle, "angle"),
            by="eye",
        ),
        Reading("paper", "Paper under the wedge's thick end, thick"),
    )
