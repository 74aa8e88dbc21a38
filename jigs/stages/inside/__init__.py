"""The inside of a vessel, hollowed to its gauges."""
