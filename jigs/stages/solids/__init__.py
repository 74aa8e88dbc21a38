"""A vessel's solid discs, and pieces with their grain upright."""
