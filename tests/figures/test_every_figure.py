"""The pictures of every job: each operation's is there, fits its paper, and its words lie over nothing."""

from __future__ import annotations

import re
from functools import cache
from math import hypot

import pytest
from shapely import MultiPoint, Point, Polygon, union_all

from geometry.hardware.fittings import bolt_diameter, head_place
from jigs.asked.jobfile import parse
from jigs.figures.bench.halves import blank_at_blocks, in_band, quartered
from jigs.figures.bench.rings import in_band as ring_in_band
from jigs.figures.bench.rings import on_board
from jigs.figures.every import figures_of
from jigs.figures.figure import MARGIN, Figure
from jigs.figures.items import Callout, Dimension, Shape, Words
from jigs.figures.job import job_figure
from jigs.figures.parts import drawing
from jigs.figures.svg import figure_svg
from jigs.plans.torus import TorusPlan
from jigs.render.lines import shown
from jigs.sets.rack import prove
from jigs.sets.shop_book import table_figure
from jigs.words.quantity import Quantity
from jigs.work.shown import SHOWN, figure_of, shown_by
from tests.examples import CONFIGS
from tests.figures.crossings import around, crossings
from tests.jigs.wood.whole_jobs import CONFIG_JOBS, plan_of, torus
from tests.work.works import proof_of, work_of

JOBS = (*CONFIG_JOBS, "staved", "plied torus")
each = pytest.mark.parametrize("name", JOBS)
SMALLEST = 2.5  # mm of letters on paper


@cache
def figures(name: str) -> dict[str, Figure]:
    proof = proof_of(name)
    return figures_of(proof.plan, proof.parts, lambda quantity: shown(quantity, proof.plan.job.unit))


@cache
def drawn(name: str) -> tuple[Figure, ...]:
    """These, and those that no operation shows."""
    plan = plan_of(name)
    front = job_figure(plan, lambda quantity: shown(quantity, plan.job.unit))
    return (*figures(name).values(), front, table_figure(plan))


def drawings(name: str) -> list[Figure]:
    """Of all its parts."""
    unit = plan_of(name).job.unit
    return [drawing(part, lambda quantity: shown(quantity, unit)) for part in proof_of(name).parts]


@each
def test_every_operation_that_shows_a_picture_has_it(name: str) -> None:
    asked = {shown_by(operation) for operation in work_of(name).operations} - {""}
    assert asked
    assert asked <= set(figures(name))


@each
def test_every_picture_is_that_of_some_operation(name: str) -> None:
    asked = {shown_by(operation) for operation in work_of(name).operations}
    for id in figures(name):
        assert id in asked or figure_of(id) == id or id in SHOWN


@pytest.mark.parametrize("name", ["sorrel", "tumbler"])
def test_the_first_cuts_in_scrap_show_the_ring_by_whose_stick_they_are_cut(name: str) -> None:
    first = next(one for one in work_of(name).operations if one.id.startswith("flat-segments.first"))
    strip = next(
        item.text
        for item in figures(name)[shown_by(first)].items
        if isinstance(item, Callout) and item.text.startswith("strip of ring")
    )
    assert f"the stick of {strip.removeprefix('strip of ')}:" in first.how[0]


def test_only_the_first_of_several_rippings_shows_the_picture_of_the_widest_strip() -> None:
    assert (figure_of("boards.rip"), figure_of("boards.rip-2")) == ("boards.rip", "")


@each
def test_a_picture_keeps_to_its_paper_and_its_words_are_large_enough(name: str) -> None:
    for figure in drawn(name):
        x0, y0, x1, y1 = figure.bounds(figure.scale)
        assert (x1 - x0) * figure.scale <= 1.01 * figure.width + 2 * MARGIN
        assert (y1 - y0) * figure.scale <= 1.01 * figure.height + 2 * MARGIN
        assert all(one.size >= SMALLEST for one in figure.drawn(figure.scale) if isinstance(one, Words))


@each
def test_no_words_lie_over_other_words_or_a_line(name: str) -> None:
    for figure in (*drawn(name), *drawings(name)):
        assert crossings(figure) == [], figure.id


@each
def test_a_dot_stands_clear_of_all_words(name: str) -> None:
    """It would be read as one of their letters."""
    for figure in drawn(name):
        words = [one for one in figure.drawn(figure.scale) if isinstance(one, Words) and one.text]
        dots = MultiPoint([item.to for item in figure.items if isinstance(item, Callout)])
        near = [one.text for one in words if dots.distance(around(one, figure.scale)) * figure.scale < 2.0]
        assert near == [], figure.id


@each
def test_a_dimension_tells_the_length_that_is_drawn(name: str) -> None:
    """What stands on it, in the job's unit, is the distance between its ends."""
    unit = plan_of(name).job.unit
    for figure in drawn(name):
        for one in (item for item in figure.items if isinstance(item, Dimension)):
            length = hypot(one.b[0] - one.a[0], one.b[1] - one.a[1]) / one.times
            told = float(one.text.replace("Ø", "").split()[0]) * (1.0 if unit == "mm" else 25.4)
            assert told == pytest.approx(length, abs=0.06), (figure.id, one.text)


@each
def test_every_picture_says_what_it_shows(name: str) -> None:
    for figure in drawn(name):
        assert figure.title
        assert len(figure.alt) > len(figure.title)
        assert "mm" not in figure.alt or plan_of(name).job.unit == "mm"


def test_what_is_joined_from_pieces_stands_in_its_pictures_in_pieces() -> None:
    hoop = CONFIGS / "garland.toml"
    beds = "[printer]\nbed = [120, 120]\n[cutter]\nbed = [170, 170]\n"
    proof = prove(parse(f"{hoop.read_text()}\n{beds}", hoop))
    made = figures_of(proof.plan, proof.parts, lambda quantity: "")
    for id, piece in (("braced_mounting.turn", "YCINB"), ("wedge_rings.trial", "CC")):
        told = [item.text for item in made[id].items if isinstance(item, Callout)]
        assert any(text.endswith(piece) for text in told), id


def test_the_same_job_gives_the_same_bytes() -> None:
    def svgs() -> list[str]:
        proof = proof_of("garland")
        made = figures_of(proof.plan, proof.parts, lambda quantity: shown(quantity, "mm"))
        return [figure_svg(figure) for figure in made.values()]

    assert svgs() == svgs()


def test_numbers_are_shown_in_the_jobs_unit() -> None:
    proof = proof_of("garland")
    asked: list[Quantity] = []

    def show(quantity: Quantity) -> str:
        asked.append(quantity)
        return f"<{len(asked)}>"

    told = figures_of(proof.plan, proof.parts, show)
    texts = {item.text for figure in told.values() for item in figure.items if isinstance(item, Dimension)}
    assert texts
    assert all(text.strip("Ø ").startswith("<") for text in texts)


def test_quarters_of_rings_are_no_quarters_of_the_torus() -> None:
    """Ten wedge rings have none; their rings of eight segments are glued from quarters where glue sets soon."""
    plan = torus(more="[glue]\nopen_time = 0.5\n", rings=10)
    assert any(stage.what == "quarters" for stage in plan.wood.glue.stages)
    assert not quartered(plan)
    assert {"glue_up.halves", "glue_up.blank"} <= {
        figure.id
        for figure in (in_band(plan), blank_at_blocks(plan, {}, lambda quantity: shown(quantity, "mm")))
    }


LENGTH = re.compile(r"(\d+(?:\.\d+)?) (?:mm|in)\b")


@each
def test_a_limit_has_one_number_in_the_step_and_in_its_picture(name: str) -> None:
    """A least of 23.33 is 23.4 in both: what is as near as a rounding is the limit itself."""
    unit = plan_of(name).job.unit
    step = 0.1 if unit == "mm" else 0.02
    for operation in work_of(name).operations:
        figure = figures(name).get(shown_by(operation))
        for limit in (one for one in operation.settings if one.bound and figure):
            right = LENGTH.findall(shown(limit, unit))
            told = {number for text in told_in(figure) for number in LENGTH.findall(text)}
            near = {number for number in told if right and abs(float(number) - float(right[0])) <= step}
            assert near <= set(right), (operation.id, limit.label)


def told_in(figure: Figure | None) -> list[str]:
    return (
        [item.text for item in figure.items if isinstance(item, Callout | Dimension | Words)]
        if figure
        else []
    )


@pytest.mark.parametrize("name", ["garland", "quoit", "millwheel"])
def test_mounting_c_shows_the_capped_bolt_that_stands_in_the_hole(name: str) -> None:
    """The tool works beside it, and the standing gauge too."""
    plan = plan_of(name)
    assert isinstance(plan, TorusPlan)
    bolt, face = plan.holding.bolt, -plan.holding.channel.centre_height
    end = face - plan.holding.board_thickness + head_place(bolt)[1] + plan.mountings.centre_bolt
    for id in ("mounting.C", "braced_mounting.turn"):
        pieces = [item.rows for item in figures(name)[id].items if isinstance(item, Shape) and item.closed]
        tops = {
            round(max(x for x, _, _ in rows), 3)
            for rows in pieces
            if abs(max(y for _, y, _ in rows) - end) < 1e-6
        }
        assert {round(plan.mountings.cap / 2, 3), round(bolt_diameter(bolt) / 2, 3)} <= tops


def ring_is_measured_from_flat_to_flat(figure: Figure) -> bool:
    """Whether its one dimension runs from the ring's outline to its outline, and no words lie over anything."""
    wood = union_all(
        [
            Polygon([row[:2] for row in one.rows])
            for one in figure.items
            if isinstance(one, Shape) and one.fill == "wood"
        ]
    )
    (size,) = (one for one in figure.items if isinstance(one, Dimension))
    outline = Polygon(wood.buffer(1e-6).exterior).exterior
    return crossings(figure) == [] and all(outline.distance(Point(end)) < 1e-3 for end in (size.a, size.b))


@pytest.mark.parametrize("segments", [6, 8, 10, 12, 14])
def test_a_ring_in_its_band_is_measured_from_flat_to_flat(segments: int) -> None:
    """A ring of ten that stands on a flat has corners at its sides."""
    figure = ring_in_band(torus(segments=segments), lambda quantity: shown(quantity, "mm"))
    assert ring_is_measured_from_flat_to_flat(figure)


@pytest.mark.parametrize("segments", [9, 10, 12])
def test_a_ring_on_its_board_is_measured_from_flat_to_flat_or_to_the_corner(segments: int) -> None:
    text = (CONFIGS / "sorrel.toml").read_text("utf-8").replace("segments = 12", f"segments = {segments}")
    proof = prove(parse(text, str(CONFIGS / "sorrel.toml")))
    parts = {part.name: part for part in proof.parts}
    figure = on_board(proof.plan, parts, lambda quantity: shown(quantity, "mm"))
    assert figure is not None
    assert ring_is_measured_from_flat_to_flat(figure)
