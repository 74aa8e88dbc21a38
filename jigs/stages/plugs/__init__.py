"""Core plugs: what closes the middle of a ring of segments."""
