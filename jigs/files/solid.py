"""A part as an exact solid, for STEP and to hold the mesh against; nothing else needs the CAD kernel."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from geometry.plane.contour import Contour, Edge
from jigs.parts.part import Bevel, Part

if TYPE_CHECKING:
    import cadquery


def solid(part: Part) -> cadquery.Solid:
    """Return the plate with its holes and bevel, arcs true, without its marks, standing on z = 0.

    Raises ValueError for a part without thickness or in several pieces, and RuntimeError where CadQuery
    cannot be loaded.
    """
    cq = _cadquery()
    if part.thickness <= 0:
        raise ValueError(f"{part.name}: has no thickness, so it is no solid")
    up = cq.Vector(0, 0, part.thickness)
    body = _bevelled(part, part.bevel) if part.bevel else cq.Solid.extrudeLinear(_wire(part.outline), [], up)
    holes = [cq.Solid.extrudeLinear(_wire(hole), [], up) for hole in part.holes]
    solids = (body.cut(*holes) if holes else body).Solids()
    if len(solids) != 1:
        raise ValueError(f"{part.name}: falls into {len(solids)} solids")
    return cast("cadquery.Solid", solids[0])


def _cadquery() -> Any:
    try:
        import cadquery
    except ImportError as error:
        raise RuntimeError(f"solids need CadQuery, which cannot be loaded here: {error}") from error
    return cadquery


def _bevelled(part: Part, bevel: Bevel) -> Any:
    cq = _cadquery()
    slope = cq.Solid.makeLoft([_wire(part.outline, bevel.land), _wire(bevel.top, part.thickness)], True)
    if not bevel.land:
        return slope
    return slope.fuse(cq.Solid.extrudeLinear(_wire(part.outline), [], cq.Vector(0, 0, bevel.land)))


def _wire(contour: Contour, height: float = 0.0) -> Any:
    return _cadquery().Wire.assembleEdges([_edge(edge, height) for edge in contour.edges()])


def _edge(edge: Edge, height: float) -> Any:
    cq = _cadquery()
    start, middle, end = (cq.Vector(*point, height) for point in (edge.start, edge.midpoint, edge.end))
    return cq.Edge.makeThreePointArc(start, middle, end) if edge.is_arc else cq.Edge.makeLine(start, end)
