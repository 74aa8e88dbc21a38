"""Pieces cut off square: staves, bases, solid pieces, plugs."""
