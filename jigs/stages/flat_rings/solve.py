"""Which rings share a board, and the sizes of boards and plates."""

from __future__ import annotations

from collections.abc import Sequence

from geometry.blanks.ring_stack import Ring
from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.stages.flat_rings.plan import CentringPlate, GlueUpBoard, RingBoards, SameRings, TruingBoard
from jigs.stages.stack.plan import StackPlan
from jigs.words.lengths import MM_PER_INCH, Unit

SAME = 0.05  # mm: sizes that differ by less are one
APART = 8.0  # mm between outlines on a board, room for a line of lettering
BORDER = 20.0  # of a board round its largest ring
LEAST_PLATE = 16.0  # mm, apothem of the smallest plate that is lettered and held
PLAY = 0.2  # mm of a centring plate in its opening, on the apothem
LOOSE = 0.5  # mm by which the openings of rings that share a plate may differ, on the apothem
POINT: dict[Unit, float] = {"mm": 8.0, "in": 5 * MM_PER_INCH / 16}  # hole for the tailstock's 60 degree point
BEHIND = 60.0  # of the truing board behind its largest ring, to hold it by
TIPS_APART = 2.0  # mm between ticks of the truing board; nearer ones are one
CLEAR = 3.0  # of the half check's lands over the smallest opening


def ring_boards(job: VesselJob, stack: StackPlan) -> RingBoards:
    """Everything about boards and plates."""
    closed = [layer.ring for layer in stack.to_make if layer.kind == "segments"]
    open_ = [layer.ring for layer in stack.to_make if layer.kind == "open"]
    sizes = same_rings(closed)
    # Ring 2 over a floating base is bored round, and no plate lies in that.
    hollow = [
        layer.ring
        for layer in stack.to_make
        if layer.kind == "segments" and not layer.plug and not (stack.floating and layer.number == 2)
    ]
    plates = [
        plate for numbers, ring in _openings(hollow, LOOSE) if (plate := _plate(numbers, ring, job.unit))
    ]
    # Segments placed one by one bear on the plate, so that a loose one would draw them all inward.
    plates += [
        plate for numbers, ring in _openings(open_, SAME) if (plate := _open_plate(numbers, ring, job.unit))
    ]
    return RingBoards(
        glue_up=_glue_up(sizes),
        centring=tuple(plates),
        truing=_truing(job, closed),
        whole=tuple(sorted(n for same in sizes if same.size.segments % 2 for n in same.rings)),
    )


def same_rings(rings: Sequence[Ring]) -> tuple[SameRings, ...]:
    """Rings by outside and by what stands in their joints, the largest first."""
    found: list[list[Ring]] = []
    for ring in sorted(rings, key=lambda ring: -ring.outer):
        if group := next((group for group in found if _alike(group[0], ring)), None):
            group.append(ring)
        else:
            found.append([ring])
    return tuple(SameRings(tuple(sorted(r.number for r in group)), group[0]) for group in found)


def _alike(a: Ring, b: Ring) -> bool:
    return (a.segments, a.spacer) == (b.segments, b.spacer) and abs(a.outer - b.outer) <= SAME


def _glue_up(sizes: Sequence[SameRings]) -> tuple[GlueUpBoard, ...]:
    """The largest ring opens a board; each further one goes on the first board that has room for it."""
    boards: list[list[SameRings]] = []
    for same in sizes:
        for board in boards:
            last = board[-1].size
            if last.segments == same.size.segments and last.outer - same.size.outer >= APART:
                board.append(same)
                break
        else:
            boards.append([same])
    return tuple(
        GlueUpBoard(number, 2 * (board[0].size.radius + BORDER), tuple(board))
        for number, board in enumerate(boards, 1)
    )


def _openings(rings: Sequence[Ring], loose: float) -> list[tuple[tuple[int, ...], Ring]]:
    """Rings whose openings one plate centres well enough, each with the one of the smallest opening."""
    found: list[tuple[list[int], Ring]] = []
    for ring in sorted(rings, key=lambda ring: (ring.segments, ring.core)):
        last = found[-1] if found else None
        if last and last[1].segments == ring.segments and ring.core - last[1].core <= loose:
            last[0].append(ring.number)
        else:
            found.append(([ring.number], ring))
    return [(tuple(sorted(numbers)), ring) for numbers, ring in found]


def _plate(numbers: tuple[int, ...], ring: Ring, unit: Unit) -> CentringPlate | None:
    apothem = ring.core - PLAY
    return CentringPlate(numbers, ring.segments, apothem, POINT[unit]) if apothem >= LEAST_PLATE else None


def _open_plate(numbers: tuple[int, ...], ring: Ring, unit: Unit) -> CentringPlate | None:
    plate = _plate(numbers, ring, unit)
    return plate and replace(plate, gap=ring.spacer, inner_edge=ring.inner_edge)


def _truing(job: VesselJob, rings: Sequence[Ring]) -> TruingBoard | None:
    halves = [ring for ring in rings if ring.segments % 2 == 0]
    if not halves:
        return None
    largest, shop = max(ring.radius for ring in halves), job.workshop
    opening = min((ring.core for ring in halves if ring.core > 0), default=4.0)
    return TruingBoard(
        tips=_tips(halves),
        width=2 * (largest + BORDER),
        depth=largest + BEHIND,
        line=shop.truing.abrasive,
        face_height=shop.boards.sheet + max(ring.height for ring in halves) + 15.0,
        land_from=max(opening / 2, opening - CLEAR),
        land_to=largest + CLEAR,
    )


def _tips(rings: Sequence[Ring]) -> tuple[tuple[float, tuple[int, ...]], ...]:
    """Where the tips of halves lie from the middle, the widest first, and whose they are."""
    found: list[tuple[float, list[int]]] = []
    for ring in sorted(rings, key=lambda ring: -ring.radius):
        if found and found[-1][0] - ring.radius < TIPS_APART:
            found[-1][1].append(ring.number)
        else:
            found.append((ring.radius, [ring.number]))
    return tuple((radius, tuple(sorted(numbers))) for radius, numbers in found)
