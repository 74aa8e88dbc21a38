"""Candidates side by side, as text and for scripts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from jigs.compare.tried import Compared
from jigs.compare.wish import By
from jigs.render.lines import shown
from jigs.words.lengths import Unit

HEADS: Mapping[By, str] = {
    "wood": "least wood sawn",
    "cuts": "fewest cuts",
    "time": "least time at the saw, the sanding board and the glue",
    "gap": "least light at the last joint",
    "piece": "largest pieces",
    "cost": "least cost",
}


def compared_text(
    own: Compared | None, best: Sequence[Compared], names: Sequence[str], by: By, counts: tuple[int, int], unit: Unit
) -> str:  # fmt: skip
    """A column for each, the job itself first; `counts` are how many there were and how many looked makable."""
    shown_first = [*([own] if own else []), *best]
    heads = [*(["as it is"] if own else []), *names]
    if not shown_first:
        return f"none of {counts[0]} can be made; jigs check tells why yours cannot"
    labels = [figure.label for figure in shown_first[0].figures]
    columns = [[shown(figure, unit) for figure in one.figures] for one in shown_first]
    first = max(len(label) for label in labels)
    wide = [
        max(len(head), *(len(cell) for cell in column)) for head, column in zip(heads, columns, strict=True)
    ]
    rows = [
        f"The best {len(best)} of {counts[0]}, by {HEADS[by]}; {counts[1]} looked possible. Each column was solved "
        "and its jigs drawn.",
        "  ".join([" " * first, *(head.rjust(width) for head, width in zip(heads, wide, strict=True))]),
        *(
            "  ".join(
                [
                    label.ljust(first),
                    *(column[k].rjust(width) for column, width in zip(columns, wide, strict=True)),
                ]
            )
            for k, label in enumerate(labels)
        ),
    ]
    return "\n".join(rows)


def compared_json(own: Compared | None, best: Sequence[Compared], files: Sequence[Path]) -> Mapping[str, Any]:
    """Lengths in mm, angles in radians."""
    return {
        "verdict": "compared",
        "own": _figures(own) if own else None,
        "best": [{"changes": dict(one.changes), "figures": _figures(one)} for one in best],
        "files": [str(file) for file in files],
    }


def _figures(one: Compared) -> Mapping[str, Any]:
    return {figure.id: figure.value for figure in one.figures}
