"""Drawings as plain data, and what writes them as SVG or as PDF operators."""
