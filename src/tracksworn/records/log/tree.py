"""The tree of hashes over the log's entries (RFC 9162, 2.1), with SHA-256 (FIPS 180-4); every hash is 32 bytes.

A leaf is the hash of a nought byte and the entry, a node that of a one byte and its two children.
"""

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import islice

EMPTY = hashlib.sha256(b"").digest()


def leaf_hash(entry: bytes) -> bytes:
    """The hash of one entry."""
    return hashlib.sha256(b"\0" + entry).digest()


def node_hash(left: bytes, right: bytes) -> bytes:
    """The hash over two subtrees."""
    return hashlib.sha256(b"\1" + left + right).digest()


@dataclass(frozen=True, slots=True)
class Frontier:
    """All that is needed to append to a tree: its size, and the roots of its full subtrees, the largest first."""

    size: int = 0
    peaks: tuple[bytes, ...] = ()

    def extended(self, leaves: Iterable[bytes]) -> "Frontier":
        """The frontier after these further leaf hashes."""
        size, peaks = self.size, list(self.peaks)
        for leaf in leaves:
            peak, level = leaf, size
            while level % 2:
                peak = node_hash(peaks.pop(), peak)
                level //= 2
            peaks.append(peak)
            size += 1
        return Frontier(size, tuple(peaks))

    def root(self) -> bytes:
        """The root of the whole tree."""
        if not self.peaks:
            return EMPTY
        root = self.peaks[-1]
        for peak in reversed(self.peaks[:-1]):
            root = node_hash(peak, root)
        return root


def root(leaves: Iterable[bytes]) -> bytes:
    """The root over these leaf hashes."""
    return Frontier().extended(leaves).root()


def _split(size: int) -> int:
    """The largest power of two below `size`."""
    return 1 << (size - 1).bit_length() - 1


Range = tuple[int, int]
"""Leaves from one on, up to but not another."""


def inclusion_ranges(position: int, size: int) -> tuple[Range, ...]:
    """The leaves whose roots prove that the leaf at `position`, from 0, is among `size` (RFC 9162, 2.1.3.1)."""
    if not 0 <= position < size:
        raise ValueError(f"there is no entry {position} among {size}")
    ranges: list[Range] = []
    start, end = 0, size
    while end - start > 1:
        middle = start + _split(end - start)
        if position < middle:
            ranges.append((middle, end))
            end = middle
        else:
            ranges.append((start, middle))
            start = middle
    return tuple(reversed(ranges))


def consistency_ranges(earlier: int, size: int) -> tuple[Range, ...]:
    """The leaves whose roots prove that a tree over `earlier` leaves grew into one over `size` (RFC 9162, 2.1.4.1)."""
    if not 0 < earlier <= size:
        raise ValueError(f"a tree of {size} has no earlier one of {earlier}")
    if earlier == size:
        return ()
    ranges: list[Range] = []
    start, end, whole = 0, size, True
    while earlier != end:
        middle = start + _split(end - start)
        if earlier <= middle:
            ranges.append((middle, end))
            end = middle
        else:
            ranges.append((start, middle))
            start, whole = middle, False
    if not whole:
        ranges.append((start, end))
    return tuple(reversed(ranges))


def roots_over(leaves: Iterable[bytes], ranges: Sequence[Range]) -> tuple[bytes, ...]:
    """The root over each of some ranges, no two of which share a leaf; the leaves are gone through once."""
    rest, at = iter(leaves), 0
    roots: dict[Range, bytes] = {}
    for start, end in sorted(ranges):
        roots[start, end] = root(islice(rest, start - at, end - at))
        at = end
    return tuple(roots[one] for one in ranges)


def is_included(leaf: bytes, position: int, size: int, path: Sequence[bytes], expected: bytes) -> bool:
    """Whether the path leads from the leaf to the root of a tree of that size (RFC 9162, 2.1.3.2)."""
    if not 0 <= position < size:
        return False
    index, last, found = position, size - 1, leaf
    for beside in path:
        if last == 0:
            return False
        if index % 2 or index == last:
            found = node_hash(beside, found)
            while index % 2 == 0 and index:
                index, last = index // 2, last // 2
        else:
            found = node_hash(found, beside)
        index, last = index // 2, last // 2
    return last == 0 and found == expected


def is_consistent(earlier: int, first: bytes, later: int, second: bytes, path: Sequence[bytes]) -> bool:
    """Whether the path shows that the tree with root `first` grew into that with root `second` (RFC 9162, 2.1.4.2)."""
    if not 0 < earlier <= later:
        return False
    if earlier == later:
        return not path and first == second
    hashes = [first, *path] if earlier & (earlier - 1) == 0 else list(path)
    if not hashes:
        return False
    index, last = earlier - 1, later - 1
    while index % 2:
        index, last = index // 2, last // 2
    old = new = hashes[0]
    for beside in hashes[1:]:
        if last == 0:
            return False
        if index % 2 or index == last:
            old, new = node_hash(beside, old), node_hash(beside, new)
            while index % 2 == 0 and index:
                index, last = index // 2, last // 2
        else:
            new = node_hash(new, beside)
        index, last = index // 2, last // 2
    return last == 0 and old == first and new == second
