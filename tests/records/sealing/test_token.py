"""Keys on a token: SoftHSM2 stands for a card; what is wrong is told in one sentence."""

from io import BytesIO
from pathlib import Path

import pytest
from judges.specimen import sound
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import async_validate_pdf_signature
from pyhanko_certvalidator import ValidationContext
from records import softhsm
from records.sealed import AT

from tracksworn.inspection.faults import Failed, WrongUse
from tracksworn.records.awaited import awaited
from tracksworn.records.sealing.seal import seal
from tracksworn.records.sealing.signer import UnusableKey
from tracksworn.records.sealing.token import Token, opened


@pytest.fixture
def token() -> str:
    """What the URI of a token ends with."""
    return softhsm.token()


@pytest.mark.parametrize("which", ["object=curve", "id=%01", "object=rsa;type=private", "object=rsa;id=%02"])
def test_a_key_on_a_token_seals(token: str, which: str) -> None:
    named = Token.parse(f"pkcs11:token={softhsm.LABEL};{which}{token}")
    with opened(named, softhsm.PIN) as signer:
        content = seal(sound(), signer, at=AT)
        assert len(signer.chain) == 1  # the other certificate there
    (signature,) = PdfFileReader(BytesIO(content)).embedded_regular_signatures
    trusting = ValidationContext(trust_roots=[signature.signer_cert], moment=AT)
    assert awaited(async_validate_pdf_signature(signature, trusting)).bottom_line


@pytest.mark.parametrize(
    ("which", "pin", "error", "said"),
    [
        ("token=Oxbow;object=curve", "1234", UnusableKey, "the PIN is wrong for the token 'Oxbow'"),
        ("token=Oxbow;object=curve", "1", UnusableKey, "the PIN is wrong for the token 'Oxbow'"),
        ("token=Other", softhsm.PIN, Failed, r"no such token is there \(there: 'Oxbow'\)"),
        ("serial=0123", softhsm.PIN, Failed, "no such token is there"),
        ("token=Oxbow;object=none", softhsm.PIN, UnusableKey, "there is no private key on this token"),
        ("token=Oxbow;object=alone", softhsm.PIN, UnusableKey, "there is no certificate of that key on this token"),
        ("token=Oxbow", softhsm.PIN, UnusableKey, "more than one private key; name one with object= or id="),
    ],
)
def test_what_is_wrong_is_told_in_one_sentence(
    token: str, which: str, pin: str, error: type[Exception], said: str
) -> None:
    with pytest.raises(error, match=said), opened(Token.parse(f"pkcs11:{which}{token}"), pin):
        pytest.fail("it opened")


def test_a_driver_that_is_not_there(tmp_path: Path) -> None:
    named = Token.parse(f"pkcs11:token=a?module-path={tmp_path}/none.so")
    with pytest.raises(Failed, match=r"none\.so cannot be loaded"), opened(named, "1234"):
        pytest.fail("it opened")


def test_a_uri_is_read_as_rfc_7512_has_it() -> None:
    named = Token.parse("pkcs11:token=The%20firm;object=seal;id=%01%ff;serial=0a?module-path=/usr/lib/a.so")
    assert named == Token("/usr/lib/a.so", "The firm", "0a", "seal", b"\x01\xff")


@pytest.mark.parametrize(
    ("uri", "said"),
    [
        ("", "names no token; an example is pkcs11:token="),
        ("key.p12", "names no token"),
        ("pkcs11:token=a", "name its library with module-path"),
        ("pkcs11:token=a;type=cert?module-path=/a.so", "only a private key can sign"),
        ("pkcs11:token=a;slot-id=1?module-path=/a.so", "'slot-id' is none of token, serial"),
        ("pkcs11:token=a;token=b?module-path=/a.so", "'token' stands twice"),
        ("pkcs11:token=a?module-path=/a.so&pin-value=1234", "PIN does not belong into its URI"),
        ("pkcs11:token=a?module-path=/a.so&pin-source=/a", "PIN does not belong into its URI"),
    ],
)
def test_a_uri_that_does_not_do_is_wrong_use(uri: str, said: str) -> None:
    with pytest.raises(WrongUse, match=said) as told:
        Token.parse(uri)
    assert "1234" not in str(told.value)
