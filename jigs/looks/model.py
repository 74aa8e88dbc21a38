"""The finished form as a textured mesh in a GLB file: metres, +Y up, the unrolled surface as its texture."""

from __future__ import annotations

import io
from math import pi

import numpy as np
import numpy.typing as npt
from PIL import Image as Pillow

from geometry.bodies.meridian import Meridian, turned_surface
from geometry.plane.edges import FloatArray
from geometry.records import Record
from jigs.looks.picture import png
from jigs.looks.views import Image

AROUND = 192  # faces round the axis
DEVIATION = 0.05  # mm, from the outline to the mesh's chords
LONGEST = 1 / 96  # of the outline's length: the most that one face spans
ROUGHNESS = 0.55  # of oiled wood, by eye
METRE = 1000.0


class Mesh(Record, eq=False):
    """Vertices and normals (n, 3), mm, Z up; places (n, 2) in the texture, from its upper left; faces (m, 3).

    Where the surface was cut open, and at its sharp edges, vertices come twice.
    """

    vertices: FloatArray
    normals: FloatArray
    places: FloatArray
    faces: npt.NDArray[np.int64]


def mesh_of(meridian: Meridian) -> Mesh:
    """The whole surface; a texture's rows run along the outline, backwards, its columns from -π to π."""
    s = meridian.chords(DEVIATION, meridian.length * LONGEST)
    around = np.linspace(-pi, pi, AROUND + 1)
    vertices, normals = turned_surface(meridian.at(s), around)
    vertices[:, -1], normals[:, -1] = vertices[:, 0], normals[:, 0]  # to the last digit
    u, v = np.meshgrid((around + pi) / (2 * pi), 1 - s / meridian.length)
    corner = (np.arange(len(s) - 1)[:, None] * (AROUND + 1) + np.arange(AROUND)).ravel()
    quads = np.stack((corner, corner + 1, corner + AROUND + 2, corner + AROUND + 1), axis=1)
    faces = np.concatenate((quads[:, [0, 1, 2]], quads[:, [0, 2, 3]]))
    flat, places = vertices.reshape(-1, 3), np.column_stack((u.ravel(), v.ravel()))
    return Mesh(flat, normals.reshape(-1, 3), places, _with_area(flat, faces))


def _with_area(vertices: FloatArray, faces: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
    """Without the faces that have shrunk to a line: at the axis, and between the two sides of a sharp edge."""
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    return np.asarray(faces[np.linalg.norm(np.cross(b - a, c - a), axis=1) > 1e-9])


def glb(mesh: Mesh, texture: Image) -> bytes:
    """The file; same mesh and texture, same bytes."""
    import trimesh  # a second to load, and only this needs it
    from trimesh.exchange.gltf import export_glb
    from trimesh.visual import TextureVisuals
    from trimesh.visual.material import PBRMaterial

    picture = Pillow.open(io.BytesIO(png(texture)))
    material = PBRMaterial(  # type: ignore[no-untyped-call]
        name="wood", baseColorTexture=picture, metallicFactor=0.0, roughnessFactor=ROUGHNESS
    )
    upward = mesh.places * (1.0, -1.0) + (0.0, 1.0)  # trimesh counts from the lower left corner
    visual = TextureVisuals(uv=upward, material=material)  # type: ignore[no-untyped-call]
    body = trimesh.Trimesh(
        _y_up(mesh.vertices) / METRE,
        mesh.faces,
        vertex_normals=_y_up(mesh.normals),
        visual=visual,
        process=False,
    )
    scene = trimesh.Scene(body)
    return bytes(export_glb(scene, include_normals=True))  # type: ignore[no-untyped-call]


def _y_up(vectors: FloatArray) -> FloatArray:
    return np.asarray(vectors[:, [0, 2, 1]] * (1.0, 1.0, -1.0))
