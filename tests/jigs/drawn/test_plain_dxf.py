"""A plain drawing, read without ezdxf, comes out as ezdxf reads it; what might not is left to ezdxf."""

import random

import pytest
from ezdxf.math import BSpline, ConstructionArc

from jigs.asked.drawn.bezier import Bezier
from jigs.asked.drawn.dxf import read_any_dxf, read_dxf
from jigs.asked.drawn.plain_dxf import plain_drawing
from tests.jigs.drawn.drawings import CUP, CURVE, dxf
from tests.jigs.tumbler_drawing import FILE


def plain_lines(space):
    space.add_lwpolyline(CUP, format="xyb", dxfattribs={"layer": "the cup", "color": 3})
    space.add_lwpolyline(CUP[:, :2], dxfattribs={"layer": "straight"}, close=True)
    space.add_spline().apply_construction_tool(BSpline(CURVE, order=4))
    space.add_spline(dxfattribs={"layer": "round"}).apply_construction_tool(
        BSpline.from_arc(ConstructionArc((20, 40), 40, -80, 80))
    )


def outcome(read, path):
    """All that is read, to the last bit, or what kind of fault there is."""
    try:
        sheet = read(path, "mm")
    except Exception as error:
        return type(error)
    strokes = [
        (
            one.names, one.kind, str(one.fault), *(type(part) for part in one.parts),
            *((part.control if isinstance(part, Bezier) else part).tobytes() for part in one.parts),
        )
        for one in sheet.strokes
    ]  # fmt: skip
    return strokes, sheet.unit, sheet.unit_said, sheet.inches, sheet.others


def changed(lines, draw):
    """One tag of the text left out, doubled, moved or altered."""
    at, to = (2 * draw.randrange(len(lines) // 2 - 1) for _ in range(2))
    tag, other = lines[at : at + 2], lines[to : to + 2]
    code = draw.choice(["0", "8", "10", "11", "20", "38", "41", "42", "67", "70", "100", "210", "330"])
    value = draw.choice(["1", "-0.5", "3.25", "1e3", "nan", "LINE", "", "a b", "AcDbEntity", "\\U+00e4"])
    new = draw.choice([[], [*tag, *tag], other, [*tag, *other], [code, tag[1]], [tag[0], value]])
    return [*lines[:at], *new, *lines[at + 2 :]]


@pytest.mark.parametrize("version", ["R2000", "R2010", "R2018"])
def test_plain_lines_are_read_as_ezdxf_reads_them(tmp_path, version):
    for path in (FILE, dxf(tmp_path, plain_lines, version=version)):
        assert plain_drawing(path.read_bytes()) is not None
        unit = None if path == FILE else "mm"
        assert outcome(lambda path, _, unit=unit: read_dxf(path, unit), path) == outcome(
            lambda path, _, unit=unit: read_any_dxf(path, unit), path
        )


@pytest.mark.parametrize(
    "draw",
    [
        lambda space: space.add_line((30, 0), (40, 60)),
        lambda space: space.add_lwpolyline(CUP, format="xyb", dxfattribs={"extrusion": (0, 0, -1)}),
        lambda space: space.add_lwpolyline(CUP, format="xyb", dxfattribs={"layer": "auß"}),
        lambda space: space.add_spline([(x, y, 0) for x, y in CURVE]),
        lambda space: space.doc.blocks.new("lid").add_lwpolyline(CUP),
        lambda space: space.doc.paperspace().add_lwpolyline(CUP),
    ],
)
def test_what_is_not_plain_is_left_to_ezdxf(tmp_path, draw):
    assert plain_drawing(dxf(tmp_path, draw).read_bytes()) is None


def test_a_changed_drawing_is_read_as_ezdxf_reads_it_or_left_to_it(tmp_path):
    lines = dxf(tmp_path, plain_lines).read_text("utf-8").split("\n")[:-1]
    start = lines.index("ENTITIES") - 3
    body = lines[start : lines.index("ENDSEC", start) + 1]
    draw, plain, file = random.Random(7), 0, tmp_path / "changed.dxf"
    for _ in range(60):
        text = "\n".join([*lines[:start], *changed(body, draw), *lines[start + len(body) :]]) + "\n"
        if plain_drawing(text.encode()) is None:
            continue
        file.write_text(text, "utf-8")
        assert outcome(read_dxf, file) == outcome(read_any_dxf, file)
        plain += 1
    assert plain > 10
