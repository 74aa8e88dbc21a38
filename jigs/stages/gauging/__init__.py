"""From stage to stage by gauges."""
