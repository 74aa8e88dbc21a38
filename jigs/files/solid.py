"""A part as an exact solid, for STEP and to hold the mesh against; nothing else needs the CAD kernel.

By OCCT's own binding (OCP, which CadQuery brings), since that is a third of the time of CadQuery to load and half to
write. Arcs are exact, marks are left out: text would be nine tenths of the work.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from math import pi, tan
from pathlib import Path
from typing import TYPE_CHECKING, Any

from geometry.plane.contour import Contour
from geometry.plane.edges import Edge
from jigs.parts.assembly import Place
from jigs.parts.part import Bevel, Part

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

DIGITS = 9  # decimals of a mm of a radius: what a bulge keeps of it
ANY_DATE = re.compile(rb"(FILE_NAME\('[^']*',)'[^']*'")
DATE = rb"\1'2000-01-01T00:00:00'"  # the same in every run


def solid(part: Part) -> TopoDS_Shape:
    """Return the plate with its holes and bevel standing on z = 0, a turned part revolved about z, or a wedge's.

    Raises ValueError for a part that is no solid or falls into several, and RuntimeError where the CAD kernel cannot
    be loaded.
    """
    load()
    form = _form(part)
    if form not in _MADE:
        _MADE[form] = _one(part.name, _body(part))
    return _MADE[form]


_MADE: dict[tuple[object, ...], TopoDS_Shape] = {}  # an assembly's parts are files of their own too


def _form(part: Part) -> tuple[object, ...]:
    """What its solid follows from, so that equal ones are made once."""
    bevel, turned = part.bevel, part.turned
    contours = (part.outline, *part.holes, *((bevel.top,) if bevel else ()), *((turned,) if turned else ()))
    rows = tuple(one.vertices.tobytes() for one in contours)
    return (part.process == "turn", part.wedge, part.thickness, bevel and bevel.land, bool(turned), rows)


def _body(part: Part) -> TopoDS_Shape:
    if part.process == "turn":
        return _revolved(part)
    if part.wedge:
        return _wedge(part)
    if part.thickness <= 0:
        raise ValueError(f"{part.name}: has no thickness, so it is no solid")
    if part.bevel:
        return _bevelled(part, part.bevel)
    return _raised(part.outline, part.holes, part.thickness)


def write_step(part: Part, file: Path) -> None:
    """Write a part as STEP in millimetres (ISO 10303-214): the same part, the same bytes. Raises as `solid` does."""
    body = solid(part)
    document, shapes = _document()
    _named(shapes.AddShape(body, False), _called(part))
    _write(document, file)


def write_assembly(name: str, members: Sequence[tuple[Part, Place]], file: Path) -> None:
    """Write parts in their places, each part once. Raises as `solid` does."""
    document, shapes = _document()
    whole = shapes.NewShape()
    _named(whole, name)
    bodies: dict[str, Any] = {}
    for part, place in members:
        if part.name not in bodies:
            bodies[part.name] = shapes.AddShape(solid(part), False)
            _named(bodies[part.name], _called(part))
        _named(shapes.AddComponent(whole, bodies[part.name], _location(place)), _called(part))
    shapes.UpdateAssemblies()
    _write(document, file)


def _location(place: Place) -> Any:
    from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
    from OCP.TopLoc import TopLoc_Location

    upward = gp_Vec(*place.x).Crossed(gp_Vec(*place.y))
    move = gp_Trsf()
    move.SetTransformation(gp_Ax3(gp_Pnt(*place.origin), gp_Dir(upward), gp_Dir(*place.x)), gp_Ax3())
    return TopLoc_Location(move)


def _called(part: Part) -> str:
    return f"{part.code} {part.name}"


def _document() -> tuple[Any, Any]:
    """An empty document and what holds its shapes. Shapes written without one are numbered in the order of writing."""
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("BinXCAF"))
    return document, XCAFDoc_DocumentTool.ShapeTool_s(document.Main())


def _named(label: Any, name: str) -> None:
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name

    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name))


def _write(document: Any, file: Path) -> None:
    from OCP.STEPCAFControl import STEPCAFControl_Writer
    from OCP.STEPControl import STEPControl_AsIs

    _settings()
    writer = STEPCAFControl_Writer()
    writer.Transfer(document, STEPControl_AsIs)
    writer.Write(str(file))
    file.write_bytes(ANY_DATE.sub(DATE, file.read_bytes(), count=1))


@cache
def _settings() -> None:
    """Millimetres; no edge again in the plane of each face it bounds, which would be three fifths of a file."""
    from OCP.Interface import Interface_Static
    from OCP.STEPControl import STEPControl_Controller

    STEPControl_Controller.Init_s()
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 0)


def load() -> None:
    """Load the CAD kernel. Raises RuntimeError where that cannot be."""
    try:
        import OCP.gp  # noqa: F401
    except ImportError as error:
        raise RuntimeError(f"solids need CadQuery, which cannot be loaded here: {error}") from error


def _one(name: str, body: TopoDS_Shape) -> TopoDS_Shape:
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    found, each = [], TopExp_Explorer(body, TopAbs_SOLID)
    while each.More():
        found.append(each.Current())
        each.Next()
    if len(found) != 1:
        raise ValueError(f"{name}: falls into {len(found)} solids")
    return found[0]


def _raised(outline: Contour, holes: tuple[Contour, ...], height: float) -> TopoDS_Shape:
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    return BRepPrimAPI_MakePrism(_face(outline, holes), gp_Vec(0, 0, height)).Shape()


def _revolved(part: Part) -> TopoDS_Shape:
    """The section, x the radius and y the height, about its axis, which is then put upright."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
    from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Trsf

    upright = gp_Trsf()
    upright.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(1, 0, 0)), pi / 2)
    return BRepBuilderAPI_Transform(_about_y(part.outline, part.holes), upright, True).Shape()


def _about_y(section: Contour, holes: tuple[Contour, ...]) -> TopoDS_Shape:
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol

    return BRepPrimAPI_MakeRevol(_face(section, holes), _y_axis()).Shape()


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
    body = BRepPrimAPI_MakeRevol(_face(section, ()), _y_axis(), angle).Shape()
    return BRepBuilderAPI_Transform(body, turn, True).Shape()


def _bevelled(part: Part, bevel: Bevel) -> TopoDS_Shape:
    """Straight from outline to top, edge by edge; then the holes."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
    from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections

    loft = BRepOffsetAPI_ThruSections(True, True)
    levels = [(part.outline, 0.0), (part.outline, bevel.land), (bevel.top, part.thickness)]
    for contour, height in levels if bevel.land else levels[1:]:
        loft.AddWire(_wire(contour, height))
    loft.CheckCompatibility(False)
    body = loft.Shape()
    for hole in part.holes:
        body = BRepAlgoAPI_Cut(body, _raised(hole.ccw(), (), part.thickness)).Shape()
    return body


def _wedge(part: Part) -> TopoDS_Shape:
    """Between two planes through the y axis, to both sides of z = 0; outline and holes have straight edges."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut

    body, *cores = (_between(contour, tan(part.wedge / 2)) for contour in (part.outline, *part.holes))
    for core in cores:
        body = BRepAlgoAPI_Cut(body, core).Shape()
    if not part.turned:
        return body
    past = min(1.5 * part.wedge, 2 * pi)  # both faces, and no further: a whole torus takes twice as long
    return BRepAlgoAPI_Common(body, _some_about_y(part.turned, past)).Shape()


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


def _face(outline: Contour, holes: tuple[Contour, ...]) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace

    face = BRepBuilderAPI_MakeFace(_wire(outline.ccw()), True)
    for hole in holes:
        face.Add(_wire(hole.cw()))
    return face.Face()


def _wire(contour: Contour, height: float = 0.0) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeWire

    wire = BRepBuilderAPI_MakeWire()
    for edge in contour.edges():
        wire.Add(_edge(edge, height))
    return wire.Wire()


def _edge(edge: Edge, height: float) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
    from OCP.gp import gp_Ax2, gp_Circ, gp_Dir, gp_Pnt

    start, end = (gp_Pnt(*point, height) for point in (edge.start, edge.end))
    if not edge.is_arc:
        return BRepBuilderAPI_MakeEdge(start, end).Edge()
    frame = gp_Ax2(gp_Pnt(*edge.centre, height), gp_Dir(0, 0, 1 if edge.bulge > 0 else -1))
    return BRepBuilderAPI_MakeEdge(gp_Circ(frame, round(edge.radius, DIGITS)), start, end).Edge()
