"""Random job files, most of them on machines that are large enough and some not."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi

from hypothesis import strategies as st

from jigs.asked.job import Job
from jigs.asked.jobfile import parse

TITLES = st.sampled_from(
    ["Hoop", "A", "Ring of the long evening", "Ø 3/8 + 2.5", "Reif No 7 (second attempt at it)"]
)


def tenths(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths to a tenth of a mm."""
    return st.integers(round(low * 10), round(high * 10)).map(lambda tenth: tenth / 10)


@dataclass(frozen=True)
class Wish:
    """The torus that most numbers of a job are drawn around."""

    outer: float
    tube: float
    allowance: float

    @property
    def major(self) -> float:
        return (self.outer - self.tube) / 2

    @property
    def hole(self) -> float:
        return self.outer - 2 * self.tube


@st.composite
def wishes(draw: st.DrawFn, sensible: bool) -> Wish:
    """A torus; a sensible one has a hole for the retainer and a ring for the sled."""
    outer, allowance = draw(tenths(160 if sensible else 60, 900)), draw(tenths(1.5 if sensible else 0.5, 5))
    thickest = min(0.42 * outer, (outer - 48 - 2 * allowance) / 2 if sensible else outer)
    thinnest = 48 - 2 * allowance if sensible else 5
    return Wish(outer, draw(tenths(thinnest, max(thinnest, thickest))), allowance)


@st.composite
def forms(draw: st.DrawFn, wish: Wish, sensible: bool, sheet: float) -> dict[str, object]:
    """The [form] table; sensible rings are thick enough for the jaw, long enough and hollow for the draw rod."""
    thickness = max(sheet + 13, 42.0, 9 * 2 * wish.major / max(1.0, wish.hole - 2 * wish.allowance - 3))
    most = int(3.1 * wish.major / thickness) if sensible else 24
    rings = 2 * draw(st.integers(3, min(24, max(3, most))))
    bulge = wish.major * (1 / cos(pi / rings) - 1)
    wall = draw(tenths(1, max(1.0, wish.tube / 6 if sensible else 10)))
    widest = 0.9 * (wish.tube - 2 * bulge - 2 * wall) if sensible else wish.tube
    form: dict[str, object] = {
        "outer_diameter": wish.outer,
        "tube_diameter": wish.tube,
        "wedge_rings": rings,
        "segments": 2 * draw(st.integers(3, min(12, int(1.5 * wish.tube / 12)) if sensible else 12)),
        "core_opening": draw(tenths(min(12.0, widest) if sensible and widest > 1 else 1, max(1.0, widest))),
        "turning_allowance": wish.allowance,
        "least_wall": wall,
        "lining": draw(st.just(0.0) | tenths(0, 3)),
    }
    if draw(st.integers(0, 4)) == 0:
        least = wish.tube + 2 * wish.allowance + 2 * bulge
        form["ring_across_flats"] = max(10.0, round(least + draw(st.floats(-2, 10)), 1))
    return form


@st.composite
def job_texts(draw: st.DrawFn) -> str:
    """A job file's text."""
    sensible = draw(st.integers(0, 4)) > 0
    wish, sheet = draw(wishes(sensible)), draw(tenths(11, 25))
    stages = sorted({draw(tenths(0.3, 5)) for _ in range(draw(st.integers(0, 3)))}, reverse=True)
    height = 2 * wish.tube + 100 if sensible else draw(tenths(30, 300))
    tables: dict[str, dict[str, object]] = {
        "form": draw(forms(wish, sensible, sheet)),
        "gauges": {"stages": [*(s for s in stages if not sensible or s <= wish.allowance), "finished"]},
        "saw": {
            "kerf": draw(tenths(0.5, 5)),
            "blade_height": height,
            "blade_diameter": min(2000.0, max(250.0, round(2.5 * height, 1))),
            "throat": 5000.0 if sensible else draw(tenths(200, 1500)),
            "slot_distance": draw(tenths(40, 250)),
        },
        "lathe": {
            "swing_over_bed": round(1.4 * wish.outer + 200, 1) if sensible else draw(tenths(200, 1200))
        },
        "boards": {
            "thickness": draw(tenths(6, 30)),
            "sheet": sheet,
            "play": draw(st.sampled_from([0.0, 0.1, 0.15, 0.4])),
        },
        "printer": {
            "bed": [1500.0, 1500.0] if sensible else [220.0, 250.0],
            "nozzle": draw(st.sampled_from([0.2, 0.4, 0.6, 0.8])),
        },
    }
    head = f'title = "{draw(TITLES)}"\nunit = "{draw(st.sampled_from(["mm", "in"]))}"\n'
    return head + "".join(f"\n[{name}]\n{_lines(table)}" for name, table in tables.items())


def _lines(table: dict[str, object]) -> str:
    return "".join(f"{key} = {_value(value)}\n" for key, value in table.items())


def _value(value: object) -> str:
    """Lengths name their unit, so that the job's own is free."""
    if isinstance(value, list):
        return f"[{', '.join(_value(item) for item in value)}]"
    if isinstance(value, float):
        return f'"{value} mm"'
    return f'"{value}"' if isinstance(value, str) else str(value)


def jobs() -> st.SearchStrategy[Job]:
    """Jobs as read from such text."""
    return job_texts().map(lambda text: parse(text, "hoop.toml"))
