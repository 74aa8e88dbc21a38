"""What a make did to a set that stood there before: its jigs, its settings, its wood."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from jigs.manifest import LAST_CHANGE

if TYPE_CHECKING:
    from jigs.make import Made

SINCE = "in the rack since the last make"
MOST = 12  # settings told on the screen


def changes_text(made: Made, most: int | None = None) -> str:
    """Jigs remade, still right and now wrong; settings, `most` of them where that is stated; the wood."""
    near = len(made.near)
    still = (
        f"{near} {'jig' if near == 1 else 'jigs'} changed by less than the tolerance, or not in what they do"
    )
    lines = [
        *_list("remade", made.remade),
        *_list("still right", made.right),
        *_list(f"{SINCE}, and now wrong", [f"{part}: {why}" for part, why in made.wrong]),
        *([f"{SINCE}, and still good: {still}"] if near else []),
        *_list("still good, and to do", _first([f"{part}: {told}" for part, told in made.to_do], most)),
        *_list("sleds that serve as they stand", [_sled(made, *pair) for pair in made.sleds]),
        *made.work.summary[:1],
        *(f"  {setting}" for setting in _first(made.work.settings, most)),
        *made.work.summary[1:],
    ]
    return "\n".join(lines)


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
