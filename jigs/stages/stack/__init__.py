"""A vessel's rings, one on another."""
