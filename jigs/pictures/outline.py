"""A part as a small picture: its contours and marks in black, lines thick enough to be seen small."""

from __future__ import annotations

from jigs.part import Part
from jigs.writers.drawing import Layer, drawing
from jigs.writers.svg import NAMESPACE, element

WIDTHS: dict[Layer, float] = {"engrave": 0.2, "drill": 1.0, "cut": 1.0, "section": 1.0}  # of THIN
THIN = 0.008  # of the larger side
ROOM = 0.02  # round the part, of the larger side


def outline_picture(part: Part) -> str:
    """The part as SVG text, in its own millimetres."""
    shapes = [shape for shape in drawing(part) if shape.layer in WIDTHS]
    x0, y0, x1, y1 = part.outline.bounds
    side = max(x1 - x0, y1 - y0)
    room = ROOM * side
    box = f"{x0 - room:.2f} {-y1 - room:.2f} {x1 - x0 + 2 * room:.2f} {y1 - y0 + 2 * room:.2f}"
    groups = "".join(
        f'<g stroke-width="{width * THIN * side:.3f}">'
        + "".join(element(shape, digits=2) for shape in shapes if shape.layer == layer)
        + "</g>"
        for layer, width in WIDTHS.items()
    )
    return (
        f'<svg xmlns="{NAMESPACE}" viewBox="{box}" fill="none" stroke="#000000" stroke-linejoin="round" '
        f'stroke-linecap="round">{groups}</svg>\n'
    )
