"""Pieces out of strips out of boards; rectangles out of sheets."""
