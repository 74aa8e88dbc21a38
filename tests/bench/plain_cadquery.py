"""The rack as a CadQuery user would script it: plates extruded, lettering fused on, STL and DXF exported.

Run as `plain_cadquery.py PLATES.json FOLDER`; the plates are what tests/bench/plates.py prints. Where that
favours CadQuery it is left so: drawn parts get no lettering, and nothing is measured back.
"""

import json
import sys
from pathlib import Path

import cadquery as cq


def wire(rows, z=0.0):
    """Draw a closed wire through rows of (x, y, bulge)."""
    sketch = cq.Workplane().workplane(offset=z).moveTo(*rows[0][:2])
    for (x0, y0, bulge), (x1, y1, _) in zip(rows, rows[1:] + rows[:1], strict=True):
        if bulge:
            middle = ((x0 + x1 + bulge * (y1 - y0)) / 2, (y0 + y1 - bulge * (x1 - x0)) / 2)
            sketch = sketch.threePointArc(middle, (x1, y1))
        else:
            sketch = sketch.lineTo(x1, y1)
    return sketch.wire()


def body(plate):
    """Extrude the outline, with its bevel, less the holes."""
    thickness, bevel = plate["thickness"], plate["bevel"]
    solid = wire(plate["outline"]).extrude(bevel["land"] if bevel else thickness)
    if bevel:
        low, high = wire(plate["outline"], bevel["land"]), wire(bevel["top"], thickness)
        solid = solid.union(cq.Workplane(cq.Solid.makeLoft([low.val(), high.val()], True)))
    for hole in plate["holes"]:
        solid = solid.cut(wire(hole).extrude(thickness))
    return solid


def lettered(plate):
    """Fuse each line of text onto the plate, in a size that takes the room of ours."""
    solid = body(plate)
    for text, x, y, height, angle in plate["text"]:
        place = cq.Workplane().workplane(offset=plate["thickness"]).center(x, y)
        place = place.transformed(rotate=(0, 0, angle))
        line = place.text(text, height, plate["rise"], combine=False, halign="left", valign="bottom")
        solid = solid.union(line)
    return solid


def make(plate, folder):
    name = f"{folder / plate['name']}"
    if plate["process"] == "print":
        cq.exporters.export(lettered(plate), f"{name}.stl", tolerance=0.01, angularTolerance=0.1)
        return
    drawing = wire(plate["outline"])
    for hole in plate["holes"]:
        drawing = drawing.add(wire(hole))
    cq.exporters.export(drawing, f"{name}.dxf")


def main(plates, folder):
    for plate in json.loads(Path(plates).read_text()):
        make(plate, Path(folder))


if __name__ == "__main__":
    main(*sys.argv[1:])
