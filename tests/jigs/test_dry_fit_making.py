"""The dry fit of a set that is made otherwise: in pieces, on paper, from wood, for a bandsaw."""

from pathlib import Path

import pytest

from jigs.asked.jobfile import load
from jigs.dryfit.report import fit_picture, fit_text
from jigs.dryfit.torus import dry_fit
from jigs.figures.svg import PAINTS
from jigs.sets.make import make
from tests.jigs.set_files import in_set
from tests.unset import jigs_alone, jigs_and_sheets

CONFIGS = Path(__file__).parents[2] / "configs"
SHOPS = {
    "in pieces": '[printer]\nbed = [140, 140]\n[made]\nsizes = "print"\n',
    "sled on paper": "[made]\nsled = 'paper'\nsegments = 'paper'\nmountings = 'paper'\n"
    "pads = 'cut'\nstanding = 'cut'\n",
    "gauges on paper": '[made]\nstanding = "paper"\nholding = "paper"\ntruing = "paper"\nclamping = "paper"\n',
    "bandsaw": "[cutting]\nwedge_rings = 'bandsaw'\nsegments = 'bandsaw'\nplan_angle_sled = true\n"
    "[bandsaw]\nheight = 300\nthroat = 2000\ndrift = 1.5\n",
    "kerf": "[cutter]\nkerf = 0.2\n",
}
NOTED = {"sled on paper": ("sled", "segment carrier", "slips"), "gauges on paper": ("abrasive", "clamping")}


@pytest.mark.parametrize("shop", SHOPS)
def test_a_set_that_is_made_otherwise_fits(shop, tmp_path):
    text = (CONFIGS / "garland.toml").read_text("utf-8").replace("[form]", "[form]\nspacer = 1")
    (tmp_path / "shed.toml").write_text((CONFIGS / "shed.toml").read_text("utf-8"), "utf-8")
    (tmp_path / "hoop.toml").write_text(f"{text}\n{SHOPS[shop]}", "utf-8")
    job = load(tmp_path / "hoop.toml")
    sheets = shop == "kerf"  # what it does to whole sheets; of the others they are as of any set
    with jigs_and_sheets() if sheets else jigs_alone():
        folder = make(job, tmp_path).folder
    found = dry_fit(job, folder, sheets)
    assert not found.misfits + found.faults, fit_text(found)
    assert [note.split(",")[0].split(" not ")[0] for note in found.notes] == list(NOTED.get(shop, ()))
    assert fit_picture(job, folder, found).count("<path") > 15


def test_a_misfit_is_red_in_the_picture(tmp_path):
    job = load(CONFIGS / "garland.toml")
    with jigs_alone():
        folder = make(job, tmp_path).folder
    gauge = in_set(folder, "print/standing-gauge-a-outer.stl")
    gauge.write_bytes(in_set(folder, "print/standing-gauge-a-inner.stl").read_bytes())
    picture = fit_picture(job, folder, dry_fit(job, folder, sheets=False))
    red = [line for line in picture.splitlines() if PAINTS["blade"] in line]
    assert red
    assert any("standing-gauge-a-outer" in line for line in red)
    assert not any("channel-gauge" in line for line in red)
