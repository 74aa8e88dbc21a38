"""What is found about the wood of either form: its boards, its grain, names that look misspelt."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.asked.job import Job
from jigs.asked.woods import SPECIES, nearest_species
from jigs.stages.boards.check.stock import stock_findings
from jigs.stages.boards.plan import WoodPlan
from jigs.stages.grain.check import grain_findings
from jigs.words.findings import Finding

ASSUMED = "weights leave it out; at the lathe, speeds and pulls allow for the heaviest wood there is"


def wood_findings(job: Job, wood: WoodPlan) -> Iterator[Finding]:
    """What the boards do not give, and joints that will not hold."""
    yield from stock_findings(job, wood.lots, wood.classes, wood.shortages)
    yield from name_findings(job, wood)
    yield from grain_findings(job, wood.grain, wood.glue)


def name_findings(job: Job, wood: WoodPlan) -> Iterator[Finding]:
    """A note for each wood that is not known, and for keys that do nothing here."""
    plies = {ply.name for ply in job.layup.plies} if job.layup else set()
    for weight in wood.finish.weights:
        near = nearest_species(weight.species)
        if weight.species in SPECIES or (weight.species in plies and not near):
            continue
        key = "layup.plies" if weight.species in plies else _species_key(job)
        if near:
            message = f"{weight.species} is not a wood whose weight and colour are known"
            remedy = f'did you mean "{near}"?'
        else:
            message = f"the weight of {weight.species} is not known: {ASSUMED}"
            remedy = f"known are {', '.join(SPECIES)}"
        yield job.finding("unknown-wood", message, key=key, remedy=remedy, severity="note")
    if job.layup and "form.species" in job.places:
        message = "is not used: all segments come from the layup"
        yield job.finding(
            "unused-key", message, key="form.species", remedy="leave it out, or [layup]", severity="note"
        )
    if "layup.rings" in job.places and _species_key(job) == "form.species":
        message = "is not used: all rings of a torus have the layup"
        yield job.finding("unused-key", message, key="layup.rings", remedy="leave it out", severity="note")


def _species_key(job: Job) -> str:
    return "form.species" if "form" in vars(job) else "rings.species"
