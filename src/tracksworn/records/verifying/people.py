"""Whether a certificate leads to somebody who is trusted, and could be used for what it was used for (RFC 5280)."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Final

from asn1crypto import cms
from asn1crypto import x509 as asn1_x509
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import rsa
from pyhanko.pdf_utils.decode_limits import DecodePurpose
from pyhanko.sign.general import extract_certificate_info
from pyhanko_certvalidator import CertificateValidator, ValidationContext
from pyhanko_certvalidator.errors import PathBuildingError, RevokedError, ValidationError
from pyhanko_certvalidator.policy_decl import CertRevTrustPolicy, FreshnessReqType, RevocationCheckingPolicy

from tracksworn.inspection.faults import visible
from tracksworn.records.awaited import awaited
from tracksworn.records.plainly import plainly
from tracksworn.records.sealing.fitness import LEAST_RSA, named, unfit
from tracksworn.records.verifying.envelope import issued
from tracksworn.records.verifying.sealed import Sealed
from tracksworn.records.verifying.trust import Trust

WEAK: Final = ("md2", "md5", "sha1", "sha224")
STAMPING: Final = "time_stamping"
AS_FAR_AS_THE_FILE_SAYS: Final = CertRevTrustPolicy(
    RevocationCheckingPolicy.from_legacy("soft-fail"),
    freshness=timedelta(days=36525),
    freshness_req_type=FreshnessReqType.MAX_DIFF_REVOCATION_VALIDATION,
)
"""A file is asked, not the network: what it says of a revocation counts, however old, and its silence does not."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What a file carries to judge certificates by: further certificates, and revocation data."""

    certificates: tuple[Any, ...] = ()
    lists: tuple[Any, ...] = ()
    answers: tuple[Any, ...] = ()


class NotTrusted(Exception):  # noqa: N818 - named for the certificate
    """A certificate cannot be relied on; the text is a sentence that says why."""


class UnknownIssuer(NotTrusted):
    """It leads to nobody who is trusted."""


def evidence_in(sealed: Sealed) -> Evidence:
    """The certificates and revocation data of a file, which prove themselves by their issuers' signatures."""
    stores = [root["/DSS"] for root in (sealed.alone.root, sealed.reader.root) if "/DSS" in root]
    held = {key: _streams(stores, key) for key in ("/Certs", "/CRLs", "/OCSPs")}
    certificates = tuple(asn1_x509.Certificate.load(one) for one in held["/Certs"])
    return Evidence(certificates, held["/CRLs"], held["/OCSPs"])


def _streams(stores: Sequence[Any], key: str) -> tuple[bytes, ...]:
    """Of every store, so that what is appended cannot take away what was sealed."""
    listed = (one for store in stores if key in store for one in store[key])
    read = (one.get_object().read_data(DecodePurpose.CRL) for one in listed)
    return tuple(dict.fromkeys(read))


def name_of(signed: cms.SignedData) -> str:
    """Whom the certificate of a signature names, in one line."""
    try:
        return visible(named(_own(signed)))[:100]
    except Exception:  # noqa: BLE001 - what an altered certificate makes its reader raise is of no one kind
        return "somebody whose certificate cannot be read"


def unfit_for_sealing(signed: cms.SignedData, at: datetime) -> str:
    """For what a signature's certificate could not seal at that moment; empty where it could."""
    try:
        return "; ".join(unfit(_own(signed), at))
    except Exception as error:  # noqa: BLE001
        return f"its certificate cannot be read: {plainly(error)}"


def _own(signed: cms.SignedData) -> x509.Certificate:
    return x509.load_der_x509_certificate(extract_certificate_info(signed).signer_cert.dump())


def check_trusted(signed: cms.SignedData, trust: Trust, evidence: Evidence, at: datetime, purpose: str = "") -> None:
    """Raises NotTrusted unless the certificate of a signature leads to a root that is trusted, at that moment."""
    try:
        _check_trusted(signed, trust, evidence, at, purpose)
    except NotTrusted:
        raise
    except Exception as error:  # what an altered certificate makes its reader raise is of no one kind
        raise NotTrusted(f"a certificate cannot be read: {plainly(error)}") from error


def _check_trusted(signed: cms.SignedData, trust: Trust, evidence: Evidence, at: datetime, purpose: str) -> None:
    found = extract_certificate_info(signed)
    context = ValidationContext(
        trust_roots=trust.certificates,
        other_certs=[*found.other_certs, *evidence.certificates],
        moment=at,
        allow_fetching=False,
        crls=evidence.lists,
        ocsps=evidence.answers,
        revinfo_policy=AS_FAR_AS_THE_FILE_SAYS,
        weak_hash_algos=WEAK,
    )
    path = _path(found.signer_cert, context, purpose)
    own, *issuers = (x509.load_der_x509_certificate(one.dump()) for one in reversed(path))
    _check_issuers(issuers)
    _check_all_issued(found.other_certs, trust.certificates)
    if own.not_valid_before_utc > at or own.not_valid_after_utc < at:
        raise NotTrusted(f"the certificate of {named(own)} was not valid on {at:%Y-%m-%d}")


def _path(certificate: Any, context: ValidationContext, purpose: str) -> Sequence[Any]:
    """The certificates from a trusted root down to this one."""
    validator = CertificateValidator(certificate, validation_context=context)
    wanted = {purpose} if purpose else None
    try:
        checking = validator.async_validate_usage(set(), wanted)  # type: ignore[no-untyped-call]
        path = awaited(checking)
    except PathBuildingError as error:
        raise UnknownIssuer("its certificate leads to none of those that are trusted") from error
    except RevokedError as error:
        raise NotTrusted(f"a certificate was revoked on {error.revocation_dt:%Y-%m-%d}") from error
    except ValidationError as error:
        raise NotTrusted(plainly(error)) from error
    return list(path.iter_certs(include_root=True))


def _check_issuers(issuers: Iterable[x509.Certificate]) -> None:
    for one in issuers:
        if not _is_authority(one):
            raise NotTrusted(f"{named(one)} issued a certificate and is no authority that may")
        if isinstance(key := one.public_key(), rsa.RSAPublicKey) and key.key_size < LEAST_RSA:
            raise NotTrusted(f"the RSA key of {named(one)} has {key.key_size} bits; {LEAST_RSA} are the least")


def _check_all_issued(others: Iterable[Any], roots: Iterable[Any]) -> None:
    """No certificate comes with a signature, used or not, that was altered."""
    held = [x509.load_der_x509_certificate(one.dump()) for one in others]
    issuers = [*held, *(x509.load_der_x509_certificate(one.dump()) for one in roots)]
    if not all(any(issued(one, issuer) for issuer in issuers) for one in held):
        raise NotTrusted("a certificate comes with the signature that nobody who is known issued")


def _is_authority(certificate: x509.Certificate) -> bool:
    try:
        return certificate.extensions.get_extension_for_class(x509.BasicConstraints).value.ca
    except x509.ExtensionNotFound:
        return False
