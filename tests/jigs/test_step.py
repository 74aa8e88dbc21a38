"""STEP read back by CadQuery: parts alone, and sleds and mountings put together."""

from dataclasses import replace
from functools import cache
from itertools import combinations
from math import pi

import cadquery
import pytest

from geometry.plane.contour import circle
from jigs.asked.jobfile import load
from jigs.files.mesh import part_mesh
from jigs.files.solid import write_assembly, write_step
from jigs.forms.assemblies import assemblies
from jigs.forms.solve import solve
from jigs.parts.assembly import Place
from jigs.sets.rack import rack
from tests.conftest import CONFIGS
from tests.jigs.plates import RADIUS, bevelled, gauge, part, wedge

SOLID = {"gauge": gauge(), "bevelled": bevelled(), "wedge": wedge()}
SHARED = 0.5  # mm3 that rounding may make of faces that touch


@cache
def racked(name):
    plan = solve(load(CONFIGS / f"{name}.toml"))
    return plan, {part.name: part for part in rack(plan)[0]}


def read(file):
    return cadquery.importers.importStep(str(file)).val()


@pytest.mark.parametrize("plate", SOLID.values(), ids=SOLID)
def test_a_part_reads_back_valid_with_the_meshs_volume(plate, tmp_path):
    write_step(plate, tmp_path / "part.step")
    body = read(tmp_path / "part.step")
    assert body.isValid()
    assert len(body.Solids()) == 1
    assert body.Volume() == pytest.approx(part_mesh(plate, marks=False).volume, rel=1e-4)


def test_radii_are_exact_and_lengths_in_millimetres(tmp_path):
    write_step(gauge(), tmp_path / "part.step")
    edges = read(tmp_path / "part.step").Edges()
    assert {round(e.radius(), 12) for e in edges if e.geomType() == "CIRCLE"} == {3.0, RADIUS}
    assert b"SI_UNIT(.MILLI.,.METRE.)" in (tmp_path / "part.step").read_bytes()


def test_every_printed_and_turned_part_of_a_set_has_its_volume(tmp_path):
    """Printed ones as their mesh has it, within 0.01 %; turned ones by Pappus."""
    for one in racked("garland")[1].values():
        if one.process not in ("print", "turn"):
            continue
        write_step(one, tmp_path / "part.step")
        volume = read(tmp_path / "part.step").Volume()
        if one.process == "print":
            assert volume == pytest.approx(part_mesh(one, marks=False).volume, rel=1e-4), one.name
        else:
            outline = one.outline
            assert volume == pytest.approx(2 * pi * outline.centroid[0] * outline.area, rel=1e-9), one.name


def test_a_part_made_alone_has_the_same_bytes(tmp_path):
    write_step(wedge(), tmp_path / "alone.step")
    write_step(gauge(), tmp_path / "other.step")
    write_assembly("two", [(gauge(), Place()), (wedge(), Place())], tmp_path / "two.step")
    write_step(wedge(), tmp_path / "after.step")
    alone = (tmp_path / "alone.step").read_bytes()
    assert alone == (tmp_path / "after.step").read_bytes()
    assert b"PRODUCT('SW sled-wedge','SW sled-wedge'" in alone
    assert b"2000-01-01T00:00:00" in alone


def test_an_assembly_has_every_piece_in_its_place_and_each_part_once(tmp_path):
    disc = part(circle((10, 0), 5), name="disc", process="cut", thickness=3.0)
    turned = Place((100, 200, 300), (0, 1, 0), (0, 0, 1))  # its z is x
    write_assembly("pair", [(disc, Place()), (disc, turned)], tmp_path / "pair.step")
    first, second = (solid.BoundingBox() for solid in read(tmp_path / "pair.step").Solids())
    assert (first.xmin, first.xmax, first.zmin, first.zmax) == pytest.approx((5, 15, 0, 3), abs=1e-3)
    assert (second.xmin, second.xmax) == pytest.approx((100, 103), abs=1e-3)
    assert (second.ymin, second.ymax) == pytest.approx((205, 215), abs=1e-3)
    assert (second.zmin, second.zmax) == pytest.approx((295, 305), abs=1e-3)
    assert (tmp_path / "pair.step").read_bytes().count(b"MANIFOLD_SOLID_BREP") == 1


def apart(one, other):
    """Whether their boxes are."""
    a, b = one.BoundingBox(), other.BoundingBox()
    return any(
        getattr(a, f"{axis}max") < getattr(b, f"{axis}min")
        or getattr(b, f"{axis}max") < getattr(a, f"{axis}min")
        for axis in "xyz"
    )


def solids(assembly, folder):
    """Name and body of each piece as a file has them, of many alike the first three."""
    names = [part.name for part, _ in assembly.members]
    few = [k for k, name in enumerate(names) if names[:k].count(name) < 3]
    write_assembly(assembly.name, [assembly.members[k] for k in few], folder / "assembly.step")
    return list(zip((names[k] for k in few), read(folder / "assembly.step").Solids(), strict=True))


@pytest.mark.parametrize("name", ["garland", "millwheel"])
def test_nothing_put_together_is_in_the_way_of_anything_else(name, tmp_path):
    """A table saw's sled and a bandsaw's: every tab is in its slot, the ring against fence, stop and base."""
    plan, parts = racked(name)
    found = {one.name: solids(one, tmp_path) for one in assemblies(plan, parts.values())}
    assert list(found) == ["ring-sled", *(f"mounting-{letter}" for letter in "abcd")]
    for assembly in found.values():
        for (one, a), (other, b) in combinations(assembly, 2):
            if not apart(a, b):
                assert a.intersect(b).Volume() < SHARED, (one, other)
    sled = dict(found["ring-sled"])
    for touched in ("sled-fence", "sled-stop-cheek", "sled-base"):
        assert sled["ring"].distance(sled[touched]) < 1e-6, touched
    channel = dict(found["mounting-d"])
    for touched in ("channel-section", "retainer-section"):
        gap = plan.holding.channel.radius - plan.job.form.tube_radius
        assert channel["torus"].distance(channel[touched]) == pytest.approx(gap, abs=0.02), touched


@pytest.mark.parametrize(("process", "thickness"), [("paper", 0.0), ("print", 6.0)])
def test_an_assembly_with_a_part_made_otherwise_than_planned_is_left_out(process, thickness):
    plan, parts = racked("garland")
    changed = {**parts, "sled-base": replace(parts["sled-base"], process=process, thickness=thickness)}
    found = [{one.name for one in assemblies(plan, own.values())} for own in (parts, changed)]
    assert found[0] - found[1] == {"ring-sled"}
