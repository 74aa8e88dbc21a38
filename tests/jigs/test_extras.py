import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from jigs.extras import EXTRAS, write_extras
from jigs.jobfile import load
from jigs.manifest import manifest_text, sha256, stands
from jigs.old_set import OldSet
from jigs.rack import rack
from jigs.solve import solve

GARLAND = Path(__file__).parents[2] / "configs" / "garland.toml"


@pytest.fixture(scope="module")
def plan():
    return solve(load(GARLAND))


@pytest.fixture
def made(plan, tmp_path):
    """A folder with the pictures and a manifest that names them."""
    rows = write_extras(plan, rack(plan)[0], tmp_path)
    (tmp_path / "manifest.json").write_text(manifest_text(plan.job, "inputs", [], rows), "utf-8")
    return tmp_path


def test_every_picture_is_written_and_named_in_the_manifest_with_its_digest(made):
    rows = json.loads((made / "manifest.json").read_text("utf-8"))["extras"]
    sections = ("channel-section", "retainer-section", "first-board-section")
    wanted = [*(extra.file for extra in EXTRAS), *(f"paper/{name}-full-size.svg" for name in sections)]
    assert [row["file"] for row in rows] == wanted
    for row in rows:
        assert row["purpose"]
        assert sha256((made / row["file"]).read_bytes()) == row["sha256"]


def test_the_holding_picture_names_every_mounting_and_the_job(plan, made):
    picture = ElementTree.parse(made / "pictures" / "holding.svg").getroot()
    words = " ".join(picture.itertext())
    assert plan.job.title in words
    assert all(mounting.name in words for mounting in plan.mountings.mountings)


def test_the_listing_tells_every_setting_and_how_each_jig_is_used(plan, made):
    listing = (made / "listing.txt").read_text("utf-8")
    for part in rack(plan)[0]:
        assert part.name in listing
    assert "blade tilt" in listing
    assert "Switch off and unplug" in " ".join(listing.split())


def test_a_picture_that_was_changed_or_lost_is_missed(made):
    assert stands(made, "inputs")
    (made / "pictures" / "holding.svg").write_text("<svg/>")
    assert not stands(made, "inputs")


def test_an_old_picture_is_no_strangers_file(made, tmp_path_factory):
    (made / "pictures" / "my own.svg").write_text("<svg/>")
    fresh = tmp_path_factory.mktemp("fresh")
    OldSet(made).keep_strangers(fresh)
    assert [file.name for file in fresh.rglob("*") if file.is_file()] == ["my own.svg"]
