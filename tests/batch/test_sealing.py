"""Sealing in a batch: one timestamp a document, an authority that fails asked again, and all of it told as it was."""

import asyncio
import os
import pickle
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from subprocess import PIPE
from threading import Event
from typing import Any, Final

import pytest
import requests
from judges.specimen import sound
from records import authorities, softhsm
from records.sealed import AT, manner, signer
from requests_mock import Mocker
from sales import ORDER, Run, made_at_once, run, tree, write_lot, write_sale

from tracksworn.batch import sealing
from tracksworn.batch.order import Made, Order
from tracksworn.batch.run import Coming, Unchanged
from tracksworn.batch.sealing import PAUSES, Sealer
from tracksworn.inspection.faults import Failed
from tracksworn.inspection.sale_list import Listed
from tracksworn.records.sealing.authority import Authority
from tracksworn.records.sealing.practice import practice_key
from tracksworn.records.sealing.seal import Manner, sealed
from tracksworn.records.sealing.signer import Level, Signer, UnusableKey
from tracksworn.records.sealing.token import Token, opened


def small_sheet(listed: Listed, order: Order) -> Made:
    """A lot with a sheet that can be sealed."""
    made = made_at_once(listed, order)
    files = {name: sound() if name.endswith(".pdf") else content for name, content in made.files.items()}
    return Made(listed, made.lot, files, made.inputs, made.faults, warnings=made.warnings)


class Waited:
    """What was waited for, without waiting."""

    def __init__(self) -> None:
        self.pauses: list[float] = []

    async def __call__(self, pause: float) -> None:
        self.pauses.append(pause)


@pytest.fixture
def waited() -> Waited:
    return Waited()


@pytest.fixture
def sealer(waited: Waited) -> Callable[..., Sealer]:
    def made(level: Level = Level.T, at_once: int = 1, name: str = "signer") -> Sealer:
        return Sealer(signer(name), manner(level), at_once=at_once, clock=lambda: AT, wait=waited)

    return made


@pytest.fixture
def network() -> Iterator[Mocker]:
    with authorities.answering() as mocker:
        yield mocker


@pytest.fixture
def sale(tmp_path: Path) -> Path:
    return write_sale(tmp_path / "sale")


def failing(network: Mocker, times: Sequence[bool]) -> None:
    """The authority cannot be reached where that is said for its so-many-th request."""
    said = iter(times)
    network.post(authorities.TIME, exc=requests.ConnectTimeout, additional_matcher=lambda _: next(said, False))


def sealed_run(sale: Path, out: Path, sealer: Sealer) -> Run:
    return run(sale, out, Order(("listing",), ("pdf", "html"), sealed=True), make=small_sheet, sealing=sealer)


def test_one_timestamp_is_asked_for_a_document_and_one_more_a_run(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer]
) -> None:
    used = sealer()
    assert sealed_run(sale, tmp_path / "out", used).outcomes == ["made"] * 4
    assert str(used.tally) == "4 documents sealed, 5 timestamps asked for"
    assert sum(request.url == authorities.TIME for request in network.request_history) == 5
    for name, content in tree(tmp_path / "out").items():
        assert (b"/ETSI.CAdES.detached" in content) is name.endswith(".pdf")


def test_several_at_once_keep_the_order_of_the_list(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer]
) -> None:
    for place in range(5, 15):
        write_lot(sale, place)
    done = sealed_run(sale, tmp_path / "out", sealer(at_once=4))
    assert [one.listed.place for one in done.taken] == list(range(1, 15))
    assert done.outcomes == ["made"] * 14


FRESH: Final = """
import pickle
import sys
from pathlib import Path
from tracksworn.batch.order import Made, entry_of
from tracksworn.batch.sealing import Sealer
from tracksworn.documents.sale.lot import faulty_lot
from tracksworn.inspection.sale_list import Listed
from tracksworn.records.sealing.pkcs12 import from_pkcs12
from tracksworn.records.sealing.seal import Manner

key, sheet = pickle.load(sys.stdin.buffer)
listed = Listed(Path("lot.yaml"), "lot", 1)
lots = [Made(listed, faulty_lot(entry_of(listed), ()), {"sheet.pdf": sheet}) for _ in range(4)]
signer = from_pkcs12(key, "practice")
sys.setswitchinterval(1e-5)  # seconds: threads take turns a hundred times as often as they would
print(*(made.failures for made in Sealer(signer, Manner()).through(iter(lots))))
half_read = Sealer(signer, Manner()).through(iter(lots))
next(half_read)
"""
"""Lots sealed in a process that has sealed nothing yet, and that ends in the midst of others."""


@pytest.mark.slow
def test_the_first_that_are_sealed_at_once_share_nothing_half_made() -> None:
    # asn1crypto fills in types, and the parts of a certificate, as they are first asked for, without a lock; in
    # threads of their own, one in two of these processes failed
    given = pickle.dumps((practice_key("Ines Marlow", "practice", sealing.now()).pkcs12, sound()))
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    command = [sys.executable, "-c", FRESH]
    started = [subprocess.Popen(command, env=environment, stdin=PIPE, stdout=PIPE, stderr=PIPE) for _ in range(3)]
    assert [one.communicate(given, timeout=60) for one in started] == [(b"() () () ()\n", b"")] * 3


def test_what_is_sealed_and_unchanged_is_not_sealed_again(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer]
) -> None:
    sealed_run(sale, tmp_path / "out", sealer())
    before = tree(tmp_path / "out")
    write_lot(sale, 3, worn=70)
    again = sealer()
    assert sealed_run(sale, tmp_path / "out", again).outcomes == ["unchanged", "unchanged", "made", "unchanged"]
    assert again.tally.sealed == 1
    now = tree(tmp_path / "out")
    assert {name for name in now if now[name] != before[name]} == {"OXB-3-r0-listing.pdf", "OXB-3-r0-listing.html"}


@pytest.mark.parametrize("other", [{"level": Level.B}, {"name": "client"}])
def test_another_key_or_level_seals_anew(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer], other: dict[str, object]
) -> None:
    sealed_run(sale, tmp_path / "out", sealer())
    assert sealed_run(sale, tmp_path / "out", sealer(**other)).outcomes == ["made"] * 4


def test_an_authority_that_fails_at_times_is_asked_again(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer], waited: Waited
) -> None:
    failing(network, [False, True, True, False, True])
    used = sealer()
    assert sealed_run(sale, tmp_path / "out", used).outcomes == ["made"] * 4
    assert waited.pauses == [1.0, 2.0, 1.0]
    assert str(used.tally) == "4 documents sealed, 8 timestamps asked for, 3 of them again"


def test_lots_that_wait_to_learn_how_long_an_answer_is_wait_for_the_same(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer], waited: Waited
) -> None:
    def slowly(_: object) -> bool:
        time.sleep(0.5)
        return True

    network.post(authorities.TIME, exc=requests.ConnectTimeout, additional_matcher=slowly)
    used = sealer(at_once=4)
    assert sealed_run(sale, tmp_path / "out", used).outcomes == ["failed"] * 4
    assert len(waited.pauses) >= 3 * 3
    assert 4 <= used.tally.asked < 8  # not four by each
    assert used.tally.again < used.tally.asked


def test_one_sealer_can_be_used_again(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer]
) -> None:
    used = sealer(at_once=2)
    assert sealed_run(sale, tmp_path / "one", used).outcomes == ["made"] * 4
    assert sealed_run(sale, tmp_path / "other", used).outcomes == ["made"] * 4
    assert str(used.tally) == "8 documents sealed, 9 timestamps asked for"


def test_a_lot_without_a_timestamp_is_not_written_and_taken_up_by_the_next_run(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer], waited: Waited
) -> None:
    failing(network, [False, False, *[True] * 4])  # the first lot is sealed, the second is not
    used, out = sealer(), tmp_path / "out"
    done = sealed_run(sale, out, used)
    assert done.outcomes == ["made", "failed", "made", "made"]
    why = f"the timestamping authority {authorities.TIME} gives no timestamp: no answer within 20 seconds"
    assert done.told == [f"{sale / 'lot-2' / 'inspection.yaml'}: {why}; nothing is sealed"]
    assert waited.pauses == list(PAUSES)
    assert str(used.tally).endswith("3 of them again, 1 lot not sealed")
    assert not [name for name in tree(out) if name.startswith("OXB-2")]
    assert sealed_run(sale, out, sealer()).outcomes == ["unchanged", "made", "unchanged", "unchanged"]


def test_what_ails_sealing_itself_keeps_no_other_lot(
    sale: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, sealer: Callable[..., Sealer]
) -> None:
    times = iter([False, True])

    async def stumbling(*given: Any, **more: Any) -> bytes:
        if next(times, False):
            raise ZeroDivisionError("x")
        return await sealed(*given, **more)

    monkeypatch.setattr(sealing, "sealed", stumbling)
    done = sealed_run(sale, tmp_path / "out", sealer(Level.B))
    assert done.outcomes == ["made", "failed", "made", "made"]
    assert "lot-2/inspection.yaml: tracksworn itself has a fault (ZeroDivisionError: x)" in done.told[0]


def test_only_an_authority_that_gives_none_is_no_more_waited_for(
    sale: Path,
    tmp_path: Path,
    network: Mocker,
    monkeypatch: pytest.MonkeyPatch,
    sealer: Callable[..., Sealer],
    waited: Waited,
) -> None:
    times = iter([True, True, True, False])

    async def stumbling(*given: Any, **more: Any) -> bytes:
        if next(times, False):
            raise ZeroDivisionError("x")
        return await sealed(*given, **more)

    failing(network, [True])
    monkeypatch.setattr(sealing, "sealed", stumbling)
    used = sealer()
    assert sealed_run(sale, tmp_path / "out", used).outcomes == ["failed"] * 3 + ["made"]
    assert waited.pauses == [1.0]


def test_a_lot_that_is_not_sealed_keeps_its_warnings(
    sale: Path, network: Mocker, sealer: Callable[..., Sealer]
) -> None:
    failing(network, [True] * 100)
    lot = Made(Listed(sale / "lot-1", "lot-1", 1), small_sheet(Listed(sale / "lot-1", "lot-1", 1), ORDER).lot)
    lot = replace(lot, files={"sheet.pdf": sound()}, warnings=("warning: mind this",))
    (done,) = sealer().through(iter([lot]))
    assert isinstance(done, Made)
    assert (bool(done.failures), done.warnings) == (True, ("warning: mind this",))


def test_what_can_seal_no_document_ends_the_run_at_the_first(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer]
) -> None:
    for place in range(5, 15):
        write_lot(sale, place)
    asked: list[str] = []

    def noted(listed: Listed, order: Order) -> Made:
        asked.append(listed.name)
        time.sleep(0.2)
        return small_sheet(listed, order)

    alone = Signer(signer().certificate, (), signer().private)
    used = Sealer(alone, Manner(Level.LT, Authority(authorities.TIME)), clock=lambda: AT)
    with pytest.raises(UnusableKey, match="name the root with --trust, or seal at level t"):
        run(sale, tmp_path / "out", make=noted, sealing=used)
    assert len(asked) < 14
    assert not tree(tmp_path / "out")


def test_revocation_data_that_are_out_of_reach_later_keep_no_other_lot(
    sale: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, sealer: Callable[..., Sealer]
) -> None:
    times = iter([False, True])

    async def stumbling(*given: Any, **more: Any) -> bytes:
        if next(times, False):
            raise UnusableKey("no revocation data")
        return await sealed(*given, **more)

    monkeypatch.setattr(sealing, "sealed", stumbling)
    assert sealed_run(sale, tmp_path / "out", sealer(Level.B)).outcomes == ["made", "failed", "made", "made"]


def test_a_double_is_not_sealed(sale: Path, tmp_path: Path, sealer: Callable[..., Sealer]) -> None:
    write_lot(sale, 3, number="OXB-1")
    used = sealer(Level.B)
    assert sealed_run(sale, tmp_path / "out", used).outcomes == ["made", "made", "faulty", "made"]
    assert str(used.tally) == "3 documents sealed"


@pytest.mark.parametrize("strict", [False, True])
def test_what_is_sealed_and_not_written_is_told_as_in_vain(
    sale: Path, tmp_path: Path, sealer: Callable[..., Sealer], strict: bool
) -> None:
    (tmp_path / "out" / "OXB-2-r0-listing.pdf").mkdir(parents=True)
    used = sealer(Level.B)
    done = run(sale, tmp_path / "out", make=small_sheet, sealing=used, strict=strict)
    assert done.outcomes == (["made", "failed"] if strict else ["made", "failed", "made", "made"])
    written = 1 if strict else 3
    assert used.tally.written == written
    assert str(used.tally).startswith(
        f"{written} document{'s'[: written - 1]} sealed, {used.tally.sealed - written} more in vain"
    )


def test_an_interrupt_leaves_what_was_sealed_ahead_as_in_vain(
    sale: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, sealer: Callable[..., Sealer]
) -> None:
    used, third = sealer(Level.B), Event()

    async def once_the_third_is_made(*given: Any, **more: Any) -> bytes:
        while not third.is_set():
            await asyncio.sleep(0.01)
        return await sealed(*given, **more)

    def interrupted(listed: Listed, order: Order) -> Made:
        if listed.place == 3:
            third.set()
            while used.tally.sealed < 2:
                time.sleep(0.01)
            raise KeyboardInterrupt
        return small_sheet(listed, order)

    monkeypatch.setattr(sealing, "sealed", once_the_third_is_made)
    with pytest.raises(KeyboardInterrupt):
        run(sale, tmp_path / "out", make=interrupted, sealing=used)
    assert not tree(tmp_path / "out")
    assert str(used.tally) == "0 documents sealed, 2 more in vain"


def test_the_first_document_of_a_lot_whose_second_fails_is_sealed_in_vain(
    sale: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, sealer: Callable[..., Sealer]
) -> None:
    times = iter([False, True])

    async def stumbling(*given: Any, **more: Any) -> bytes:
        if next(times, False):
            raise Failed("no")
        return await sealed(*given, **more)

    monkeypatch.setattr(sealing, "sealed", stumbling)
    used = sealer(Level.B)
    done = run(sale, tmp_path / "out", Order(("listing", "full"), ("pdf",)), make=small_sheet, sealing=used)
    assert done.outcomes == ["failed", "made", "made", "made"]
    assert str(used.tally) == "6 documents sealed, 1 more in vain, 1 lot not sealed"


def test_an_authority_that_is_gone_is_not_waited_for_all_night(
    sale: Path, tmp_path: Path, network: Mocker, sealer: Callable[..., Sealer], waited: Waited
) -> None:
    for place in range(5, 12):
        write_lot(sale, place)
    failing(network, [True] * 100)
    used = sealer()
    assert sealed_run(sale, tmp_path / "out", used).outcomes == ["failed"] * 11
    assert waited.pauses == list(PAUSES) * 3
    assert str(used.tally) == "0 documents sealed, 20 timestamps asked for, 9 of them again, 11 lots not sealed"


def test_a_key_on_a_token_seals_one_after_the_other(sale: Path, tmp_path: Path) -> None:
    named = Token.parse(f"pkcs11:token={softhsm.LABEL};object=curve{softhsm.token()}")
    with opened(named, softhsm.PIN) as token:
        used = Sealer(token, Manner(), at_once=1, clock=lambda: AT)
        assert sealed_run(sale, tmp_path / "out", used).outcomes == ["made"] * 4
    assert str(used.tally) == "4 documents sealed"


def test_leaving_early_ends_what_waits(sale: Path, network: Mocker) -> None:
    failing(network, [True] * 100)
    sealer = Sealer(signer(), manner(Level.T), clock=lambda: AT)  # which would wait for seconds

    def coming() -> Iterator[Coming]:
        yield small_sheet(Listed(sale / "lot-1", "lot-1", 1), ORDER)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        list(sealer.through(coming()))
    assert sealer.tally.again <= 1


def test_what_is_unchanged_passes_in_its_place(sale: Path, sealer: Callable[..., Sealer]) -> None:
    standing = Unchanged(Listed(sale, "a", 1), noted=None, fresh=None)  # type: ignore[arg-type]
    made = small_sheet(Listed(sale / "lot-1", "lot-1", 2), ORDER)
    first, second = sealer(Level.B).through(iter([standing, made]))
    assert first is standing
    assert isinstance(second, Made)
    assert second.listed is made.listed
