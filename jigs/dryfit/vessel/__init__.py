"""The dry fit of a vessel: what its written files do when the rings are cut, glued, turned and gauged."""
