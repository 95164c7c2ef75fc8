"""Shop visits, what they cost, what is left in the undercarriage and what restoring it costs.

In the order of the work: `work` chooses what is done to each part, `joining` what must be done together, `grouping` the
visits; `value` and `swaps` stand beside them, and `plan` puts all of it together.
"""
