"""From parts to files, and back again to check them; a writer knows no jig family."""
