"""The page in Debian's Chromium."""

import time
import zipfile
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from jigs.page.drawing import FINE, WIDTH
from tests.page.conftest import DESK, dragged, stated

TICK = "import('/web/store.js').then((store) => store.current().state.tick)"
STATE = "import('/web/store.js').then((store) => store.current().state)"
MOST_LOADED = 1_000_000  # bytes


def test_a_job_is_changed_in_the_browser(chromium, quick_torus):
    """In a tab of its own: what it loads, and what the browser says, is from the beginning."""
    context = chromium.new_context(**DESK)
    tab, heard, loaded = context.new_page(), [], []
    tab.on("console", lambda message: heard.append(message.text))
    tab.on("pageerror", lambda error: heard.append(str(error)))
    tab.on("response", lambda answer: loaded.append(answer))
    tab.goto(quick_torus.address)
    expect(tab.get_by_role("heading", name="Garland")).to_be_visible()
    expect(tab.locator("#form canvas")).to_be_visible()
    size = sum(one.request.sizes()["responseBodySize"] for one in loaded if one.ok)
    assert MOST_LOADED / 2 < size < MOST_LOADED
    assert all(one.url.startswith(quick_torus.address.split("#")[0]) for one in loaded)
    assert "#" not in tab.url

    finished, wide = tab.locator("path.finished"), tab.get_by_label("Outer diameter", exact=True).last
    before = finished.get_attribute("d")
    wide.fill("270")
    wide.press("Enter")
    expect(finished).not_to_have_attribute("d", before)
    assert stated(quick_torus)["form"]["outer_diameter"] == 270
    assert "# as wide as the door" in quick_torus.job.read_text("utf-8")

    tab.get_by_role("button", name="Undo").click()
    expect(finished).to_have_attribute("d", before)
    assert stated(quick_torus)["form"]["outer_diameter"] == 250

    box = tab.locator('[data-id="rim"] .dot').bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    tab.mouse.move(x, y)
    tab.mouse.down()
    tab.mouse.move(x + 30, y, steps=6)
    expect(tab.locator("#verdict")).to_have_text("Let go to keep this")
    assert stated(quick_torus)["form"]["outer_diameter"] == 250
    tab.mouse.up()
    expect(tab.locator("#verdict")).not_to_have_text("Let go to keep this")
    assert stated(quick_torus)["form"]["outer_diameter"] > 255

    tab.get_by_label("Segments", exact=True).fill("11")
    tab.get_by_label("Segments", exact=True).press("Tab")
    expect(tab.get_by_role("alert").filter(has_text="11 is odd")).to_be_visible()
    expect(tab.get_by_label("Segments", exact=True)).to_have_value("11")
    before, until = tab.evaluate(TICK), time.monotonic() + 30
    quick_torus.job.with_name("garland.readings.toml").write_text("", "utf-8")
    while tab.evaluate(TICK) == before:
        assert time.monotonic() < until, "no news"
    expect(tab.locator("#news")).to_contain_text("11 is odd")
    tab.get_by_label("Unit", exact=True).select_option("in")
    expect(
        tab.get_by_role("alert").filter(has_text="form.tube_diameter 54 in is out of range")
    ).to_be_visible()
    assert len(heard) == 2  # what the browser says of the refusals themselves
    assert all("status of 422" in one for one in heard)
    context.close()


def test_the_tabs_stand_in_one_row_on_a_desk(torus):
    tops = {tab.bounding_box()["y"] for tab in torus.tab.locator('[role="tab"]').all()}
    assert len(tops) == 1


def test_the_surface_becomes_finer_when_nothing_moves(torus):
    canvas = torus.tab.locator("#pattern canvas")
    expect(canvas).to_have_attribute("width", str(FINE))
    dragged(torus.tab, "rim", 8, 0)
    expect(canvas).to_have_attribute("width", str(WIDTH))
    expect(canvas).to_have_attribute("width", str(FINE))


def test_a_remedy_is_applied(torus):
    tab = torus.tab
    tab.get_by_role("tab", name="Shape").click()
    core = tab.get_by_label("Core opening", exact=True)
    core.fill("44")
    core.press("Enter")
    expect(tab.locator("#verdict")).to_contain_text("Cannot be made")
    expect(tab.locator("circle.wrong")).to_have_count(1)
    tab.get_by_role("tab", name="Check").click()
    apply = tab.get_by_role("button", name="Apply").first
    apply.focus(timeout=120_000)
    before, until = tab.evaluate(TICK), time.monotonic() + 30
    torus.job.with_name("garland.readings.toml").write_text("# none yet\n", "utf-8")
    while tab.evaluate(TICK) == before:
        assert time.monotonic() < until, "no news"
    expect(tab.locator("#pane :focus, #pane:focus")).to_have_count(1)
    apply.focus(timeout=120_000)
    tab.evaluate(
        "import('/web/store.js').then((store) => store.makeSet(false))"
    )  # news, of nothing that Check shows
    tab.wait_for_function(f"{STATE}.then((state) => ['refused', 'failed'].includes(state.make.state))")
    expect(apply).to_be_focused()
    apply.press("Enter")
    expect(tab.locator("circle.wrong")).to_have_count(0)
    expect(tab.locator("#verdict")).to_have_text("Can be made")
    assert stated(torus)["form"]["core_opening"] < 44
    assert tab.evaluate("document.querySelector('#pane').contains(document.activeElement)"), (
        "the keys go on from where the button was"
    )


def test_jigs_are_taken_and_the_files_are_made_in_the_browser(torus):
    tab = torus.tab
    tab.get_by_role("tab", name="Jigs").click()
    with tab.expect_download() as taken:
        tab.get_by_role("button", name="Save the file of CO, coupon").click(timeout=60_000)
    assert taken.value.suggested_filename == "garland_coupon.stl"
    assert Path(taken.value.path()).stat().st_size > 10_000
    with tab.expect_download() as taken:
        tab.get_by_role("button", name="Save all to turn").click()
    assert zipfile.is_zipfile(taken.value.path())
    tab.get_by_role("button", name="Show large: CO, coupon").click()
    drawing = tab.get_by_role("dialog").locator("img")
    expect(drawing).to_be_visible()
    assert drawing.evaluate("image => image.decode().then(() => image.naturalWidth)") > 100
    tab.keyboard.press("Escape")

    box = tab.get_by_role("region", name="Making the files")
    expect(box.get_by_role("button", name="Make all files")).to_be_enabled(timeout=60_000)
    box.get_by_role("button", name="Make all files").click()
    expect(box.get_by_role("progressbar")).to_be_visible()
    box.get_by_role("button", name="Stop").click()
    expect(box.get_by_role("status")).to_contain_text("Stopped")
    assert not (torus.job.parent / "outputs" / "garland").exists()


PANES = ("Shape", "Check", "Wood", "Shop", "Choices", "Jigs", "Work", "Job file")
CARDS = ".card:nth-child(n+4)"  # as three others of their group
STEPS = ".step:nth-child(n+4)"  # no colour is new there
HINDRANCES = """async ([where, rules]) => {
  const only = rules && { runOnly: { type: "rule", values: rules } };
  const options = { resultTypes: ["violations"], selectors: false, ...only };
  return (await axe.run(where, options)).violations.filter((one) => ["serious", "critical"].includes(one.impact))
    .map((one) => [one.id, one.nodes[0].html]);
}"""


def test_nothing_hinders_readers(torus):
    """What is the same beside every pane is looked at once; in the dark only colours are others."""
    tab = torus.tab
    tab.get_by_role("tab", name="Shape").click()
    expect(tab.locator(".handle")).to_have_count(4)
    expect(tab.locator("#verdict")).to_have_text("Can be made")
    tab.get_by_role("tab", name="Work").click()
    tab.locator("summary", has_text="Cut the wedge rings").click()
    tab.get_by_role("tab", name="Check").click()
    tab.get_by_label("Mounted off centre").press("ArrowRight")
    expect(tab.get_by_role("group", name="Try mistakes").get_by_role("listitem")).to_have_count(1)
    tab.evaluate(Axe().axe_script)
    for scheme, width in (("light", 390), ("dark", 1024), ("light", 1920)):
        tab.set_viewport_size({"width": width, "height": 900})
        tab.emulate_media(color_scheme=scheme)
        for name in PANES:
            tab.get_by_role("tab", name=name).click()
            assert tab.evaluate("document.documentElement.scrollWidth") <= width
            if width < 1920:
                where = "html" if name == PANES[0] else "#pane"
                dark = scheme == "dark"
                place = {"include": [[where]], "exclude": [[CARDS], [STEPS]] if dark else [[CARDS]]}
                rules = ["color-contrast"] if dark else None
                assert not tab.evaluate(HINDRANCES, [place, rules]), (name, scheme)
    tab.set_viewport_size({"width": 1280, "height": 800})
    tab.emulate_media(color_scheme="light")
    tab.get_by_role("tab", name="Wood").click()
    tab.get_by_role("button", name="Take them out").click()
    expect(tab.get_by_text("Mistakes are drawn")).to_be_hidden()
    tab.get_by_role("tab", name="Check").click()
    expect(tab.get_by_label("Mounted off centre")).to_have_value("0")
