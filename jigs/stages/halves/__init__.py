"""A vessel built in two halves, each turned inside before they are joined."""
