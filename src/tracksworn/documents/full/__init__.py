"""The full report: what a reader sees of it, as one typed value, and its making."""
