"""Shop visits, what they cost, what is left in the undercarriage and what restoring it costs."""
