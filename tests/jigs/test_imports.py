"""What starts quickly must not load the CAD kernel: each in a fresh interpreter."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
HEAVY = {"cadquery", "OCP", "vtk", "vtkmodules"}
REPORT = "import sys; print(*{name.partition('.')[0] for name in sys.modules})"
EVERY_MODULE = """
import importlib, pkgutil, geometry, jigs
for package in (geometry, jigs):
    for found in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
        if not found.name.endswith("__main__"):
            importlib.import_module(found.name)
"""


def loaded(code, report=REPORT):
    """The top-level packages, or what else is reported, that a fresh interpreter has loaded after this code."""
    command = [sys.executable, "-c", f"{code}\n{report}"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True, timeout=60)
    return set(done.stdout.splitlines()[-1].split())


@pytest.mark.parametrize(
    "code", ["import geometry, jigs", "import jigs.cli, jigs.sets.make, jigs.files.solid", EVERY_MODULE]
)
def test_no_import_loads_the_cad_kernel(code):
    found = loaded(code)
    assert {"geometry", "jigs"} <= found
    assert not found & HEAVY


def test_a_check_of_a_plain_torus_loads_only_what_it_needs():
    """No server, no solver, nothing of a vessel, a layup or staves."""
    check = "from jigs.cli import main\nassert main(['check', 'configs/garland.toml']) == 0\n"
    found = loaded(check, "import sys; print(*sys.modules)")
    assert {"jigs.stages.layup.steps.whole", "geometry.statics.simplex"} <= found
    assert {
        "starlette", "uvicorn", "tomlkit", "asyncio", "highspy", "scipy",
        "geometry.bodies.section", "geometry.curves.biarcs", "jigs.plans.vessel", "jigs.stages.staves.layout",
        "jigs.stages.layup.solve.whole", "jigs.stages.layup.parts.sleds", "jigs.stages.layup.plan",
        "jigs.stages.layup.steps.from_plies", "jigs.stages.layup.check.layup",
        "jigs.measured.arcs", "jigs.render.html", "jigs.files.solid", "jigs.remedies.offered",
    }.isdisjoint(found)  # fmt: skip
