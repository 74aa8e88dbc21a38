"""Parts of a vessel's plan."""
