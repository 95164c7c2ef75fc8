"""An invented certification authority with its timestamps and revocation lists, answering within the process."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from tempfile import mkdtemp
from typing import Any, Final

import requests_mock
from certomancer.integrations.illusionist import Illusionist
from certomancer.registry import ArchLabel, CertLabel, CertomancerConfig, KeyLabel
from cryptography.hazmat.primitives.asymmetric import ec, rsa
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

TIME: Final = "http://authority.invalid/oxbow/tsa/time"
BRIEF: Final = "http://authority.invalid/oxbow/tsa/brief"
"""Whose certificate ends with 2035."""
PASSWORD: Final = "practice"
_CURVED: Final = ("root", "issuer", "authority", "signer")


@cache
def architecture() -> Any:
    """All of it, with keys made for this run."""
    folder = Path(mkdtemp(prefix="authorities-"))
    for name in _CURVED:
        _write(folder, name, ec.generate_private_key(ec.SECP256R1()))
    _write(folder, "weak", rsa.generate_private_key(65537, 1024))
    _write(folder, "strong", rsa.generate_private_key(65537, 2048))
    text = Path(__file__).with_name("authorities.yml").read_text(encoding="utf-8")
    return CertomancerConfig.from_yaml(text, key_search_dir=str(folder)).get_pki_arch(ArchLabel("oxbow"))


def _write(folder: Path, name: str, key: ec.EllipticCurvePrivateKey | rsa.RSAPrivateKey) -> None:
    written = key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    (folder / f"{name}.pem").write_bytes(written)


@cache
def certificate(name: str) -> bytes:
    """A certificate, DER."""
    return bytes(architecture().get_cert(CertLabel(name)).dump())


def key(name: str) -> bytes:
    """A private key, DER (PKCS#8)."""
    return bytes(architecture().key_set.get_private_key(KeyLabel(name)).dump())


@cache
def packed(name: str) -> bytes:
    """A signer's key with its certificate and those that lead to the root, PKCS#12."""
    return bytes(architecture().package_pkcs12(CertLabel(name), password=PASSWORD.encode()))


@contextmanager
def answering() -> Iterator[requests_mock.Mocker]:
    """Authorities answer; whatever else is asked for fails."""
    with requests_mock.Mocker() as mocker:
        Illusionist(architecture()).register(mocker)
        yield mocker
