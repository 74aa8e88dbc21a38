"""Steps that set one machine anew for ring after ring, as one operation with a setting for each ring."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil

from jigs.stages.boards.plan.steps import Step
from jigs.words.counting import ring_list
from jigs.words.quantity import Quantity

MOST = 12  # settings in one operation: they fill its page


def batches(steps: Sequence[Step], most: int = MOST) -> Iterator[list[Step]]:
    """In their order, about alike long, of at most `most` settings; steps of other machines never share one."""
    for machine in dict.fromkeys(step.machine for step in steps):
        own = [step for step in steps if step.machine == machine]
        total = sum(len(step.settings) for step in own)
        yield from _filled(own, max(1, ceil(total / ceil(max(1, total) / most))), most)


def _filled(steps: Sequence[Step], enough: int, most: int) -> Iterator[list[Step]]:
    batch: list[Step] = []
    for step in steps:
        held = sum(len(one.settings) for one in batch)
        if batch and (held >= enough or held + len(step.settings) > most):
            yield batch
            batch = []
        batch.append(step)
    if batch:
        yield batch


def merged(
    steps: Sequence[Step], comes: str = "", names: Sequence[str] = (), spares: Sequence[int] = ()
) -> Step:
    """All in one; where there are several, each setting and size has its rings in its id and label.

    `comes` is what comes of them, for the count of it; `names` what each is of, where that is not its ring alone;
    `spares` how many of its pieces are spare.
    """
    if len(steps) == 1:
        return steps[0]
    ends = _ends(steps)
    told = [
        _told(step, name, comes, spare)
        for step, name, spare in zip(
            steps, names or [""] * len(steps), spares or [0] * len(steps), strict=True
        )
    ]
    each = list(zip(steps, ends, told, strict=True))
    return replace(
        steps[0],
        rings=tuple(sorted({ring for step in steps for ring in step.rings})),
        lots=tuple(sorted({lot for step in steps for lot in step.lots})),
        pieces=sum(step.pieces for step in steps),
        settings=tuple(_of(one, end, name) for step, end, name in each for one in step.settings),
        jigs=tuple(dict.fromkeys(jig for step in steps for jig in step.jigs)),
        checks=tuple(_of(one, end, name) for step, end, name in each for one in step.checks),
    )


def _ends(steps: Sequence[Step]) -> list[str]:
    """What ids end in: the first of its rings; a second time for the same ring "-2" behind it."""
    met: dict[int, int] = {}
    found = []
    for step in steps:
        ring = step.rings[0]
        met[ring] = met.get(ring, 0) + 1
        found.append(f".{ring}" if met[ring] == 1 else f".{ring}-{met[ring]}")
    return found


def _told(step: Step, name: str, comes: str, spare: int) -> str:
    rings = ring_list(step.rings).capitalize()
    more = f" + {spare} spare" if spare else ""
    count = f", {step.pieces - spare}{more} {comes}{'' if step.pieces == 1 else 's'}" if comes else ""
    return f"{rings}{f' ({name})' if name else ''}{count}"


def _of(one: Quantity, end: str, name: str) -> Quantity:
    return replace(one, id=f"{one.id}{end}", label=f"{name}: {one.label[0].lower()}{one.label[1:]}")
