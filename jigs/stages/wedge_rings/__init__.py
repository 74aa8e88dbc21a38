"""The two faces of each wedge ring."""
