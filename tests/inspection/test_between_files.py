"""What must hold between an inspection and the files that it names, and where it is told."""

import os
from pathlib import Path

import pytest

from tracksworn.inspection.faults import Failed, Faulty, Weight
from tracksworn.inspection.reading import check, read_inspection

LONG = "MPS-2031-0418/inspection.yaml"
EARLIER = "MPS-2030-0377/inspection.yaml"


def change(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


def told(example: Path, name: str = LONG) -> list[str]:
    """Every fault as `file:line:column: words`, the file from the example's folder."""
    return [str(fault).removeprefix(f"{example}/") for fault in check(example / name)]


@pytest.mark.parametrize(
    ("key", "line"), [("charts/hollin-h640e", 36), ("letterheads/millrace", 37), ("prices/2031", 38)]
)
def test_a_named_file_that_is_not_there_is_told_where_it_is_named(example: Path, key: str, line: int) -> None:
    (example / f"{key}.yaml").unlink()
    (fault,) = told(example)
    assert fault.startswith(f"{LONG}:{line}:")
    assert fault.endswith(f"`../{key}.yaml` is not there")


def test_a_slip_in_a_name_is_told_with_the_name_that_is_there(example: Path) -> None:
    (example / "MPS-2031-0418/photos/plate.jpg").rename(example / "MPS-2031-0418/photos/Plate.JPG")
    change(example / LONG, "../terms/lantern-plan.yaml", "../terms/lantern-plan.yml")
    assert told(example) == [
        f"{LONG}:34:16: `photos/plate.jpg` is not there; did you mean `Plate.JPG`?",
        f"{LONG}:39:8: `../terms/lantern-plan.yml` is not there; did you mean `lantern-plan.yaml`?",
    ]


def test_names_outside_the_folder_are_not_told(example: Path) -> None:
    (example.parent / "elsewhere.yaml").write_text("", encoding="utf-8")
    change(example / LONG, "../charts/hollin-h640e.yaml", "../../elsewhere.yml")
    assert told(example) == [f"{LONG}:36:8: `../../elsewhere.yml` is not there"]


def test_a_fault_in_a_named_file_is_told_in_that_file(example: Path) -> None:
    change(example / "charts/hollin-h640e.yaml", "limit: 128.0 mm", "limit: 128,0 mm")
    change(example / "terms/lantern-plan.yaml", "guarded", "gaurded")
    change(example / "letterheads/millrace.yaml", "A4", "A3")
    change(example / EARLIER, "hours: 6900", "hours: 69oo")
    assert [fault.split(" ")[0] for fault in told(example)] == [
        "MPS-2030-0377/inspection.yaml:9:10:",
        "charts/hollin-h640e.yaml:13:15:",
        "letterheads/millrace.yaml:7:8:",
        "terms/lantern-plan.yaml:3:7:",
    ]


def test_a_file_of_another_kind_is_told_once(example: Path) -> None:
    change(example / LONG, "../prices/2031.yaml", "../terms/lantern-plan.yaml")
    assert told(example) == [
        "terms/lantern-plan.yaml:1:13: `terms 1` is another kind of file or version; `prices 1` belongs here"
    ]


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("../../elsewhere.yaml", "lies outside the folder `example`"),
        ("../charts", "is a folder; name a file"),
        ("../charts/link.yaml", "lies outside the folder `example`"),
        ("../charts/loop.yaml", "leads to no file"),
        ("../charts/pipe.yaml", "is no ordinary file"),
        ("../charts/hollin-h640e.yaml/x", "is not there"),
        (f"../{'x' * 300}.yaml", "leads to no file"),
    ],
)
def test_only_ordinary_files_of_the_folder_above_are_read(example: Path, name: str, words: str) -> None:
    (example.parent / "elsewhere.yaml").write_text("secret: 1\n", encoding="utf-8")
    (example / "charts/link.yaml").symlink_to(example.parent / "elsewhere.yaml")
    (example / "charts/loop.yaml").symlink_to("loop.yaml")
    os.mkfifo(example / "charts/pipe.yaml")
    change(example / LONG, "../charts/hollin-h640e.yaml", name)
    (fault,) = told(example)
    assert fault.startswith(f"{LONG}:36:8: ")
    assert words in fault
    assert "secret" not in fault


def test_a_link_inside_the_folder_is_followed(example: Path) -> None:
    (example / "charts/link.yaml").symlink_to("hollin-h640e.yaml")
    change(example / LONG, "../charts/hollin-h640e.yaml", "../charts/link.yaml")
    assert "charts/hollin-h640e.yaml" in (read_inspection(example / LONG).digests or {})


def test_a_photo_stays_in_its_own_folder(example: Path) -> None:
    (example / "other.jpg").write_bytes((example / "MPS-2031-0418/photos/plate.jpg").read_bytes())
    change(example / LONG, "photos/plate.jpg", "../other.jpg")
    assert told(example) == [
        f"{LONG}:34:16: `../other.jpg` lies outside the folder `MPS-2031-0418`, where it belongs",
    ]


def test_a_photo_that_is_none_is_told_where_it_is_named(example: Path) -> None:
    (example / "MPS-2031-0418/photos/roller-l3.jpg").write_bytes(b"no picture")
    (example / "letterheads/millrace.svg").write_text("<svg onload='x()'/>", encoding="utf-8")
    photo, mark = told(example)
    assert photo.startswith(f"{LONG}:89:14: the photo `photos/roller-l3.jpg` cannot be used: ")
    assert mark.startswith("letterheads/millrace.yaml:5:7: `millrace.svg` cannot be used: ")


def test_a_font_that_is_not_there_is_told_in_the_letterhead(example: Path) -> None:
    (example / "letterheads/NotoSansJP.ttf").unlink()
    assert told(example) == ["letterheads/millrace.yaml:10:9: `NotoSansJP.ttf` is not there"]


def test_a_circle_of_earlier_inspections_is_told(example: Path) -> None:
    change(example / EARLIER, "chart:", "earlier: [../MPS-2031-0418/inspection.yaml]\nchart:")
    assert told(example) == [
        f"{EARLIER}:11:11: `../MPS-2031-0418/inspection.yaml` leads in a circle back to this inspection",
    ]


def test_an_inspection_that_is_its_own_earlier_one_is_told(example: Path) -> None:
    change(example / LONG, "../MPS-2030-0377/inspection.yaml", "inspection.yaml")
    assert told(example) == [f"{LONG}:41:5: `inspection.yaml` leads in a circle back to this inspection"]


def test_earlier_inspections_come_with_their_own(example: Path) -> None:
    change(example / EARLIER, "chart:", "earlier: [../MPS-2029-0001/inspection.yaml]\nchart:")
    (example / "MPS-2029-0001").mkdir()
    oldest = (
        (example / EARLIER).read_text(encoding="utf-8").replace("earlier: [../MPS-2029-0001/inspection.yaml]\n", "")
    )
    oldest = oldest.replace("MPS-2030-0377", "MPS-2029-0001").replace("2030-05-06", "2029-05-06")
    (example / "MPS-2029-0001/inspection.yaml").write_text(oldest.replace("6900", "5600"), encoding="utf-8")
    dossier = read_inspection(example / LONG)
    assert [one.inspection.number for one in dossier.earlier[0].earlier] == ["MPS-2029-0001"]
    assert "MPS-2029-0001/inspection.yaml" not in (dossier.digests or {}), "nothing is computed from it"


@pytest.mark.parametrize(
    ("old", "new", "place", "words"),
    [
        ("HLN640E0K00412", "HLN640E0K00413", "41:5", "of the serial `HLN640E0K00413`, not `HLN640E0K00412`"),
        ("2030-05-06", "2031-05-06", "41:5", "dated 2031-05-06, later than the one that calls it earlier"),
        ("6900", "8413", "22:10", "the hours are fewer than the 8413 of MPS-2030-0377"),
        ("6900", "8412.0004", "22:10", "the hours are fewer than the 8412.0004 of MPS-2030-0377"),
        ("2030-05-06", "2031-04-01", "22:10", "the hours are 1512 more than in MPS-2030-0377, and since 2031-04-01"),
    ],
)
def test_an_earlier_inspection_must_agree(example: Path, old: str, new: str, place: str, words: str) -> None:
    change(example / EARLIER, old, new)
    (fault,) = told(example)
    assert fault.startswith(f"{LONG}:{place}: ")
    assert words in fault


def with_another(example: Path, *changes: tuple[str, str]) -> None:
    """The long example with a further earlier inspection, named in line 42: the first with these changes."""
    (example / "MPS-2030-0601").mkdir()
    another = example / "MPS-2030-0601/inspection.yaml"
    another.write_text((example / EARLIER).read_text(encoding="utf-8"), encoding="utf-8")
    for old, new in changes:
        change(another, old, new)
    first = "  - ../MPS-2030-0377/inspection.yaml"
    change(example / LONG, first, f"{first}\n  - ../MPS-2030-0601/inspection.yaml")


@pytest.mark.parametrize("revision", [0, 1])
def test_two_revisions_of_one_earlier_inspection_are_told(example: Path, revision: int) -> None:
    revised = ("chart:", f"revision: {revision}\nreplaces: 0\nbecause: a slip\nchart:")
    with_another(example, *([revised] if revision else []))
    (fault,) = told(example)
    assert fault == (
        f"{LONG}:42:5: this is revision {revision} of MPS-2030-0377, of which line 41 names revision 0; "
        "name the latest alone"
    )


def test_a_revision_of_the_inspection_itself_is_no_earlier_one(example: Path) -> None:
    with_another(example, ("MPS-2030-0377", "MPS-2031-0418"))
    assert told(example) == [
        f"{LONG}:42:5: this is revision 0 of MPS-2031-0418 itself, not an earlier inspection",
    ]


@pytest.mark.parametrize(
    ("day", "hours", "line", "words"),
    [
        ("2030-09-06", "6899", 42, "the hours of MPS-2030-0601 are fewer than the 6900 of MPS-2030-0377; where the"),
        ("2029-09-06", "6901", 41, "the hours of MPS-2030-0377 are fewer than the 6901 of MPS-2030-0601; where the"),
        ("2030-05-08", "6949", 42, "the hours of MPS-2030-0601 are 49 more than in MPS-2030-0377, and since"),
    ],
)
def test_earlier_inspections_must_agree_with_each_other(
    example: Path, day: str, hours: str, line: int, words: str
) -> None:
    with_another(example, ("MPS-2030-0377", "MPS-2030-0601"), ("2030-05-06", day), ("6900", hours))
    (fault,) = told(example)
    assert fault.startswith(f"{LONG}:{line}:5: {words}")


@pytest.mark.parametrize(("day", "hours"), [("2030-05-06", "6899"), ("2030-05-08", "6948"), ("2029-09-06", "6900")])
def test_earlier_inspections_in_any_order_may_agree(example: Path, day: str, hours: str) -> None:
    with_another(example, ("MPS-2030-0377", "MPS-2030-0601"), ("2030-05-06", day), ("6900", hours))
    assert told(example) == []


def test_hours_may_rise_by_24_a_day_and_no_more(example: Path) -> None:
    """Cumulative operating hours rise by at most 24 a day (ISO 15143-3)."""
    change(example / EARLIER, "2030-05-06", "2031-04-08")
    change(example / EARLIER, "6900", "8172")
    assert told(example) == []
    change(example / EARLIER, "8172", "8171.9")
    assert len(told(example)) == 1


def test_hours_that_are_equal_but_for_rounding_are_equal(example: Path) -> None:
    """In floating-point numbers 7000.7 and 999.4 add up to less than 8000.1, and 8192.2 is over 24 above 8168.2."""
    change(example / LONG, "hours: 8412", "hours: {shown: 999.4, meter replaced at: 7000.7}")
    change(example / EARLIER, "6900", "8000.1")
    assert told(example) == []
    change(example / LONG, "hours: {shown: 999.4, meter replaced at: 7000.7}", "hours: 8192.2")
    change(example / EARLIER, "8000.1", "8168.2")
    change(example / EARLIER, "2030-05-06", "2031-04-17")
    assert told(example) == []


def test_a_meter_that_was_replaced_explains_fewer_hours(example: Path) -> None:
    change(example / LONG, "hours: 8412", "hours: {shown: 412, meter replaced at: 8000}")
    assert told(example) == []
    change(example / LONG, ", meter replaced at: 8000", "")
    assert any("fewer than the 6900" in fault for fault in told(example))


WAYS = """\
  link:
    measure: rail height, or plate to rail by ultrasonic gauge
    limit means: rebuild
    ways:
      caliper: {new: 143.0 mm, limit: 128.0 mm}
      ultrasonic gauge: {new: 40.0 mm, limit: 25.0 mm, table: {40 mm: 0, 25 mm: 100}}
    share: 0.24
"""


def with_ways(example: Path) -> None:
    chart = example / "charts/hollin-h640e.yaml"
    text = chart.read_text(encoding="utf-8")
    start, end = text.index("  link:\n"), text.index("  bushing:\n")
    chart.write_text(text[:start] + WAYS + text[end:], encoding="utf-8")


def test_a_gauge_that_no_way_matches_is_told_at_the_gauge(example: Path) -> None:
    with_ways(example)
    (fault,) = told(example)
    assert fault.startswith(f"{LONG}:56:11: the chart has no way to measure the link with `depth gauge`; ")
    assert fault.endswith("write `caliper` or `ultrasonic gauge`")
    change(example / LONG, "    with: depth gauge\n", "")
    assert [fault.split(": ")[0] for fault in told(example)] == [f"{LONG}:57:11", f"{LONG}:58:12"]
    change(example / LONG, "    joints: 3, 13", "    with: {left: caliper, right: ultrasonic gauge}\n    joints: 3, 13")
    assert told(example) == []


def test_sizes_that_the_chart_does_not_know_are_a_warning(example: Path) -> None:
    change(example / LONG, "  sprocket:\n    left: by eye about 50 %", "  sprocket:\n    left: 40 mm")
    change(
        example / LONG, "readings:\n", "readings:\n  front idler: {right: 700 mm}\n  shoe: {right: not seen (mud)}\n"
    )
    dossier = read_inspection(example / LONG)
    assert [str(fault).removeprefix(f"{example}/") for fault in dossier.warnings] == [
        f"{LONG}:55:24: warning: the chart has no entry for it; the sizes of the front idler print without percent",
        f"{LONG}:77:11: warning: the chart has no sizes for it; the sizes of the sprocket print without percent",
    ]


def test_a_chart_of_another_layout_is_a_warning(example: Path) -> None:
    change(example / LONG, "layout: elevated sprocket", "layout: oval")
    (fault,) = check(example / LONG)
    assert fault.weight is Weight.WARNING
    assert (fault.line, fault.column) == (36, 8)


@pytest.mark.parametrize(
    ("serial", "warned"),
    [
        ("ABC12345D00012345", False),
        ("ABC12345600012345", True),
        ("ABC1234ID00012345", True),
        ("abc12345D00012345", True),
        ("ABC12345D0001234", False),
    ],
)
def test_a_serial_of_17_characters_has_the_form_of_a_pin(example: Path, serial: str, warned: bool) -> None:
    """ISO 10261: 17 characters but I, O and Q, a letter in the ninth place; shorter serials are legitimate."""
    change(example / "OXB-0231/inspection.yaml", '"20417"', f'"{serial}"')
    warnings = read_inspection(example / "OXB-0231").warnings
    assert [(fault.line, fault.column) for fault in warnings] == ([(5, 50)] if warned else [])


def test_a_gauge_that_is_not_listed_is_a_warning(example: Path) -> None:
    change(example / LONG, "with: steel tape", "with: stel tape")
    (warning,) = read_inspection(example / LONG).warnings
    assert warning.what == (
        "`stel tape` is not listed under `instruments`, so its error is assumed; did you mean `steel tape`?"
    )


def test_faulty_carries_the_faults_of_every_file_in_order(example: Path) -> None:
    change(example / LONG, "MPS-2031-0418", "MPS/2031")
    change(example / "charts/hollin-h640e.yaml", "source", "sauce")
    with pytest.raises(Faulty) as caught:
        read_inspection(example / LONG)
    faults = caught.value.faults
    assert list(faults) == sorted(faults)
    assert {fault.file.name for fault in faults} == {"inspection.yaml", "hollin-h640e.yaml"}


@pytest.mark.parametrize("name", ["nothing.yaml", "charts/nothing.yaml", "a\0b", "a\0b/c", "x" * 300])
def test_a_path_that_leads_nowhere_is_a_fault(example: Path, name: str) -> None:
    (fault,) = check(example / name)
    assert (fault.line, fault.column) == (1, 1)
    with pytest.raises(Faulty):
        read_inspection(example / name)


def test_a_folder_without_an_inspection_is_a_fault(example: Path) -> None:
    assert told(example, "charts") == ["charts/inspection.yaml:1:1: this folder holds no `inspection.yaml`"]
    (above,) = told(example, "")
    assert above.startswith(
        "inspection.yaml:1:1: this folder holds no `inspection.yaml`; 3 folders in it do: name those"
    )


def test_a_machine_that_refuses_is_no_fault_of_the_file(example: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refused)
    with pytest.raises(Failed, match="Permission denied"):
        read_inspection(example / LONG)
