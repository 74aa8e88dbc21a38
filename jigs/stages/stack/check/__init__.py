"""Whether the rings hold the vessel, and close over its middle."""
