"""A wedge of wood that is partly turned already, by the CAD kernel: where its flats meet a turned surface, no curve of
STEP's own runs. Nothing else needs the kernel.

By OCCT's own binding (OCP, which CadQuery brings), since that is a third of the time of CadQuery to load.
"""

from __future__ import annotations

import re
from functools import cache
from math import pi, tan
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from geometry.plane.contour import Contour
from geometry.plane.edges import Edge
from jigs.parts.part import Part

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

DIGITS = 9  # decimals of a mm of a radius: what a bulge keeps of it
ROW = re.compile(r"#(\d+) = (.*?);\n", re.DOTALL)
SOLID = "MANIFOLD_SOLID_BREP"


def turned_wedge(part: Part) -> tuple[dict[int, str], int]:
    """What STEP says of it, by the numbers of its entities, and that of the solid.

    Raises ValueError where it falls into several, and RuntimeError where the CAD kernel cannot be loaded.
    """
    if not part.turned:
        raise ValueError(f"{part.name}: not turned, so STEP has words of its own for it")
    load()
    return _told(part.outline, part.holes, part.wedge, part.turned)


@cache
def _told(
    outline: Contour, holes: tuple[Contour, ...], wedge: float, turned: Contour
) -> tuple[dict[int, str], int]:
    from OCP.STEPControl import STEPControl_AsIs, STEPControl_Writer

    body = _wedge(outline, holes, wedge, turned)
    _settings()
    with TemporaryDirectory() as aside:
        file = Path(aside) / "wedge.step"
        writer = STEPControl_Writer()
        writer.Transfer(body, STEPControl_AsIs)
        writer.Write(str(file))
        rows = {int(k): text.replace("\n", "") for k, text in ROW.findall(file.read_text("ascii"))}
    solids = [k for k, text in rows.items() if text.startswith(SOLID)]
    if len(solids) != 1:
        raise ValueError(f"the turned wedge falls into {len(solids)} solids")
    return rows, solids[0]


def load() -> None:
    """Load the CAD kernel. Raises RuntimeError where that cannot be."""
    try:
        import OCP.gp  # noqa: F401
    except ImportError as error:
        raise RuntimeError(f"solids need CadQuery, which cannot be loaded here: {error}") from error


@cache
def _settings() -> None:
    """Millimetres; no edge again in the plane of each face it bounds, which would be three fifths of a file."""
    from OCP.Interface import Interface_Static
    from OCP.STEPControl import STEPControl_Controller

    STEPControl_Controller.Init_s()
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 0)


def _wedge(outline: Contour, holes: tuple[Contour, ...], wedge: float, turned: Contour) -> TopoDS_Shape:
    """Between two planes through the y axis, to both sides of z = 0; outline and holes have straight edges."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut

    body, *cores = (_between(contour, tan(wedge / 2)) for contour in (outline, *holes))
    for core in cores:
        body = BRepAlgoAPI_Cut(body, core).Shape()
    past = min(1.5 * wedge, 2 * pi)  # both faces, and no further: a whole torus takes twice as long
    return BRepAlgoAPI_Common(body, _some_about_y(turned, past)).Shape()


def _between(contour: Contour, slope: float) -> TopoDS_Shape:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakePolygon
    from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
    from OCP.gp import gp_Pnt

    loft = BRepOffsetAPI_ThruSections(True, True)
    for side in (-slope, slope):
        wire = BRepBuilderAPI_MakePolygon()
        for x, y in contour.ccw().points.tolist():
            wire.Add(gp_Pnt(x, y, side * x))
        wire.Close()
        loft.AddWire(wire.Wire())
    loft.CheckCompatibility(False)
    return loft.Shape()


def _y_axis() -> Any:
    from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt

    return gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 1, 0))


def _some_about_y(section: Contour, angle: float) -> TopoDS_Shape:
    """As far about it as that, half to each side of z = 0."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol
    from OCP.gp import gp_Trsf

    turn = gp_Trsf()
    turn.SetRotation(_y_axis(), -angle / 2)
    body = BRepPrimAPI_MakeRevol(_face(section), _y_axis(), angle).Shape()
    return BRepBuilderAPI_Transform(body, turn, True).Shape()


def _face(outline: Contour) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire

    wire = BRepBuilderAPI_MakeWire()
    for edge in outline.ccw().edges():
        wire.Add(_edge(edge))
    return BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()


def _edge(edge: Edge) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
    from OCP.gp import gp_Ax2, gp_Circ, gp_Dir, gp_Pnt

    start, end = (gp_Pnt(*point, 0.0) for point in (edge.start, edge.end))
    if not edge.is_arc:
        return BRepBuilderAPI_MakeEdge(start, end).Edge()
    frame = gp_Ax2(gp_Pnt(*edge.centre, 0.0), gp_Dir(0, 0, 1 if edge.bulge > 0 else -1))
    return BRepBuilderAPI_MakeEdge(gp_Circ(frame, round(edge.radius, DIGITS)), start, end).Edge()
