"""The dry fit in words: counts of what fits, all of what does not, every check for scripts."""

from collections import Counter
from math import inf, nan

from jigs.dryfit.fit import DryFit, guarded
from jigs.dryfit.model import Check, near
from jigs.dryfit.report import fit_json, fit_text
from jigs.words.findings import Finding, Refused

GOOD = (near("fence", "turn", 0.001, 0.0, 0.02, "deg"), Check("jaw", "bears past the middle", 40.0, 28.771))


def test_what_fits_is_only_counted_by_group():
    found = DryFit((*guarded("sled", lambda: [*GOOD]), *guarded("gauges", lambda: [GOOD[0]] * 40)))
    assert [line.split() for line in fit_text(found).splitlines()] == [
        ["Dry", "fit"],
        ["sled", "2", "ok"],
        ["gauges", "40", "ok"],
        ["everything", "fits:", "42", "checks,", "each", "with", "its", "number", "by", "--json"],
    ]


def test_every_misfit_is_told_in_full():
    bad = [
        near("stop", "off its line", 0.5, 0.0, 0.03),
        Check("rim", "gap", 0.4, -inf, 0.25),
        Check("foot", "wide", 3, 20),
    ]
    found = DryFit(tuple(guarded("gauges", lambda: [*GOOD, *bad])), ("layup not checked: the set has none",))
    text = fit_text(found)
    assert "2 ok  3 NO" in text
    assert "note: layup not checked" in text
    assert [" ".join(line.split()) for line in text.splitlines() if line.startswith("  NO")] == [
        "NO stop off its line 0.500 mm -0.030 to 0.030",
        "NO rim gap 0.400 mm at most 0.250",
        "NO foot wide 3.000 mm at least 20.000",
    ]
    assert text.splitlines()[-1].startswith("3 do not fit: 5 checks")
    assert "bears past the middle" not in text


def broken() -> list[Check]:
    raise LookupError("list index out of range")


def test_a_group_that_stumbles_over_a_changed_file_is_a_misfit_of_its_name():
    found = DryFit(tuple(guarded("braces", broken, lambda: ("cut/brace-strap.dxf",))))
    assert [(check.group, check.fits) for check in found.misfits] == [("braces", False)]
    assert "cannot be put together: not as make wrote it: cut/brace-strap.dxf" in fit_text(found)
    assert "list index" not in fit_text(found)


def test_a_missing_file_is_a_misfit_of_its_group():
    def missing() -> list[Check]:
        raise Refused([Finding("missing-file", "there is no file of the brace-strap", "make the job again")])

    found = DryFit(tuple(guarded("braces", missing)))
    told = fit_text(found)
    assert "cannot be put together: there is no file of the brace-strap. Make the job again" in told
    assert "nan" not in told
    assert fit_json(found)["checks"][0]["value"] is None


def test_what_nothing_measures_shows_no_number():
    found = DryFit(tuple(guarded("truing", lambda: [Check("cheek", "edge on the ring", 13.0, nan, nan)])))
    (row,) = (line for line in fit_text(found).splitlines() if line.startswith("  NO"))
    assert row.split() == ["NO", "cheek", "edge", "on", "the", "ring", "13.000", "mm"]


def test_where_no_file_is_changed_the_dry_fit_itself_is_at_fault_and_no_jig():
    found = DryFit((*guarded("braces", broken), *guarded("sled", lambda: [*GOOD])))
    assert not found.misfits
    text = fit_text(found)
    assert "the dry fit itself failed at braces" in text
    assert "please report it" in text
    assert "list index" not in text
    assert text.splitlines()[-1].startswith("what was checked fits, but not all was checked: 2 checks")
    answer = fit_json(found)
    assert answer["verdict"] == "not all checked"
    assert len(answer["checks"]) == 2
    assert len(answer["faults"]) == 1


def test_scripts_get_every_check_with_its_group():
    found = DryFit((*guarded("sled", lambda: [*GOOD]), Check("arm", "reach", nan, 0.0, group="braces")))
    checks = fit_json(found)["checks"]
    assert isinstance(checks, list)
    assert Counter(check["group"] for check in checks) == {"sled": 2, "braces": 1}
    assert [check["fits"] for check in checks] == [True, True, False]
