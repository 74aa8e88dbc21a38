"""The plan in words and tables, in the order of the work."""
