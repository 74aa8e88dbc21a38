"""The statics of each sled: contacts, clamps, stresses."""
