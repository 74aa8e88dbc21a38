"""What small errors of a torus come to, and what takes them out again. Angles radians, lengths mm."""

from __future__ import annotations

from geometry.records import Record


class HalfError(Record):
    """A half that spans `error` too much, or too little where it is negative, sanded to the planned line."""

    error: float
    light: float  # under the check plate, before
    at_hole: float  # sanded off
    at_rim: float
    lost: float  # of the turning allowance: how far past the line it goes; + brings the halves nearer
    left: float  # least wood round the finished form


class ErrorsPlan(Record):
    """An error of every ring's included angle, what shows it, and what makes it good."""

    ring: float
    gap: float  # that it opens at the rim, all rings together
    half: float  # of a half's span then
    shim: float  # thickness of paper under the wedge's thick end
    shim_turns: float  # a ring's included angle by so much
    shim_closes: float  # so much light at the rim of the check corner
    halves: tuple[HalfError, ...]
    most_step: float  # of one ring's flat to the next: more takes all the wood round the finished form
    most_short: float  # a half that spans so much too little still holds the finished form
