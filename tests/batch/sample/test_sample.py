"""A sale that was made up reads without a fault, hangs together, and looks like a sale."""

import csv
from collections import Counter
from collections.abc import Mapping
from hashlib import sha256
from io import BytesIO
from itertools import islice
from pathlib import Path
from statistics import fmean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from tracksworn.assessment.model import Stage
from tracksworn.batch.sample.kinds import KINDS
from tracksworn.batch.sample.machine import MOST, SampleMachine, sample_machine
from tracksworn.batch.sample.sample import LIST, sample
from tracksworn.batch.sample.shared import shared_files
from tracksworn.documents.report import assess_dossier
from tracksworn.inspection.reading import check, read_inspection
from tracksworn.inspection.sale_list import read_sale
from tracksworn.inspection.vocabulary import Component, Layout, Side, Track

C = Component
PINNED = "bceb2dca98e241c7dcd38474e541713895be1c28fc04ec8faf501c67695ac733"
"""Of the first four lots of seed 7, which changes only where the generator does."""
SALE = tuple(sample_machine(7, number) for number in range(1, 501))


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with what all lots share."""
    return written(shared_files(), tmp_path_factory.mktemp("sale"))


def written(files: Mapping[str, bytes], folder: Path) -> Path:
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return folder


def all_files(count: int, seed: int, photos: int = 0, faults: float = 0.0) -> dict[str, bytes]:
    return {name: one for group in sample(count, seed, photos=photos, faults=faults) for name, one in group.items()}


def parts(machine: SampleMachine) -> dict[Component, float]:
    """The more worn side of each, rollers at the first position."""
    rollers = (C.BOTTOM_ROLLER, C.TOP_ROLLER)
    return {
        component: max(
            machine.percent(component, side, machine.hours, 1 if component in rollers else None) for side in Side
        )
        for component in machine.rates
    }


def test_what_lots_share_has_no_fault(shared: Path) -> None:
    files = sorted(shared.rglob("*.yaml"))
    assert len(files) == sum(kind.charted for kind in KINDS) + 6 + 1 + 2
    assert [fault for file in files for fault in check(file)] == []


@pytest.mark.slow
@given(seed=st.integers(0, 999_999))
@settings(max_examples=25, deadline=None)
def test_every_lot_reads_without_a_fault_and_its_figures_are_sane(shared: Path, seed: int) -> None:
    lot = next(islice(sample(1, seed), 1, None))
    written(lot, shared)
    for name in lot:
        assert check(shared / name) == ()
    dossier = read_inspection(shared / f"SMP-{seed}-0001" / "inspection.yaml")
    assessment = assess_dossier(dossier)
    assert dossier.inspection.notes is not None
    assert "invented" in dossier.inspection.notes
    assert 0.1 <= assessment.overall.seen_share <= 1.0
    assert assessment.overall.worst is not None
    for row in assessment.components:
        assert row.percent_worn is None or -12.0 <= row.percent_worn <= MOST + 12.0
        assert row.uncertainty is None or 1.5 <= row.uncertainty <= 25.0
    for travel in assessment.travel:
        assert travel.percent_used is None or -30.0 <= travel.percent_used <= 105.0


def test_a_sale_is_the_same_bytes_on_every_machine() -> None:
    files = all_files(4, 7)
    digest = sha256(b"\0".join(name.encode() + b"\0" + content for name, content in files.items())).hexdigest()
    assert digest == PINNED


def test_a_smaller_sale_is_the_beginning_of_a_larger_and_another_seed_another_sale() -> None:
    small, large, other = all_files(3, 7), all_files(5, 7), all_files(3, 8)
    del small[LIST]
    assert {name: large[name] for name in small} == small
    assert not {name for name in other if name.startswith("SMP-7")}
    assert large["SMP-7-0001/inspection.yaml"] != other["SMP-8-0001/inspection.yaml"].replace(b"SMP-8", b"SMP-7")


def test_the_list_names_every_lot_once_and_no_earlier_inspection() -> None:
    files = all_files(60, 7)
    rows = list(csv.DictReader(files[LIST].decode().splitlines()))
    assert [row["inspection"] for row in rows] == [f"SMP-7-{number:04}/inspection.yaml" for number in range(1, 61)]
    assert any("-E1/" in name for name in files)
    for number, row in enumerate(rows, 1):
        text = files[row["inspection"]].decode()
        assert (f"\nlot: {number}\n" in text) is (row["lot"] == "")
        assert row["lot"] in ("", str(number))
        assert ("\nterms: " in text) is (row["documents"] == "listing certificate")
    assert {row["documents"] for row in rows} == {"", "listing certificate"}


def test_photos_are_small_pictures_that_the_inspection_names(shared: Path) -> None:
    lot = next(islice(sample(1, 7, photos=3), 1, None))
    written(lot, shared)
    dossier = read_inspection(shared / "SMP-7-0001")
    assert len(dossier.photos or ()) == 3
    pictures = [content for name, content in lot.items() if name.endswith(".jpg")]
    assert {Image.open(BytesIO(picture)).size for picture in pictures} == {(640, 480)}
    assert len(set(pictures)) == 3
    assert max(map(len, pictures)) < 40_000


def test_a_sale_has_machines_of_every_layout_most_of_them_excavators() -> None:
    layouts = Counter(machine.kind.layout for machine in SALE)
    assert set(layouts) == set(Layout)
    assert layouts.most_common(1)[0][0] is Layout.EXCAVATOR
    assert min(layouts.values()) > 20


def test_a_sale_has_parts_in_every_stage_and_most_machines_have_work_before_them() -> None:
    percents = [percent for machine in SALE for percent in parts(machine).values()]
    stages = Counter(_stage(percent) for percent in percents)
    assert set(stages) == set(Stage)
    shares = {stage: count / len(percents) for stage, count in stages.items()}
    assert 0.3 < shares[Stage.FIRST_HALF] < 0.7
    assert 0.02 < shares[Stage.PAST_LIMIT] < 0.15
    worst = Counter(_stage(max(parts(machine).values())) for machine in SALE)
    assert min(worst[stage] / len(SALE) for stage in Stage) > 0.08


def _stage(percent: float) -> Stage:
    bounds = ((50.0, Stage.FIRST_HALF), (80.0, Stage.SECOND_HALF), (100.0, Stage.NEAR_LIMIT))
    return next((stage for bound, stage in bounds if percent < bound), Stage.PAST_LIMIT)


def test_sprockets_keep_in_step_with_what_wears_them() -> None:
    """Common practice, no source: with the bushing on sealed track, with the pitch on open track."""
    apart: dict[bool, list[float]] = {True: [], False: []}
    for machine in SALE:
        worn = parts(machine)
        if C.BUSHING in worn and machine.turned_at is None and max(worn.values()) < MOST:
            sealed = machine.kind.track in (Track.SEALED_AND_LUBRICATED, Track.ROTATING_BUSHING)
            apart[sealed].append(abs(worn[C.SPROCKET] - worn[C.BUSHING if sealed else C.PITCH]))
    assert all(len(each) > 40 and fmean(each) < 10.0 for each in apart.values())


def test_pitch_grows_on_open_track_and_hardly_on_sealed() -> None:
    ratios: dict[Track, list[float]] = {}
    for machine in SALE:
        if C.PITCH in machine.rates:
            ratios.setdefault(machine.kind.track, []).append(machine.rates[C.PITCH])
    assert fmean(ratios[Track.SEALED_AND_LUBRICATED]) + 0.4 < fmean(ratios[Track.GREASED])
    assert fmean(ratios[Track.GREASED]) < fmean(ratios[Track.DRY])


def test_some_machines_wear_one_side_more_than_the_other_and_most_do_not() -> None:
    leaning = sum(abs(machine.lean) > 0.1 for machine in SALE) / len(SALE)
    assert 0.05 < leaning < 0.25


def test_wear_only_grows_between_renewals_and_begins_anew_with_them() -> None:
    for machine in SALE[:60]:
        chain = C.LUG if machine.kind.layout is Layout.RUBBER else C.LINK
        hours = [machine.chain_at + part * (machine.hours - machine.chain_at) for part in (0.0, 0.3, 0.7, 1.0)]
        worn = [machine.percent(chain, Side.LEFT, each) for each in hours]
        assert worn == sorted(worn)
        assert worn[0] == 0.0
        if machine.chain_at > 0.0:
            assert machine.percent(chain, Side.LEFT, machine.chain_at - 1.0) > 50.0


def test_only_the_span_over_a_dry_joint_is_long() -> None:
    machine = next(one for one in SALE if one.dry_joint)
    dry = machine.dry_joint
    assert dry is not None
    spans = range(2, machine.kind.links - 6)
    worn = {at: machine.scattered(C.PITCH, dry.side, machine.hours, at) for at in spans}
    long = {at for at in spans if at <= dry.joint < at + 4}
    assert min(worn[at] for at in long) > max(worn[at] for at in set(spans) - long) + 20.0


def test_its_folder_has_the_lots_of_its_list(tmp_path: Path) -> None:
    """Some have earlier inspections beside them, which are no lots."""
    sale = written(all_files(30, 3), tmp_path)
    found = read_sale(sale)
    assert found.earlier
    assert [one.name for one in found.lots] == [one.name for one in read_sale(sale / LIST).lots]
