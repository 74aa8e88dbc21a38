"""What is sanded and finished, and what the work weighs."""

from __future__ import annotations

from geometry.records import Record


class Surface(Record):
    name: str
    area: float  # mm2


class Weight(Record):
    """One wood: mm3 and grams as glued up and after turning; grams are nan of a wood that is not known."""

    species: str
    blank: float
    finished: float
    before: float
    after: float


class Grit(Record):
    """What one grit has to take off the radius, mm, and as a share of the sanding allowance."""

    grit: int
    removes: float
    share: float


class FinishPlan(Record):
    """Volumes are of wood: a closed core or a hollow is none. Grits in the order of the work."""

    allowance: float  # for sanding, on the radius
    surfaces: tuple[Surface, ...]
    weights: tuple[Weight, ...]
    grits: tuple[Grit, ...]
    coats: int
    coat_hours: float  # that each dries, where its maker says nothing else

    @property
    def area(self) -> float:
        return sum(surface.area for surface in self.surfaces)

    def area_of(self, name: str) -> float:
        """Of the surface of this name. Raises StopIteration where there is none."""
        return next(surface.area for surface in self.surfaces if surface.name == name)
