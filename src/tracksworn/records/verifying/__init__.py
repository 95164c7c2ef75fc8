"""Verifying: who signed a file, whether it is unaltered, and whether what it says follows from its data."""
