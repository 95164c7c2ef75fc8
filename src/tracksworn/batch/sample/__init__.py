"""A sale to try things out with: invented inspections, as files that an inspector might have written."""
