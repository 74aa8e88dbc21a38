"""One folder for each part of the work, in its order."""
