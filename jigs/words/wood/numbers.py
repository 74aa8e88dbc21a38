"""Rings, sizes and settings in sentences."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import degrees

from jigs.job import Unit
from jigs.lengths import show_length
from jigs.quantity import Quantity


def ring_list(rings: Sequence[int]) -> str:
    """ "ring 4", "rings 1 to 16", "rings 2, 4, 7 to 9" """
    runs: list[list[int]] = []
    for ring in rings:
        if runs and ring == runs[-1][-1] + 1:
            runs[-1].append(ring)
        else:
            runs.append([ring])
    told = ", ".join(_run(run) for run in runs)
    return f"ring {told}" if len(rings) == 1 else f"rings {told}"


def _run(run: Sequence[int]) -> str:
    return f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run))


def sizes(lengths: Iterable[float], unit: Unit) -> str:
    """ "22 mm x 150 mm" """
    return " x ".join(show_length(length, unit) for length in lengths)


def setting_text(setting: Quantity, unit: Unit) -> str:
    """What is set, and to what."""
    return f"{setting.label} {setting_value(setting, unit)}"


def setting_value(setting: Quantity, unit: Unit) -> str:
    """As a person sets it."""
    if isinstance(setting.value, str) or setting.kind in ("count", "text"):
        return str(setting.value)
    return f"{degrees(setting.value):.2f}°" if setting.kind == "angle" else show_length(setting.value, unit)


def count_text(count: int, one: str, many: str | None = None) -> str:
    """ "1 board", "3 boards" """
    return f"{count} {one if count == 1 else many or f'{one}s'}"
