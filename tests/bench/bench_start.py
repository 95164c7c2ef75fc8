"""How long `tracksworn --version` takes, as a ratio to `python -c pass`, the two taking turns."""

import os
import subprocess
import sys
import time
from pathlib import Path
from statistics import median

ROUNDS = 20
COMMANDS = {
    "python -c pass": [sys.executable, "-c", "pass"],
    "tracksworn --version": [str(Path(sys.executable).with_name("tracksworn")), "--version"],
    "tracksworn --help": [str(Path(sys.executable).with_name("tracksworn")), "--help"],
}


def took(command: list[str], environment: dict[str, str]) -> float:
    """Milliseconds from the start of a process to its end."""
    began = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=environment)
    return 1000 * (time.perf_counter() - began)


def main() -> None:
    """Print medians and the median ratio within a round."""
    # compiled code may be kept, as it is where the program is installed
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    for command in COMMANDS.values():
        took(command, environment)
    rounds = [{name: took(command, environment) for name, command in COMMANDS.items()} for _ in range(ROUNDS)]
    reference = next(iter(COMMANDS))
    print(f"| start-up, {ROUNDS} rounds | ms | × {reference} |\n| --- | --- | --- |")
    for name in COMMANDS:
        ratio = median(each[name] / each[reference] for each in rounds)
        print(f"| {name} | {median(each[name] for each in rounds):.0f} | {ratio:.1f} |")
    print()


if __name__ == "__main__":
    main()
