"""A torus: its plan, how it is solved, its jigs and its stages."""
