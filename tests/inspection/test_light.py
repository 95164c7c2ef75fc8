"""The plain values cost nothing to import: no YAML, no validation, no pictures."""

import subprocess
import sys

import pytest

HEAVY = ("pydantic", "yaml", "PIL", "numpy", "scipy", "babel")


@pytest.mark.parametrize("module", ["model", "chart", "dossier", "faults", "values", "notation"])
def test_plain_values_import_nothing_heavy(module: str) -> None:
    program = f"import tracksworn.inspection.{module}, sys; print([name for name in {HEAVY} if name in sys.modules])"
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
