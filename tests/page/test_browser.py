"""The page in Debian's Chromium."""

import tomllib
import zipfile
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

MOST_LOADED = 1_000_000  # bytes


@pytest.fixture
def tab(chromium, served):
    context = chromium.new_context(viewport={"width": 1280, "height": 800})
    tab = context.new_page()
    tab.heard, tab.loaded = [], []
    tab.on("console", lambda message: tab.heard.append(message.text))
    tab.on("pageerror", lambda error: tab.heard.append(str(error)))
    tab.on("response", lambda answer: tab.loaded.append(answer))
    tab.goto(served.address)
    yield tab
    context.close()


def stated(served, key):
    return tomllib.loads(served.job.read_text("utf-8"))["form"][key]


def test_a_job_is_changed_and_made_out_in_the_browser(tab, served):
    expect(tab.get_by_role("heading", name="Garland")).to_be_visible()
    expect(tab.locator("#form canvas")).to_be_visible()
    assert (
        sum(len(answer.body()) for answer in tab.loaded if answer.ok and answer.status != 204) < MOST_LOADED
    )
    assert all(answer.url.startswith(served.address.split("#")[0]) for answer in tab.loaded)
    assert "#" not in tab.url

    finished, wide = tab.locator("path.finished"), tab.get_by_label("Outer diameter", exact=True).last
    before = finished.get_attribute("d")
    wide.fill("270")
    wide.press("Enter")
    expect(finished).not_to_have_attribute("d", before)
    assert stated(served, "outer_diameter") == 270
    assert "# as wide as the door" in served.job.read_text("utf-8")

    tab.get_by_role("button", name="Undo").click()
    expect(finished).to_have_attribute("d", before)
    assert stated(served, "outer_diameter") == 250

    box = tab.locator('[data-id="rim"] .dot').bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    tab.mouse.move(x, y)
    tab.mouse.down()
    tab.mouse.move(x + 30, y, steps=6)
    expect(tab.locator("#verdict")).to_have_text("Let go to keep this")
    assert stated(served, "outer_diameter") == 250
    tab.mouse.up()
    expect(tab.locator("#verdict")).not_to_have_text("Let go to keep this")
    assert stated(served, "outer_diameter") > 255

    tab.get_by_label("Segments", exact=True).fill("11")
    tab.get_by_label("Segments", exact=True).press("Enter")
    expect(tab.get_by_role("alert").filter(has_text="11 is odd")).to_be_visible()
    assert len(tab.heard) == 1  # what the browser says of the refusal itself
    assert "status of 422" in tab.heard[0]


def test_a_remedy_is_applied(tab, served):
    core = tab.get_by_label("Core opening", exact=True)
    core.fill("44")
    core.press("Enter")
    expect(tab.locator("#verdict")).to_contain_text("Cannot be made")
    expect(tab.locator("circle.wrong")).to_have_count(1)
    tab.get_by_role("tab", name="Check").click()
    tab.get_by_role("button", name="Apply").first.click(timeout=120_000)
    expect(tab.locator("circle.wrong")).to_have_count(0)
    expect(tab.locator("#verdict")).to_have_text("Can be made", timeout=120_000)
    assert stated(served, "core_opening") < 44


def test_jigs_are_taken_and_the_files_are_made_in_the_browser(tab, served):
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
    assert not (served.job.parent / "outputs" / "garland").exists()


def test_nothing_hinders_readers(tab):
    expect(tab.locator(".handle")).to_have_count(4)
    expect(tab.locator("#verdict")).to_have_text("Can be made", timeout=60_000)
    tab.get_by_role("tab", name="Work").click()
    tab.locator("summary", has_text="Cut the wedge rings").click()
    for scheme, width in (("light", 390), ("dark", 1024), ("light", 1920)):
        tab.set_viewport_size({"width": width, "height": 900})
        tab.emulate_media(color_scheme=scheme)
        for name in ("Shape", "Check", "Wood", "Choices", "Jigs", "Work", "Job file"):
            tab.get_by_role("tab", name=name).click()
            assert tab.evaluate("document.documentElement.scrollWidth") <= width
            if width < 1920:
                assert not hindrances(tab, ["color-contrast"] if scheme == "dark" else None), (name, scheme)


def hindrances(tab, rules=None):
    """All that is serious, or what breaks these rules: in the dark only colours are others."""
    options = {"runOnly": {"type": "rule", "values": rules}} if rules else {}
    found = Axe().run(tab, options=options).response["violations"]
    return [(one["id"], one["nodes"][0]["html"]) for one in found if one["impact"] in ("serious", "critical")]
