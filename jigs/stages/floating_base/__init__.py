"""A base that floats in its groove."""
