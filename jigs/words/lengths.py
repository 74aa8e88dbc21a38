"""Lengths as people write them, and back: "12 5/8 in", "38 mm", or a number in the job's unit.

Forces, weights and stresses too, in N and N/mm².
"""

from __future__ import annotations

import math
import re
from math import ceil, floor
from typing import Literal

Unit = Literal["mm", "in"]
Bound = Literal["", "least", "most"]  # of what is a limit: which side of it is safe to tell
PROOF_LINE: dict[Unit, str] = {"mm": "100 mm", "in": "4 in"}  # long, by which a print on paper is measured
MM_PER_INCH = 25.4
_MM: dict[str, float] = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH, "inch": MM_PER_INCH, "inches": MM_PER_INCH}
_MM |= {'"': MM_PER_INCH, "″": MM_PER_INCH}
_FINEST = 64  # the finest fraction on a rule
_FINE = 0.002  # inch: what is less is shown to a ten-thousandth
_HALF = 1e-9  # inch, by which a half is told as the larger: 3/16 in is 0.188, whatever its binary fraction
_BY_RULE = 1 / 8  # inch: shorter lengths are not measured with a rule
_LONGEST = 60  # characters; no length is longer
_BOUGHT = (
    (MM_PER_INCH / 4, 32),
    (2 * MM_PER_INCH, 8),
    (math.inf, 2),
)  # up to so many mm in so many parts of an inch

# Groups: sign; whole and fraction, or fraction, or decimal; unit.
_FRACTION = "([0-9]{1,4}/[0-9]{1,4})"
_DECIMAL = r"([0-9]{1,7}(?:\.[0-9]{0,9})?|\.[0-9]{1,9})"
_AMOUNT = rf"^\s*(-?)\s*(?:([0-9]{{1,7}})[ -]+{_FRACTION}|{_FRACTION}|{_DECIMAL})\s*"
LENGTH_PATTERN = rf"{_AMOUNT}({'|'.join(sorted(_MM, key=len, reverse=True))})?\s*$"
_ANY_UNIT = rf"{_AMOUNT}([^\s0-9.,/+-].*?)?\s*$"
_EXAMPLES = 'Write a number with a decimal point, or text such as "12 5/8 in", "38 mm" or "5.5 cm"'


class BadLength(ValueError):
    """Something that is not a length; `remedy` says what would do."""

    def __init__(self, message: str, remedy: str = _EXAMPLES) -> None:
        self.remedy = remedy
        super().__init__(message)


def parse_length(value: object, unit: Unit) -> float:
    """Return a length in mm.

    A number, or text without a unit, is in `unit`. Raises BadLength on anything else than a finite
    number or a text that reads as one; the sign is not judged here.
    """
    if isinstance(value, str):
        return _from_text(value, unit)
    return number(value) * _MM[unit]


def number(value: object) -> float:
    """Return a finite float; raises BadLength (a bool is not a number)."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise BadLength(f"{shown(value)} is not a length")
    if abs(value) > 1e9 or math.isnan(value):
        raise BadLength(f"{shown(value)} is not a possible number")
    return float(value)


def show_length(mm: float, unit: Unit, exact: bool = False) -> str:
    """Return a length as text for people.

    mm get one decimal, or two where the second is not zero; always two when `exact`. Inches get three decimals and,
    from 1/8 in on and not when `exact`, the nearest 1/64 in brackets for a rule: "12.628 in (12 5/8)"; a length that
    is 1/64s to the thousandth is shown by these alone. What is under 0.002 in gets four decimals.
    """
    size = _show_mm(abs(mm), exact) if unit == "mm" else _show_inches(abs(mm) / MM_PER_INCH, exact)
    is_zero = not any(digit in size for digit in "123456789")
    return size if mm >= 0 or is_zero else f"-{size}"


def limit_length(mm: float, unit: Unit, bound: Bound) -> str:
    """Return a limit as text: a multiple of 0.1 mm or of 1/64 in, the least rounded up and the most down."""
    return show_length(within(mm, 0.1 if unit == "mm" else MM_PER_INCH / _FINEST, bound), unit)


def within(mm: float, step: float, bound: Bound) -> float:
    """Return the nearest multiple of a step that keeps a limit; the nearest of all where there is none."""
    steps = mm / step
    if not bound:
        return round(steps) * step
    return step * (math.ceil(steps - _HALF) if bound == "least" else math.floor(steps + _HALF))


def inch_decimals(inches: float) -> str:
    """Return inches to a thousandth, or to a ten-thousandth where they are few, without the unit."""
    places = 4 if 0.1**4 / 2 <= abs(inches) < _FINE else 3
    return f"{inches + math.copysign(_HALF, inches):.{places}f}"


def fine_length(mm: float, unit: Unit) -> str:
    """Return a deviation smaller than any tool shows: mm to 0.001, inches to 0.0001."""
    return f"{mm:.3f} mm" if unit == "mm" else f"{mm / MM_PER_INCH:.4f} in"


def typed_length(mm: float, unit: Unit) -> str:
    """Return a length as text that `parse_length` reads back: as shown, without what is in brackets."""
    return show_length(mm, unit).split(" (")[0]


def example_length(mm: float, unit: Unit) -> str:
    """An example as a job file in this unit gives it: a number of mm, else inches as they are bought, unit named."""
    if unit == "mm":
        return f"{mm:g}"
    parts = next(parts for most, parts in _BOUGHT if mm <= most)
    return f'"{mixed(max(mm > 0, round(mm / MM_PER_INCH * parts)), parts)} in"'


def shown(value: object) -> str:
    """Name a value read from a file, briefly, as the file would write it."""
    if isinstance(value, dict | list):
        return "what stands in { }" if isinstance(value, dict) else "a list"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and abs(value) > 10**18:  # str() refuses the longest
        return "an enormous number"
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 40 else f"{text[:37]}..."


def _from_text(text: str, unit: Unit) -> float:
    match = re.match(_ANY_UNIT, text) if len(text) <= _LONGEST else None
    if match is None:
        raise BadLength(f"{shown(text)} is not a length")
    sign, whole, part, fraction, decimal, name = match.groups()
    factor = _MM[unit] if name is None else _factor(name)
    size = float(decimal) if decimal else int(whole or 0) + _fraction(part or fraction, proper=bool(whole))
    return (-size if sign else size) * factor


def _factor(name: str) -> float:
    if name not in _MM:
        raise BadLength(f"{shown(name)} is not a known unit", "Use mm, cm or in")
    return _MM[name]


def _fraction(text: str, proper: bool) -> float:
    above, below = (int(part) for part in text.split("/"))
    if below == 0:
        raise BadLength(f"the fraction {text} divides by nothing")
    if proper and above >= below:
        raise BadLength(f"the fraction {text} after a whole number is not less than one")
    return above / below


def _show_mm(mm: float, exact: bool) -> str:
    text = f"{mm:.2f}"
    return f"{text if exact or text[-1] != '0' else text[:-1]} mm"


def _show_inches(inches: float, exact: bool) -> str:
    nearest = round(inches * _FINEST)
    if not exact and f"{abs(inches - nearest / _FINEST):.3f}" == "0.000":
        return f"{mixed(nearest, _FINEST)} in"
    told = f"{inch_decimals(inches)} in"
    return told if exact or inches < _BY_RULE else f"{told} ({mixed(nearest, _FINEST)})"


def mixed(parts: int, of: int) -> str:
    """Return so many parts `of` a whole as a rule has them: "12 5/8"."""
    whole, above = divmod(parts, of)
    if above == 0:
        return str(whole)
    shared = math.gcd(above, of)
    fraction = f"{above // shared}/{of // shared}"
    return f"{whole} {fraction}" if whole else fraction


_N_PER_POUND = 4.4482216152605  # pound-force, exact
_GRAVITY = 9.80665  # N for each kg, standard


def force_text(newtons: float, unit: Unit) -> str:
    """Newtons, or pounds of force."""
    return f"{newtons:.0f} N" if unit == "mm" else f"{newtons / _N_PER_POUND:.0f} lbf"


def force_texts(stands: float, takes: float, unit: Unit) -> tuple[str, str]:
    """A force that is too little, rounded down, and the one that it should be, rounded up."""
    size = 1.0 if unit == "mm" else _N_PER_POUND
    low, high = floor(stands / size + 1e-6), ceil(takes / size - 1e-6)
    return force_text(low * size, unit), force_text(high * size, unit)


def weight_text(newtons: float, unit: Unit) -> str:
    """A force as the weight that a kitchen scale shows, rounded up to half a kilogram or a pound."""
    if unit == "mm":
        return f"{ceil(2 * newtons / _GRAVITY) / 2:g} kg"
    return f"{ceil(newtons / _N_PER_POUND)} lb"


def stress_texts(stress: float, most: float, unit: Unit) -> tuple[str, str]:
    """N/mm², or pounds on a square inch, beside the most allowed, in as many digits as tell the two apart."""
    size, name, least = (1.0, "N/mm²", 1) if unit == "mm" else (MM_PER_INCH**2 / _N_PER_POUND, "psi", 0)
    for digits in range(least, least + 4):
        texts = f"{stress * size:.{digits}f} {name}", f"{most * size:.{digits}f} {name}"
        if texts[0] != texts[1]:
            break
    return texts
