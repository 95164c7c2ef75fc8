"""Every cross-check with a walk on which it fires and a near miss."""

from finding_cases import as_seen, chain, evidence, frame, history, limits, lives, shoes, wheels

CASES = (
    *limits.CASES,
    *chain.CASES,
    *wheels.CASES,
    *frame.CASES,
    *shoes.CASES,
    *history.CASES,
    *lives.CASES,
    *evidence.CASES,
    *as_seen.CASES,
)
