"""What is missing where there can be no certificate; apart, so that telling it imports nothing else."""

from tracksworn.inspection.faults import TrackswornError


class NoTerms(TrackswornError):  # noqa: N818 - named for what is missing
    """A certificate was asked for of an inspection that names no terms."""

    def __init__(self) -> None:
        super().__init__(
            "there is no certificate without terms: name them in the inspection, `terms: FILE` (`tracksworn new terms` "
            "begins such a file), or ask for another document"
        )
