"""Natural colours of woods and plies, as they look under oil: judged by eye, common practice, no source."""

from __future__ import annotations

import colorsys
import hashlib
import re

RGB = tuple[int, int, int]  # sRGB, 0 to 255

WOODS: dict[str, RGB] = {
    "ash": (222, 201, 165),
    "basswood": (232, 216, 186),
    "beech": (215, 177, 137),
    "birch": (226, 202, 162),
    "cherry": (178, 111, 72),
    "maple": (231, 209, 170),
    "paper birch": (229, 208, 173),
    "red oak": (197, 150, 108),
    "walnut": (101, 68, 46),
    "white oak": (197, 164, 118),
    "aspen": (228, 218, 192),
    "cypress": (217, 183, 128),
    "douglas fir": (206, 146, 100),
    "hemlock": (216, 190, 150),
    "ponderosa pine": (224, 188, 134),
    "spruce": (234, 210, 164),
    "western redcedar": (166, 106, 74),
    "white pine": (231, 204, 154),
    "yellow poplar": (206, 204, 156),
    "alder": (200, 147, 104),
    "apple": (186, 130, 96),
    "black": (34, 31, 29),
    "bloodwood": (140, 42, 32),
    "blue": (44, 82, 140),
    "bubinga": (142, 72, 52),
    "cedar": (184, 116, 80),
    "ebony": (42, 35, 32),
    "elm": (186, 148, 108),
    "green": (54, 110, 68),
    "hickory": (206, 173, 130),
    "holly": (239, 233, 216),
    "hornbeam": (228, 212, 182),
    "iroko": (164, 116, 64),
    "larch": (206, 156, 106),
    "mahogany": (145, 80, 52),
    "oak": (197, 162, 116),
    "olive": (184, 146, 86),
    "padauk": (168, 62, 34),
    "pear": (206, 154, 122),
    "pine": (227, 194, 140),
    "plum": (162, 98, 78),
    "poplar": (212, 206, 164),
    "purpleheart": (104, 50, 82),
    "red": (168, 40, 40),
    "rosewood": (98, 50, 38),
    "sapele": (146, 84, 58),
    "sycamore": (235, 220, 190),
    "teak": (174, 126, 74),
    "wenge": (70, 52, 42),
    "white": (244, 241, 234),
    "yellow": (222, 178, 52),
    "yew": (198, 122, 70),
    "zebrano": (192, 152, 98),
}

HEX = re.compile("#[0-9a-fA-F]{6}")


def colour_of(name: str, stated: str | None = None) -> RGB:
    """The colour stated as "#rrggbb", else the wood's own; a name not known has always the same made-up one."""
    if stated is not None:
        return _from_hex(stated)
    plain = _plain(name)
    return WOODS.get(plain) or _made_up(plain)


def is_known(name: str) -> bool:
    """Whether the colour of a name is a wood's own, not a made-up one."""
    return _plain(name) in WOODS


def _plain(name: str) -> str:
    return " ".join(name.lower().split())


def _from_hex(text: str) -> RGB:
    """Raises ValueError for anything but "#rrggbb"."""
    if not HEX.fullmatch(text):
        raise ValueError(f'"{text}" is not a colour such as "#d0a060"')
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)


def _made_up(name: str) -> RGB:
    """A brown between straw and red, lighter or darker, by the name's digest."""
    a, b, c = hashlib.sha256(name.encode()).digest()[:3]
    red, green, blue = colorsys.hls_to_rgb(
        0.02 + 0.10 * a / 255, 0.30 + 0.40 * b / 255, 0.30 + 0.35 * c / 255
    )
    return round(255 * red), round(255 * green), round(255 * blue)
