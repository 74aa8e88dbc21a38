"""Draws the README's picture of the live page: python -m tests.pictures.page configs/sorrel.toml outputs/page.png."""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import expect, sync_playwright

from tests.conftest import ARGUMENTS
from tests.page.conftest import serving


def draw(job: Path, picture: Path) -> None:
    """The page of a job, opened in a copy of its folder, as a PNG."""
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(job.parent, folder, dirs_exist_ok=True)
        with serving(Path(folder) / job.name) as served, sync_playwright() as play:
            browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=ARGUMENTS)
            page = browser.new_page(viewport={"width": 1280, "height": 800})
            page.goto(served.address)
            page.get_by_role("tab", name="Check").click()
            expect(page.get_by_text("Can be made")).to_be_visible()
            page.wait_for_timeout(2000)  # the finer surface comes when nothing moves
            page.screenshot(path=picture)
            browser.close()


if __name__ == "__main__":
    draw(Path(sys.argv[1]), Path(sys.argv[2]))
