"""Rates of wear, hours left and the course of every part over its inspections."""
