"""How fast the lathe may turn."""

from __future__ import annotations

from jigs.cautions import told
from jigs.words.sections import Row, Section


def speed_section(rpm: tuple[int, int]) -> Section:
    """The usual range of speed for work of this size."""
    slow, fast = rpm
    return Section(
        "Speed",
        (Row("usual range at the rim", f"{slow} to {fast} rpm, slowest first", "text"),),
        (
            "The lower of this and the lathe maker's rating; common practice, not a safety limit.",
            "Face shield, dust mask, out of the plane of the work; one full turn by hand first.",
            *told("lathe.manual"),
        ),
    )
