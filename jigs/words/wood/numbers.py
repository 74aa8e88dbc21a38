"""Rings, sizes and settings in sentences."""

from __future__ import annotations

from collections.abc import Iterable
from math import degrees

from jigs.counting import count_text as count_text
from jigs.counting import ring_list as ring_list
from jigs.job import Unit
from jigs.lengths import show_length
from jigs.quantity import Quantity


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
