"""The live page in a browser, as multiples of an empty round trip and of what the browser draws by itself.

Run as `python -m tests.bench.page`. What is dragged is a point of a vessel, then a torus's tube. Nothing here can fail
on time. Where no graphics card draws, most of it is the browser's own time.
"""

import re
import shutil
import statistics
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Browser, Page, sync_playwright

from tests.conftest import CONFIGS
from tests.page.conftest import ARGUMENTS

DRAGGED = (("garland", "tube", (0, -1)), ("sorrel", "outside-4", (1, 0)))
STEPS = 24
WATCH = """() => {
  window.seen = { drawn: [], answers: [], hands: [] };
  document.addEventListener("drawn", () => seen.drawn.push(performance.now()));
  document.addEventListener("pointermove", () => seen.hands.push(performance.now()), true);
  const ask = window.fetch;
  window.fetch = async (...all) => {
    const begun = performance.now(), answer = await ask(...all);
    if (String(all[0]).endsWith("/try")) seen.answers.push([begun, performance.now()]);
    return answer;
  };
}"""
EMPTY = """async (times) => {
  const token = { headers: { "page-token": sessionStorage.getItem("page-token") } }, took = [];
  for (let k = 0; k < times; k += 1) {
    const begun = performance.now();
    await (await fetch("/web/icon.svg?" + k, token)).text();
    took.push(performance.now() - begun);
  }
  return took;
}"""
FRAMES = """(ms) => new Promise((done) => {
  const box = document.createElement("div"), begun = performance.now();
  box.style.cssText = "position:fixed;left:0;top:0;width:300px;height:300px;background:#a2672e";
  document.body.append(box);
  let frames = 0;
  const next = () => {
    frames += 1;
    box.style.left = `${frames % 200}px`;
    if (performance.now() - begun < ms) return requestAnimationFrame(next);
    box.remove();
    done((1000 * frames) / (performance.now() - begun));
  };
  requestAnimationFrame(next);
})"""


def first_after(times: list[float], begun: float) -> float | None:
    return next((at - begun for at in times if at >= begun), None)


def dragged(tab: Page, handle: str, way: tuple[int, int]) -> dict[str, float]:
    """Medians, ms: from the hand to a picture, from asking to the server's picture; pictures a second."""
    box = tab.locator(f'[data-id="{handle}"] .dot').bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    tab.mouse.move(x, y)
    tab.mouse.down()
    tab.evaluate(WATCH)
    begun = tab.evaluate("performance.now()")
    for k in range(STEPS):
        tab.mouse.move(x + k * way[0], y + k * way[1])
    ended = tab.evaluate("performance.now()")
    tab.wait_for_timeout(1000)
    seen = tab.evaluate("seen")
    tab.keyboard.press("Escape")
    tab.mouse.up()
    drawn = seen["drawn"]
    hand = [one for at in seen["hands"] if (one := first_after(drawn, at)) is not None]
    asked = [end - at + (first_after(drawn, end) or 0.0) for at, end in seen["answers"]]
    return {
        "hand": statistics.median(hand),
        "server": statistics.median(asked),
        "each second": 1000 * sum(begun <= at <= ended for at in drawn) / (ended - begun),
    }


def measured(browser: Browser, name: str, handle: str, way: tuple[int, int], folder: Path) -> None:
    job = shutil.copy(CONFIGS / f"{name}.toml", folder)
    command = [
        sys.executable, "-c", "from jigs.start import command; command()", "page", "--no-browser", str(job),
    ]  # fmt: skip
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout is not None
        found = re.search(r"http\S+", server.stdout.readline())
        assert found is not None
        tab = browser.new_page(viewport={"width": 1280, "height": 800})
        tab.goto(found[0])
        tab.get_by_text("Can be made").wait_for(timeout=120_000)
        empty, frames = statistics.median(tab.evaluate(EMPTY, 30)), tab.evaluate(FRAMES, 1500)
        took = dragged(tab, handle, way)
        print(
            f"{name}: an empty round trip takes {empty:.1f} ms, a moving square is drawn {frames:.0f} times a second"
        )
        print(f"  hand to picture     {took['hand']:6.0f} ms, {took['hand'] / empty:5.1f} round trips")
        print(f"  the server's own    {took['server']:6.0f} ms, {took['server'] / empty:5.1f} round trips")
        print(
            f"  pictures a second   {took['each second']:6.1f},    {took['each second'] / frames:5.2f} of the square's"
        )
        tab.close()
        server.kill()


def run() -> None:
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        shutil.copy(CONFIGS / "shed.toml", folder)
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=ARGUMENTS)
        for name, handle, way in DRAGGED:
            measured(browser, name, handle, way, Path(folder))
        browser.close()


if __name__ == "__main__":
    run()
