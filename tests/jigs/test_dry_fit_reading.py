"""The dry fit's own reading of a DXF finds what a whole document of ezdxf has, and refuses what is not whole."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf.document import Drawing

from jigs.dryfit.readers import read_entities
from jigs.words.findings import Refused
from tests.jigs.set_files import in_set

CONFIGS = Path(__file__).parents[2] / "configs"


@pytest.fixture(scope="module")
def folder(set_of) -> Path:
    return set_of("garland")[1]


@pytest.fixture
def document() -> Drawing:
    """A slot with one round end, and a hole, as another program might save them."""
    document = ezdxf.new("R2010", units=4)
    space = document.modelspace()
    rows = [(0, 0, 0, 0, 0), (30, 0, 0.2, 0.2, 1.0), (30, 10, 0, 0, 0), (0, 10, 0.3, 0.1, -0.5)]
    space.add_lwpolyline(rows, close=True, dxfattribs={"layer": "cut"})
    space.add_circle((5, 5), 2.5, dxfattribs={"layer": "drill"})
    document.blocks.new("aside").add_circle((99, 99), 9, dxfattribs={"layer": "drill"})
    document.layout("Layout1").add_circle((77, 77), 7, dxfattribs={"layer": "drill"})
    return document


@pytest.mark.parametrize("name", ["cut/sled-base.dxf", "sheets/sheet-11.9mm-1.dxf"])
def test_every_line_and_circle_is_read_as_a_whole_document_has_it(name, folder) -> None:
    found = read_entities(in_set(folder, name))
    whole = list(ezdxf.readfile(in_set(folder, name)).modelspace().query("LWPOLYLINE CIRCLE"))
    assert len(found) == len(whole) > 20
    for ours, theirs in zip(found, whole, strict=True):
        assert (ours.layer, ours.is_circle) == (theirs.dxf.layer, theirs.dxftype() == "CIRCLE")
        if ours.is_circle:
            rows = [(theirs.dxf.center.x, theirs.dxf.center.y, 2 * theirs.dxf.radius)]
        else:
            rows = list(theirs.get_points("xyb"))
            assert ours.closed == theirs.closed
            assert ours.name == (theirs.get_xdata("JIGS")[0].value if theirs.has_xdata("JIGS") else "")
        np.testing.assert_array_equal(ours.rows, rows)


def test_bulges_belong_to_their_places_whatever_widths_stand_between(document, tmp_path) -> None:
    document.saveas(tmp_path / "slot.dxf")
    line, hole = read_entities(tmp_path / "slot.dxf")
    np.testing.assert_allclose(line.rows, [(0, 0, 0), (30, 0, 1), (30, 10, 0), (0, 10, -0.5)])
    np.testing.assert_allclose(hole.rows, [(5, 5, 5)])


def test_neither_blocks_nor_paper_space_are_part_of_the_plate(document, tmp_path) -> None:
    document.saveas(tmp_path / "slot.dxf")
    assert len(read_entities(tmp_path / "slot.dxf")) == 2


def _without_end(text: str) -> str:
    return text[: text.rindex("OBJECTS")]


def _cut_in_a_line(text: str) -> str:
    return text[: text.index("LWPOLYLINE") + 200]


def _in_no_unit(text: str) -> str:
    return text.replace("$INSUNITS", "$INSWHAT")


def _no_number(text: str) -> str:
    place = text.index("AcDbPolyline")
    return text[:place] + text[place:].replace(" 10\n", " 10\nx", 1)


@pytest.mark.parametrize("damaged", [_without_end, _cut_in_a_line, _in_no_unit, _no_number])
def test_a_file_that_is_not_whole_is_refused(damaged, document, tmp_path) -> None:
    file = tmp_path / "slot.dxf"
    document.saveas(file)
    file.write_text(damaged(file.read_text("utf-8")), "utf-8")
    with pytest.raises(Refused, match="slot"):
        read_entities(file)


def test_what_is_no_drawing_is_called_so(tmp_path) -> None:
    (tmp_path / "slot.dxf").write_text("garbage\nand more\n", "utf-8")
    with pytest.raises(Refused, match=r"slot\.dxf: it is no drawing"):
        read_entities(tmp_path / "slot.dxf")


def test_a_drawing_seen_from_below_is_refused(document, tmp_path) -> None:
    for entity in document.modelspace():
        entity.transform(ezdxf.math.Matrix44.scale(-1, 1, 1))
    document.saveas(tmp_path / "slot.dxf")
    with pytest.raises(Refused, match="below"):
        read_entities(tmp_path / "slot.dxf")
