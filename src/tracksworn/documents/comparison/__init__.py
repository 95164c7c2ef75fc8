"""Machines side by side, for a buyer who chooses."""
