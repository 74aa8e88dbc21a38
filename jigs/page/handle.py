"""How one handle is put together."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.page.contract import Bend, Handle, Role, Way

OUT, UP, DOWN = (1.0, 0.0), (0.0, 1.0), (0.0, -1.0)
TURNED: list[Role] = ["finished", "allowance"]


def way_of(
    key: str, label: str, along: tuple[float, float], rate: float, value: float, bend: Bend | None,
    place: Sequence[int] = (),
) -> Way:  # fmt: skip
    return Way(key, list(place), label, along, rate, value, [], bend)


def handle_of(id: str, x: float, y: float, *ways: Way, label: str = "") -> Handle:
    return Handle(id, label or ways[0].label, x, y, list(ways))
