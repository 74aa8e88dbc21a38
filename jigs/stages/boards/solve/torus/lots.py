"""The pieces of a torus: mitred segments."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.asked.job import TorusJob
from jigs.stages.boards.plan.lots import Lot
from jigs.stages.boards.solve.spares import spare_pieces
from jigs.stages.segments.plan import CuttingPlan

Rings = tuple[tuple[str, ...], ...]
Spares = tuple[tuple[int, ...], ...]


def torus_lots(
    job: TorusJob, cutting: CuttingPlan, species: Rings, spares: Spares, glued: int = 0
) -> tuple[Lot, ...]:
    """What is sawn from boards; segments of a layup are not.

    `species` are (N, n) names of woods; `spares` says for each whole ring to spare which it can stand in for. The last
    `glued` rings are cut already.
    """
    return tuple(_segments(job, cutting, species, species[: len(species) - glued], spares))


def _segments(
    job: TorusJob, cutting: CuttingPlan, species: Rings, left: Rings, spares: Spares
) -> Iterator[Lot]:
    layout = cutting.carrier
    cut = layout.cut
    for number, name in enumerate(_woods(left), 1):
        count = sum(ring.count(name) for ring in left)
        whole = sum(species[rings[0] - 1].count(name) for rings in spares)
        yield Lot(
            number=number,
            name=f"segments of {name}",
            piece="segment",
            rings=_with(left, name),
            species=name,
            count=count,
            spares=spare_pieces(job, count) + whole,
            thickness=cut.depth,
            width=cut.length,
            longer=cut.outer_edge,
            shorter=cut.inner_edge,
            mitre=cut.tilt,
            kerf=cut.kerf,
            held=layout.held,
            way="turned over",
            stop=layout.stop,
        )


def _woods(species: Sequence[Sequence[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for ring in species for name in ring))


def _with(species: Rings, name: str) -> tuple[int, ...]:
    return tuple(k for k, ring in enumerate(species, 1) if name in ring)
