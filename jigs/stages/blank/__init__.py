"""A torus's blank, all that is turned away from it, and what an angle's error costs."""
