"""The whole work of a job: its stages' operations in the order in which they are done."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from jigs.asked.job_shop import Printer
from jigs.forms.form import of_plan
from jigs.parts.part import Part
from jigs.plans.plan import Plan, by_form
from jigs.stages.shop.assumed import NOT_MEASURED
from jigs.stages.shop.steps import with_lowest_speed
from jigs.words.findings import Finding, refuse
from jigs.words.lengths import Unit
from jigs.work import times
from jigs.work.at_hand import tools
from jigs.work.blocks import with_blocks
from jigs.work.cautions import STANDING, caution_text
from jigs.work.goods import cost_facts, goods_of, priced
from jigs.work.lean import with_own
from jigs.work.model import Caution, Heading, JigEntry, Operation, Rack, Work
from jigs.work.printing import print_settings, printed
from jigs.work.supplies import of_all
from jigs.work.values import values

if TYPE_CHECKING:
    from jigs.plans.vessel import VesselPlan

CAN = "can be made"

OF_OUR_SLEDS = "held-pieces"  # the table of what was proved on them


def work(
    plan: Plan, parts: Sequence[Part], notes: Iterable[Finding] = (), without: Sequence[Part] = ()
) -> Work:
    """Everything that the book, the listing and the tables hold of a job.

    `notes` are those of its jigs; the plan has its own. `without` are those of its parts that are not made, for the
    turner has others.

    Raises Refused for readings that belong to none of its operations.
    """
    lean = [part for part in parts if part not in without]
    form = of_plan(plan)
    headings, operations = _done(plan, Rack(parts), Rack(lean))
    if plan.job.readings.entries:
        from jigs.measured.known import reading_faults

        refuse(reading_faults(plan.job.readings, operations))
    if without:
        operations = with_own(operations, without)
        headings = tuple(one for one in headings if any(of.stage == one.id for of in operations))
    found = [*plan.notes, *notes]
    rack = tuple(_entry(part, plan.job.workshop.printer) for part in lean)
    goods = priced(goods_of(operations, (*of_all(plan), *tools(plan))), plan.job.workshop)
    return Work(
        job=plan.job.name,
        title=plan.job.title,
        unit=plan.job.unit,
        form=plan.kind,
        facts=(
            *form.facts(plan),
            *times.facts(headings, operations, rack),
            *cost_facts(goods, plan.job.workshop.prices.currency or ""),
        ),
        notes=tuple(sorted((n for n in found if n.code != NOT_MEASURED), key=lambda n: n.severity == "note")),
        assumed=tuple(note for note in found if note.code == NOT_MEASURED),
        stages=headings,
        operations=operations,
        cautions=_cautions(operations, plan.job.unit),
        tables=(
            *(
                with_blocks(table, operations)
                for tables in (*form.tables, *(of for stage in form.stages for of in stage.tables))
                for table in tables(plan)
                if not (without and table.id == OF_OUR_SLEDS)
            ),
            *print_settings(lean, plan.job.workshop.printer),
            times.table(headings, operations, rack),
            values(plan.job, plan.kind),
        ),
        rack=rack,
        goods=goods,
        currency=plan.job.workshop.prices.currency or "",
        verdict=verdict(plan),
    )


def _done(plan: Plan, rack: Rack, lean: Rack) -> tuple[tuple[Heading, ...], tuple[Operation, ...]]:
    """Stages that have nothing to do in a job are left out; those that make jigs know the lean rack alone."""
    stages = of_plan(plan).stages
    done = [(of, tuple(of.operations(plan, lean if of.sort == "making" else rack))) for of in stages]
    headings = tuple(of.heading for of, own in done if own)
    return headings, tuple(with_lowest_speed([operation for _, own in done for operation in own]))


def _cautions(operations: Iterable[Operation], unit: Unit) -> tuple[Caution, ...]:
    """The standing ones first, then each where it is first met."""
    met = dict.fromkeys([*STANDING, *(id for operation in operations for id in operation.cautions)])
    return tuple(Caution(id, caution_text(id, unit), id in STANDING) for id in met)


def _entry(part: Part, printer: Printer) -> JigEntry:
    x0, y0, x1, y1 = part.outline.bounds
    made = printed(part, printer) if part.process == "print" else None
    return JigEntry(
        code=part.code,
        name=part.name,
        quantity=part.quantity,
        process=part.process,
        material=part.material,
        size=(x1 - x0, y1 - y0),
        purpose=part.purpose,
        hours=made.hours if made else None,
        grams=made.grams if made else None,
    )


def verdict(plan: Plan) -> str:
    """Whether it can be made, and what of it the job leaves to the hand."""
    return by_form(plan, torus=lambda _: CAN, vessel=_of_vessel)


def _of_vessel(plan: VesselPlan) -> str:
    if plan.section.through:
        return f"{CAN}, its {plan.job.called.foot} rubbed flat by hand"
    return f'{CAN}, its foot finished by hand (hold = "none")' if plan.by_hand else CAN
