"""The certificate: a machine against its terms, signed for, identifiable years later."""
