"""Numbers, counts and findings as people read them."""
