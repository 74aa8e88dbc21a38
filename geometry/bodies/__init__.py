"""The finished forms: the torus, the vessel's section, their walls and surfaces."""
