"""`dataclass` for records, of which every command builds hundreds before it begins: as the standard library's, which
writes out six methods for each class and compiles them one by one, an eighth of a short command. Here `__init__`
alone is compiled, when a first one is made, and the others are shared.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, fields
from inspect import get_annotations
from operator import attrgetter
from typing import TYPE_CHECKING, Any, NoReturn

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(*, frozen: bool, eq: bool = True, kw_only: bool = False) -> Callable[[type], type]:
        """Frozen records alone. Raises ValueError for others."""
        if not frozen:
            raise ValueError("records are frozen")
        return lambda cls: _record(cls, eq, kw_only)


def _record(cls: Any, eq: bool, kw_only: bool) -> Any:
    if cls.__doc__ is None:
        cls.__doc__ = cls.__name__  # else its signature is put together
    own_hash = cls.__dict__.get("__hash__")
    types = get_annotations(cls)
    cls.__annotations__ = dict.fromkeys(
        types, Any
    )  # else each is looked through for a ClassVar; there is none
    dataclasses.dataclass(init=False, repr=False, eq=False, kw_only=kw_only)(cls)
    cls.__annotations__ = types
    cls.__init__ = _init_when_made(cls)
    cls.__repr__, cls.__setattr__, cls.__delattr__ = _repr, _refused, _refused
    if eq:
        compared = [field.name for field in fields(cls) if field.compare]
        cls.__key__ = staticmethod(attrgetter(*compared) if compared else type)
        cls.__eq__, cls.__hash__ = _equal, own_hash or _hash
    return cls


def _init_when_made(cls: Any) -> Callable[..., None]:
    """Compiled when a first one is made: a command makes some of half of them."""

    def __init__(self: Any, *given: Any, **named: Any) -> None:
        cls.__init__ = _init(cls)
        cls.__init__(self, *given, **named)

    return __init__


def _init(cls: Any) -> Callable[..., None]:
    names: dict[str, Any] = {"_MISSING": MISSING}
    heads, lines = ["self"], ["_own = self.__dict__"]
    for field in sorted(fields(cls), key=lambda field: bool(field.kw_only)):
        if not field.init:
            continue
        if field.kw_only and "*" not in heads:
            heads.append("*")
        heads.append(field.name + _default(field, names))
        value = field.name
        if field.default_factory is not MISSING:
            value = f"_made_{value}() if {value} is _MISSING else {value}"
        lines.append(f"_own[{field.name!r}] = {value}")
    if hasattr(cls, "__post_init__"):
        lines.append("self.__post_init__()")
    exec(f"def __init__({', '.join(heads)}):\n " + "\n ".join(lines), names)
    made: Callable[..., None] = names["__init__"]
    made.__qualname__ = f"{cls.__qualname__}.__init__"
    return made


def _default(field: Field[Any], names: dict[str, Any]) -> str:
    if field.default_factory is not MISSING:
        names[f"_made_{field.name}"] = field.default_factory
        return "=_MISSING"
    if field.default is not MISSING:
        names[f"_default_{field.name}"] = field.default
        return f"=_default_{field.name}"
    return ""


def _equal(self: Any, other: Any) -> Any:
    return self.__key__(self) == self.__key__(other) if other.__class__ is self.__class__ else NotImplemented


def _hash(self: Any) -> int:
    return hash(self.__key__(self))


def _repr(self: Any) -> str:
    told = ", ".join(f"{field.name}={getattr(self, field.name)!r}" for field in fields(self) if field.repr)
    return f"{type(self).__qualname__}({told})"


def _refused(self: Any, name: str, value: object = None) -> NoReturn:
    raise FrozenInstanceError(f"cannot change field {name!r}")
