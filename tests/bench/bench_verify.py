"""How long a sealed listing sheet takes to verify, question by question, as ratios to pyHanko's bare validation of it.

By the processor, one file after the other in one process; `verify` on several files shares them out among processes.
"""

import sys
import warnings
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from io import BytesIO
from itertools import cycle, islice
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2] / "src")]

from asn1crypto import pem, x509
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko_certvalidator import ValidationContext

from tracksworn.documents.report import make_report
from tracksworn.inspection.reading import read_inspection
from tracksworn.records.sealing.pkcs12 import from_pkcs12
from tracksworn.records.sealing.practice import practice_key
from tracksworn.records.sealing.quiet import quiet
from tracksworn.records.sealing.seal import seal
from tracksworn.records.verifying.arithmetic import judge_arithmetic
from tracksworn.records.verifying.carried import read_carried
from tracksworn.records.verifying.integrity import judge_integrity
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verify import verify

DEMO = Path(__file__).resolve().parents[2] / "demo_inspections"
NUMBERS = ("OXB-0231", "OXB-0227", "MPS-2031-0402")
SHEETS = 100
AT = datetime(2031, 5, 4, 12, tzinfo=UTC)


def sheets() -> tuple[Sequence[bytes], bytes]:
    """Sealed listing sheets, of three machines in turn, and the certificate that they are sealed with."""
    key = practice_key("Ines Marlow", "bench", AT)
    signer = from_pkcs12(key.pkcs12, "bench")
    made = [next(iter(_made(number))) for number in NUMBERS]
    return [seal(one, signer, at=AT) for one in islice(cycle(made), SHEETS)], pem.unarmor(key.certificate)[2]


def _made(number: str) -> Iterator[bytes]:
    yield from make_report(read_inspection(DEMO / number), formats=["pdf"], document="listing", sealed=True).values()


def bare(content: bytes, root: bytes) -> bool:
    """What pyHanko does by itself: whether the signature holds, and nothing of what it is over."""
    (signature,) = PdfFileReader(BytesIO(content)).embedded_regular_signatures
    context = ValidationContext(trust_roots=[x509.Certificate.load(root)], moment=AT)
    return bool(validate_pdf_signature(signature, context).bottom_line)


def arithmetic(content: bytes) -> bool:
    """What is carried read, and computed anew."""
    with TemporaryDirectory() as folder:
        return judge_arithmetic(read_carried(content), Path(folder)).assessed is not None


def took(work: Callable[[bytes], object], of: Sequence[bytes]) -> float:
    """Seconds of the processor for one of them, after a first that warms up."""
    assert work(of[0])
    start = process_time()
    for one in of:
        assert work(one)
    return (process_time() - start) / len(of)


def main() -> None:
    """Print the table."""
    warnings.simplefilter("ignore")
    of, root = sheets()
    trust = Trust((root,))
    works: dict[str, Callable[[bytes], object]] = {
        "pyHanko's validation alone": lambda one: bare(one, root),
        "integrity": lambda one: judge_integrity(one)[1],
        "arithmetic, with what it is read from": arithmetic,
        "all six answers": lambda one: verify(one, at=AT, trust=trust).passed,
    }
    with quiet():
        times = {name: took(work, of) for name, work in works.items()}
    reference = next(iter(times.values()))
    print(f"| {SHEETS} sealed listing sheets | ms for one | ratio |\n| --- | --- | --- |")
    for name, seconds in times.items():
        print(f"| {name} | {1000 * seconds:.1f} | {seconds / reference:.1f} |")


if __name__ == "__main__":
    main()
