"""A torus's blank, and what errors cost, worked out."""
