"""Profile gauges: plates whose edge is what is turned."""
