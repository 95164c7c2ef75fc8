"""What must hold is named with its test in DEVELOPERS.md; a test that is named there exists."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
NAMED = re.findall(r"`(test_[a-z_]+)(…?)`", (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8"))


def test_every_test_that_is_named_exists() -> None:
    files = [file.read_text(encoding="utf-8") for file in (ROOT / "tests").rglob("test_*.py")]
    names = {name for text in files for name in re.findall(r"^(?:async )?def (test_\w+)", text, re.MULTILINE)}
    missing = [
        name for name, cut in NAMED if not any(known.startswith(name) if cut else known == name for known in names)
    ]
    assert len(NAMED) > 12
    assert missing == []
