"""Letters as single strokes."""
