"""What needs no file to be read costs nothing to import: no YAML, no validation, no pictures."""

import subprocess
import sys

LIGHT = ("vocabulary", "values", "model", "chart", "dossier", "faults", "notation", "folders", "starting", "shipped")
HEAVY = ("pydantic", "yaml", "PIL", "numpy", "scipy", "babel")


def test_plain_values_and_starting_files_import_nothing_heavy() -> None:
    program = f"""
import importlib, sys
for module in {LIGHT}:
    importlib.import_module(f"tracksworn.inspection.{{module}}")
    print(module, *(name for name in {HEAVY} if name in sys.modules))"""
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert run.stdout.splitlines() == list(LIGHT)
