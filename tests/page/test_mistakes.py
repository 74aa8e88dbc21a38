"""Mistakes put in on sliders: they show, the job file stays, and what they come to is told."""

import math

import numpy as np
import pytest
from playwright.sync_api import expect

from jigs.asked.jobfile import load
from jigs.forms.shaped import shaped
from jigs.page.edits import BadEdit
from jigs.page.mistakes import NAMES, limits, open_joint, wrong_of
from tests.conftest import CONFIGS

FAST_ONLY = True


@pytest.fixture(scope="module", params=["garland", "sorrel"])
def shape(request):
    return shaped(load(CONFIGS / f"{request.param}.toml"))


def test_each_mistake_that_a_form_can_have_shows_or_is_told(shape):
    plain = wrong_of(shape, {})
    assert plain.said == []
    for name, most in limits(shape).items():
        wrong = wrong_of(shape, {name: 1.0})
        assert bool(wrong.said) == (most > 0)
        shows = wrong.pattern.png != plain.pattern.png
        assert shows == (most > 0 and name not in ("mitre", "wedge")), name


def test_a_joint_stays_open_as_segments_laid_end_to_end_do():
    """Against segments laid one against the next round the axis, each end half a degree too steep."""
    segments, apothem, error = 12, 40.0, math.radians(0.5)
    each = 2 * (math.pi / segments - error)  # by which a segment turns the next
    corner = apothem * (1 - math.tan(math.pi / segments) * 1j) * np.exp(1j * math.pi / segments)
    first, last = corner, corner * np.exp(1j * each * segments)
    assert abs(last - first) == pytest.approx(open_joint(abs(corner), 2 * segments, error), rel=0.01)


@pytest.mark.parametrize("raw", [None, [], {"kerf": 1}, {"mitre": "1"}, {"mitre": True}, {"mitre": math.nan}])
def test_what_is_no_mistake_is_refused(shape, raw):
    with pytest.raises(BadEdit):
        wrong_of(shape, raw)
    assert set(limits(shape)) == set(NAMES)


def test_a_slider_puts_a_mistake_in_and_takes_it_out(vessel):
    tab = vessel.tab
    tab.get_by_role("tab", name="Check").click()
    picture = "() => document.querySelector('#pattern canvas').getContext('2d').getImageData(0, 0, 500, 90).data.join()"
    before = tab.evaluate(picture)
    slider = tab.get_by_label("One ring turned too far")
    slider.focus()
    for _ in range(4):
        tab.keyboard.press("ArrowRight")
    box = tab.get_by_role("group", name="Try mistakes")
    expect(box.get_by_role("status")).to_contain_text("The middle ring is turned 2.0° too far")
    tab.wait_for_function(f"(before) => ({picture})() !== before", arg=before)
    assert vessel.job.read_text("utf-8") == vessel.text
    with_it = tab.evaluate(picture)
    tab.get_by_role("button", name="No mistakes").click()
    tab.wait_for_function(f"(with_it) => ({picture})() !== with_it", arg=with_it)
    expect(box.get_by_role("listitem")).to_have_count(0)
    expect(tab.get_by_label("Wedge of each ring out")).to_be_hidden()
