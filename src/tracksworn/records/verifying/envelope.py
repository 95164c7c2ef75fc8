"""The signature itself (CMS, RFC 5652): whole, over these very bytes, and with nothing in it that nobody signed."""

import hashlib
from collections.abc import Iterable
from typing import Any, Final

from asn1crypto import cms, core, parser
from asn1crypto import x509 as asn1_x509
from cryptography import x509
from cryptography.exceptions import InvalidSignature
from pyhanko.sign.general import extract_certificate_info, extract_signer_info, find_unique_cms_attribute
from pyhanko.sign.validation.generic_cms import message_imprint_checker, validate_sig_integrity
from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature

from tracksworn.records.plainly import plainly
from tracksworn.records.verifying.sealed import Broken

DIGESTS: Final = ("sha256", "sha384", "sha512")  # FIPS 180-4
STAMP: Final = "signature_time_stamp_token"


def check_envelope(signature: EmbeddedPdfSignature) -> None:
    """Raises Broken unless the signature is whole and over the bytes that its ranges name."""
    try:
        signed = _only_content(signature.pkcs7_content)
        if signature.sig_object_type == "/Sig":
            _check(signed, signature.compute_digest(), "data")
            for token in tokens(signed):
                check_token(token, signed)
            _ = signature.self_reported_timestamp  # that it can be read, whoever asks for it later
        else:
            check_token(signed, None, signature.compute_digest())
    except Broken:
        raise
    except Exception as error:  # what damaged bytes make their readers raise is of no one kind
        raise Broken(f"its signature cannot be read: {plainly(error)}") from error


def tokens(signed: cms.SignedData) -> tuple[cms.SignedData, ...]:
    """The timestamps of a signature (RFC 3161). Raises Broken where anything else stands beside them, unsigned."""
    attributes = extract_signer_info(signed)["unsigned_attrs"]
    if attributes is core.VOID or not len(attributes):
        return ()
    if len(attributes) != 1 or attributes[0]["type"].native != STAMP or len(attributes[0]["values"]) != 1:
        raise Broken("its signature has something beside it that nobody signed")
    return (attributes[0]["values"][0]["content"],)


def check_token(token: cms.SignedData, of: cms.SignedData | None, digest: bytes | None = None) -> None:
    """Raises Broken unless a timestamp is whole, and of that signature or that digest."""
    held = token["encap_content_info"]["content"]
    _ = held.parsed["gen_time"].native  # likewise
    imprint = held.parsed["message_imprint"]
    algorithm = imprint["hash_algorithm"]["algorithm"].native
    _check_digest(algorithm)
    wanted = digest if of is None else message_imprint_checker(extract_signer_info(of))(algorithm)
    if imprint["hashed_message"].native != wanted:
        raise Broken("its timestamp is of something else")
    own = extract_signer_info(token)["digest_algorithm"]["algorithm"].native
    _check_digest(own)
    _check(token, hashlib.new(own, held.contents).digest(), "tst_info")


def _only_content(der: bytes) -> cms.SignedData:
    """The signed data of an envelope behind which nothing but noughts stands."""
    size = parser.peek(der)
    if der[size:].strip(b"\0"):
        raise Broken("something stands behind its signature")
    envelope = cms.ContentInfo.load(der[:size], strict=True)
    if envelope["content_type"].native != "signed_data":
        raise Broken("its signature is of a kind that no seal has")
    return envelope["content"]


def _check(signed: cms.SignedData, digest: bytes, kind: str) -> None:
    signer = extract_signer_info(signed)
    _check_frame(signed, signer, kind)
    _check_digest(signer["digest_algorithm"]["algorithm"].native)
    found = extract_certificate_info(signed)
    _check_certificates(found.signer_cert, found.other_certs, len(signed["certificates"]))
    intact, valid = validate_sig_integrity(signer, found.signer_cert, kind, digest)
    if not intact:
        raise Broken("its bytes are not those that were signed")
    if not valid:
        raise Broken("its signature was not made with the key of its certificate")


def _check_frame(signed: cms.SignedData, signer: cms.SignerInfo, kind: str) -> None:
    """What no signature protects says what follows from what one does, and nothing else."""
    versions = (signed["version"].native, signer["version"].native)
    wanted = ("v1" if kind == "data" else "v3", "v1")
    digests = signed["digest_algorithms"]
    inside = signed["encap_content_info"]
    is_detached = inside["content"] is core.VOID or inside["content"].native is None
    attributes = signer["signed_attrs"]
    if (
        versions != wanted
        or len(digests) != 1
        or digests[0].dump() != signer["digest_algorithm"].dump()
        or inside["content_type"].native != kind
        or is_detached is not (kind == "data")
        or signed["crls"] is not core.VOID
        or attributes is core.VOID
    ):
        raise Broken("its signature is not framed as what it signs asks for")
    _check_protected(attributes, signer)


def _check_protected(attributes: cms.CMSAttributes, signer: cms.SignerInfo) -> None:
    """Where the algorithms are signed too (RFC 6211), those beside them are the same to the byte."""
    if any(one["type"].native == "cms_algorithm_protection" for one in attributes):
        said: Any = find_unique_cms_attribute(attributes, "cms_algorithm_protection")
        if said["digest_algorithm"].dump() != signer["digest_algorithm"].dump():
            raise Broken("its signature names another digest than it was made with")
        if said["signature_algorithm"].contents != signer["signature_algorithm"].contents:
            raise Broken("its signature names another algorithm than it was made with")


def _check_digest(name: str, what: str = "its digest is") -> None:
    if name not in DIGESTS:
        raise Broken(f"{what} {name.upper()}, which is weaker than SHA-256")


def _check_certificates(own: asn1_x509.Certificate, others: Iterable[asn1_x509.Certificate], count: int) -> None:
    """Every certificate that comes with a signature leads from its signer up."""
    held = [own, *others]
    loaded = [x509.load_der_x509_certificate(one.dump()) for one in held]
    for one in loaded:
        digest = one.signature_hash_algorithm
        if digest is not None and one.issuer != one.subject:  # what a root says of itself protects nothing
            _check_digest(digest.name, "a certificate that comes with its signature was signed over")
    whole = len(held) == count and all(one["signature_value"].contents[:1] == b"\0" for one in held)  # no bit unused
    if not whole or not all(_issued_another(one, loaded) for one in loaded[1:]):
        raise Broken("a certificate comes with its signature that has nothing to do with it")


def _issued_another(issuer: x509.Certificate, all_of_them: Iterable[x509.Certificate]) -> bool:
    return any(issued(one, issuer) for one in all_of_them if one is not issuer)


def issued(one: x509.Certificate, issuer: x509.Certificate) -> bool:
    """Whether a certificate was issued by the holder of another, as its signature shows."""
    try:
        one.verify_directly_issued_by(issuer)
    except (ValueError, TypeError, InvalidSignature):
        return False
    return True
