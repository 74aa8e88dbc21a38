"""The accents of the stroke font, on the grid of its glyphs: x from the middle of the letter, or from its right side.

They stand clear of letters 12 high by about 3, so that at a cap height of 4 mm and a stroke of 0.8 mm a gap is left.
"""

ABOVE = {
    "\u0300": "-2,17.5 1,15",  # grave
    "\u0301": "-1,15 2,17.5",  # acute
    "\u0302": "-3,15 0,17.5 3,15",  # circumflex
    "\u0303": "-3.5,15 -1.5,17 1.5,15 3.5,17",  # tilde
    "\u0304": "-3,16 3,16",  # macron
    "\u0306": "-3,17.5 -1.5,15 1.5,15 3,17.5",  # breve
    "\u0307": "0,15.5 0,16.5",  # dot
    "\u0308": "-2.5,15.5 -2.5,16.5|2.5,15.5 2.5,16.5",  # two dots
    "\u0309": "-1.5,17 0,18 1.5,17 0,15",  # hook
    "\u030a": "0,14.5 -2,16.5 0,18.5 2,16.5 0,14.5",  # ring
    "\u030b": "-3.5,15 -1.5,17.5|1,15 3,17.5",  # two acutes
    "\u030c": "-3,17.5 0,15 3,17.5",  # caron
    "\u030f": "-3,17.5 -1,15|1.5,17.5 3.5,15",  # two graves
    "\u0311": "-3,15 -1.5,17.5 1.5,17.5 3,15",  # inverted breve
    "\u0313": "0.5,17.5 -0.5,15",  # comma
}
BELOW = {
    "\u0323": "0,-4 0,-3",  # dot
    "\u0324": "-2.5,-4 -2.5,-3|2.5,-4 2.5,-3",  # two dots
    "\u0325": "0,-2.5 -2,-4.5 0,-6.5 2,-4.5 0,-2.5",  # ring
    "\u0326": "0.5,-2.5 -0.5,-5",  # comma
    "\u0327": "0,0 0,-2 2,-3.5 0,-5 -2,-4.5",  # cedilla
    "\u032d": "-3,-5.5 0,-3 3,-5.5",  # circumflex
    "\u032e": "-3,-3 -1.5,-5.5 1.5,-5.5 3,-3",  # breve
    "\u0330": "-3.5,-5 -1.5,-3 1.5,-5 3.5,-3",  # tilde
    "\u0331": "-3,-3.5 3,-3.5",  # macron
}
FOOT = {"\u0328": "0,0 -2,-2.5 -0.5,-4.5 1.5,-4.5"}  # ogonek, at the right foot
HEAD = {"\u031b": "0,10 2.5,12 2.5,15"}  # horn, at the right of the head
BESIDE = {"\u0335": "-3,6 3,6", "\u0338": "-4,-2 4,14"}  # strokes through the letter
