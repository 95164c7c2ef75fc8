"""Whatever the bytes, a file is read or its faults are told; and nothing that is hostile costs much."""

import time
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tracksworn.inspection.faults import Faulty, Weight
from tracksworn.inspection.reading import check, read_inspection
from tracksworn.inspection.written import MOST_FAULTS, FaultList, Items, Node, Record, Text
from tracksworn.inspection.yaml_source import LARGEST_FILE, read_yaml

GOOD_FILES = {file: file.read_bytes() for file in sorted(Path(__file__).with_name("example").glob("*/*.yaml"))}
HEAD = "tracksworn: inspection 1\n"
quietly = settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
TOKENS = r"""{ } [ ] " ' :_ -_ # &a_ *a !x_ |~ _ ,_ <<:_ ?_ % @ \ - 0 9999999999999999999999 _mm by_eye_ ~ ~~"""
UNSEEN = (b"\t", b"\r", b"\xff", b"\0", b"\xe2\x80\xae", b"\xc2\x85")
tokens = st.sampled_from([*(token.replace("_", " ").replace("~", "\n").encode() for token in TOKENS.split()), *UNSEEN])


def read_or_told(file: Path) -> None:
    faults = check(file)
    text = file.read_bytes().replace(b"\r\n", b"\n")
    for fault in faults:
        assert 1 <= fault.line <= text.count(b"\n") + 1 or fault.file != file
        assert fault.column >= 1
        assert len(fault.what) < 1000
        assert str(fault).isprintable()
    try:
        read_inspection(file)
    except Faulty as faulty:
        assert faulty.faults  # noqa: PT017 - either outcome is right
    else:
        assert all(fault.weight is Weight.WARNING for fault in faults)


@given(content=st.binary(max_size=400))
@example(content=b"\xfe\xff\x00t\x00r")
@example(content=b"\xef\xbb\xbf")
@quietly
def test_any_bytes_are_read_or_told(tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "inspection.yaml"
    file.write_bytes(content)
    read_or_told(file)


@given(text=st.text(alphabet=st.sampled_from("abc:-{}[]\"'#&*!|>%@`,? \n\t01"), max_size=120))
@quietly
def test_any_yaml_is_read_or_told(tmp_path: Path, text: str) -> None:
    file = tmp_path / "inspection.yaml"
    file.write_text(HEAD + text, encoding="utf-8")
    read_or_told(file)


@given(data=st.data())
@quietly
def test_good_files_with_damage_are_read_or_told(tmp_path: Path, data: st.DataObject) -> None:
    content = bytearray(data.draw(st.sampled_from(list(GOOD_FILES.values()))))
    for _ in range(data.draw(st.integers(1, 3))):
        start = data.draw(st.integers(0, len(content)))
        end = min(len(content), start + data.draw(st.integers(0, 12)))
        content[start:end] = data.draw(st.one_of(st.binary(max_size=6), tokens))
    file = tmp_path / "inspection.yaml"
    file.write_bytes(bytes(content))
    read_or_told(file)


@given(data=st.data())
@quietly
def test_good_files_with_lines_moved_are_read_or_told(tmp_path: Path, data: st.DataObject) -> None:
    lines = data.draw(st.sampled_from(list(GOOD_FILES.values()))).splitlines(keepends=True)
    moved = lines.pop(data.draw(st.integers(0, len(lines) - 1)))
    indent = b" " * data.draw(st.integers(0, 6))
    lines.insert(data.draw(st.integers(0, len(lines))), indent + moved)
    file = tmp_path / "inspection.yaml"
    file.write_bytes(b"".join(lines))
    read_or_told(file)


def marks(node: Node) -> object:
    """Everything that a node says of where it stands."""
    if isinstance(node, Record):
        return (node.mark, node.keys_at, {key: marks(value) for key, value in node.items()})
    if isinstance(node, Items):
        return (node.mark, [marks(item) for item in node])
    return (str(node), node.mark, node.first)


@pytest.mark.parametrize("content", GOOD_FILES.values(), ids=[file.parent.name for file in GOOD_FILES])
def test_both_parsers_give_the_same_places(content: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    """Installations without the fast parser read the same."""
    text = content.replace(b"Marlow", "Märlow — ☃".encode())
    fast = read_yaml(text, FaultList(Path("a")))
    monkeypatch.delattr(yaml, "CSafeLoader", raising=False)
    slow = read_yaml(text, FaultList(Path("a")))
    assert fast is not None
    assert slow is not None
    assert marks(fast) == marks(slow)


def test_every_text_knows_its_characters() -> None:
    content = 'a: plain\nb: \'single\'\nc: "double"\nd: "es\\tcaped"\ne: [x, {f: y}]\n'
    read = read_yaml(content.encode(), FaultList(Path("a")))
    assert read is not None
    lines = content.splitlines()

    def texts(node: Node) -> list[Text]:
        if isinstance(node, Text):
            return [node]
        return [text for item in (node.values() if isinstance(node, Record) else node) for text in texts(item)]

    exact = [text for text in texts(read) if text.first is not None]
    assert [str(text) for text in exact] == ["plain", "single", "double", "x", "y"]
    for text in exact:
        for offset, character in enumerate(text):
            mark = text.at(offset)
            assert lines[mark.line - 1][mark.column - 1] == character


BOMB = "".join(f"a{n}: &a{n} [" + ", ".join([f"*a{n - 1}"] * 9 if n else ["x"]) + "]\n" for n in range(9))


@pytest.mark.slow
@pytest.mark.parametrize(
    "text",
    [
        BOMB,
        "notes: " + "[" * 200_000,
        "notes: " + "{a: " * 100_000,
        "".join(f"k{n}: 1\n" for n in range(60_000)),
        "readings: {link: {left: " + "1, " * 200_000 + "}}\n",
        "readings: {link: {" + "a, " * 200_000 + "}}\n",
        "earlier: [" + "'', " * 150_000 + "]\n",
        "observations:\n" + "- {at: x}\n" * 60_000,
        "notes: '" + "'' " * 200_000 + "'\n",
        "number: " + "x" * 900_000 + "\n",
        "machine: {hours: " + "9" * 900_000 + "}\n",
        "readings: {bottom roller: {left: {" + "".join(f"{n}: 1 mm, " for n in range(50_000)) + "}}}\n",
    ],
    ids=lambda text: str(text)[:24],
)
def test_what_is_hostile_costs_little(tmp_path: Path, text: str) -> None:
    file = tmp_path / "inspection.yaml"
    file.write_text(HEAD + text, encoding="utf-8")
    start = time.process_time()
    faults = check(file)
    assert faults
    assert len(faults) <= MOST_FAULTS + 1
    assert time.process_time() - start < 20


def test_a_file_of_more_than_1_mb_is_not_read(tmp_path: Path) -> None:
    file = tmp_path / "inspection.yaml"
    file.write_bytes(b"#" * LARGEST_FILE + b"\n")
    assert [fault.what for fault in check(file)] == ["the file is larger than 1 MB"]


def test_entries_are_counted_together(tmp_path: Path, least: str) -> None:
    file = tmp_path / "inspection.yaml"
    sizes = "  link:\n    left: " + "131.2, " * 9_997 + "131.2 mm\n"
    file.write_text(least + sizes + "observations:\n" + "  - {at: link, seen: bent}\n" * 2, encoding="utf-8")
    assert check(file) == ()
    with file.open("a", encoding="utf-8") as more:
        more.write("  - {at: link, seen: bent}\n")
    (fault,) = check(file)
    assert fault.what == "the file has 10,001 readings, observations and photos; at most 10,000"


@pytest.mark.parametrize(("key", "most"), [("place", 2_000), ("notes", 100_000)])
def test_texts_have_a_longest(tmp_path: Path, least: str, key: str, most: int) -> None:
    file = tmp_path / "inspection.yaml"
    rest = least + "  link: {left: 131 mm}\n"
    file.write_text(f"{rest}{key}: {'x' * most}\n", encoding="utf-8")
    assert check(file) == ()
    file.write_text(f"{rest}{key}: {'x' * (most + 1)}\n", encoding="utf-8")
    (fault,) = check(file)
    assert fault.what == f"a text has at most {most:,} characters, not {most + 1:,}"


def test_a_message_quotes_at_most_80_characters(tmp_path: Path, least: str) -> None:
    file = tmp_path / "inspection.yaml"
    file.write_text(f"{least}  link: {{left: {'x' * 200}}}\n", encoding="utf-8")
    (fault,) = check(file)
    assert f"`{'x' * 80}…`" in fault.what
    assert "x" * 81 not in fault.what
