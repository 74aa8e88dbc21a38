import json
import os
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest

from jigs.asked.jobfile import load
from jigs.asked.keys import KEYS
from jigs.files.manifest import input_print, sha256
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.render.listing import listing_text
from jigs.sets.make import make
from jigs.sets.old_set import OldSet
from jigs.sets.rack import rack
from jigs.sets.standing import standing
from jigs.words.file_names import of_job
from jigs.words.findings import Finding
from jigs.work.values import UNITS, values
from tests.examples import parts_of_example, plan_of_example
from tests.jigs.making.sets import contents
from tests.jigs.set_files import in_set
from tests.jigs.test_imports import HEAVY
from tests.jigs.vessel.jobs import planned

GARLAND = Path(__file__).parents[2] / "configs" / "garland.toml"


@pytest.fixture(scope="module")
def plan():
    return plan_of_example("garland")


@pytest.fixture(scope="module")
def made_once(tmp_path_factory):
    """The folder of a whole set, its book too."""
    return make(load(GARLAND), tmp_path_factory.mktemp("out")).folder


@pytest.fixture
def made(made_once, tmp_path):
    """The same, to be changed."""
    return shutil.copytree(made_once, tmp_path / made_once.name)


def test_every_picture_is_written_and_named_in_the_manifest_with_its_digest(made):
    manifest = json.loads((made / "manifest.json").read_text("utf-8"))
    rows = manifest["extras"]
    names = {row["file"] for row in rows}
    wanted = {
        "pictures/holding.svg",
        "book.html",
        "paper/book.pdf",
        "listing.txt",
        "laser/sled-base.svg",
        "sheets/sheet-11.9mm-1.dxf",
        *(f"tables/{name}.csv" for name in ("cut-list", "settings", "stock", "glue-faces")),
    }
    assert {of_job("garland", name) for name in wanted} <= names
    written = {file.relative_to(made).as_posix() for file in made.rglob("*") if file.is_file()}
    assert written == {*names, *(row["file"] for row in manifest["files"]), "manifest.json"}
    for row in rows:
        assert row["purpose"]
        assert sha256((made / row["file"]).read_bytes()) == row["sha256"]


APART = """
import sys
from jigs.cli import main
assert main(["check", *sys.argv[3:]]) == main(["make", *sys.argv[1:]]) == 0
print(*{name.partition(".")[0] for name in sys.modules})
"""


def test_the_same_bytes_whatever_the_hash_seed_and_the_clock_without_the_cad_kernel(made_once, tmp_path):
    """In another folder too, and what is typeset; in an interpreter of its own, which loads no kernel."""
    environment = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Etc/GMT+5", "LANG": "C"}
    command = [sys.executable, "-c", APART, "--into", str(tmp_path), str(GARLAND)]
    ended = subprocess.run(
        command,
        cwd=GARLAND.parents[1],
        env=environment,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    assert not HEAVY & {*ended.stdout.splitlines()[-1].split()}
    assert contents(tmp_path / "garland") == contents(made_once)
    assert in_set(made_once, "paper/book.pdf").read_bytes().startswith(b"%PDF")


def test_the_holding_picture_names_every_mounting_and_the_job(plan, made):
    picture = ElementTree.parse(in_set(made, "pictures/holding.svg")).getroot()
    words = " ".join(picture.itertext())
    assert plan.job.title in words
    assert all(mounting.name in words for mounting in plan.mountings.mountings)


def test_the_listing_tells_every_setting_and_every_jig(plan, made):
    listing = in_set(made, "listing.txt").read_text("utf-8")
    wood = " ".join(listing.partition("PREPARE THE BOARDS")[2].split())
    built = work(plan, parts_of_example("garland"))
    codes = {entry.name: entry.code for entry in built.rack}
    at_work = [stage.id for stage in built.stages if stage.sort == "work"]
    used = {use.part for one in built.operations if one.stage in at_work for use in one.jigs}
    assert all(re.search(rf"[( ]{codes[part]}[) ]", wood) for part in used)
    assert "Blade tilt" in listing
    assert "Switch off and unplug" in " ".join(listing.split())


def test_a_set_is_solved_and_racked_without_the_values_that_its_list_leaves_out(plan):
    vessel = planned("bowl", more='[reversing]\nhold = "bolt"\nbase_hole = 9')
    bare_vessel = replace(
        vessel.job,
        gauges=replace(vessel.job.gauges, flats_left=None),
        workshop=replace(
            vessel.job.workshop,
            bandsaw=None,
            cutting=None,
            holding=SimpleNamespace(washer=vessel.job.workshop.holding.washer),
            clamping=SimpleNamespace(band_overlap=vessel.job.workshop.clamping.band_overlap),
            bolts=replace(vessel.job.workshop.bolts, braces=None),
        ),
    )
    bare_torus = replace(plan.job, gauges=replace(plan.job.gauges, longest_in_hand=None, widest_gap=None))
    for whole, bare in ((vessel, bare_vessel), (plan, bare_torus)):
        assert [part.name for part in rack(solve(bare))[0]] == [part.name for part in rack(whole)[0]]


def values_of(one):
    """Each value told, by its key."""
    return {row[0]: row[1] for row in values(one.job, one.kind).rows}


def test_the_values_used_are_those_that_the_form_looks_at(plan):
    torus, vessel = values_of(plan), values_of(planned("bowl"))
    tables = {path.partition(".")[0] for path in vessel}
    assert not tables & {"form", "bandsaw", "cutting"}
    assert [path for path in vessel if path.startswith("clamping.")] == ["clamping.band_overlap"]
    assert [path for path in vessel if path.startswith("holding.")] == ["holding.washer"]
    assert "gauges.flats_left" in torus.keys() - vessel.keys()
    assert {"gauges.longest_in_hand", "gauges.widest_gap"} <= vessel.keys() - torus.keys()
    assert {"holding", "cutting", "clamping"} <= {path.partition(".")[0] for path in torus}


def test_values_of_a_saw_are_told_where_it_cuts(plan):
    shop = plan.job.workshop
    banded = replace(plan.job, workshop=replace(shop, bandsaw=replace(shop.bandsaw, height=200.0)))
    told = {row[0] for row in values(banded, "torus").rows}
    assert {path for path in told - values_of(plan).keys() if path.startswith("bandsaw.")} == {
        "bandsaw.kerf", "bandsaw.height", "bandsaw.throat", "bandsaw.drift", "bandsaw.table_left", "bandsaw.table_front"
    }  # fmt: skip
    assert {"saw.tilts", "saw.table_front"} <= values_of(plan).keys()
    assert "saw.tilts" not in values_of(planned("bowl"))
    assert values_of(planned("staved")).keys() & {"saw.tilts", "saw.table_front"} == {"saw.tilts"}


def test_a_number_is_told_with_what_it_is_of(plan):
    bare = {key.path for key in KEYS if key.kind == "number"} - UNITS.keys()
    assert all(path.endswith((".friction", ".axis")) for path in bare)
    assert values_of(plan)["glue.spread"] == "180 g/m²"
    assert values_of(planned("bowl", "in"))["glue.spread"] == "0.6 oz/ft²"


def test_a_flag_is_yes_or_no(plan):
    assert values_of(plan)["cutting.plan_angle_sled"] == "no"
    assert values_of(planned("bowl"))["rings.repeat"] == "no"


def test_turns_are_numbers():
    assert values_of(planned("platter"))["rings.turn"] == "0"


def test_a_finding_is_told_with_its_own_severity_and_no_place_in_a_file(plan):
    notes = [
        Finding("a", "wide", "narrow it", "key", "a file", 3, severity="warning"),
        Finding("b", "long", severity="note"),
    ]
    told = work(plan, parts_of_example("garland"), notes)
    assert "\nwarning: wide. Narrow it\nnote: long\n" in listing_text(told)
    assert "a file" not in listing_text(told)


def test_a_picture_that_was_changed_or_lost_is_missed(made):
    inputs = input_print(load(GARLAND).sources)
    assert standing(made, inputs)
    in_set(made, "pictures/holding.svg").write_text("<svg/>")
    assert not standing(made, inputs)


def test_an_old_picture_is_no_strangers_file(made, tmp_path_factory):
    (made / "pictures" / "my own.svg").write_text("<svg/>")
    fresh = tmp_path_factory.mktemp("fresh")
    OldSet(made).keep_strangers(fresh, ())
    assert [file.name for file in fresh.rglob("*") if file.is_file()] == ["my own.svg"]
