"""Lettering for jigs: blocks of lines, and how large they come out."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin

from geometry.strokes.lettering import beyond, text_width
from jigs.asked.job_shop import Printer
from jigs.parts.part import Lettering

PITCH = 1.7  # of lines, in cap heights
ENGRAVED = 5.0  # cap height on cut parts, mm
LATHE_CAUTION = ("LATHE STOPPED", "REST AWAY")
SAW_CAUTION = ("POWER OFF", "TO SET")


def raised_height(printer: Printer) -> float:
    """Cap height that a person reads at this nozzle: ten widths (4 mm at 0.4 mm)."""
    return 10 * printer.nozzle


def raised_width(printer: Printer) -> float:
    """Two lines of plastic."""
    return 2 * printer.nozzle


def raised_rise(printer: Printer) -> float:
    """Three layers."""
    return 3 * printer.layer


def block_width(lines: Sequence[str], height: float) -> float:
    """Width of the longest line, mm."""
    return max(text_width(line, height) for line in lines)


def block_height(lines: Sequence[str], height: float) -> float:
    """From the top of the first line to the foot of the last, with their accents, mm."""
    return height * (1 + PITCH * (len(lines) - 1) + beyond(lines[0])[0] + beyond(lines[-1])[1])


def block(lines: Sequence[str], left: float, top: float, height: float) -> tuple[Lettering, ...]:
    """Lines below each other, the first one's cap, or the accents on it, at `top`."""
    top -= height * beyond(lines[0])[0]
    return tuple(
        Lettering(line, (left, top - height * (1 + PITCH * i)), height) for i, line in enumerate(lines)
    )


def centred(text: str, centre: tuple[float, float], height: float, angle: float = 0.0) -> Lettering:
    """One line whose middle is `centre`; `angle` 0 or 90 degrees either way, or any other, radians."""
    half = text_width(text, height) / 2
    x = centre[0] - half * cos(angle) + height / 2 * sin(angle)
    y = centre[1] - half * sin(angle) - height / 2 * cos(angle)
    return Lettering(text, (x, y), height, angle)
