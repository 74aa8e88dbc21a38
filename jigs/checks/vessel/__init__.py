"""Whether a vessel can be made: each refusal carries the numbers that collide and the nearest that works."""
