"""A bed-load's file as lib3mf reads it, the 3MF Consortium's own library, strictly."""

import io
import zipfile
from dataclasses import replace

import lib3mf
import numpy as np
import pytest

from jigs.files.mesh import part_mesh
from jigs.files.sheets.bed_loads import BedLoad
from jigs.files.sheets.nesting import Placed
from jigs.files.three_mf import SOLID, three_mf
from tests.jigs.plates import bevelled, gauge

FACTS = (("Job", "Rim & <hoop>"), ("Quantity", "2"), ("Material", 'PLA "or" PETG'), SOLID)
PAD = replace(bevelled(), name="brace-pad", facts=FACTS)
LOAD = BedLoad(
    "plate-1", (Placed(gauge(), 1, 70.0, 80.0, 1), Placed(PAD, 1, 71.5, 210, 2), Placed(PAD, 2, 200, 80, 0))
)


def written(load=LOAD):
    return three_mf(load, "Rim & <hoop>: plate 1", load.contents)


@pytest.fixture(scope="module")
def model(tmp_path_factory):
    """Keeps its reader, which the library forgets to."""
    file = tmp_path_factory.mktemp("3mf") / "plate.3mf"
    file.write_bytes(written())
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(file))
    assert [reader.GetWarning(k) for k in range(reader.GetWarningCount())] == []
    return model


def objects(model):
    found, each = [], model.GetMeshObjects()
    while each.MoveNext():
        found.append(each.GetCurrentMeshObject())
    return found


def items(model):
    found, each = [], model.GetBuildItems()
    while each.MoveNext():
        found.append(each.GetCurrent())
    return found


def test_it_is_read_strictly_in_millimetres_each_part_once_as_a_closed_body(model):
    assert model.GetUnit() == lib3mf.ModelUnit.MilliMeter
    assert [(body.GetName(), body.GetPartNumber()) for body in objects(model)] == [
        ("OG outer-gauge", "OG"),
        ("BP brace-pad", "BP"),
    ]
    for body, part in zip(objects(model), (gauge(), PAD), strict=True):
        assert body.IsManifoldAndOriented()
        vertices = np.array([list(v.Coordinates) for v in body.GetVertices()])
        assert np.array_equal(vertices.astype(np.float32), part_mesh(part).vertices.astype(np.float32))
        triangles = np.array([list(t.Indices) for t in body.GetTriangleIndices()])
        assert np.array_equal(triangles, part_mesh(part).triangles)


def test_every_copy_stands_where_it_was_laid_down(model):
    assert len(items(model)) == 3
    for item, placed in zip(items(model), LOAD.placed, strict=True):
        fields = np.array([list(row) for row in item.GetObjectTransform().Fields])
        own = placed.part.outline.points
        moved = np.column_stack([own, np.zeros(len(own)), np.ones(len(own))]) @ fields
        assert moved[:, :2] == pytest.approx(placed.points(own), abs=1e-5)
        assert moved[:, 2] == pytest.approx(0)


def test_job_quantity_material_and_fill_are_metadata_of_their_part(model):
    group = objects(model)[1].GetMetaDataGroup()
    told = [group.GetMetaData(k) for k in range(group.GetMetaDataCount())]
    assert [(one.GetName(), one.GetValue()) for one in told] == [("Part", "BP brace-pad"), *FACTS]
    assert {one.GetNameSpace() for one in told} == {"urn:turning-jigs:facts"}


def test_solid_parts_and_only_they_ask_for_full_density():
    settings = zipfile.ZipFile(io.BytesIO(written())).read("Metadata/Slic3r_PE_model.config").decode()
    plain, solid = settings.split('<object id="2">')
    assert "fill_density" not in plain
    assert '<metadata type="object" key="fill_density" value="100%"/>' in solid


def test_the_bytes_are_the_same_and_hold_no_date():
    part_mesh.cache_clear()
    content = written()
    assert content == written()
    assert {entry.date_time for entry in zipfile.ZipFile(io.BytesIO(content)).infolist()} == {
        (1980, 1, 1, 0, 0, 0)
    }
