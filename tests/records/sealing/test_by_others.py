"""What pdfsig (poppler) and OpenSSL make of a seal is what we make of it: whole where it is, broken where it is not."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from asn1crypto import pem
from documents.render.tools import run, tool
from records import authorities
from records.sealed import AT, sealed, signer

from tracksworn.records.countersigning import countersign
from tracksworn.records.sealing.signer import Level

_VERIFY = (
    "openssl cms -verify -binary -inform DER -in sealed.pdf.sig0 -content signed.bin -CAfile root.pem -purpose any "
    "-out nothing"
)
_RANGES = re.compile(r"Signed Ranges: \[0 - (\d+)\], \[(\d+) - (\d+)\]")


def asked(content: bytes, folder: Path) -> tuple[str, bool]:
    """What pdfsig prints of a file, and whether OpenSSL takes its first signature for good."""
    file = folder / "sealed.pdf"
    file.write_bytes(content)
    said = run("pdfsig", "-nocert", file)
    subprocess.run([tool("pdfsig"), "-dump", file], cwd=folder, capture_output=True, check=False, timeout=60)
    assert (folder / "sealed.pdf.sig0").exists()  # its status is 3 where room was left for a later signature
    found = _RANGES.search(said)
    assert found is not None, said
    before, after, end = map(int, found.groups())
    (folder / "signed.bin").write_bytes(content[:before] + content[after:end])
    return said, _openssl(folder)


def _openssl(folder: Path) -> bool:
    assert shutil.which("openssl"), "openssl is not installed (Debian: openssl)"
    (folder / "root.pem").write_bytes(pem.armor("CERTIFICATE", authorities.certificate("root")))
    done = subprocess.run(
        _VERIFY.split(),
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert ("Verification successful" in done.stderr) is (done.returncode == 0), done.stderr
    return done.returncode == 0


@pytest.mark.parametrize("name", ["signer", "client"], ids=["P-256", "RSA"])
@pytest.mark.parametrize("level", [Level.B, Level.T, Level.LT])
def test_they_find_a_seal_whole(level: Level, name: str, tmp_path: Path) -> None:
    said, whole = asked(sealed(level, name=name), tmp_path)
    assert whole
    assert "Signature Validation: Signature is Valid." in said
    assert "Total document signed" in said
    assert "Signature Type: ETSI.CAdES.detached" in said
    assert "Signature Field Name: seal" in said
    assert f"Signing Time: {AT:%b %d %Y}" in said


@pytest.mark.parametrize("name", ["signer", "client"], ids=["P-256", "RSA"])
def test_they_find_a_changed_byte(name: str, tmp_path: Path) -> None:
    content = bytearray(sealed(name=name))
    content[content.index(b"/Producer") + 12] ^= 1
    said, whole = asked(bytes(content), tmp_path)
    assert not whole
    assert "Digest Mismatch" in said


def test_they_find_both_signatures_whole_and_see_that_the_seal_came_first(tmp_path: Path) -> None:
    both = countersign(sealed(countersign=True), signer("client"), at=AT)
    said, whole = asked(both, tmp_path)
    assert whole
    assert said.count("Signature Validation: Signature is Valid.") == 2
    assert re.findall(r"Signature Field Name: (.+)", said) == ["seal", "countersignature"]
    assert re.findall(r"- (Not total|Total) document signed", said) == ["Not total", "Total"]


README = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")


def test_the_readme_says_how_to_check_a_record_without_this_program(tmp_path: Path) -> None:
    (block,) = re.findall(r"^    pdfsig -nocert .+\n(?:    .+\n)+", README, re.MULTILINE)
    content = sealed()
    asked(content, tmp_path)
    found = _RANGES.search(run("pdfsig", "-nocert", tmp_path / "sealed.pdf"))
    assert found is not None
    (tmp_path / "sealed.pdf.sig0").unlink()
    (tmp_path / "signed.bin").unlink()
    (tmp_path / "practice.pem").write_bytes(pem.armor("CERTIFICATE", authorities.certificate("root")))
    script = re.sub(r"A=\d+ B=\d+", f"A={found[1]} B={found[2]}", block)
    assert script != block
    done = subprocess.run(
        ["bash", "-e", "-c", script], cwd=tmp_path, capture_output=True, text=True, check=False, timeout=60
    )
    assert "Signature is Valid." in done.stdout
    assert "Verification successful" in done.stderr, done.stderr
    assert done.returncode == 0
