"""Names that look misspelt, and keys that do nothing, are told."""

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.words.findings import Refused
from tests.jigs.vessel.jobs import text as vessel_text
from tests.jigs.wood.wood_jobs import torus_text

LAYUP = '[layup]\nplies = [["{wood}", 3], ["walnut", 2]]\nangle = 40\n'


def notes(text):
    return {(note.code, note.key): note for note in solve(parse(text, "loop.toml")).notes}


@pytest.mark.parametrize(
    ("text", "key"),
    [
        (torus_text('species = ["mapel", "walnut"]'), "form.species"),
        (vessel_text("vase").replace('"maple"', '"mapel"'), "rings.species"),
        (torus_text(more=LAYUP.format(wood="mapel")), "layup.plies"),
    ],
)
def test_a_wood_that_looks_misspelt_is_told_with_what_may_be_meant(text, key):
    note = notes(text)["unknown-wood", key]
    assert (note.severity, note.remedy) == ("note", 'did you mean "maple"?')
    assert text.split("\n")[note.line - 1].startswith(key.partition(".")[2])


@pytest.mark.parametrize(
    ("wood", "told"),
    [
        ("eastern redcedar", "the heaviest and the weakest of its kind"),
        ("larch", "the heaviest and the weakest of its kind"),
        ("wenge", "its strength is taken as basswood's"),
    ],
)
def test_a_wood_not_known_says_what_it_is_taken_for(wood, told):
    assert told in notes(torus_text(f'species = "{wood}"'))["unknown-wood", "form.species"].message
    assert ("unknown-wood", "form.species") not in notes(torus_text('species = "western redcedar"'))


@pytest.mark.parametrize(
    ("text", "key"),
    [
        (torus_text('spacer = 1\nspacer_species = "Brass"'), "form.spacer_species"),
        (torus_text('ring_spacer = 1\nspacer_species = "sheet copper"'), "form.spacer_species"),
        (torus_text('species = ["maple", "aluminium"]'), "form.species"),
        (vessel_text("vase").replace('"maple"', '"stainless steel"'), "rings.species"),
        (
            vessel_text("vase").replace('"maple"', '"silver"')
            + LAYUP.format(wood="silver")
            + "rings = [3]\n",
            "rings.species",
        ),
    ],
)
def test_a_metal_is_refused_before_a_step_sends_it_through_a_planer_or_past_a_blade(text, key):
    with pytest.raises(Refused) as refused:
        solve(parse(text, "loop.toml"))
    (found,) = refused.value.findings
    assert (found.code, found.key) == ("metal", key)
    assert text.split("\n")[found.line - 1].startswith(key.partition(".")[2])


@pytest.mark.parametrize("wood", ["copper beech", "silver maple", "ironwood", "red ironbark", "lead tree"])
def test_a_wood_with_a_metal_in_its_name_is_a_wood(wood):
    assert solve(parse(torus_text(f'species = "{wood}"'), "loop.toml")).wood.lots[0].species == wood


def test_a_ply_may_have_the_colour_of_a_metal():
    assert solve(parse(torus_text(more=LAYUP.format(wood="silver")), "loop.toml"))


def test_a_colour_that_is_no_wood_is_none_of_our_business():
    assert not any(code == "unknown-wood" for code, _ in notes(torus_text(more=LAYUP.format(wood="black"))))


def test_woods_beside_a_layup_and_rings_of_a_torus_are_told_to_do_nothing():
    text = torus_text('species = "ash"', LAYUP.format(wood="maple") + "rings = [2]\n")
    assert {key for code, key in notes(text) if code == "unused-key"} == {"form.species", "layup.rings"}
