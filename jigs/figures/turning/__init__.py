"""On the lathe: mountings, what is turned, gauges on the work."""
