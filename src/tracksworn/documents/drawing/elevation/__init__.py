"""The side elevation of one track: its chain walked link by link round its wheels, every part a gauge."""
