"""Certificates made for a test: one who vouches, and a broker's, for a name of this machine."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

YEAR = timedelta(days=365)


class Voucher:
    """Who vouches for certificates. `file` is its own, for whoever trusts it."""

    def __init__(self, folder: Path, name: str) -> None:
        self._folder, self._key = folder, ec.generate_private_key(ec.SECP256R1())
        self._name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
        made = self._certificate(self._name, self._key.public_key(), YEAR)
        made = made.add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        made = made.add_extension(x509.KeyUsage(*(True, *[False] * 4, True, True, False, False)), critical=True)
        made = made.add_extension(x509.SubjectKeyIdentifier.from_public_key(self._key.public_key()), critical=False)
        self.file = folder / f"{name}.pem"
        self.file.write_bytes(made.sign(self._key, hashes.SHA256()).public_bytes(serialization.Encoding.PEM))

    def vouch_for(self, host: str, lasts: timedelta = YEAR) -> tuple[Path, Path]:
        """The files of a certificate for a host's name, and of its key."""
        key = ec.generate_private_key(ec.SECP256R1())
        subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, host)])
        made = self._certificate(subject, key.public_key(), lasts)
        made = made.add_extension(x509.SubjectAlternativeName([x509.DNSName(host)]), critical=False)
        issuer = x509.AuthorityKeyIdentifier.from_issuer_public_key(self._key.public_key())
        made = made.add_extension(issuer, critical=False)
        certificate, secret = self._folder / f"{host}.pem", self._folder / f"{host}.key"
        certificate.write_bytes(made.sign(self._key, hashes.SHA256()).public_bytes(serialization.Encoding.PEM))
        form = (serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
        secret.write_bytes(key.private_bytes(*form))
        return certificate, secret

    def _certificate(
        self, subject: x509.Name, key: ec.EllipticCurvePublicKey, lasts: timedelta
    ) -> x509.CertificateBuilder:
        now = datetime.now(UTC)
        made = x509.CertificateBuilder(self._name, subject, key, x509.random_serial_number())
        return made.not_valid_before(now - YEAR).not_valid_after(now + lasts)
