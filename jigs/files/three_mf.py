"""3MF in millimetres: a bed-load of parts, each a closed mesh once, its copies as placed items of the build.

By the 3MF core specification 1.3 (3MF Consortium), written as plain XML in a zip, since the files of libraries tried
were refused by other readers or failed the strict reading of lib3mf. The core has no word for how a body is filled:
what a part's facts say is metadata of its object, and for slicers that know it there is one more file in the package
that asks for full density where the facts say solid.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from html import escape
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from jigs.files.drawing import all_facts
from jigs.files.mesh import DEVIATION, Mesh, part_mesh
from jigs.files.sheets.bed_loads import BedLoad
from jigs.files.sheets.nesting import Placed, quarter_turn
from jigs.parts.part import Part

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
OWN = "urn:turning-jigs:facts"  # the namespace of a part's facts
SOLID = ("Fill", "solid")  # the fact that asks for full density
FULL = '<metadata type="object" key="fill_density" value="100%"/>\n'
DATE = (1980, 1, 1, 0, 0, 0)  # the same in every run; the earliest that a zip can hold
QUICKLY = 2  # of zlib's levels; the usual one takes three times as long for files a sixth smaller
TYPES = """<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
<Default Extension="config" ContentType="application/xml"/>
</Types>
"""
RELATIONS = """<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Target="/3D/3dmodel.model" Id="rel0" \
Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
"""


def three_mf(load: BedLoad, title: str, description: str) -> bytes:
    """The file; same load and words, same bytes. Raises ValueError as part_mesh does."""
    meshes = {part: part_mesh(part, DEVIATION) for part in load.counts}
    files = {
        "[Content_Types].xml": TYPES,
        "_rels/.rels": RELATIONS,
        "3D/3dmodel.model": _model(load.placed, meshes, title, description),
        "Metadata/Slic3r_PE_model.config": _settings(meshes),
    }
    stream = io.BytesIO()
    with ZipFile(stream, "w", ZIP_DEFLATED) as package:
        for name, text in files.items():
            entry = ZipInfo(name, DATE)
            entry.compress_type, entry.create_system = ZIP_DEFLATED, 0
            package.writestr(entry, text.encode(), compresslevel=QUICKLY)
    return stream.getvalue()


def _model(placed: Sequence[Placed], meshes: dict[Part, Mesh], title: str, description: str) -> str:
    ids = {part: number for number, part in enumerate(meshes, 1)}
    return "".join(
        (
            f'<?xml version="1.0" encoding="UTF-8"?>\n<model unit="millimeter" xml:lang="en" xmlns="{CORE}" ',
            f'xmlns:jigs="{OWN}">\n<metadata name="Title">{escape(title)}</metadata>\n',
            f'<metadata name="Description">{escape(description)}</metadata>\n<resources>\n',
            *(_object(ids[part], part, mesh) for part, mesh in meshes.items()),
            "</resources>\n<build>\n",
            *(_item(ids[item.part], item) for item in placed),
            "</build>\n</model>\n",
        )
    )


def _object(number: int, part: Part, mesh: Mesh) -> str:
    facts = "".join(
        f'<metadata name="jigs:{escape(name)}">{escape(value)}</metadata>\n'
        for name, value in all_facts(part)
    )
    vertex, triangle = '<vertex x="%.9g" y="%.9g" z="%.9g"/>\n', '<triangle v1="%d" v2="%d" v3="%d"/>\n'
    return (
        f'<object id="{number}" type="model" name="{_called(part)}" partnumber="{escape(part.code)}">\n'
        f"<metadatagroup>\n{facts}</metadatagroup>\n<mesh>\n<vertices>\n"
        f"{vertex * len(mesh.vertices) % tuple(mesh.vertices.ravel().tolist())}</vertices>\n<triangles>\n"
        f"{triangle * len(mesh.triangles) % tuple(mesh.triangles.ravel().tolist())}</triangles>\n"
        "</mesh>\n</object>\n"
    )


def _called(part: Part) -> str:
    return escape(f"{part.code} {part.name}")


def _item(number: int, item: Placed) -> str:
    """A copy where it lies: rows of the matrix that rows of points are multiplied by, then the shift."""
    (a, b), (c, d) = quarter_turn(item.turns).tolist()
    numbers = (a, b, 0, c, d, 0, 0, 0, 1, item.x, item.y, 0)
    transform = " ".join(f"{value + 0.0:.9g}" for value in numbers)
    return f'<item objectid="{number}" transform="{transform}"/>\n'


def _settings(meshes: dict[Part, Mesh]) -> str:
    """What the slicers of one family read beside the core: each object's name, and full density where it is asked."""
    objects = (
        f'<object id="{number}">\n<metadata type="object" key="name" value="{_called(part)}"/>\n'
        f"{FULL if SOLID in part.facts else ''}"
        f'<volume firstid="0" lastid="{len(mesh.triangles) - 1}">\n'
        f'<metadata type="volume" key="name" value="{_called(part)}"/>\n</volume>\n</object>\n'
        for number, (part, mesh) in enumerate(meshes.items(), 1)
    )
    return f'<?xml version="1.0" encoding="UTF-8"?>\n<config>\n{"".join(objects)}</config>\n'
