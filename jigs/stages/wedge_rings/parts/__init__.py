"""The wedge-ring sled, for either saw, and its wedges."""
