"""Rests of boards that thinner strips of the same wood are sawn from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from jigs.asked.job import Job
from jigs.stages.boards.at_hand import InStock
from jigs.stages.boards.plan.stock import WoodClass
from jigs.stages.boards.solve.sawn import is_kept
from jigs.stages.boards.solve.volumes import Size, rest_sizes


def rests(job: Job, found: WoodClass) -> Counter[InStock]:
    """What is left of a class's boards and large enough to keep: lengths that are not sawn, and what is left beside
    the strips. Ends of strips are not among it: they are there only once their pieces are cut.
    """
    left: Counter[InStock] = Counter()
    for (width, length, thickness), count in rest_sizes(found.thickness, found.boards, found.taken):
        if is_kept(job, width, length):
            left[InStock(found.species, thickness, width, length, found.thickness)] += count
    return left


def settled(classes: Sequence[WoodClass]) -> Iterator[WoodClass]:
    """The classes of one wood, each without the rests that thinner ones of them are sawn from."""
    used: Counter[tuple[float | None, Size]] = Counter()
    for of in classes:
        for taken in of.taken:
            used[taken.rest_of, (taken.width, taken.length, taken.thickness)] += taken.count
    for of in classes:
        yield _without(
            of, {size: count for (thickness, size), count in used.items() if thickness == of.thickness}
        )


def _without(of: WoodClass, used: Mapping[Size, int]) -> WoodClass:
    """Its shares close without them too: they leave the stock and the offcuts alike."""
    counts = [used.get((offcut.width, offcut.length, offcut.thickness), 0) for offcut in of.offcuts]
    pairs = list(zip(of.offcuts, counts, strict=True))
    gone = tuple(replace(offcut, count=count) for offcut, count in pairs if count)
    volume, all_of = sum(offcut.volume for offcut in gone), of.volumes
    return replace(
        of,
        offcuts=tuple(replace(o, count=o.count - count) for o, count in pairs if o.count > count),
        passed_on=gone,
        volumes=replace(
            all_of, stock=all_of.stock - volume, offcuts=all_of.offcuts - volume, kept=all_of.kept - volume
        ),
    )
