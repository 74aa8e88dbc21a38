"""A layup in words and tables."""
