"""What may be changed about a lid that does not lie on its pot, or reaches too deep into it."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.remedies.ladder import Rung
from jigs.remedies.lever import Lever, View, down, one_of, up, without
from jigs.remedies.shapes import points, rows_of
from jigs.words.lengths import MM_PER_INCH

WIDEST = 60  # steps


def _wider_rim(view: View) -> Sequence[Rung]:
    """The profile's last diameter larger, which lies on the pot."""
    step = 1.0 if view.job.unit == "mm" else MM_PER_INCH / 16
    for key in ("profile.stations", "profile.edges"):
        rows = rows_of(view, key)
        if rows:
            *others, (height, across, *bent) = rows
            wider = (across + step * k for k in range(1, WIDEST))
            return [
                Rung({key: points(view, key, [*others, [height, size, *bent]])}, (size - across) / across)
                for size in wider
            ]
    return []


WIDER_RIM = Lever("profile", _wider_rim, "up")
LIDS: dict[str, Sequence[Lever]] = {
    "lid-bears": (
        WIDER_RIM,
        down("lid.gap"),
        without("lid.gap"),
        one_of("lid.fit", "snug"),
        down("lid.wettest"),
    ),
    "lid-deep": (down("lid.seat"),),
    "lid-twice": (up("lid.seat"),),
    "lid-wood": (one_of("rings.base", "solid"),),
}
