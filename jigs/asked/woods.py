"""Woods: how heavy they are, and how far they move with their moisture.

Source of the figures: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), seen in copies:
specific gravity at 12 % moisture (oven-dry weight, volume at 12 %) from its table of strength properties,
coefficients of dimensional change from its table 13-5. The woods are, in the table's words: white ash, American
beech, yellow birch, paper birch, black cherry, sugar maple, white oak, northern red oak, black walnut and
basswood; the coefficients of both oaks are those of commercial mixes.
"""

from __future__ import annotations

from collections.abc import Iterable

from geometry.records import Record
from jigs.words.findings import near_names

UNKNOWN = 600.0  # kg/m³, of a wood not known
# kg/m³ that a wood not known may weigh where it can hurt: the heaviest that are turned, lignum vitae and blackwood,
# about 1260 (published lists of heavy woods), light hardwoods 400. A known one is taken as 900: white oak, the heaviest
# here, has 760, and boards of one wood differ by a sixth (from memory).
LIGHT, HEAVY, KNOWN_HEAVY = 400.0, 1300.0, 900.0
MOISTURE = 12.0  # per cent, at which the specific gravities hold
DRIEST, WETTEST = 6.0, 14.0  # per cent, between which the coefficients hold


class Species(Record):
    """Coefficients: share of a width that it changes by for each per cent of moisture."""

    gravity: float
    radial: float
    tangential: float

    @property
    def density(self) -> float:
        """kg/m³ at 12 % moisture, water and all."""
        return density(self.gravity, MOISTURE)


SPECIES = {
    "ash": Species(0.60, 0.00169, 0.00274),
    "basswood": Species(0.37, 0.00230, 0.00330),
    "beech": Species(0.64, 0.00190, 0.00431),
    "birch": Species(0.62, 0.00256, 0.00338),
    "cherry": Species(0.50, 0.00126, 0.00248),
    "maple": Species(0.63, 0.00165, 0.00353),
    "paper birch": Species(0.55, 0.00219, 0.00304),
    "red oak": Species(0.63, 0.00158, 0.00369),
    "walnut": Species(0.55, 0.00190, 0.00274),  # the gravity from memory
    "white oak": Species(0.68, 0.00180, 0.00365),
}
SLIP = 0.75  # how like a known name one is that may be meant for it: mapel, but not sapele
LIVELIEST = max(wood.tangential for wood in SPECIES.values())


def density(gravity: float, moisture: float) -> float:
    """kg/m³: 1000 · G · (1 + x/100), x per cent of moisture, G at that moisture (GTR-190, chapter 4)."""
    return 1000.0 * gravity * (1.0 + moisture / 100.0)


def density_of(species: str) -> float:
    """kg/m³ of a wood at 12 % moisture; a guess for one that SPECIES does not name, good for where weight lies."""
    return SPECIES[species].density if species in SPECIES else UNKNOWN


def tangential_of(species: str) -> float:
    """Of a width, for each per cent of moisture: the larger coefficient, of a wood not known the LIVELIEST's."""
    return SPECIES[species].tangential if species in SPECIES else LIVELIEST


def taken_heavy(volumes: Iterable[tuple[str, float]]) -> float:
    """N that so many mm³ of each of these woods weigh at most."""
    return sum(volume * (KNOWN_HEAVY if name in SPECIES else HEAVY) for name, volume in volumes) * 9.81e-9


def unbalanced(pulls: Iterable[tuple[str, complex]]) -> float:
    """Grams times mm off an axis, at most, of woods: of each its mm³ times where they lie round it, mm.

    A wood not known weighs what draws farthest; of two or more such this may be too much.
    """
    found: dict[str, complex] = {}
    for name, pull in pulls:
        found[name] = found.get(name, 0.0) + pull
    middle, spread = (HEAVY + LIGHT) / 2, (HEAVY - LIGHT) / 2
    known = sum(pull * (SPECIES[name].density if name in SPECIES else middle) for name, pull in found.items())
    return (
        abs(known) + spread * sum(abs(pull) for name, pull in found.items() if name not in SPECIES)
    ) * 1e-6


def weight(species: str, volume: float) -> float:
    """Grams of `volume` mm³ at 12 % moisture. Raises KeyError for a wood that SPECIES does not name."""
    return SPECIES[species].density * volume * 1e-6


def movement(size: float, coefficient: float, before: float, after: float) -> float:
    """How much a size grows from one moisture to another, both in per cent: D · C · (M_F - M_I).

    GTR-190, equation 13-2. Raises ValueError outside of 6 to 14 per cent, where it does not hold.
    """
    if not (DRIEST <= before <= WETTEST and DRIEST <= after <= WETTEST):
        raise ValueError(
            f"movement is known from {DRIEST:g} to {WETTEST:g} % moisture, not from {before:g} to {after:g}"
        )
    return size * coefficient * (after - before)


def nearest_species(name: str) -> str | None:
    """The name in SPECIES of the same kind, or of which this may be a slip of the pen; None when there is none."""
    words = name.lower().split()
    of_kind = [known for known in SPECIES if known.split()[-1:] == words[-1:]]
    near = near_names(" ".join(words), of_kind or SPECIES, cutoff=0.0 if of_kind else SLIP)
    return near[0] if near else None
