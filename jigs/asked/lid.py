"""What a job states of a lid, and of the rebate in a pot's rim in which one lies."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from geometry.bodies.lid_fit import LidFit
from geometry.records import dataclass
from jigs.asked.key import key
from jigs.asked.readings.readings import Readings
from jigs.words.lengths import MM_PER_INCH, Unit

if TYPE_CHECKING:
    from jigs.asked.vessel_job import VesselJob

MOUTH = "lid_pot.measure.mouth"
FAR = 0.1  # share of its plan by which it may differ; more is a slip of the pen

Fit = Literal["loose", "snug"]
# Least gap all round at the worst moisture, mm. Common practice, no source.
GAPS: dict[Unit, dict[Fit, float]] = {
    "mm": {"loose": 0.5, "snug": 0.15},
    "in": {"loose": 0.020 * MM_PER_INCH, "snug": 0.006 * MM_PER_INCH},
}


# fmt: off
@dataclass(frozen=True)
class LidWish:
    """The job is the lid of a pot, another job; moisture in per cent."""

    pot: str = key("text", "the job file of its pot, beside this one; .toml may be left off", unset="no lid",
        example="acorn", most=200)
    fit: Fit = key("choice", "how its flange fits the mouth: snug leaves 0.15 mm all round at the worst moisture, "
        "loose 0.5 mm; in a job in inches how its flange fits the mouth: snug leaves 0.006 in all round at the worst "
        "moisture, loose 0.020 in", "snug", choices=("loose", "snug"))
    gap: float | None = key("length", "all round between flange and mouth, left at the worst moisture",
        unset="by the fit", example=0.25, least=0.05, most=10)
    seat: float = key("length", "how far the flange reaches into the mouth", 8.0, inch_default=7.9375, least=3,
        most=200)
    mouth_diameter: float | None = key("length", "of the pot's mouth as you measured it, turned and sanded",
        unset="by your readings, else as the pot's job has it", example=90.0, least=10, most=3000)
    moisture: float = key("number", "per cent of moisture in the lid when its flange is fitted, by a meter", 8.0,
        least=6, most=14)
    driest: float = key("number", "per cent of moisture to which lid and pot may dry where they will stand", 6.0,
        least=6, most=14)
    wettest: float = key("number", "per cent of moisture to which they may come there", 14.0, least=6, most=14)


@dataclass(frozen=True)
class Rebate:
    """A step turned into the inside of the rim; zeros are a plain rim."""

    width: float = key("length", "how much wider the mouth is there, at each side; 0 is a plain rim", 0.0, most=200)
    depth: float = key("length", "from the rim down to the ledge", 0.0, most=200)


# fmt: on
@dataclass(frozen=True, eq=False)
class Pot:
    """The pot that a lid is for, and how the flange fits its mouth."""

    job: VesselJob
    fit: LidFit


def mouths_read(readings: Readings) -> tuple[float, ...]:
    """Every diameter that was read, mm."""
    found = readings.each(MOUTH) if MOUTH in readings else ()
    return tuple(one.value for one in found if one is not None)


def is_slip(mouth: float, planned: float) -> bool:
    return abs(mouth - planned) > FAR * planned
