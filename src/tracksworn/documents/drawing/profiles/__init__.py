"""Wear profiles: one part in section as new, now and at its limit, dimensioned with the reading, at a stated scale."""
