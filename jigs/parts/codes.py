"""The short code of each jig, which its plate carries and the listing repeats.

A code follows from the jig's name alone, so it is the same whatever other jigs a job has. Two jigs of a job never
have the same one (`tests/jigs/test_codes.py`).
"""

from __future__ import annotations

from functools import cache
from itertools import groupby

from jigs.parts.families import jig_of

SILENT = frozenset(("stage", "station", "place"))  # their numbers or the words before them say it


@cache
def code_of(name: str) -> str:
    """ "SB" of sled-base, "OG2" of outer-gauge-stage-2; of a name not listed, two letters of each word."""
    jig = jig_of(name)
    rest = name.removeprefix(jig.name).removeprefix("-") if jig.code else name
    return jig.code + _rest(rest.split("-") if rest else [], rings=jig.name.endswith("-ring"))


def _rest(words: list[str], rings: bool) -> str:
    runs = [(number, list(run)) for number, run in groupby(words, _is_number)]
    told = [_numbers(run, rings) if number else "".join(map(_letters, run)) for number, run in runs]
    return "".join(told)


def _is_number(word: str) -> bool:
    return word.removeprefix("n").isdigit()


def _letters(word: str) -> str:
    """Two at most; a word with a digit is a short name of its own."""
    if word in SILENT:
        return ""
    return (word if any(map(str.isdigit, word)) else word[:2]).upper()


def _numbers(words: list[str], rings: bool) -> str:
    """What the name has; of rings the first, for no other jig of that sort is for this ring."""
    plain = [word.removeprefix("n") for word in words]
    return plain[0] if rings else "-".join(plain)
