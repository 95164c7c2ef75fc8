"""Percent worn against what terms allow: a verdict for every side and for the whole machine."""
