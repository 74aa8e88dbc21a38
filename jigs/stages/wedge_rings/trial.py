"""A trial quarter in scrap, before a good ring is cut: the operations."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.plan.torus import TorusPlan
from jigs.plan.wood.steps import Scrap, Step
from jigs.quantity import Quantity, calliper
from jigs.work.minutes import CHECKED, CLAMPED, each
from jigs.work.model import Check, Operation
from jigs.work.rack import Rack, uses

LIGHT = "light at the rim: paper under the wedge's thick end; light at the hole: sand its thick end"


def cautions(step: Step) -> tuple[str, ...]:
    """Of a cut on the wedge."""
    return ("sled.rod", "sled.peg", "table-saw" if step.machine == "table saw" else "bandsaw.guides")


def trial(of: str, plan: TorusPlan, step: Step, rack: Rack) -> Iterator[Operation]:
    for scrap in plan.wood.scraps:
        if scrap.of == "quarter":
            yield _trial_cuts(of, plan, step, scrap, rack)


def _trial_cuts(of: str, plan: TorusPlan, step: Step, scrap: Scrap, rack: Rack) -> Operation:
    errors, check = plan.errors, plan.check
    return Operation(
        f"{of}.trial",
        of,
        step.machine,
        "Cut both faces of the scrap rings and try them dry in the check corner.",
        how=(
            "Cut the first faces, then the second faces on the wedge, as told in the next two steps.",
            "Lay the rings dry in the check corner, face to face, and press them together.",
            "Set right what the check shows, make new scrap rings as before, and try again before you cut good wood.",
        ),
        pieces=scrap.count,
        comes="scrap wedge ring",
        settings=(
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
                    Quantity("rings", "Rings in the check corner", check.rings, "count"),
                    Quantity("angle", "They make", check.angle, "angle"),
                ),
                LIGHT,
            ),
            Check(
                "edges",
                "Calliper over the thick and the thin edge",
                step.checks,
                "both off: pack or plane the stop",
            ),
        ),
        cautions=cautions(step),
        minutes=each(2 * scrap.count, CLAMPED, CHECKED),
    )
