"""The GLB against the glTF 2.0 specification: its JSON by the Khronos Group's own schema (which trimesh carries), and
the rules that a schema cannot say, each by its section of the specification (Khronos, glTF 2.0, 2021)."""

import json
import struct

import jsonschema
import numpy as np
import pytest
from trimesh.exchange.gltf import get_schema

from tests.jigs.looks.test_model import COLUMNS, KINDS, accessor, chunks, model  # noqa: F401

SIZES = {5120: 1, 5121: 1, 5122: 2, 5123: 2, 5125: 4, 5126: 4}
ARRAY = 34962


def faults(content):
    """Every rule that is broken."""
    return [*container(content), *document(content)]


def container(content):
    """4.4: header, one JSON chunk, one binary chunk, each a multiple of 4 long."""
    if struct.unpack("<4sII", content[:12]) != (b"glTF", 2, len(content)):
        yield "4.4.2 header"
    size, kind = struct.unpack("<I4s", content[12:20])
    if size % 4 or kind != b"JSON" or content[20 : 20 + size].rstrip(b" ")[-1:] != b"}":
        yield "4.4.3 JSON chunk"
    long, binary = struct.unpack("<I4s", content[20 + size : 28 + size])
    if long % 4 or binary != b"BIN\0" or 28 + size + long != len(content):
        yield "4.4.3 binary chunk"


def document(content):
    tree, body = chunks(content)
    checker = jsonschema.validators.validator_for(get_schema())(get_schema())
    wrong = [f"schema: {error.message}" for error in checker.iter_errors(tree)]
    yield from wrong
    if wrong:
        return
    if tree["asset"]["version"] != "2.0":
        yield "3.2 version"
    (buffer,) = tree["buffers"]
    if "uri" in buffer or not 0 <= len(body) - buffer["byteLength"] <= 3:
        yield "4.4.3.3 buffer"
    for view in tree["bufferViews"]:
        if view.get("byteOffset", 0) + view["byteLength"] > buffer["byteLength"]:
            yield "3.6.2 view past its buffer"
    placed = [fault for own in tree["accessors"] for fault in aligned(tree, own)]
    yield from placed
    if placed:
        return
    for number, own in enumerate(tree["accessors"]):
        yield from bounded(tree, body, number, own)
    for mesh in tree["meshes"]:
        for primitive in mesh["primitives"]:
            yield from drawn(tree, body, primitive)


def aligned(tree, own):
    """3.6.2.4: accessors on multiples of their component's size, of attributes on 4, within their view."""
    view, size = tree["bufferViews"][own["bufferView"]], SIZES[own["componentType"]]
    start = view.get("byteOffset", 0) + own.get("byteOffset", 0)
    if start % size or own.get("byteOffset", 0) % size:
        yield "3.6.2.4 alignment"
    stride = view.get("byteStride", size * COLUMNS[own["type"]])
    if view.get("target") == ARRAY and (stride % 4 or start % 4):
        yield "3.6.2.4 attribute's alignment"
    if start % size:
        return
    if own.get("byteOffset", 0) + stride * own["count"] > view["byteLength"]:
        yield "3.6.2.4 accessor past its view"


def bounded(tree, body, number, own):
    """3.6.2.5: min and max, where stated, are those of the data; and all of it is finite (3.6.2.2)."""
    found = accessor(tree, body, number)
    if not np.isfinite(found).all():
        yield "3.6.2.2 not a number"
    for name, extreme in (("min", found.min(axis=0)), ("max", found.max(axis=0))):
        if name in own and not np.allclose(own[name], extreme, rtol=0, atol=1e-7):
            yield f"3.6.2.5 {name}"


def drawn(tree, body, primitive):
    """3.7.2.1: what attributes are like, and indices that name vertices."""
    names = primitive["attributes"]
    counts = {tree["accessors"][index]["count"] for index in names.values()}
    if len(counts) != 1:
        yield "3.7.2.1 attributes of unlike counts"
    position = tree["accessors"][names["POSITION"]]
    if not {"min", "max"} <= position.keys() or (position["type"], position["componentType"]) != (
        "VEC3",
        5126,
    ):
        yield "3.7.2.1 POSITION"
    lengths = np.linalg.norm(accessor(tree, body, names["NORMAL"]), axis=1)
    if np.abs(lengths - 1).max() > 5e-4:
        yield "3.7.2.1 normals of another length than 1"
    indices = tree["accessors"][primitive["indices"]]
    used = accessor(tree, body, primitive["indices"])
    if indices["type"] != "SCALAR" or indices["componentType"] not in (5121, 5123, 5125):
        yield "3.7.2.1 indices"
    if used.max() >= min(counts) or used.max() == np.iinfo(KINDS[indices["componentType"]]).max:
        yield "3.7.2.1 index without a vertex"
    if primitive.get("mode", 4) == 4 and len(used) % 3:
        yield "3.7.2.1 no triangles"


def test_it_keeps_to_the_specification(model):  # noqa: F811
    assert faults(model[2]) == []


def rewritten(content, change):
    """The file with its JSON changed, padded anew."""
    tree, body = chunks(content)
    change(tree)
    text = json.dumps(tree).encode()
    text += b" " * (-len(text) % 4)
    head = struct.pack("<I4s", len(text), b"JSON") + text + struct.pack("<I4s", len(body), b"BIN\0")
    return struct.pack("<4sII", b"glTF", 2, 12 + len(head) + len(body)) + head + body


def of_positions(tree):
    return tree["accessors"][tree["meshes"][0]["primitives"][0]["attributes"]["POSITION"]]


def of_indices(tree):
    return tree["accessors"][tree["meshes"][0]["primitives"][0]["indices"]]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda tree: tree["asset"].update(version="1.0"), "3.2 version"),
        (lambda tree: of_positions(tree).pop("count"), "schema"),
        (lambda tree: of_positions(tree).pop("max"), "3.7.2.1 POSITION"),
        (lambda tree: of_positions(tree)["max"].__setitem__(0, 9.0), "3.6.2.5 max"),
        (lambda tree: of_positions(tree).update(byteOffset=2), "3.6.2.4 alignment"),
        (lambda tree: of_indices(tree).update(count=of_indices(tree)["count"] - 1), "3.7.2.1 no triangles"),
        (lambda tree: tree["bufferViews"][0].update(byteLength=10**9), "3.6.2 view"),
        (lambda tree: tree["buffers"][0].update(byteLength=10**9), "4.4.3.3 buffer"),
    ],
)
def test_a_file_that_breaks_it_is_found(model, change, told):  # noqa: F811
    assert faults(rewritten(model[2], lambda tree: None)) == []
    assert any(one.startswith(told) for one in faults(rewritten(model[2], change)))


def test_a_container_that_breaks_it_is_found(model):  # noqa: F811
    content = model[2]
    for was, becomes, told in ((b"BIN\0", b"BIN ", "4.4.3 binary"), (b"glTF", b"GLTF", "4.4.2 header")):
        assert any(one.startswith(told) for one in container(content.replace(was, becomes, 1)))
