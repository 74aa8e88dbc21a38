"""What a make did to a set that stood there before: its jigs, its settings, its wood."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import TYPE_CHECKING

from jigs.codes import code_of
from jigs.manifest import LAST_CHANGE

if TYPE_CHECKING:
    from jigs.keep import Keep
    from jigs.make import Made

SINCE = "in the rack since the last make"
STILL = f"{SINCE}, and still good (changed by less than the tolerance, or not in what they do)"
WIDE = 100  # characters of a row of codes
MOST = 12  # settings told on the screen


def changes_text(made: Made, most: int | None = None) -> str:
    """Jigs remade, still right and now wrong; settings, `most` of them where that is stated; the wood."""
    lines = [
        *_list("remade", made.remade),
        *_list("still right", made.right),
        *_list(f"{SINCE}, and now wrong", [f"{part}: {why}" for part, why in made.wrong]),
        *_list(STILL, _codes([part for part, _ in made.near])),
        *_list("still good, and to do", _first([f"{part}: {told}" for part, told in made.to_do], most)),
        *_list("sleds that serve as they stand", [_sled(made, *pair) for pair in made.sleds]),
        *(line for keep in made.keep for line in _keep(keep)),
        *made.work.summary[:1],
        *(f"  {setting}" for setting in _first(made.work.settings, most)),
        *made.work.summary[1:],
    ]
    return "\n".join(lines)


def _keep(keep: Keep) -> list[str]:
    """The line to paste, and what it saves."""
    return [
        "keep old jigs: put this line into the job file and make again; tried, and the job passes",
        f"  [{keep.table}]",
        f"  {keep.line}",
        "these old jigs are then right (go by this list: the next make compares with the drawings made just now)",
        *(f"  {row}" for row in _codes(keep.jigs)),
    ]


def _codes(jigs: Sequence[str]) -> list[str]:
    """How many they are and each one's code, in rows."""
    if not jigs:
        return []
    count = f"{len(jigs)} {'jig' if len(jigs) == 1 else 'jigs'}"
    return textwrap.wrap(f"{count}: {', '.join(map(code_of, jigs))}", WIDE, break_on_hyphens=False)


def _sled(made: Made, sled: str, job: str) -> str:
    return f"{sled}: keep the old one" if job == made.folder.name else f"{sled}: the one made for {job}"


def last_change_text(title: str, made: Made) -> str:
    """The same as a file, with every setting."""
    return f"{title}: what its last change did to jigs, settings and wood\n\n{changes_text(made)}\n"


def _list(title: str, lines: Sequence[str]) -> list[str]:
    return [title, *(f"  {line}" for line in lines)] if lines else []


def _first(settings: Sequence[str], most: int | None) -> Sequence[str]:
    if most is None or len(settings) <= most:
        return settings
    return [*settings[:most], f"and {len(settings) - most} more, all of them in {LAST_CHANGE}"]
