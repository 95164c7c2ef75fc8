"""`tracksworn report --document certificate`, as a user sees it."""

from pathlib import Path

import pytest
from cli.conftest import DEMO, GOOD, Run


@pytest.mark.slow
def test_without_terms_one_message_says_what_to_add_and_the_others_are_done(tracksworn: Run, tmp_path: Path) -> None:
    certified = DEMO / "MPS-2031-0402"
    done = tracksworn("report", GOOD, certified, "--document", "certificate", "--to", "out", "--format", "md")
    assert done.returncode == 1
    (said,) = done.stderr.splitlines()
    assert said.startswith(f"{GOOD}:1:1: there is no certificate without terms: ")
    assert "`terms: FILE`" in said
    assert done.stdout.split() == ["out/MPS-2031-0402-r0-certificate.md"]
    assert (tmp_path / "out" / "MPS-2031-0402-r0-certificate" / "code-1.svg").is_file()
