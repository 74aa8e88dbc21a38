"""What is known of a jig, and of a family of them, whatever the job."""

from __future__ import annotations

from geometry.records import dataclass


@dataclass(frozen=True)
class Jig:
    """A sort of part; where a rack has several of it, their names have more words behind this one."""

    name: str
    code: str  # on its plate and in the listing; those of two jigs of a job differ
    first: bool = False  # measures the machine that makes the others: made before them and alone, as drawn
    ready: bool = False  # used as it comes off its machine: no operation of the stage "building" has it
    slots: bool = False  # measures what slots are cut to: a lean rack has none
    kept: bool = False  # in a lean rack too, for it proves what the turner's own does
    solid: bool = False  # pressed while it serves, so printed solid
    block: bool = False  # cut, a stack of plates; printed, one block as thick
    made_up: bool = False  # its thickness makes up a height, however it is made
    cut_to: tuple[str, ...] = ()  # keys of the shop's sizes that it must fit
    untried: str = ""  # why no group of the dry fit opens its file
    made: str = ""  # its own key of [made], where that is not its family's


@dataclass(frozen=True)
class Own:
    """What a turner who owns such jigs uses instead of a family of ours."""

    name: str  # in the listing, which has no room for more
    instead: str
    sawn: bool = False  # it carries work past a blade


@dataclass(frozen=True)
class Family:
    """Jigs that are made alike, as one key of [made] says."""

    id: str  # that key
    jigs: tuple[Jig, ...]
    joined: bool = False  # held in the hand: what is cut of it may be joined from pieces, too
    stepped: bool = False  # its steps allow for the plate as planned, so a printed one is no thinner
    own: Own | None = None  # a lean rack leaves the family out
