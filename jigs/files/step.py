"""A part, or several in their places, as STEP in millimetres (ISO 10303-214)."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from jigs.files.step_bodies import body
from jigs.files.step_entities import Entities, Vector, cross, listed, quoted
from jigs.parts.assembly import Place
from jigs.parts.part import Part

FRAME = """ISO-10303-21;
HEADER;
FILE_DESCRIPTION((''),'2;1');
FILE_NAME({name},'2000-01-01T00:00:00',(''),(''),'turning-jigs','turning-jigs','');
FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));
ENDSEC;
DATA;
{data}ENDSEC;
END-ISO-10303-21;
"""  # the date is the same in every run
ORIGIN: Vector = (0.0, 0.0, 0.0)


def write_step(part: Part, file: Path) -> None:
    """Write a part: the same part, the same bytes. Raises as `body` does."""
    step = Entities()
    _part(step, part)
    _write(step, _called(part), file)


def write_assembly(name: str, members: Sequence[tuple[Part, Place]], file: Path) -> None:
    """Write parts in their places, each part once. Raises as `body` does."""
    step = Entities()
    bodies = {part.name: _part(step, part) for part in {part.name: part for part, _ in members}.values()}
    places = [step.placement(place.origin, cross(place.x, place.y), place.x) for _, place in members]
    origin = step.placement(ORIGIN)
    whole, shape = _product(step, name, "SHAPE_REPRESENTATION", [origin, *places])
    for k, ((part, _), place) in enumerate(zip(members, places, strict=True)):
        own, own_shape = bodies[part.name]
        called = quoted(_called(part))
        used = step.add(f"NEXT_ASSEMBLY_USAGE_OCCURRENCE('{k + 1}',{called},'',{whole},{own},$)")
        defined = step.add(f"PRODUCT_DEFINITION_SHAPE('','',{used})")
        move = step.add(f"ITEM_DEFINED_TRANSFORMATION('','',{origin},{place})")
        relation = step.add(
            f"(REPRESENTATION_RELATIONSHIP('','',{own_shape},{shape})"
            f"REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION({move})SHAPE_REPRESENTATION_RELATIONSHIP())",
            k + 1,
        )
        step.add(f"CONTEXT_DEPENDENT_SHAPE_REPRESENTATION({relation},{defined})")
    _write(step, name, file)


def _called(part: Part) -> str:
    return f"{part.code} {part.name}"


def _part(step: Entities, part: Part) -> tuple[str, str]:
    solid = body(step, part)
    kind = "ADVANCED_BREP_SHAPE_REPRESENTATION"
    return _product(step, _called(part), kind, [step.placement(ORIGIN), solid])


def _product(step: Entities, name: str, kind: str, items: Sequence[str]) -> tuple[str, str]:
    """A product's definition and its shape."""
    called, add = quoted(name), step.add
    context = add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')")
    add(f"APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,{context})")
    mechanical = add(f"PRODUCT_CONTEXT('',{context},'mechanical')")
    product = add(f"PRODUCT({called},{called},'',({mechanical}))")
    add(f"PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,({product}))")
    formation = add(f"PRODUCT_DEFINITION_FORMATION('','',{product})")
    design = add(f"PRODUCT_DEFINITION_CONTEXT('part definition',{context},'design')")
    definition = add(f"PRODUCT_DEFINITION('design','',{formation},{design})")
    defined = add(f"PRODUCT_DEFINITION_SHAPE('','',{definition})")
    shape = add(f"{kind}('',{listed(items)},{_units(step)})")
    add(f"SHAPE_DEFINITION_REPRESENTATION({defined},{shape})")
    return definition, shape


def _units(step: Entities) -> str:
    long = step.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))")
    angle = step.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))")
    solid = step.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())")
    known = f"UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-07),{long},'distance_accuracy_value','')"
    return step.add(
        f"(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({step.add(known)}))"
        f"GLOBAL_UNIT_ASSIGNED_CONTEXT(({long},{angle},{solid}))REPRESENTATION_CONTEXT('',''))"
    )


def _write(step: Entities, name: str, file: Path) -> None:
    file.write_text(FRAME.format(name=quoted(name), data=step.text()), "ascii", newline="\n")
