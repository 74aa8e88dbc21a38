"""Woods: how heavy and how strong they are, and how far they move with their moisture.

Source of the figures: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), seen in copies:
specific gravity at 12 % moisture (oven-dry weight, volume at 12 %) and strength from its table 5-3a, coefficients of
dimensional change from its table 13-5, those of softwoods and yellow-poplar from memory; of yellow-poplar and
Douglas-fir they follow from the shrinkage in its table 4-3. The woods are, in the
table's words: white ash, quaking aspen, American beech, yellow birch, paper birch, black cherry, baldcypress, coast
Douglas-fir, western hemlock, sugar maple, white oak, northern red oak, ponderosa pine, eastern white pine, western
redcedar, Sitka spruce, black walnut, yellow-poplar and basswood; the coefficients of both oaks are those of
commercial mixes.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from geometry.records import Record
from jigs.words.findings import near_names

UNKNOWN = 600.0  # kg/m³, of a wood not known
# kg/m³ that a wood not known may weigh where it can hurt: the heaviest that are turned, lignum vitae and blackwood,
# about 1260 (published lists of heavy woods), light hardwoods 400. A known hardwood is taken as 900: white oak, the
# heaviest here, has 760, and boards of one wood differ by a sixth (from memory).
LIGHT, HEAVY, KNOWN_HEAVY, DIFFER = 400.0, 1300.0, 900.0, 1 / 6
MOISTURE = 12.0  # per cent, at which the specific gravities hold
DRIEST, WETTEST = 6.0, 14.0  # per cent, between which the coefficients hold
# Wood across its grain breaks at a strain of .009 or more (Mecklenburg, Tumosa and Erhardt, in The Structural
# Conservation of Panel Paintings, 1998).
BREAKS = 0.009
# A blade, a planer or a hand-held turning tool that is set up for wood catches in it. Common practice, no source.
METALS = {
    "aluminium",
    "aluminum",
    "brass",
    "bronze",
    "copper",
    "gold",
    "iron",
    "lead",
    "nickel",
    "pewter",
    "silver",
}
METALS |= {"steel", "tin", "titanium", "zinc"}
# Words beside a metal's name.
FORMS = {"bar", "foil", "mild", "plate", "rod", "sheet", "shim", "stainless", "strip", "veneer"}


class Species(Record):
    """Coefficients: share of a width that it changes by for each per cent of moisture."""

    gravity: float
    radial: float
    tangential: float

    @property
    def density(self) -> float:
        """kg/m³ at 12 % moisture, water and all."""
        return density(self.gravity, MOISTURE)


class Kind(Record):
    """Woods of one name: N/mm² at which the weakest breaks across and along its grain; least and greatest gravity."""

    across: float
    along: float
    light: float
    heavy: float


SPECIES = {
    "ash": Species(0.60, 0.00169, 0.00274),
    "aspen": Species(0.38, 0.00119, 0.00234),
    "basswood": Species(0.37, 0.00230, 0.00330),
    "beech": Species(0.64, 0.00190, 0.00431),
    "birch": Species(0.62, 0.00256, 0.00338),
    "cherry": Species(0.50, 0.00126, 0.00248),
    "cypress": Species(0.46, 0.00130, 0.00216),
    "douglas fir": Species(0.48, 0.00165, 0.00267),
    "hemlock": Species(0.45, 0.00144, 0.00274),
    "maple": Species(0.63, 0.00165, 0.00353),
    "paper birch": Species(0.55, 0.00219, 0.00304),
    "ponderosa pine": Species(0.40, 0.00133, 0.00216),
    "red oak": Species(0.63, 0.00158, 0.00369),
    "spruce": Species(0.40, 0.00148, 0.00263),
    "walnut": Species(0.55, 0.00190, 0.00274),
    "western redcedar": Species(0.32, 0.00111, 0.00234),
    "white oak": Species(0.68, 0.00180, 0.00365),
    "white pine": Species(0.35, 0.00071, 0.00212),
    "yellow poplar": Species(0.42, 0.00158, 0.00289),
}
# Of woods that are weaker than basswood, or lighter than hardwoods, by the ends of words of their name: all of it, the
# first that fits. Table 5-3a of the handbook; where it has none across the grain (poplar, willow), three fifths of what
# its formula for hardwoods gives, 10.1 G^1.3 (from memory), as quaking aspen has. Balsa along its grain: a published
# table of moduli of rupture; across, 118 lbf/in² of medium balsa (the handbook of 1974, seen in a copy); its gravity:
# Borrega and Gibson, Mechanics of Materials 84 (2015). Paulownia along: 43.6 (Akyildiz and Kol, Journal of
# Environmental Biology 31, 2010), others less; across, as poplar.
KINDS = {
    "balsa": Kind(0.8, 14.0, 0.09, 0.22),
    "paulownia": Kind(1.1, 37.0, 0.17, 0.37),
    "kiri": Kind(1.1, 37.0, 0.17, 0.37),
    "yellow poplar": Kind(3.7, 70.0, 0.42, 0.42),
    "tulip poplar": Kind(3.7, 70.0, 0.42, 0.42),
    "poplar": Kind(1.5, 47.0, 0.34, 0.42),
    "cottonwood": Kind(2.3, 59.0, 0.34, 0.40),
    "aspen": Kind(1.8, 58.0, 0.38, 0.39),
    "willow": Kind(1.8, 54.0, 0.39, 0.39),
    "butternut": Kind(3.0, 56.0, 0.38, 0.38),
    "douglas": Kind(2.3, 82.0, 0.46, 0.50),
    "fir": Kind(1.2, 59.0, 0.32, 0.43),
    "hemlock": Kind(2.3, 61.0, 0.40, 0.45),
    "larch": Kind(2.8, 80.0, 0.52, 0.53),
    "spruce": Kind(2.4, 64.0, 0.35, 0.42),
    "pine": Kind(2.0, 57.0, 0.35, 0.59),
    "cypress": Kind(1.9, 73.0, 0.46, 0.46),
    "redwood": Kind(1.7, 54.0, 0.35, 0.40),
    "cedar": Kind(1.5, 45.0, 0.31, 0.47),
}
SLIP = 0.75  # how like a known name one is that may be meant for it: mapel, but not sapele
LIVELIEST = 0.00462  # overcup oak, the largest coefficient of table 13-5


def density(gravity: float, moisture: float) -> float:
    """kg/m³: 1000 · G · (1 + x/100), x per cent of moisture, G at that moisture (GTR-190, chapter 4)."""
    return 1000.0 * gravity * (1.0 + moisture / 100.0)


def density_of(species: str) -> float:
    """kg/m³ of a wood at 12 % moisture; a guess for one that SPECIES does not name, good for where weight lies."""
    return SPECIES[species].density if species in SPECIES else UNKNOWN


def tangential_of(species: str) -> float:
    """Of a width, for each per cent of moisture: the larger coefficient, of a wood not known LIVELIEST."""
    return SPECIES[species].tangential if species in SPECIES else LIVELIEST


@cache
def kind_of(species: str) -> Kind | None:
    """The kind that a name tells of; None for hardwoods that are no weaker than basswood, and for names not known."""
    words = species.lower().replace("-", " ").split()
    told = (
        kind
        for ends, kind in KINDS.items()
        if all(any(word.endswith(end) for word in words) for end in ends.split())
    )
    return next(told, None)


def taken_heavy(volumes: Iterable[tuple[str, float]]) -> float:
    """N that so many mm³ of each of these woods weigh at most."""
    return sum(volume * _heaviest(name) for name, volume in volumes) * 9.81e-9


def _heaviest(species: str) -> float:
    kind, known = kind_of(species), SPECIES.get(species)
    if kind is None:
        return KNOWN_HEAVY if known else HEAVY
    return (1 + DIFFER) * (known.density if known else density(kind.heavy, MOISTURE))


def _lightest(species: str) -> float:
    """kg/m³ that a wood which SPECIES does not name weighs at least."""
    kind = kind_of(species)
    return (1 - DIFFER) * density(kind.light, MOISTURE) if kind else LIGHT


def unbalanced(pulls: Iterable[tuple[str, complex]]) -> float:
    """Grams times mm off an axis, at most, of woods: of each its mm³ times where they lie round it, mm.

    A wood not known weighs what draws farthest; of two or more such this may be too much.
    """
    found: dict[str, complex] = {}
    for name, pull in pulls:
        found[name] = found.get(name, 0.0) + pull
    middle, spread = 0j, 0.0
    for name, pull in found.items():
        if name in SPECIES:
            middle += pull * SPECIES[name].density
        else:
            light, heavy = _lightest(name), _heaviest(name)
            middle += pull * (light + heavy) / 2
            spread += abs(pull) * (heavy - light) / 2
    return (abs(middle) + spread) * 1e-6


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


def is_metal(name: str) -> bool:
    """Copper is, copper beech is none."""
    words = set(name.lower().replace("-", " ").split())
    return bool(words & METALS) and words <= METALS | FORMS


def nearest_species(name: str) -> str | None:
    """The name in SPECIES of the same kind, or of which this may be a slip of the pen; None when there is none.

    Fir is no Douglas fir, which is another kind, and apple, which begins with another letter, is no slip of maple.
    """
    words, kind = name.lower().removesuffix(" wood").split(), kind_of(name)
    of_kind = [known for known in SPECIES if known.split()[-1:] == words[-1:] and kind_of(known) == kind]
    slips = [known for known in SPECIES if known[:1] == "".join(words)[:1]]
    near = near_names(" ".join(words), of_kind or slips, cutoff=0.0 if of_kind else SLIP)
    return near[0] if near else None
