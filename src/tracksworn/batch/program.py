"""Which program makes the documents: a digest that changes with anything that could change a byte of them."""


def program_digest() -> str:
    """SHA-256 over the package's own files, templates and fonts, and the versions of what it stands on."""
    raise NotImplementedError
