"""Pictures for people, as SVG text: plain functions from a plan."""
