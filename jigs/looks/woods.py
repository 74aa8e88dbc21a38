"""Which wood or ply, and so which colour, every segment of a plan has."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from geometry.blanks.pattern import Pattern, ply_at
from geometry.blanks.staves import stave_ring
from geometry.bodies.flat_rings import FlatRing
from geometry.bodies.places import Places
from geometry.plane.edges import FloatArray, IntArray
from geometry.records import Record, replace
from jigs.figures.colours import RGB, colour_of, is_known
from jigs.looks.mistakes import Mistakes
from jigs.plans.plan import Plan, Shown
from jigs.plans.shape import TorusShape, VesselShape
from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.stack.plan import Layer

GAP: RGB = (58, 52, 46)  # an open gap shows the dark behind it


class Layups(Record, eq=False):
    """A pattern in some of the rings; its plies are colours from `first` on."""

    rings: IntArray  # numbers from 0
    pattern: Pattern
    first: int


class Woods(Record, eq=False):
    """The palette (k, 3), 0 to 255, and which of it each segment has, (rings, columns); strips count from the end."""

    palette: FloatArray
    segments: IntArray
    layups: tuple[Layups, ...]
    plugs: FloatArray | None = None  # (rings, 2): from the axis to a flat, and the radius of a plug

    def at(self, places: Places) -> IntArray:
        """Index into the palette of places, in their shape. Where only some rings have layups, a row has one ring."""
        if len(self.layups) == 1 and len(self.layups[0].rings) == len(self.segments):
            return self._plies(places, self.layups[0])
        found = self.segments[places.ring, places.segment]
        for layup in self.layups:
            of_row = places.ring.reshape(len(places.ring), -1)[:, 0]
            rows = np.flatnonzero(np.isin(of_row, layup.rings))
            if len(rows):
                found[rows] = self._plies(Places(*(part[rows] for part in vars(places).values())), layup)
        return found

    def below(self, colour: RGB) -> Woods:
        """The same with one ring more, the lowest, of one colour."""
        palette = np.concatenate((self.palette, [colour]))
        row = np.full((1, self.segments.shape[1]), len(self.palette), dtype=np.intp)
        layups = tuple(replace(layup, rings=layup.rings + 1) for layup in self.layups)
        plugs = None if self.plugs is None else np.concatenate(([(0.0, 0.0)], self.plugs))
        return Woods(palette, np.concatenate((row, self.segments)), layups, plugs)

    def _plies(self, places: Places, layup: Layups) -> IntArray:
        plies = layup.first + ply_at(places, layup.pattern)
        plain = places.segment < 0
        if self.plugs is not None and self.plugs[layup.rings, 1].any():
            outer, plug = np.moveaxis(self.plugs[places.ring], -1, 0)
            plain = plain | (np.hypot(outer - places.v, places.u) < plug)
        return np.where(plain, self.segments[places.ring, places.segment], plies) if plain.any() else plies


def torus_woods(plan: TorusPlan | TorusShape, turned: bool, mistakes: Mistakes) -> Woods:
    form = plan.job.form
    if not (form.spacer or form.ring_spacer):
        return _woods(plan, plan.species, (), turned, mistakes)
    rows = [  # segments, the strip between rings, strips between segments from the end
        (*ring, form.ring_strip_wood(ring), *reversed(form.strip_woods(ring) or ring))
        for ring in plan.species
    ]
    names = sorted({name for row in rows for name in row})
    table = np.array([[names.index(name) for name in row] for row in rows], dtype=np.intp)
    return Woods(np.array([colour_of(name) for name in names], dtype=np.float64), table, ())


def vessel_woods(plan: VesselPlan | VesselShape, turned: bool, mistakes: Mistakes) -> Woods:
    layers = plan.stack.layers
    between = [_between(plan, layer) for layer in layers]
    plugs = np.array([(layer.ring.outer, layer.plug / 2) for layer in layers])
    return replace(_woods(plan, [layer.species for layer in layers], between, turned, mistakes), plugs=plugs)


def _between(plan: VesselPlan | VesselShape, layer: Layer) -> RGB:
    """The colour of what stands between two segments."""
    if layer.kind == "open":
        return GAP
    return colour_of(plan.job.rings.spacer_species or layer.species[0])


def _woods(
    plan: Shown, species: Sequence[Sequence[str]], strips: Sequence[RGB], turned: bool, mistakes: Mistakes
) -> Woods:
    names = sorted({name for ring in species for name in ring})
    palette = [*(colour_of(name) for name in names), *strips]
    most = max(len(ring) for ring in species)
    table = np.zeros((len(species), 2 * most if strips else most), dtype=np.intp)
    for k, ring in enumerate(species):
        table[k, : len(ring)] = [names.index(name) for name in ring]
        if strips:
            table[k, most:] = len(names) + k
    layups = []
    for layup in plan.layups:
        rings = np.array(layup.rings) - 1
        layups.append(Layups(rings, pattern_of(layup, turned, mistakes.layup_off), len(palette)))
        palette += [colour_of(*ply) for ply in zip(layup.names, layup.colours, strict=True)]
    return Woods(np.array(palette, dtype=np.float64), table, tuple(layups))


def pattern_of(layup: LayupPlan, turned: bool = False, off: float = 0.0) -> Pattern:
    """The pattern that a layup draws on its segments; `turned` has it the other way than planned."""
    cut = layup.layup
    return Pattern(
        plies=cut.plies,
        angle=cut.angle,
        plane=layup.plane,
        mirrored=layup.mirrored,
        a=cut.a,
        b=cut.b,
        sanding=layup.sanding,
        turned=layup.turned != turned,
        flip_segments=layup.seams.alternate_segments,
        flip_rings=layup.seams.alternate_rings,
        off=(off, off),
    )


def flat_rings(plan: VesselPlan | VesselShape) -> tuple[FlatRing, ...]:
    """The vessel's rings, the lowest first."""
    found = []
    for layer in plan.stack.layers:
        ring, band = layer.ring, plan.stack.staves
        flat = FlatRing(
            ring.bottom,
            ring.height,
            ring.segments,
            ring.outer,
            layer.turned,
            ring.spacer,
            plug=layer.plug / 2,
        )
        found.append(stave_ring(band, layer.turned) if layer.kind == "staves" and band else flat)
    return tuple(found)


def made_up(plan: Plan) -> tuple[str, ...]:
    """Names whose colours are made up, each once."""
    names = set(plan.woods)
    for layup in plan.layups:
        names |= {name for name, colour in zip(layup.names, layup.colours, strict=True) if colour is None}
    return tuple(sorted(name for name in names if not is_known(name)))
