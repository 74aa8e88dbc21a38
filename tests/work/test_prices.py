"""What the shopping list costs, by the prices that a file states."""

from __future__ import annotations

from math import prod

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.work import work
from jigs.plans.plan import Plan
from jigs.render.book.gather import book_of
from jigs.render.tables_csv import csv_tables
from jigs.sets.rack import draw
from jigs.words.findings import Refused
from jigs.work.goods import NOT_BOUGHT
from jigs.work.model import Goods, Work
from tests.jigs.job_texts import SOUND
from tests.jigs.wood.whole_jobs import ALL, torus
from tests.work.works import work_of

WOOD = 'wood = [["Maple", 3200], ["hardwood", 2500]]\n'
EACH = (
    "sheet = 18\nboard = 24\nhardware = 0.5\nabrasive = 1.25\ntape = 4\nlining = 6\n"
    "glue = 14\nfinish = 28\nfilament = 22\n"
)
ALL_PRICED = f"[prices]\n{WOOD}{EACH}"


def told(plan: Plan) -> Work:
    proof = draw(plan)
    return work(proof.plan, proof.parts, proof.notes)


@pytest.fixture(scope="module")
def priced() -> Work:
    return told(torus(more=ALL_PRICED))


def amount(goods: Goods, id: str) -> float:
    return float(next(q.value for q in goods.amount if q.id == id))


def line(work: Work, id: str) -> Goods:
    return next(one for one in work.goods if one.id.startswith(id))


def cost_of(work: Work) -> float | None:
    return next((float(fact.value) for fact in work.facts if fact.id == "cost"), None)


@pytest.mark.parametrize("name", ALL)
def test_without_prices_nothing_has_a_cost(name: str) -> None:
    assert all(one.cost is None for one in work_of(name).goods)
    assert cost_of(work_of(name)) is None


def test_all_that_is_bought_has_a_cost_and_their_sum_is_told(priced: Work) -> None:
    bought = [one for one in priced.goods if one.group not in NOT_BOUGHT]
    costs = [one.cost for one in bought if one.cost is not None]
    assert len(costs) == len(bought)
    assert all(one.cost is None for one in priced.goods if one.group in NOT_BOUGHT)
    assert cost_of(priced) == pytest.approx(sum(costs))
    assert next(fact.label for fact in priced.facts if fact.id == "cost") == "Cost"


def test_a_currency_stands_where_costs_do() -> None:
    work = told(torus(more=ALL_PRICED.replace("[prices]", '[prices]\ncurrency = "NOK"')))
    assert work.currency == "NOK"
    assert next(fact.label for fact in work.facts if fact.id == "cost") == "Cost, NOK"
    bought = [
        row.value for group in book_of(work, ()).goods for row in group.rows if group.title == "abrasives"
    ]
    assert all(value.endswith("NOK") for value in bought)


def test_each_costs_its_amount_at_its_price(priced: Work) -> None:
    board = line(priced, "board.maple")
    size = prod(amount(board, side) for side in ("thickness", "width", "length"))
    assert board.cost == pytest.approx(3200 * size * amount(board, "count") / 1e9)
    assert line(priced, "sheet.").cost == pytest.approx(18 * amount(line(priced, "sheet."), "count"))
    assert line(priced, "bolt.m6").cost == pytest.approx(0.5 * amount(line(priced, "bolt.m6"), "count"))
    assert line(priced, "glue").cost == pytest.approx(14 * amount(line(priced, "glue"), "weight") / 1000)
    assert line(priced, "finish").cost == pytest.approx(28 * amount(line(priced, "finish"), "volume") / 1e6)


def test_the_table_has_the_costs(priced: Work) -> None:
    rows = csv_tables(priced)["shopping.csv"].splitlines()
    assert rows[0].endswith(",cost")
    assert sum(float(row.rpartition(",")[2] or 0) for row in rows[1:]) == pytest.approx(
        cost_of(priced) or 0, abs=0.005 * len(rows)
    )


def test_what_has_no_price_is_left_out_and_that_is_told() -> None:
    some = told(torus(more="[prices]\nsheet = 18\n"))
    assert line(some, "glue").cost is None
    assert cost_of(some) == pytest.approx(line(some, "sheet.").cost or 0)
    assert next(fact.label for fact in some.facts if fact.id == "cost") != "Cost"


def test_prices_in_inches_are_by_the_board_foot_the_pound_and_the_quart() -> None:
    prices = parse(f'unit = "in"\n{_in_mm(SOUND)}\n{ALL_PRICED}').workshop.prices
    assert prices.wood[0] == ("Maple", pytest.approx(3200 / (144 * 25.4**3)))
    assert prices.glue == pytest.approx(14 / 453.59237)
    assert prices.finish == pytest.approx(28 / (231 * 25.4**3 / 4))
    assert prices.sheet == 18


def test_glue_in_inches_is_by_the_square_foot_and_the_ounce() -> None:
    stated = parse(f'unit = "in"\n{_in_mm(SOUND)}\n[glue]\narea_time = 0.5\nspread = 0.7').workshop.glue
    assert stated.area_time == pytest.approx(0.5 / 0.3048**2)
    assert stated.spread == pytest.approx(0.7 * 28.349523125 / 0.3048**2)
    with pytest.raises(Refused) as refused:
        parse(f'unit = "in"\n{_in_mm(SOUND)}\n[glue]\nspread = 180')
    assert "from 0.0655" in refused.value.findings[0].remedy


def _in_mm(text: str) -> str:
    return text.replace("= 250", '= "250 mm"').replace("= 54", '= "54 mm"').replace("= 20", '= "20 mm"')


def test_the_values_show_prices_as_they_are_stated(priced: Work) -> None:
    values = {row[0]: row[1] for table in priced.tables if table.id == "values" for row in table.rows}
    assert values["prices.wood"] == "Maple 3200.00, hardwood 2500.00"
    assert values["prices.glue"] == "14.00"


@pytest.mark.parametrize(
    "line",
    [
        "sheet = -1",
        'sheet = "18"',
        "wood = 3200",
        "wood = []",
        'wood = [["maple"]]',
        'wood = [["maple", "much"]]',
        "wood = [[3, 4]]",
        'wood = [["", 4]]',
        'wood = [["maple", 3], ["Maple", 4]]',
    ],
)
def test_what_is_no_price_is_refused_at_its_key(line: str) -> None:
    with pytest.raises(Refused) as caught:
        parse(f"{SOUND}\n[prices]\n{line}\n")
    (finding,) = caught.value.findings
    assert finding.key == f"prices.{line.partition(' ')[0]}"
    assert finding.remedy
