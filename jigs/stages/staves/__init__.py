"""A vessel's staves: edges cut at the tilted blade, glued to a band."""
