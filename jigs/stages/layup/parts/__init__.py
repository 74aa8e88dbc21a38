"""Jigs for a patterned layup: its two sleds, the glue-up tray, the sanding holders."""
