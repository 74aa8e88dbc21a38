"""STEP files in FreeCAD: a bevelled gauge alone, a sled put together, wood partly turned already."""

import json

import pytest

from jigs.files.mesh import part_mesh
from jigs.files.step import write_assembly, write_step
from jigs.forms.assemblies import assemblies
from tests.examples import parts_of_example, plan_of_example

LOOK = """
import json, sys, Part
found = {}
for file in %r:
    shape = Part.read(file)
    found[file] = [(solid.isValid() and solid.isClosed(), solid.Volume) for solid in shape.Solids]
with open(%r, "w") as out:
    json.dump(found, out)
"""


def test_freecad_opens_solids_with_their_volumes(run, tmp_path):
    gauge = next(part for part in parts_of_example("tumbler") if part.bevel)
    write_step(gauge, tmp_path / "gauge.step")
    wanted = {str(tmp_path / "gauge.step"): [part_mesh(gauge, marks=False).volume]}
    for job, name in (("tumbler", "flat-sled-n16"), ("garland", "mounting-b")):
        one = next(one for one in assemblies(plan_of_example(job), parts_of_example(job)) if one.name == name)
        members = one.members[-4:]
        write_assembly(name, members, tmp_path / f"{name}.step")
        wanted[str(tmp_path / f"{name}.step")] = [None] * len(members)
    script = tmp_path / "look.py"
    script.write_text(LOOK % ([*wanted], str(tmp_path / "found.json")), "utf-8")
    run("freecadcmd", script)
    found = json.loads((tmp_path / "found.json").read_text("utf-8"))
    for file, volumes in wanted.items():
        assert [valid for valid, _ in found[file]] == [True] * len(volumes), file
        for volume, (_, own) in zip(volumes, found[file], strict=True):
            assert volume is None or own == pytest.approx(volume, rel=1e-4), file
            assert own > 0
