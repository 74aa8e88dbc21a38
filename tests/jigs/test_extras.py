import json
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest

from jigs.extras import write_extras
from jigs.findings import Finding
from jigs.jobfile import load
from jigs.lengths import MM_PER_INCH, show_length
from jigs.looks.colours import colour_of
from jigs.manifest import manifest_text, sha256, stands
from jigs.old_set import OldSet
from jigs.pictures.stack import stack_picture
from jigs.rack import rack
from jigs.solve import solve
from jigs.words.amounts import weight_text
from jigs.words.listing import HEADINGS, listing_text, shortened, use_text
from jigs.words.report import report_json, report_text, sections
from tests.jigs.vessel.jobs import job

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
    names = {row["file"] for row in rows}
    assert {
        "pictures/holding.svg",
        "listing.txt",
        "paper/labels-1.svg",
        "paper/tape-rings-1-to-18.svg",
    } <= names
    assert {f"paper/{name}-full-size.svg" for name in sections} <= names
    assert {f"tables/{name}.csv" for name in ("cut-list", "settings", "stock", "glue")} <= names
    assert "sheets/sheet-11.9-1.dxf" in names
    written = {file.relative_to(made).as_posix() for file in made.rglob("*") if file.is_file()}
    assert written == names | {"manifest.json"}
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


def told(text):
    """Each heading's blocks: a head, and the notes under it."""
    found = {}
    for block in text.split("\n\n")[1:]:
        heading, *lines = block.split("\n")
        heads = found.setdefault(heading, [])
        for line in lines:
            if line.startswith("    - "):
                heads[-1][1].append(line[6:])
            elif line.startswith("      "):
                heads[-1][1][-1] += " " + line.strip()
            elif line.startswith("    "):
                heads[-1][0] += " " + line.strip()
            else:
                heads.append([line.strip(), []])
    return found


def names_in(head):
    """The jigs that a head names, as (name, or what one that was named before is to end in)."""
    return [word.strip() for word in head.removesuffix(":").split(",")]


def is_named(part, head):
    words = names_in(head)
    if part.name in words:
        return True
    first = ""
    for word in words:
        first = first if word.startswith("-") else word
        starts = [first[:k] for k, letter in enumerate(first) if letter == "-"]
        if word.startswith("-") and part.name in [start + word for start in starts]:
            return True
    return False


def split_plan():
    """Its printed gauges come in pieces on the bed."""
    return solve(job("vase", more="[printer]\nbed = [140, 140]"))


@pytest.mark.parametrize("form", ["torus", "vessel", "split"])
def test_every_note_stands_under_its_jigs_name_or_under_all_of_its_family(plan, form):
    one = {"torus": lambda: plan, "vessel": lambda: solve(job("bowl")), "split": split_plan}[form]()
    parts = rack(one)[0]
    blocks = told(use_text(parts))
    for part in parts:
        family = blocks[HEADINGS[part.family]]
        under = [
            note
            for head, notes in family
            for note in notes
            if head == "all of these:"
            or (is_named(part, head) if head.endswith(":") else head.startswith(f"{part.code} {part.name}, "))
        ]
        assert sorted(under) == sorted(
            " ".join(note.split()) for note in dict.fromkeys((*part.making, *part.notes))
        )
        assert [head for head, _ in family if head.startswith(f"{part.code} {part.name}, {part.quantity} x ")]


def test_a_note_that_jigs_of_a_family_share_is_told_once(plan):
    for parts in (rack(plan)[0], rack(solve(job("bowl")))[0]):
        for heads in told(use_text(parts)).values():
            notes = [note for _, notes in heads for note in notes]
            assert len(notes) == len(set(notes))


def test_what_follows_the_words_that_all_names_begin_with_is_enough_after_the_first():
    assert shortened(["board-1", "board-2", "board-10"]) == "board-1, -2, -10"
    assert shortened(["rim-gauge-in", "rim-stick"]) == "rim-gauge-in, -stick"
    assert shortened(["rim-gauge"]) == "rim-gauge"
    assert shortened(["rim-gauge", "rim-gauges"]) == "rim-gauge, -gauges"


def test_every_family_that_a_turner_chooses_the_making_of_has_a_heading(plan):
    assert set(HEADINGS) | {"pads"} == set(plan.job.workshop.made.by_family())


WOODS = ("maple", "cherry", "walnut", "purpleheart", "red oak", "white oak", "paper birch", "basswood")
LETTER = 7.0  # px that a letter of 13 px takes at least, in sans serifs


@pytest.mark.parametrize(
    ("name", "unit"), [("vase", "mm"), ("platter", "in"), ("bottle", "in"), ("open", "mm")]
)
@pytest.mark.parametrize("count", [1, 3, 8])
def test_the_picture_of_a_stack_is_as_wide_as_its_words(name, unit, count):
    one = solve(job(name, unit))
    layers = tuple(replace(layer, species=WOODS[:count]) for layer in one.stack.layers)
    picture = ElementTree.fromstring(stack_picture(replace(one, stack=replace(one.stack, layers=layers))))
    wide = float(picture.attrib["width"])
    said = picture.findall("{http://www.w3.org/2000/svg}text")
    for words in said:
        size = float(words.attrib["font-size"]) / 13
        assert float(words.attrib["x"]) + LETTER * size * len(words.text) <= wide
    assert all(wood in " ".join(words.text for words in said) for wood in WOODS[:count])


@pytest.mark.parametrize("name", ["vase", "bottle"])
def test_the_picture_of_a_stack_has_each_ring_in_its_woods_colour_full_where_it_stays(name):
    one = solve(job(name))
    woods = [(WOODS[k % 8], WOODS[k % 3]) for k in range(len(one.stack.layers))]
    layers = tuple(replace(layer, species=pair) for layer, pair in zip(one.stack.layers, woods, strict=True))
    picture = ElementTree.fromstring(stack_picture(replace(one, stack=replace(one.stack, layers=layers))))
    pale, full = picture.findall("{http://www.w3.org/2000/svg}g")
    assert float(pale.attrib["fill-opacity"]) < 0.5
    assert full.attrib == {"clip-path": "url(#finished)"}
    colours = ["#" + bytes(colour_of(wood)).hex() for pair in woods for wood in pair]
    for group in (pale, full):
        assert [polygon.attrib["fill"] for polygon in group] == colours
    assert picture.find("{http://www.w3.org/2000/svg}clipPath").attrib["id"] == "finished"


def test_a_set_is_solved_and_racked_without_the_values_that_its_list_leaves_out(plan):
    vessel = solve(job("bowl", more='[reversing]\nhold = "bolt"\nbase_hole = 9'))
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
    bare_torus = replace(
        plan.job,
        gauges=replace(plan.job.gauges, longest_in_hand=None, widest_gap=None),
    )
    for whole, bare in ((vessel, bare_vessel), (plan, bare_torus)):
        assert use_text(rack(solve(bare))[0]) == use_text(rack(whole)[0])


def values_of(one):
    (found,) = [section for section in sections(one) if section.title == "Values used"]
    return {row.name: row.value for row in found.rows}


def test_the_values_used_are_those_that_the_form_looks_at(plan):
    torus, vessel = values_of(plan), values_of(solve(job("bowl")))
    tables = {path.partition(".")[0] for path in vessel}
    assert not tables & {"form", "bandsaw", "cutting"}
    assert [path for path in vessel if path.startswith("clamping.")] == ["clamping.band_overlap"]
    assert [path for path in vessel if path.startswith("holding.")] == ["holding.washer"]
    assert "gauges.flats_left" in torus.keys() - vessel.keys()
    assert {"gauges.longest_in_hand", "gauges.widest_gap"} <= vessel.keys() - torus.keys()
    assert {"holding", "bandsaw", "cutting", "clamping"} <= {path.partition(".")[0] for path in torus}


def test_a_flag_is_yes_or_no(plan):
    assert values_of(plan)["cutting.plan_angle_sled"].split()[0] == "no"
    assert values_of(solve(job("bowl")))["rings.half_turn"].split()[0] == "yes"
    assert values_of(solve(job("platter")))["rings.half_turn"] == "no"


def test_a_finding_is_told_with_its_own_severity(plan):
    notes = [Finding("a", "wide", "narrow it", severity="warning"), Finding("b", "long", severity="note")]
    report = report_text(plan, (), notes)
    assert "\nwarning: wide. Narrow it\nnote: long\n" in report
    assert report_json(plan, (), notes)["notes"][-2:] == ["warning: wide. Narrow it", "note: long"]


def test_weights_are_in_grams_or_in_ounces():
    # An ounce is a sixteenth of 0.45359237 kg (the international pound of 1959, from memory).
    assert weight_text(453.59237, "in") == "16.0 oz"
    assert weight_text(453.59237, "mm") == "454 g"
    for unit, word in (("mm", " g"), ("in", " oz")):
        rows = sections(solve(job("bowl", unit)))[0].rows
        weights = [row.value for row in rows if row.name.startswith("weight of ")]
        assert weights
        assert all(value.endswith(word) for value in weights)


def test_a_picture_that_was_changed_or_lost_is_missed(made):
    assert stands(made, "inputs")
    (made / "pictures" / "holding.svg").write_text("<svg/>")
    assert not stands(made, "inputs")


def test_an_old_picture_is_no_strangers_file(made, tmp_path_factory):
    (made / "pictures" / "my own.svg").write_text("<svg/>")
    fresh = tmp_path_factory.mktemp("fresh")
    OldSet(made).keep_strangers(fresh, ())
    assert [file.name for file in fresh.rglob("*") if file.is_file()] == ["my own.svg"]


@pytest.mark.parametrize("text", [report_text, listing_text])
def test_how_lengths_read_is_told_once_at_the_top_of_a_job_in_inches_alone(text, plan):
    inches = solve(load(GARLAND.parent / "quoit.toml"))
    told = text(inches, [], [])
    assert told.startswith("How lengths read: ")
    assert told.count("How lengths read") == 1
    assert show_length((2 + 21 / 64 - 0.002) * MM_PER_INCH, "in") in told.splitlines()[0]
    assert "How lengths read" not in text(plan, [], [])
