"""What is made at one setting of a machine; such runs for ring after ring, as one operation with a setting for each.

What the steps of several stages ask of their pieces is here too.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from math import ceil

from geometry.grouping import grouped
from geometry.hardware.sled_sizes import BLADE_PAST_RING
from geometry.records import Record, replace
from jigs.plans.plan import Plan
from jigs.stages.boards.plan import KeptLong, Lot, Piece, Scrap, rings_of, wanted
from jigs.words.quantity import Quantity, ring_list, ruled
from jigs.work.model import Place

PIECES: Mapping[Piece, str] = {
    "stave": "staves",
    "base": "disc",
    "upright": "solid piece",
    "plug": "core plug",
    "knob": "knob",
    "spacer": "between",
    "rest": "between",
    "ring strip": "between rings",
}

MOST = 12  # settings in one operation: they fill its page


class Run(Record):
    """What is made at one setting of one machine."""

    place: Place
    rings: tuple[int, ...]
    pieces: int  # that come of it, spares among them
    settings: tuple[Quantity, ...]
    checks: tuple[Quantity, ...] = ()  # sizes that are measured after it, beside those that are set
    lots: tuple[int, ...] = ()  # numbers of those whose pieces are worked on
    jigs: tuple[str, ...] = ()  # set by them


def run_of(
    place: Place, lots: Sequence[Lot], settings: tuple[Quantity, ...], pieces: int | None = None
) -> Run:
    """Of all pieces of some lots, or of so many that come of them."""
    count = wanted(lots) if pieces is None else pieces
    return Run(place, rings_of(lots), count, settings, lots=tuple(lot.number for lot in lots))


def through(wood: Lot | Scrap) -> float:
    """How far a blade has to stand above the table, or the guides, to rip it."""
    return wood.thickness + BLADE_PAST_RING


def by_length(lots: Iterable[Lot]) -> Iterable[list[Lot]]:
    """Those whose pieces are as long as one another together, the longest first."""
    longest_first = sorted(lots, key=lambda lot: (-lot.longer, lot.number))
    return grouped(longest_first, lambda lot: round(lot.longer, 2)).values()


def batches(runs: Sequence[Run], most: int = MOST) -> Iterator[list[Run]]:
    """In their order, about alike long, of at most `most` settings; those of other machines never share one."""
    for place in dict.fromkeys(run.place for run in runs):
        own = [run for run in runs if run.place == place]
        total = sum(len(run.settings) for run in own)
        yield from _filled(own, max(1, ceil(total / ceil(max(1, total) / most))), most)


def _filled(runs: Sequence[Run], enough: int, most: int) -> Iterator[list[Run]]:
    batch: list[Run] = []
    for run in runs:
        held = sum(len(one.settings) for one in batch)
        if batch and (held >= enough or held + len(run.settings) > most):
            yield batch
            batch = []
        batch.append(run)
    if batch:
        yield batch


def merged(
    runs: Sequence[Run], comes: str = "", names: Sequence[str] = (), spares: Sequence[int] = ()
) -> Run:
    """All in one; where there are several, each setting and size has its rings in its id and label.

    `comes` is what comes of them, for the count of it; `names` what each is of, where that is not its ring alone;
    `spares` how many of its pieces are spare.
    """
    if len(runs) == 1:
        return runs[0]
    ends = _ends(runs)
    told = [
        _told(run, name, comes, spare)
        for run, name, spare in zip(runs, names or [""] * len(runs), spares or [0] * len(runs), strict=True)
    ]
    each = list(zip(runs, ends, told, strict=True))
    return replace(
        runs[0],
        rings=tuple(sorted({ring for run in runs for ring in run.rings})),
        lots=tuple(sorted({lot for run in runs for lot in run.lots})),
        pieces=sum(run.pieces for run in runs),
        settings=tuple(_of(one, end, name) for run, end, name in each for one in run.settings),
        jigs=tuple(dict.fromkeys(jig for run in runs for jig in run.jigs)),
        checks=tuple(_of(one, end, name) for run, end, name in each for one in run.checks),
    )


def _ends(runs: Sequence[Run]) -> list[str]:
    """What ids end in: the first of its rings; a second time for the same ring "-2" behind it."""
    met: dict[int, int] = {}
    found = []
    for run in runs:
        ring = run.rings[0]
        met[ring] = met.get(ring, 0) + 1
        found.append(f".{ring}" if met[ring] == 1 else f".{ring}-{met[ring]}")
    return found


def _told(run: Run, name: str, comes: str, spare: int) -> str:
    rings = ring_list(run.rings).capitalize()
    what = "Knob" if name == PIECES["knob"] else f"{rings} ({name})" if name else rings
    more = f" + {spare} spare" if spare else ""
    count = f", {run.pieces - spare}{more} {comes}{'' if run.pieces == 1 else 's'}" if comes else ""
    return f"{what}{count}"


def _of(one: Quantity, end: str, name: str) -> Quantity:
    return replace(one, id=f"{one.id}{end}", label=f"{name}: {one.label[0].lower()}{one.label[1:]}")


def piece_of(plan: Plan, run: Run) -> str:
    """What its pieces are, where they are not segments."""
    found = {PIECES.get(plan.wood.lot(lot).piece, "") for lot in run.lots}
    return found.pop() if len(found) == 1 else ""


def spares_of(plan: Plan, runs: Sequence[Run]) -> list[int]:
    """How many of each run's pieces are spare, by its lots."""
    return [sum(plan.wood.lot(lot).spares for lot in run.lots) for run in runs]


def segments_sawn(plan: Plan) -> int:
    """From strips and from layups, spares among them."""
    strips = wanted(lot for lot in plan.wood.lots if lot.piece == "segment")
    return strips + sum(layup.blocks for layup in plan.layups)


def kept_long(plan: Plan, lots: Collection[int]) -> tuple[Quantity, ...]:
    """Of the strips that these lots are cut from: how many pieces early to stop, and what is then left."""
    early = [kept for kept in plan.wood.kept_long if kept.fewer and kept.lot in lots]
    return tuple(one for number, kept in enumerate(early, 1) for one in _each(plan, number, kept))


def _each(plan: Plan, number: int, kept: KeptLong) -> tuple[Quantity, ...]:
    rings = ring_list(plan.wood.lot(kept.lot).rings).capitalize()
    return (
        Quantity(f"short-{number}", f"{rings}: strips that end too short to hold", kept.strips, "count"),
        Quantity(
            f"short-{number}.fewer", "pieces to stop early on each, to keep it long", kept.fewer or 0, "count"
        ),
        ruled(f"short-{number}.length", "then left of each", kept.length),
    )
