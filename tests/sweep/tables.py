"""Job files as tables of keys, and their text."""

from __future__ import annotations

from random import Random

Tables = dict[str, dict[str, object]]


def tenth(rng: Random, low: float, high: float) -> float:
    """A length to a tenth of a mm; `low` where there is no room above it."""
    return round(rng.uniform(low, max(low, high)), 1)


def chance(rng: Random, one_in: int) -> bool:
    return rng.randrange(one_in) == 0


def text_of(tables: Tables) -> str:
    """The job file; what stands under "" stands at its head.

    A float is a length and names its unit; a text that reads as a number is one without.
    """
    head = _lines(tables.get("", {}))
    return head + "".join(f"\n[{name}]\n{_lines(table)}" for name, table in tables.items() if name)


def _lines(table: dict[str, object]) -> str:
    return "".join(f"{key} = {_value(value)}\n" for key, value in table.items())


def _value(value: object) -> str:
    if isinstance(value, list):
        return f"[{', '.join(_value(item) for item in value)}]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key} = {_value(item)}" for key, item in value.items()) + "}"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        return f'"{value:.6g} mm"'
    if isinstance(value, str):
        return value if _is_number(value) else f'"{value}"'
    return str(value)


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
