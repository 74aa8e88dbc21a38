"""What no gauge reaches."""
