"""Second opinions on what a dry fit condemns: ezdxf, numpy-stl and shapely on the written files.

None of the dry fit's code is used here. A judge measures one sort of part against the finished section that the
plan holds, by brute force on fine polygons, and says whether the part is right.
"""

from __future__ import annotations

from pathlib import Path


def judged_right(job: object, folder: Path, where: str, what: str) -> bool | None:
    """Whether the part that a check condemns is right; None where there is no judge for it."""
    return None
