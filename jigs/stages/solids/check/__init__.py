"""Whether solid wood may move, and stands a push at the rim."""
