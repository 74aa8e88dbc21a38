"""The plies of a layup, as a job file states them."""

import pytest

from jigs.asked.job_wood import Ply
from jigs.asked.jobfile import parse
from jigs.words.findings import Refused

FORM = """\
[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 18
segments = 8
core_opening = 20
"""


def layup(lines):
    return parse(f"{FORM}\n[layup]\n{lines}\n").layup


def refusal(lines):
    with pytest.raises(Refused) as refused:
        layup(lines)
    [finding] = refused.value.findings
    return finding


def test_a_ply_has_a_name_a_thickness_and_perhaps_a_colour():
    plies = layup('plies = [["Maple", 3], ["black", "1/32 in", "#202020"]]').plies
    assert plies == (Ply("maple", 3.0), Ply("black", 25.4 / 32, "#202020"))


def test_a_job_without_plies_has_no_layup():
    assert parse(FORM).layup is None


def test_a_layup_without_plies_is_refused_where_it_stands():
    finding = refusal("angle = 30")
    assert (finding.code, finding.key, finding.line) == ("missing-key", "layup.plies", 9)


@pytest.mark.parametrize(
    ("plies", "code"),
    [
        ("[]", "wrong-type"),
        ('["maple", 3]', "wrong-type"),
        ('[["maple"]]', "wrong-type"),
        ('[["maple", 3, "brown"]]', "bad-colour"),
        ('[["maple", 0]]', "out-of-range"),
        ('[["maple", 51]]', "out-of-range"),
        ('[["", 3]]', "wrong-type"),
    ],
)
def test_a_wrong_ply_is_refused_with_what_would_do(plies, code):
    finding = refusal(f"plies = {plies}")
    assert finding.code == code
    assert finding.line == 9
    assert finding.remedy
