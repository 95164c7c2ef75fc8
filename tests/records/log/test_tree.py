"""The tree of hashes, held against published vectors and an independent library."""

import hashlib
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pymerkle import InmemoryTree, verify_consistency, verify_inclusion

from tracksworn.records.log.tree import (
    EMPTY,
    Frontier,
    consistency_ranges,
    inclusion_ranges,
    is_consistent,
    is_included,
    leaf_hash,
    root,
    roots_over,
)

# RFC 6962, 2.1, and RFC 9162, 2.1: the entries of the published reference vectors, and the roots of their trees.
ENTRIES = [
    bytes.fromhex(digits)
    for digits in ("", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f")
]
ROOTS = {
    1: "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    2: "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    3: "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    8: "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
}


def leaves_of(size: int) -> list[bytes]:
    return [leaf_hash(str(number).encode()) for number in range(size)]


def inclusion_path(leaves: list[bytes], position: int) -> tuple[bytes, ...]:
    return roots_over(leaves, inclusion_ranges(position, len(leaves)))


def consistency_path(leaves: list[bytes], earlier: int) -> tuple[bytes, ...]:
    return roots_over(leaves, consistency_ranges(earlier, len(leaves)))


def oracle(size: int) -> InmemoryTree:
    tree = InmemoryTree(algorithm="sha256")
    for number in range(size):
        tree.append_entry(str(number).encode())
    return tree


@pytest.mark.parametrize(("size", "digits"), ROOTS.items())
def test_published_roots(size: int, digits: str) -> None:
    assert root(leaf_hash(entry) for entry in ENTRIES[:size]).hex() == digits


def test_the_hash_is_that_of_its_standard() -> None:
    # FIPS 180-4, SHA-256 of "abc", from memory.
    digits = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert hashlib.sha256(b"abc").hexdigest() == digits


def test_an_empty_tree_is_the_hash_of_nothing() -> None:
    # RFC 9162, 2.1.1.
    assert root([]) == EMPTY == hashlib.sha256(b"").digest()


@pytest.mark.parametrize("size", range(1, 20))
def test_another_library_finds_the_same_root_and_takes_our_proofs(size: int) -> None:
    tree, leaves = oracle(size), leaves_of(size)
    assert tree.get_root() == root(leaves)
    for position in range(size):
        theirs = tree.prove_inclusion(position + 1, size)
        verify_inclusion(leaves[position], root(leaves), theirs)
        assert tuple(theirs.path[1:]) == inclusion_path(leaves, position)


@pytest.mark.parametrize("size", range(1, 20))
def test_another_library_takes_the_roots_as_consistent(size: int) -> None:
    tree, leaves = oracle(size), leaves_of(size)
    for earlier in range(1, size + 1):
        verify_consistency(root(leaves[:earlier]), root(leaves), tree.prove_consistency(earlier, size))


@given(st.integers(1, 90), st.data())
def test_a_proof_of_inclusion_holds_for_its_own_entry_alone(size: int, data: st.DataObject) -> None:
    leaves = leaves_of(size)
    position = data.draw(st.integers(0, size - 1))
    path = inclusion_path(leaves, position)
    assert is_included(leaves[position], position, size, path, root(leaves))
    assert not is_included(leaf_hash(b"another"), position, size, path, root(leaves))
    assert not is_included(leaves[position], position, size, (*path, EMPTY), root(leaves))
    assert not is_included(leaves[position], size, size, path, root(leaves))
    if path:
        assert not is_included(leaves[position], position, size, path[:-1], root(leaves))


@given(st.integers(1, 90), st.data())
def test_a_proof_of_consistency_holds_for_its_own_roots_alone(size: int, data: st.DataObject) -> None:
    leaves = leaves_of(size)
    earlier = data.draw(st.integers(1, size))
    path = consistency_path(leaves, earlier)
    first, second = root(leaves[:earlier]), root(leaves)
    assert is_consistent(earlier, first, size, second, path)
    assert not is_consistent(earlier, EMPTY, size, second, path)
    assert not is_consistent(earlier, first, size, EMPTY, path)
    assert not is_consistent(earlier, first, size, second, (*path, EMPTY))


@given(st.integers(0, 70), st.integers(0, 70))
def test_a_tree_may_be_extended_from_its_frontier_alone(size: int, more: int) -> None:
    leaves = leaves_of(size + more)
    frontier = Frontier().extended(leaves[:size])
    assert frontier.extended(leaves[size:]) == Frontier().extended(leaves)
    assert len(frontier.peaks) == size.bit_count()


def test_the_root_changes_with_every_entry() -> None:
    roots = [root(leaves_of(size)) for size in range(40)]
    assert all(older != newer for older, newer in pairwise(roots))
    assert len(set(roots)) == len(roots)


@pytest.mark.parametrize("position", [-1, 3])
def test_no_proof_of_what_is_not_there(position: int) -> None:
    with pytest.raises(ValueError, match="there is no entry"):
        inclusion_path(leaves_of(3), position)


@pytest.mark.parametrize("earlier", [0, 4])
def test_no_proof_of_growth_from_what_never_was(earlier: int) -> None:
    with pytest.raises(ValueError, match="has no earlier one"):
        consistency_path(leaves_of(3), earlier)
