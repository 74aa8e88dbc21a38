"""Mistakes put in on sliders: they show, the job file stays, and what they come to is told."""

import math
import re
from xml.etree.ElementTree import fromstring

import pytest
from playwright.sync_api import expect

from jigs.asked.jobfile import load
from jigs.forms.solve import shaped
from jigs.forms.work import work
from jigs.page.edits import BadEdit
from jigs.page.mistakes import NAMES, limits, wrong_of
from jigs.page.mistakes_drawn import TIMES
from jigs.sets.proof import prove
from tests.conftest import CONFIGS

FAST_ONLY = True


@pytest.fixture(scope="module", params=["garland", "sorrel"])
def shape(request):
    return shaped(load(CONFIGS / f"{request.param}.toml"))


def test_each_mistake_that_a_form_can_have_shows_and_is_told(shape):
    """On the surface or in a picture of its own; told with the check that finds it and how small it has to be."""
    plain = wrong_of(shape, {})
    assert plain.said == []
    for name, most in limits(shape).items():
        wrong = wrong_of(shape, {name: 1.0})
        assert [one.id for one in wrong.said] == [name] * (most > 0)
        shows = wrong.pattern.png != plain.pattern.png
        for one in wrong.said:
            assert one.comes_to and one.found and one.small  # noqa: PT018
            assert shows or one.figure or "does not show" in one.comes_to
            assert bool(one.figure) == bool(one.alt)


def test_a_mistake_is_found_by_a_step_of_the_work(shape):
    proof = prove(shape.job)
    steps = {one.id for one in work(proof.plan, proof.parts, proof.notes).operations}
    assert {one.step for one in wrong_of(shape, dict.fromkeys(NAMES, 1.0)).said} <= steps


@pytest.mark.parametrize("share", [0.05, 1.0])
def test_what_is_too_small_to_see_is_drawn_larger_and_says_so(share):
    torus = shaped(load(CONFIGS / "garland.toml"))
    for one in wrong_of(torus, dict.fromkeys(NAMES, share)).said:
        if one.figure:
            root = fromstring(one.figure)
            assert float(root.get("width")[:-2]) <= 100, (
                one.id
            )  # mm: its words are not drawn smaller in a pane
            large = re.search(r"drawn (\d+) times as large", one.alt)
            assert large or "as large as it is" in one.alt
            if large:
                assert int(large[1]) in TIMES[1:]
            words = " ".join(text.text for text in root.iter("{http://www.w3.org/2000/svg}text"))
            sizes = re.findall(r"[\d.]+ mm", words)
            assert sizes
            assert all(size in one.comes_to for size in sizes), (one.id, sizes, one.comes_to)


@pytest.mark.parametrize("raw", [None, [], {"kerf": 1}, {"mitre": "1"}, {"mitre": True}, {"mitre": math.nan}])
def test_what_is_no_mistake_is_refused(shape, raw):
    with pytest.raises(BadEdit):
        wrong_of(shape, raw)
    assert set(limits(shape)) == set(NAMES)


def test_a_slider_puts_a_mistake_in_and_takes_it_out(vessel):
    tab = vessel.tab
    tab.get_by_role("tab", name="Check").click()
    picture = "() => document.querySelector('#pattern canvas').getContext('2d').getImageData(0, 0, 9, 200).data.join()"
    before = tab.evaluate(picture)
    slider = tab.get_by_label("One ring turned too far")
    slider.focus()
    for _ in range(4):
        tab.keyboard.press("ArrowRight")
    box = tab.get_by_role("group", name="Try mistakes")
    expect(box.get_by_role("status")).to_contain_text("Ring 5 is turned 2.0° too far")
    tab.wait_for_function(f"(before) => ({picture})() !== before", arg=before)
    expect(box.get_by_role("button", name="Show the step: stack.rings")).to_be_visible()
    assert vessel.job.read_text("utf-8") == vessel.text
    with_it = tab.evaluate(picture)
    tab.get_by_role("button", name="No mistakes").click()
    tab.wait_for_function(f"(with_it) => ({picture})() !== with_it", arg=with_it)
    expect(box.get_by_role("listitem")).to_have_count(0)
    expect(tab.get_by_label("Wedge rings span too little")).to_be_hidden()
