"""The GLB, read back by its own headers (glTF 2.0 specification: binary chunks, accessors, UV from the upper left)."""

import io
import json
import struct

import numpy as np
import pytest
import trimesh
from PIL import Image

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.looks.form import form_of
from jigs.looks.model import glb, mesh_of
from jigs.looks.spots import at_points
from jigs.looks.surface import surface_of
from jigs.looks.unrolled import true_height, unrolled
from tests.jigs.looks.looking import CONFIGS, FORMS, form, planned

WIDE = 700
KINDS = {5123: "<u2", 5125: "<u4", 5126: "<f4"}
COLUMNS = {"SCALAR": 1, "VEC2": 2, "VEC3": 3}


@pytest.fixture(scope="module", params=FORMS)
def model(request):
    own = form(request.param)
    surface = surface_of(planned(request.param))
    texture = unrolled(surface, own.meridian, own.whole, WIDE, true_height(own.meridian, own.whole, WIDE))
    return request.param, texture, glb(mesh_of(own.meridian), texture)


def chunks(content):
    magic, version, length = struct.unpack("<4sII", content[:12])
    assert (magic, version, length) == (b"glTF", 2, len(content))
    size, kind = struct.unpack("<I4s", content[12:20])
    assert kind == b"JSON"
    return json.loads(content[20 : 20 + size]), content[28 + size :]


def view_of(tree, body, index):
    view = tree["bufferViews"][index]
    start = view.get("byteOffset", 0)
    return body[start : start + view["byteLength"]]


def accessor(tree, body, index):
    own = tree["accessors"][index]
    raw = view_of(tree, body, own["bufferView"])[own.get("byteOffset", 0) :]
    columns = COLUMNS[own["type"]]
    found = np.frombuffer(raw, KINDS[own["componentType"]], own["count"] * columns)
    return found.reshape(-1, columns).astype(float)


def arrays(content):
    tree, body = chunks(content)
    (mesh,) = tree["meshes"]
    (primitive,) = mesh["primitives"]
    found = {name: accessor(tree, body, index) for name, index in primitive["attributes"].items()}
    found["faces"] = accessor(tree, body, primitive["indices"]).reshape(-1, 3).astype(int)
    return tree, body, found


def test_it_is_in_metres_and_upright(model):
    name, _, content = model
    solid = form(name).solid
    _, _, found = arrays(content)
    low, high = found["POSITION"].min(axis=0) * 1000, found["POSITION"].max(axis=0) * 1000
    wide = solid.radii.max()
    assert (low, high) == (
        pytest.approx((-wide, solid.z[0], -wide), abs=0.05),
        pytest.approx((wide, solid.z[-1], wide), abs=0.05),
    )


def test_it_is_closed_once_its_seams_are_joined_and_holds_the_finished_volume(model):
    name, _, content = model
    _, _, found = arrays(content)
    places, same = np.unique(np.round(found["POSITION"], 7), axis=0, return_inverse=True)
    body = trimesh.Trimesh(places, same.reshape(-1)[found["faces"]], process=False)
    assert body.is_watertight
    plan = planned(name)
    volume = plan.torus_volume if plan.kind == "torus" else plan.section.volume
    assert body.volume * 1e9 == pytest.approx(volume, rel=0.005)  # positive: normals leave the wood


def test_its_normals_leave_the_wood(model):
    _, _, content = model
    _, _, found = arrays(content)
    a, b, c = (found["POSITION"][found["faces"][:, k]] for k in range(3))
    square = np.cross(b - a, c - a)
    square /= np.linalg.norm(square, axis=1)[:, None]
    mean = found["NORMAL"][found["faces"]].mean(axis=1)
    assert ((square * mean).sum(axis=1) > 0.9).mean() > 0.999


def test_the_texture_is_the_unrolled_surface(model):
    _, texture, content = model
    tree, body = chunks(content)
    (material,) = tree["materials"]
    index = material["pbrMetallicRoughness"]["baseColorTexture"]["index"]
    image = tree["images"][tree["textures"][index]["source"]]
    assert image["mimeType"] == "image/png"
    picture = Image.open(io.BytesIO(view_of(tree, body, image["bufferView"])))
    assert (np.asarray(picture.convert("RGB")) == texture).all()
    assert not material.get("doubleSided")


def test_the_colour_at_each_face_is_that_of_the_wood_there(tmp_path):
    """Left and right, up and down: by the texture and by the face's place, of rings that are all unlike."""
    woods = ["ash", "walnut", "ebony", "padauk", "purpleheart", "cherry", "holly", "wenge"]
    starts = (0, 1, 3, 6, 2, 7, 5, 4, 4, 1, 0, 2, 6, 3, 7, 5)
    rings = [[woods[(start + i) % 8] for i in range(8)] for start in starts]
    text = (CONFIGS / "garland.toml").read_text("utf-8")
    text = text.replace("core_opening = 20", f"core_opening = 20\nspecies = {json.dumps(rings)}")
    (tmp_path / "harlequin.toml").write_text(text, "utf-8")
    (tmp_path / "shed.toml").write_text((CONFIGS / "shed.toml").read_text("utf-8"), "utf-8")
    plan = solve(load(tmp_path / "harlequin.toml"))
    own, surface = form_of(plan), surface_of(plan)
    texture = unrolled(surface, own.meridian, own.whole, WIDE, 200)
    _, _, found = arrays(glb(mesh_of(own.meridian), texture))
    u, v = found["TEXCOORD_0"][found["faces"]].mean(axis=1).T
    points, normals = (
        found[name][found["faces"]].mean(axis=1)[:, [0, 2, 1]] for name in ("POSITION", "NORMAL")
    )
    normals *= (1, -1, 1) / np.linalg.norm(normals, axis=1)[:, None]
    spots = at_points(points * (1000, -1000, 1000), normals)
    clear = surface.from_joint(spots, surface.places(spots)) > 2.5  # mm; pixel, line and face together
    wood = surface.colours(spots, 0.1)[clear]
    assert clear.mean() > 0.4

    def alike(u, v):
        shown = texture[(v * texture.shape[0]).astype(int), (u * texture.shape[1]).astype(int)][clear]
        return (np.abs(shown - wood).max(axis=1) < 6).mean()

    assert alike(u, v) == 1
    assert max(alike(1 - u, v), alike(u, 1 - v), alike((u + 0.5) % 1, v)) < 0.5


def test_seams_are_cut_where_the_texture_begins_and_ends(model):
    _, _, content = model
    _, _, found = arrays(content)
    across = found["TEXCOORD_0"][found["faces"]][..., 0]
    assert np.ptp(across, axis=1).max() < 1 / 100
    assert (found["TEXCOORD_0"].min(), found["TEXCOORD_0"].max()) == pytest.approx((0, 1), abs=1e-6)


def test_the_same_form_gives_the_same_bytes(model):
    name, texture, content = model
    assert glb(mesh_of(form(name).meridian), texture) == content
