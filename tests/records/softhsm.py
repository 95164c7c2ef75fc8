"""A token in software (Debian: softhsm2) with a key and its certificate on it."""

import atexit
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any, Final

from asn1crypto import keys
from pkcs11 import Attribute, CertificateType, KeyType, ObjectClass
from records import authorities

LIBRARY: Final = Path("/usr/lib/softhsm/libsofthsm2.so")
LABEL: Final = "Oxbow"
PIN: Final = "4321"


@cache
def token() -> str:
    """A token of this process, which its driver looks for once and then never elsewhere: `curve`, `rsa` with
    certificates, and the key `alone`. Returns what a URI of it ends with.
    """
    command = shutil.which("softhsm2-util")
    assert command is not None, "softhsm2-util is not installed (Debian: softhsm2)"
    assert LIBRARY.is_file(), f"{LIBRARY} is not there (Debian: softhsm2)"
    folder = Path(tempfile.mkdtemp(prefix="tracksworn-token-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    tokens, settings = folder / "tokens", folder / "softhsm2.conf"
    tokens.mkdir()
    settings.write_text(f"directories.tokendir = {tokens}\nobjectstore.backend = file\nlog.level = ERROR\n")
    os.environ["SOFTHSM2_CONF"] = str(settings)
    subprocess.run(
        [command, "--init-token", "--free", "--label", LABEL, "--so-pin", "87654321", "--pin", PIN],
        check=True,
        capture_output=True,
        timeout=60,
    )
    with _session() as session:
        _put(session, "signer", "curve", 1)
        _put(session, "strong", "rsa", 2)
        _put(session, "authority", "alone", 3, certificate=False)
    return f"?module-path={LIBRARY}"


@contextmanager
def _session() -> Iterator[Any]:
    """The token open for writing."""
    import pkcs11

    with pkcs11.lib(str(LIBRARY)).get_token(token_label=LABEL).open(user_pin=PIN, rw=True) as opened:
        yield opened


def _put(opened: Any, name: str, label: str, number: int, *, certificate: bool = True) -> None:
    """A key of the invented infrastructure on the token, with its certificate or without."""
    from pkcs11.util.ec import decode_ec_private_key
    from pkcs11.util.rsa import decode_rsa_private_key

    held = keys.PrivateKeyInfo.load(authorities.key(name))
    inner = held["private_key"].parsed
    if held.algorithm == "rsa":
        known = decode_rsa_private_key(inner.dump())
    else:
        inner["parameters"] = held["private_key_algorithm"]["parameters"]
        known = decode_ec_private_key(inner.dump())
    named = {Attribute.LABEL: label, Attribute.ID: bytes([number]), Attribute.TOKEN: True}
    opened.create_object({**known, **named, Attribute.SIGN: True, Attribute.PRIVATE: True, Attribute.SENSITIVE: True})
    assert known[Attribute.KEY_TYPE] in (KeyType.RSA, KeyType.EC)
    if certificate:
        _put_certificate(opened, authorities.certificate("client" if name == "strong" else name), named)


def _put_certificate(opened: Any, content: bytes, named: dict[Any, Any]) -> None:
    from asn1crypto import x509

    subject = x509.Certificate.load(content).subject.dump()
    what = {Attribute.CLASS: ObjectClass.CERTIFICATE, Attribute.CERTIFICATE_TYPE: CertificateType.X_509}
    opened.create_object({**what, **named, Attribute.SUBJECT: subject, Attribute.VALUE: content})
