"""Keys on a token or card (PKCS#11), named by a URI (RFC 7512)."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Final
from urllib.parse import unquote_to_bytes

from tracksworn.inspection.faults import Failed, WrongUse, visible
from tracksworn.records.sealing.signer import Signer, UnusableKey

EXAMPLE: Final = "pkcs11:token=NAME;object=KEY?module-path=/usr/lib/softhsm/libsofthsm2.so"
_PATH: Final = ("token", "serial", "object", "id", "type")
_QUERY: Final = ("module-path",)
_SECRETS: Final = ("pin-value", "pin-source")


@dataclass(frozen=True, slots=True)
class Token:
    """Where a key lies: the driver's library, which token it drives, and which of the keys on it."""

    module: str
    token: str | None = None
    serial: str | None = None
    label: str | None = None
    identifier: bytes | None = None

    @classmethod
    def parse(cls, uri: str) -> "Token":
        """What a URI names. Raises WrongUse for what is none, leaves out the module, or holds a secret."""
        scheme, _, rest = uri.partition(":")
        if scheme != "pkcs11":
            raise WrongUse(f"{visible(uri)!r} names no token; an example is {EXAMPLE}")
        path, _, query = rest.partition("?")
        said = {**_attributes(path, ";", _PATH), **_attributes(query, "&", _QUERY)}
        if "module-path" not in said:
            raise WrongUse(f"which driver is this token's? name its library with module-path, as in {EXAMPLE}")
        if said.get("type", b"private") != b"private":
            raise WrongUse("only a private key can sign: leave `type` out of the token's URI, or write type=private")
        texts = {name: value.decode("utf-8", "replace") for name, value in said.items()}
        return cls(texts["module-path"], texts.get("token"), texts.get("serial"), texts.get("object"), said.get("id"))


def _attributes(text: str, between: str, known: tuple[str, ...]) -> Mapping[str, bytes]:
    said: dict[str, bytes] = {}
    for part in filter(None, text.split(between)):
        name, _, value = part.partition("=")
        if name in _SECRETS:
            raise WrongUse(
                f"a token's PIN does not belong into its URI ({name}): others can read what is on a command line; it "
                "is asked for, or read from TRACKSWORN_KEY_PASSWORD or --password-fd"
            )
        if name not in known or name in said:
            twice = "stands twice" if name in said else f"is none of {', '.join(known)}"
            raise WrongUse(f"in the token's URI, {visible(name)!r} {twice}")
        said[name] = unquote_to_bytes(value)
    return said


@contextmanager
def opened(token: Token, pin: str) -> Iterator[Signer]:
    """The signer on a token, as long as its session is open.

    Raises Failed where driver or token are not there, UnusableKey for a wrong PIN and where the token holds no such
    key with its certificate.
    """
    import pkcs11  # noqa: PLC0415 - a driver is loaded only where one is asked for

    found = _found(token)
    try:
        session = found.open(user_pin=pin)
    except (pkcs11.PinIncorrect, pkcs11.PinInvalid, pkcs11.PinLenRange) as error:
        raise UnusableKey(
            f"the PIN is wrong for the token {found.label!r}; it locks itself after a few wrong ones"
        ) from error
    except pkcs11.PinLocked as error:
        raise UnusableKey(
            f"the token {found.label!r} has locked itself after wrong PINs; its own tool unlocks it"
        ) from error
    except pkcs11.PKCS11Error as error:
        raise Failed(f"the token {found.label!r} cannot be opened: {_name(error)}") from error
    with session:
        try:
            yield _signer(session, found, token)
        except pkcs11.PKCS11Error as error:
            raise Failed(f"the token {found.label!r} does not sign: {_name(error)}; nothing is sealed") from error


def _found(token: Token) -> Any:
    import pkcs11  # noqa: PLC0415

    try:
        there = list(pkcs11.lib(token.module).get_tokens())
    except (pkcs11.PKCS11Error, RuntimeError, OSError) as error:
        raise Failed(f"the token's driver {visible(token.module)} cannot be loaded: {_name(error)}") from error
    wanted = [one for one in there if _is(one, token)]
    if len(wanted) == 1:
        return wanted[0]
    labels = ", ".join(sorted(repr(one.label) for one in there if one.label)) or "none"
    said = "no such token is there" if not wanted else "several tokens answer to that; name one with token= or serial="
    raise Failed(f"{said} (there: {labels})")


def _is(there: Any, token: Token) -> bool:
    serial = there.serial.decode("ascii", "replace") if isinstance(there.serial, bytes) else str(there.serial)
    return token.token in (None, there.label) and token.serial in (None, serial.strip())


def _signer(session: Any, found: Any, token: Token) -> Signer:
    from pkcs11 import Attribute, ObjectClass  # noqa: PLC0415
    from pyhanko.sign.pkcs11 import PKCS11Signer  # noqa: PLC0415

    key = _only(session, ObjectClass.PRIVATE_KEY, token.label, token.identifier, "private key")
    identifier = bytes(key[Attribute.ID])
    certificate = bytes(
        _only(session, ObjectClass.CERTIFICATE, None, identifier, "certificate of that key")[Attribute.VALUE]
    )
    every = session.get_objects({Attribute.CLASS: ObjectClass.CERTIFICATE})
    chain = tuple(one for one in (bytes(each[Attribute.VALUE]) for each in every) if one != certificate)
    private = PKCS11Signer(
        session,
        cert_id=identifier,
        key_id=identifier,
        other_certs_to_pull=None,
        use_raw_mechanism=_hashing(key) not in found.slot.get_mechanisms(),
    )
    return Signer(certificate, chain, private)


def _hashing(key: Any) -> Any:
    """The mechanism that digests as well as signs; some tokens leave the digest to whoever calls them."""
    from pkcs11 import KeyType, Mechanism  # noqa: PLC0415

    return Mechanism.ECDSA_SHA256 if key.key_type == KeyType.EC else Mechanism.SHA256_RSA_PKCS


def _only(session: Any, kind: Any, label: str | None, identifier: bytes | None, what: str) -> Any:
    from pkcs11 import Attribute  # noqa: PLC0415

    asked = {Attribute.CLASS: kind, Attribute.LABEL: label, Attribute.ID: identifier}
    found = list(session.get_objects({name: value for name, value in asked.items() if value is not None}))
    if len(found) == 1:
        return found[0]
    if not found:
        raise UnusableKey(f"there is no {what} on this token; key and certificate share an id there")
    raise UnusableKey(f"this token has more than one {what}; name one with object= or id=")


def _name(error: BaseException) -> str:
    return str(error) or type(error).__name__
