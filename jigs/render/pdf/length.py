"""How long a step's page will be, about, so that short ones need not be measured: setting one twice takes time."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from jigs.render.book.content import Jig, Proof, Step

# Heights in mm as the first way in book.typ sets them, fitted to the pages of the examples; these are within 28 mm.
HEAD, TITLE, SETTINGS, CAUTION, JIG, MOVE, CHECK, READINGS, PICTURE = (
    33,
    3.4,
    21.5,
    5.4,
    4.8,
    5.3,
    5,
    12.3,
    130,
)
MANY = 12  # jigs; more are told otherwise
SHORT = 215  # of the 249 mm that a page has at the least


def is_short(step: Step) -> bool:
    """Whether a step keeps to its page however much white it is given."""
    return len(step.jigs) <= MANY and _length(step) < SHORT


def _length(step: Step) -> float:
    cautions = _lines(step.cautions, 78) + bool(step.reminder)
    moves = _lines(step.how, 84) + 0.2 * len(step.how) + _lines([step.trial], 84)
    moves += _lines([" ".join(f"{line.label} {line.value}" for line in step.known)], 76)
    heads = 2 * (bool(step.known) + bool(cautions) + bool(step.jigs) + bool(step.how) + bool(step.trial))
    return (
        HEAD
        + TITLE * _lines([step.does], 48)
        + SETTINGS * ceil(len(step.settings) / 2)
        + CAUTION * cautions
        + JIG * sum(_jig(jig) for jig in step.jigs)
        + MOVE * (moves + heads)
        + CHECK * sum(_check(check) for check in step.checks)
        + READINGS * sum(ceil(box.count / 8) + 0.5 for box in step.readings)
        + PICTURE * bool(step.picture)
    )


def _jig(jig: Jig) -> float:
    return max(2.5, 1 + _lines([jig.for_what, *jig.notes], 62)) + 0.8


def _check(check: Proof) -> float:
    return _lines([check.how, check.if_not], 76) + 1.3 * ceil(len(check.sizes) / 2) + 1.2


def _lines(texts: Iterable[str], letters: int) -> int:
    return sum(ceil(len(text) / letters) for text in texts)
