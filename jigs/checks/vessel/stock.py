"""Whether the boards that ring heights were chosen from are enough."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.findings import Finding
from jigs.lengths import show_length
from jigs.plan.vessel.stack import Layer, StackPlan
from jigs.vessel_job import VesselJob
from jigs.words.amounts import area_text

Wood = tuple[str, float]  # species and thickness


def stock_findings(job: VesselJob, stack: StackPlan) -> Iterator[Finding]:
    """A warning for each kind of board of which less is listed than the strips alone take, kerfs counted."""
    if stack.choice is None:
        return
    for (species, thickness), needed in sorted(_needed(job, stack).items()):
        listed = _listed(job, (species, thickness))
        if listed is not None and listed < needed:
            have, want = area_text(listed, job.unit), area_text(needed, job.unit)
            board = f"{species} {show_length(thickness, job.unit)} thick"
            message = f"the strips take {want} of {board}, and {have} are listed"
            yield job.finding("not-enough-boards", message, key="stock.boards", severity="warning",
                              remedy=f"lay in at least {area_text(needed - listed, job.unit)} more")  # fmt: skip


def _listed(job: VesselJob, wood: Wood) -> float | None:
    """Area of the boards of a kind, mm2; None where a size was not stated."""
    boards = [board for board in job.workshop.stock.boards if (board.species, board.thickness) == wood]
    if any(board.width is None or board.length is None for board in boards):
        return None
    return sum((board.width or 0.0) * (board.length or 0.0) * board.count for board in boards)


def _needed(job: VesselJob, stack: StackPlan) -> dict[Wood, float]:
    found: dict[Wood, float] = {}
    for layer in stack.layers:
        for species in dict.fromkeys(layer.species if layer.kind != "staves" else ()):
            wood = (species, layer.ring.height)
            found[wood] = found.get(wood, 0.0) + _area(job, layer, species)
    return found


def _area(job: VesselJob, layer: Layer, species: str) -> float:
    """Board that a ring's segments of one species take: strips ripped to width; a disc its square."""
    if layer.cut is None:
        return (2 * layer.ring.outer) ** 2
    strip = layer.cut.strip_length(layer.species.count(species))
    return strip * (layer.cut.depth + job.workshop.saw.kerf)
