"""Rim, face and hole to size, then flats round the tube."""
