"""The outside of a vessel, turned to its stations and gauges."""
