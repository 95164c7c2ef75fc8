"""The list of a sale, and the inspections under a folder."""

import errno
import os
from pathlib import Path

import pytest
from sales import ORDER, write_lot, write_sale

from tracksworn.batch import work
from tracksworn.documents.render.files import Sheet
from tracksworn.inspection.faults import Failed, Faulty
from tracksworn.inspection.sale_list import DOCUMENTS, Listed, check_sale_list, find_inspections, read_sale


@pytest.fixture
def sale(tmp_path: Path) -> Path:
    return write_sale(tmp_path / "sale", 3)


def listed(sale: Path, text: str | bytes) -> tuple[Listed, ...]:
    path = sale / "lots.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_sale(path).lots


def refused(sale: Path, text: str | bytes) -> list[str]:
    with pytest.raises(Faulty) as raised:
        listed(sale, text)
    return [str(fault).removeprefix(f"{sale / 'lots.csv'}:") for fault in raised.value.faults]


def told(sale: Path, text: str) -> list[str]:
    faults = [fault for one in listed(sale, text) for fault in one.faults]
    return [str(fault).removeprefix(f"{sale / 'lots.csv'}:") for fault in faults]


def test_a_list_names_inspections_by_file_or_folder_in_its_order(sale: Path) -> None:
    found = listed(sale, 'inspection,lot,documents\nlot-2,17,\n"lot-1/inspection.yaml",,full  listing\n')
    assert found == (
        Listed(sale / "lot-2", "lot-2", 1, "17", None, 2),
        Listed(sale / "lot-1" / "inspection.yaml", "lot-1/inspection.yaml", 2, None, ("full", "listing"), 3),
    )


@pytest.mark.parametrize(
    "text",
    [
        "Inspection\r\nlot-2\r\n",
        "\ufeffinspection\nlot-2",
        "\n\ninspection , lot\n\n lot-2 ,\n,\n",
        'inspection,lot\n"lot-2",""\n',
    ],
)
def test_what_spreadsheets_write_is_read(sale: Path, text: str) -> None:
    (one,) = listed(sale, text)
    assert (one.name, one.lot, one.documents, one.faults) == ("lot-2", None, None, ())


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "1:1: the list is empty; its first row names the columns"),
        ("inspection\n", "1:1: the list names no inspection; each goes on a line of its own below the first"),
        ("lot\n17\n", "1:1: the column `inspection` is missing; its first row names the columns"),
        ("lot-1\nlot-2\n", "1:1: `lot-1` is no column that is known here; write `inspection`, `lot` or `documents`"),
        ("inspection,Lots\nlot-1,1\n", "1:12: `Lots` is no column that is known here; did you mean `lot`?"),
        ("inspection,lot,lot\nlot-1,1,1\n", "1:16: the column `lot` is there twice; keep one"),
        ("inspection;lot\nlot-1;1\n", "1:1: columns are parted by commas; save the list as CSV with commas"),
        ("inspection\tlot\nlot-1\t1\n", "1:1: columns are parted by commas; save the list as CSV with commas"),
        ('inspection\nlot-1\n"lot-2\n', "3:1: the quote that opens here is not closed"),
        ('inspection\n"lot-1"x\n', "2:1: a comma belongs behind the quote that ends this value"),
        (b"inspection\nl\xf6t\n", "2:2: the byte 0xF6 is not UTF-8; save the file as UTF-8"),
        ("inspection\nlot\u200b-1\n", "2:4: an invisible character (U+200B) stands here; take it out"),
    ],
)
def test_what_is_no_list_is_refused_where_it_goes_wrong(sale: Path, text: str | bytes, words: str) -> None:
    (fault,) = refused(sale, text)
    assert fault.startswith(words)


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("lot-9,,", ["2:1: `lot-9` is not there"]),
        ("shared,,", ["2:1: `shared/inspection.yaml` is not there"]),
        (",17,", ["2:1: an inspection is missing here: its path from the list's folder"]),
        ("/lot-1,,", ["2:1: `/lot-1` is no path from this file's folder"]),
        ("lot-1,1 2,", ["2:7: `1 2` cannot be used, for it names files; at most 16 of"]),
        ("lot-1,,ful", ["2:8: `ful` is no document; write `full`, `listing` or `certificate`, several with a blank"]),
        ("lot-1,,,x", ["2:9: a value too many: the first row names 3 columns"]),
        ("lot-1,1 2,ful", ["2:7: `1 2`", "2:11: `ful`"]),
    ],
)
def test_a_fault_of_a_line_is_that_lots(sale: Path, row: str, words: list[str]) -> None:
    faults = told(sale, f"inspection,lot,documents\n{row}\nlot-2,,\n")
    assert len(faults) == len(words)
    assert all(fault.startswith(start) for fault, start in zip(faults, words, strict=True))


def test_no_inspection_stands_twice(sale: Path) -> None:
    (sale / "link").symlink_to("lot-1")
    text = "inspection\nlot-1\nlot-1/inspection.yaml\nlink\n"
    assert [fault[:4] for fault in told(sale, text)] == ["3:1:", "4:1:"]
    assert told(sale, text)[0].endswith("stands in line 2 already; a sale lists an inspection once")


def test_lines_count_through_quoted_breaks(sale: Path) -> None:
    assert told(sale, 'inspection,lot\nlot-1,"a\nb"\nlot-9,\n')[1].startswith("4:1: `lot-9` is not there")


@pytest.mark.parametrize("cell", ["lot-9/inspection.yaml", "~/lot-1", "lot-1/other.yaml"])
def test_what_is_not_there_is_told_as_it_was_written(sale: Path, cell: str) -> None:
    assert told(sale, f"inspection\n{cell}\n") == [f"2:1: `{cell}` is not there"]


def test_what_the_machine_refuses_is_left_to_its_lot(sale: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As where a folder of one lot is closed to who runs this."""

    def refuse(path: Path, strict: bool = False) -> Path:
        if "lot-2" in path.parts:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        return resolve(path, strict=strict)

    resolve = Path.resolve
    monkeypatch.setattr(Path, "resolve", refuse)
    found = listed(sale, "inspection\nlot-1\nlot-2\nlot-3\n")
    assert [one.faults for one in found] == [(), (), ()]
    assert work.make_lot(found[1], ORDER).failures == (
        f"{found[1].inspection / 'inspection.yaml'} cannot be read: Permission denied",
    )


def test_documents_are_those_that_can_be_made() -> None:
    assert tuple(Sheet) == DOCUMENTS


def test_every_inspection_under_a_folder_by_path(sale: Path) -> None:
    deep, hidden = sale / "b" / "c", sale / ".old"
    for folder in (deep, hidden):
        folder.mkdir(parents=True)
        (folder / "inspection.yaml").write_bytes((sale / "lot-1" / "inspection.yaml").read_bytes())
    found = find_inspections(sale)
    names = ["b/c/inspection.yaml", *(f"lot-{place}/inspection.yaml" for place in (1, 2, 3))]
    assert [(one.place, one.name) for one in found] == list(enumerate(names, 1))
    assert all(one.inspection == sale / one.name for one in found)


def call_earlier(inspection: Path, *names: str) -> None:
    """Have it name others as earlier inspections."""
    with inspection.open("a") as file:
        file.writelines(["earlier:\n", *(f"  - {name}\n" for name in names)])


def of_folder(sale: Path) -> tuple[list[str], list[str]]:
    """The lots of a folder, and its earlier inspections, by their folders."""
    found = read_sale(sale)
    assert [one.place for one in found.lots] == list(range(1, len(found.lots) + 1))
    return [one.name.split("/")[0] for one in found.lots], [name.split("/")[0] for name in found.earlier]


def test_what_another_of_the_folder_names_as_earlier_is_no_lot(sale: Path) -> None:
    call_earlier(sale / "lot-3" / "inspection.yaml", "../lot-2/inspection.yaml")
    assert of_folder(sale) == (["lot-1", "lot-3"], ["lot-2"])
    assert [one.name for one in listed(sale, "inspection\nlot-2\nlot-3\n")] == ["lot-2", "lot-3"]


def test_nor_what_an_earlier_one_names(sale: Path) -> None:
    call_earlier(sale / "lot-3" / "inspection.yaml", "../lot-2/inspection.yaml")
    call_earlier(sale / "lot-2" / "inspection.yaml", "../lot-1/inspection.yaml", "../../elsewhere/inspection.yaml")
    assert of_folder(sale) == (["lot-3"], ["lot-1", "lot-2"])


def test_it_is_found_by_another_path_and_in_a_file_with_other_faults(sale: Path) -> None:
    (sale / "alias").mkdir()
    (sale / "alias" / "old.yaml").symlink_to(sale / "lot-2" / "inspection.yaml")
    call_earlier(write_lot(sale, 3, worn="many"), "../alias/old.yaml")
    assert of_folder(sale) == (["lot-1", "lot-3"], ["lot-2"])


def test_those_that_name_each_other_stay_so_that_their_fault_is_told(sale: Path) -> None:
    call_earlier(sale / "lot-1" / "inspection.yaml", "../lot-2/inspection.yaml")
    call_earlier(sale / "lot-2" / "inspection.yaml", "../lot-1/inspection.yaml")
    call_earlier(sale / "lot-3" / "inspection.yaml", "inspection.yaml")
    assert of_folder(sale) == (["lot-1", "lot-2", "lot-3"], [])


@pytest.mark.parametrize(
    "words",
    [
        "earlier: ../lot-2/inspection.yaml",
        "earlier: [/lot-2/inspection.yaml, [../lot-2/inspection.yaml], ../lot-9/inspection.yaml]",
        "# earlier: [../lot-2/inspection.yaml]",
        "earlier: [",
    ],
)
def test_what_names_none_as_it_should_hides_no_lot(sale: Path, words: str) -> None:
    with (sale / "lot-3" / "inspection.yaml").open("a") as file:
        file.write(f"{words}\n")
    assert of_folder(sale) == (["lot-1", "lot-2", "lot-3"], [])


def test_a_folder_whose_name_is_not_utf8_is_a_fault_of_its_lot_alone(sale: Path) -> None:
    odd = (sale / "lot-2").rename(Path(os.fsdecode(os.fsencode(sale) + b"/l\xf6t")))
    found = find_inspections(sale)
    assert [one.name for one in found] == ["lot-1/inspection.yaml", "lot-3/inspection.yaml", r"l\xf6t/inspection.yaml"]
    (fault,) = found[2].faults
    words = "the name of a folder on the way to this inspection is not UTF-8; rename that folder"
    assert (fault.file, fault.what) == (odd / "inspection.yaml", words)
    assert found[0].faults == ()


def test_a_folder_without_any_is_told(tmp_path: Path) -> None:
    with pytest.raises(Faulty, match=r"no `inspection\.yaml` lies in this folder, nor in any below it"):
        read_sale(tmp_path)


def test_a_single_inspection_is_no_sale(sale: Path) -> None:
    with pytest.raises(Faulty, match="a sale is a folder of inspections or a list in CSV, not a single file in YAML"):
        read_sale(sale / "lot-1" / "inspection.yaml")


def test_a_list_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(Failed, match="cannot be read: No such file"):
        read_sale(tmp_path / "lots.csv")


def test_checking_a_list_tells_its_faults_and_those_of_its_inspections(sale: Path) -> None:
    path = write_lot(sale, 2, worn="many")
    (sale / "lots.csv").write_text("inspection\nlot-9\nlot-2\nlot-1\n")
    first, second = check_sale_list(sale / "lots.csv")
    assert (first.file, first.line) == (sale / "lots.csv", 2)
    assert (second.file, second.line) == (path, 10)
