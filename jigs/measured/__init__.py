"""What the turner's readings say of the work, and what to do.

One file a topic, which finds what is out (for `solve`, where it changes the plan) and what to do about it
(`advice`). `jigs/asked/readings` reads their file, `geometry/measuring` has their numbers, `jigs/sets/measured`
asks all topics.
"""
