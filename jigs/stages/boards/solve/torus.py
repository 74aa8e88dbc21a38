"""The wood of a torus: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos
from typing import TYPE_CHECKING

from geometry.bodies.torus import Blank
from jigs.asked.job import TorusJob
from jigs.measured.glued import stated_rings
from jigs.stages.boards.plan import Lot, Scrap, WoodPlan
from jigs.stages.boards.solve.boards import widened, wood_classes
from jigs.stages.boards.solve.cut_list import cut_lines, kept_long
from jigs.stages.boards.solve.lots import numbered, scrap_strips, spare_pieces, square_lot
from jigs.stages.finish.solve import torus_finish
from jigs.stages.gauging.solve.torus import check_corner
from jigs.stages.glue_up.solve.glue import torus_glue
from jigs.stages.grain.solve import torus_grain
from jigs.stages.segments.plan import CuttingPlan
from jigs.stages.slips.layout import KERF, slip_length

if TYPE_CHECKING:  # a job without a layup loads none of them
    from jigs.stages.layup.plan import LayupPlan


def torus_wood(
    job: TorusJob,
    blank: Blank,
    cutting: CuttingPlan,
    species: tuple[tuple[str, ...], ...],
    spares: tuple[tuple[int, ...], ...],
    layups: Sequence[LayupPlan],
) -> WoodPlan:
    """`spares` says for each whole ring to spare which rings it can stand in for."""
    lots = () if layups else torus_lots(job, blank, cutting, species, spares, stated_rings(job.readings))
    job = widened(job, lots)
    classes, shortages = wood_classes(job, lots)
    return WoodPlan(
        lots=lots,
        lines=cut_lines(job, lots, classes, lambda _: job.form.joint_sanding, 0.0),
        classes=classes,
        shortages=shortages,
        kept_long=kept_long(job, lots, classes),
        scraps=torus_scraps(job, blank, cutting),
        grain=torus_grain(blank, layups),
        glue=torus_glue(job, blank, cutting.carrier.cut.length, len(spares), layups),
        finish=torus_finish(job, blank, species, layups),
    )


def torus_scraps(job: TorusJob, blank: Blank, cutting: CuttingPlan) -> tuple[Scrap, ...]:
    """One ring, then wedge rings that make a right angle."""
    check, n, rings = check_corner(blank).rings, blank.segments, tuple(range(1, blank.wedge_rings + 1))
    depth, held, cut = blank.apothem - blank.core_apothem, cutting.carrier.held, cutting.carrier.cut
    width = cut.length
    one, all_of = (
        scrap_strips(job, count, lambda pieces: cut.strip_length(pieces) + held) for count in (n, check * n)
    )
    return (
        Scrap("ring", rings, 1, n, depth, width, *one, ("joint-plate",)),
        Scrap("quarter", rings, check, n, depth, width, *all_of, ("check-corner",)),
    )


Rings = tuple[tuple[str, ...], ...]
Spares = tuple[tuple[int, ...], ...]


def torus_lots(
    job: TorusJob, blank: Blank, cutting: CuttingPlan, species: Rings, spares: Spares, glued: int = 0
) -> tuple[Lot, ...]:
    """What is sawn from boards; segments of a layup are not.

    `species` are (N, n) names of woods; `spares` says for each whole ring to spare which it can stand in for. The last
    `glued` rings are cut already.
    """
    left = species[: len(species) - glued]
    return numbered(
        [
            *_segments(job, cutting, species, left, spares),
            *_strips(job, blank, cutting, species, left, spares),
            *_ring_strips(job, blank, species),
        ]
    )


def _segments(
    job: TorusJob, cutting: CuttingPlan, species: Rings, left: Rings, spares: Spares
) -> Iterator[Lot]:
    layout = cutting.carrier
    cut = layout.cut
    for name in _woods(left):
        count = sum(ring.count(name) for ring in left)
        whole = sum(species[rings[0] - 1].count(name) for rings in spares)
        yield Lot(
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
            blade=layout.blade_height,
        )


def _strips(
    job: TorusJob, blank: Blank, cutting: CuttingPlan, species: Rings, left: Rings, spares: Spares
) -> Iterator[Lot]:
    """Strips between segments, of thin boards, their grain along the joint: the shorter way across it, so that least
    of it stands against the segments' own movement. A little longer than the joint, for they are trimmed flush. Scrap
    rings take spare ones of the first wood."""
    strips = [job.form.strip_woods(ring) for ring in species]
    length = slip_length(blank.joint_depth, job.unit)
    own = tuple(strips[: len(left)])
    for k, name in enumerate(_woods(own)):
        count = sum(ring.count(name) for ring in own)
        whole = sum(strips[rings[0] - 1].count(name) for rings in spares)
        whole += 0 if k else trial_rings(blank) * blank.segments
        yield square_lot(
            f"strips of {name} between segments",
            "spacer",
            _with(own, name),
            name,
            count,
            spare_pieces(job, count) + whole,
            (blank.spacer, cutting.carrier.cut.length, length),
            KERF,
            "by hand",
        )


def _ring_strips(job: TorusJob, blank: Blank, species: Rings) -> Iterator[Lot]:
    """Squares of thin board between the wedge rings, a little larger than a ring's face, and closed over its core."""
    woods = [job.form.ring_strip_wood(ring) for ring in species] if blank.ring_spacer else []
    side = slip_length(2 * blank.half_width / cos(blank.half_wedge), job.unit)
    for name in dict.fromkeys(woods):
        rings = tuple(number for number, wood in enumerate(woods, 1) if wood == name)
        yield square_lot(
            f"strips of {name} between rings",
            "ring strip",
            rings,
            name,
            len(rings),
            spare_pieces(job, len(rings)),
            (blank.ring_spacer, side, side),
            KERF,
            "by hand",
        )


def trial_rings(blank: Blank) -> int:
    """Rings of scrap: those of the check corner, and the one of the first trial."""
    return check_corner(blank).rings + 1


def _woods(species: Sequence[Sequence[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for ring in species for name in ring))


def _with(species: Rings, name: str) -> tuple[int, ...]:
    return tuple(k for k, ring in enumerate(species, 1) if name in ring)
