"""Rates of wear, hours left and courses."""
