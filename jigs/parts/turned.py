"""What is turned from layers of board: the section it is turned to."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.plane.contour import Contour
from jigs.parts.part import Dimension, Line, Part
from jigs.parts.places import ENGRAVED, block
from jigs.plans.plan import Plan


def section(
    plan: Plan, name: str, purpose: str, layers: tuple[int, float], outline: Contour,
    text: Sequence[str], dimensions: Sequence[Dimension], notes: Sequence[str] = (), works_to: float = 0.02,
    lines: Sequence[Line] = (),
) -> Part:  # fmt: skip
    """Right of the axis; of so many `layers`, each so thick. Nothing of the lettering beside it is cut."""
    _, _, right, top = outline.bounds
    count, thick = layers
    words = block((plan.job.title.upper(), *text), right + 10, top, ENGRAVED)
    return Part(
        name=name,
        purpose=purpose,
        process="turn",
        material=f"{count} layers of board, {plan.job.show(thick)} each",
        outline=outline,
        thickness=0.0,
        marks=(*words, *lines),
        dimensions=tuple(dimensions),
        notes=tuple(notes),
        works_to=works_to,
    )
