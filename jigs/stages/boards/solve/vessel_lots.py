"""The pieces of a vessel: segments by strip and wood, solid base, core plugs, staves, strips between segments."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain
from math import ceil, cos

from geometry.blanks.staves import StaveBand
from geometry.grouping import grouped
from geometry.records import replace
from jigs.asked.vessel_job import VesselJob
from jigs.stages.boards.at_hand import widest_strip
from jigs.stages.boards.plan import RIPPED, Lot, Piece
from jigs.stages.boards.solve.lots import numbered, spare_pieces, square_lot
from jigs.stages.flat_segments.plan import FlatSled, SawPlan, StaveCut, StopSetting, Strip
from jigs.stages.knob.solve import ENDS, knob_blank, knob_species
from jigs.stages.segments.layout import strip_held
from jigs.stages.slips.layout import KERF, SLIT_FROM, slip_length
from jigs.stages.stack.plan import Layer, StackPlan

THIN = 10.0  # mm: thinner strips between segments are slips; common practice, no source
SAME = 0.02  # mm: pieces whose sizes differ by less are one
# mm by which the square of what is made round (base, upright piece, core plug) is wider than it.
ROUND_OVER = 4.0
THICK = 50.0  # mm, of the thickest boards that are usual: what is thicker is glued of several


def vessel_lots(job: VesselJob, stack: StackPlan, saws: SawPlan) -> tuple[Lot, ...]:
    """Everything that is sawn from boards; segments of a layup's rings come from blocks instead. Rings that are stated
    to be glued are sawn already."""
    own = list(stack.to_make)
    layers = {layer.number: layer for layer in own}
    found = chain(
        chain.from_iterable(
            _upright(job, layer) if layer.upright else _base(job, layer)
            for layer in own
            if layer.kind == "disc"
        ),
        _plugs(job, own),
        _floating(job, stack),
        _knob(job),
        chain.from_iterable(_segments(job, saws, layers)),
        _spacers(job, own),
        ()
        if stack.staves_cut is None or saws.staves is None
        else _staves(job, stack, stack.staves_cut, saws.staves),
    )
    return numbered(found)


def _hold(job: VesselJob, piece: float) -> float:
    """What is held of a strip while a square piece is cut off; a long piece is itself held."""
    long = piece >= job.workshop.stock.least_offcut
    return 0.0 if long else strip_held(job.workshop.sled.clear_of_blade)


def _base(job: VesselJob, layer: Layer) -> Iterator[Lot]:
    ring, (name,) = layer.ring, layer.species
    yield _disc(job, "base", "base", layer.number, name, 2 * ring.outer, ring.height)


def _upright(job: VesselJob, layer: Layer) -> Iterator[Lot]:
    """Turned between centres, it is longer than its ring is high."""
    ring, (name,) = layer.ring, layer.species
    long = ring.height + 2 * ENDS
    yield _post(job, "upright piece", "upright", (layer.number,), name, 2 * ring.outer, long)


def _floating(job: VesselJob, stack: StackPlan) -> Iterator[Lot]:
    """The square of a base that floats in ring 1."""
    if disc := stack.floating:
        across, thick = 2 * disc.base.tongue, disc.base.thickness
        flat = thick + job.rings.flattening
        if disc.upright:
            yield _post(job, "floating base, grain upright", "upright", (1,), disc.species, across, flat)
        else:
            yield _disc(job, "floating base", "base", 1, disc.species, across, thick)


def _knob(job: VesselJob) -> Iterator[Lot]:
    """The square of a lid's knob, its grain along the axis."""
    if blank := knob_blank(job):
        across, long = blank
        yield _post(job, "knob", "knob", (1,), knob_species(job), across - ROUND_OVER, long)


def _disc(
    job: VesselJob, name: str, piece: Piece, ring: int, species: str, across: float, thick: float
) -> Lot:
    """A square, of as many equal pieces glued edge to edge as the boards' width asks; none to spare."""
    across, thick = across + ROUND_OVER, thick + job.rings.flattening
    strip = across + 2 * job.workshop.saw.kerf + _hold(job, across)
    pieces = max(1, ceil(across / widest_strip(job, species, thick, strip) - 1e-9))
    return _square(job, name, piece, (ring,), species, pieces, 0, (thick, across / pieces, across))


def _post(
    job: VesselJob, name: str, piece: Piece, rings: tuple[int, ...], species: str, across: float, long: float
) -> Lot:
    """A square whose grain is its length, along the axis; of several boards face to face where it is thick."""
    across += ROUND_OVER
    pieces = max(1, ceil(across / THICK - 1e-9))
    return _square(job, name, piece, rings, species, pieces, 0, (across / pieces, across, long))


def _plugs(job: VesselJob, layers: Sequence[Layer]) -> Iterator[Lot]:
    """Squares for the plugs of each wood, height and diameter, to be turned round; none to spare."""
    plugged = [layer for layer in layers if layer.plug]
    groups = grouped(plugged, lambda of: (of.species[0], round(of.ring.height, 6), of.plug))
    for (name, height, plug), rings in groups.items():
        across = plug + ROUND_OVER
        yield _square(
            job,
            name=f"core plugs of {name}",
            piece="plug",
            rings=tuple(layer.number for layer in rings),
            species=name,
            count=len(rings),
            spares=0,
            size=(height + job.rings.flattening, across, across),
        )


def _square(
    job: VesselJob,
    name: str,
    piece: Piece,
    rings: tuple[int, ...],
    species: str,
    count: int,
    spares: int,
    size: tuple[float, float, float],
) -> Lot:
    """Pieces cut off square at the saw; `size` is thickness, width and length."""
    kerf, held = job.workshop.saw.kerf, _hold(job, size[2])
    return square_lot(name, piece, rings, species, count, spares, size, kerf, held=held)


def _segments(job: VesselJob, saws: SawPlan, layers: dict[int, Layer]) -> Iterator[Iterator[Lot]]:
    for sled in saws.sleds:
        for setting in sled.settings:
            for strip in setting.strips:
                own = [layers[number] for number in strip.rings if number in layers]
                yield _strip_lots(job, sled, setting, strip, own)


def _strip_lots(
    job: VesselJob, sled: FlatSled, setting: StopSetting, strip: Strip, layers: Sequence[Layer]
) -> Iterator[Lot]:
    """One lot for each wood of the rings that are cut from strips of this size."""
    for name in dict.fromkeys(name for layer in layers for name in layer.species):
        count = sum(layer.species.count(name) for layer in layers)
        yield Lot(
            name=f"segments of {name}",
            piece="segment",
            rings=tuple(layer.number for layer in layers if name in layer.species),
            species=name,
            count=count,
            spares=spare_pieces(job, count),
            thickness=strip.thickness,
            width=strip.width,
            longer=strip.outer_edge,
            shorter=strip.inner_edge,
            mitre=sled.layout.mitre,
            kerf=job.workshop.saw.kerf,
            held=sled.layout.held,
            way="slid across",
            stop=setting.stop,
            blade=sled.layout.blade_over(strip.thickness),
        )


def _spacers(job: VesselJob, layers: Sequence[Layer]) -> Iterator[Lot]:
    """Strips between segments, as thick as the segments beside them and a little longer than its joints; rings alike
    together. What slips are slit from is never too thin for a rip fence: those of thinner rings are planed lower."""
    least = RIPPED if job.rings.spacer < THIN else 0.0
    groups: dict[tuple[str, float, float], list[Layer]] = {}
    for layer in layers:
        if layer.kind == "segments" and layer.ring.spacer:
            size = (max(least, layer.ring.height + job.rings.flattening), _proud(job, layer))
            for name in dict.fromkeys(_spacer_woods(job, layer)):
                alike = (key for key in groups if key[0] == name and _near(key[1:], size))
                groups.setdefault(next(alike, (name, *size)), []).append(layer)
    for (name, height, length), rings in groups.items():
        count = sum(_spacer_woods(job, layer).count(name) for layer in rings)
        strip = _square(
            job,
            name=f"strips of {name} between segments",
            piece="spacer",
            rings=tuple(layer.number for layer in rings),
            species=name,
            count=count,
            spares=spare_pieces(job, count),
            size=(height, rings[0].ring.spacer, length),
        )
        yield _slip(strip) if strip.width < THIN else strip
    yield from _rests(job, groups)


def _slip(strip: Lot) -> Lot:
    """A strip too thin to be ripped or crosscut by itself: slit, and cut by hand in a box that holds all of it."""
    return replace(strip, way="slit", kerf=KERF, held=0.0)


def _rests(job: VesselJob, groups: dict[tuple[str, float, float], list[Layer]]) -> Iterator[Lot]:
    """One for each wood and thickness: what stays between blade and fence when the last slip is slit."""
    if not groups or job.rings.spacer >= THIN:
        return
    found: dict[tuple[str, float], tuple[float, list[int]]] = {}
    for (name, height, _), rings in groups.items():
        _, numbers = found.setdefault((name, round(height, 2)), (height, []))
        numbers += [layer.number for layer in rings]
    for (name, _), (height, numbers) in found.items():
        rest = _square(
            job,
            name=f"strip of {name} that slips are slit from, left over",
            piece="rest",
            rings=tuple(sorted(set(numbers))),
            species=name,
            count=1,
            spares=0,
            size=(height, SLIT_FROM, job.workshop.stock.least_offcut),
        )
        yield replace(rest, way="slit", held=0.0)


def _proud(job: VesselJob, layer: Layer) -> float:
    """Length of a strip between segments, which stands out at both ends of its joint."""
    return slip_length(layer.ring.depth / cos(layer.ring.mitre), job.unit)


def _near(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return all(abs(x - y) <= SAME for x, y in zip(a, b, strict=True))


def _spacer_woods(job: VesselJob, layer: Layer) -> tuple[str, ...]:
    """The wood of each strip: the one asked for, else that of the segment before it."""
    asked = job.rings.spacer_species
    return layer.species if asked is None else (asked,) * len(layer.species)


def _staves(job: VesselJob, stack: StackPlan, band: StaveBand, cut: StaveCut) -> Iterator[Lot]:
    """Boards for the staves, over size; bevels, tapers and the slanted ends come off them."""
    layer = next(layer for layer in stack.layers if layer.kind == "staves")
    width, length = cut.board
    blank = width * length * band.thickness
    for name in dict.fromkeys(layer.species):
        count = layer.species.count(name)
        square = _square(
            job,
            name=f"staves of {name}",
            piece="stave",
            rings=(layer.number,),
            species=name,
            count=count,
            spares=spare_pieces(job, count),
            size=(band.thickness, width, length),
        )
        off = blank - band.volume / band.count
        yield replace(square, way="bevelled", bevel=band.blade_tilt, off=off)
