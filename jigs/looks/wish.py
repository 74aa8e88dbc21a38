"""What the look command was asked for."""

from __future__ import annotations

import re
from dataclasses import field

from geometry.records import Record
from jigs.looks.mistakes import Mistakes
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import BadLength, parse_length, shown

SMALLEST, LARGEST = 200, 4000  # pixels


class Wish(Record):
    """`size` is the longer side of a picture, pixels."""

    mistakes: Mistakes = field(default_factory=Mistakes)
    size: int = 900


def wish(ring_size: str, layup_off: str, off_centre: str, seed: str, size: str) -> Wish:
    """Of the options as written, lengths in mm unless they say otherwise. Raises Refused for what is none."""
    pixels, number = _whole("size", size), _whole("seed", seed)
    if not SMALLEST <= pixels <= LARGEST:
        message = f"--size: {pixels} pixels is not from {SMALLEST} to {LARGEST}"
        raise Refused([Finding("out-of-range", message, "choose one in between")])
    if number < 0:
        raise Refused([Finding("out-of-range", f"--seed: {number} is less than 0", "use 0 or more")])
    sizes = (
        _length("ring-size", ring_size),
        _length("layup-off", layup_off),
        _length("off-centre", off_centre),
    )
    return Wish(Mistakes(*sizes, number), pixels)


def _length(option: str, text: str) -> float:
    try:
        return parse_length(text, "mm")
    except BadLength as bad:
        raise Refused([Finding("wrong-type", f"--{option}: {bad}", bad.remedy)]) from bad


def _whole(option: str, text: str) -> int:
    if not re.fullmatch("-?[0-9]{1,9}", text):
        message = f"--{option}: {shown(text)} is not a whole number"
        raise Refused([Finding("wrong-type", message, "write up to 9 digits, such as 1200")])
    return int(text)
