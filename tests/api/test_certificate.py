"""The alarm before the server's certificate runs out, with real certificates and a real server that answers by TLS."""

import http.client
import json
import os
import ssl
import subprocess
import sys
import time
from contextlib import closing
from datetime import UTC, datetime, timedelta
from ipaddress import IPv4Address
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec, rsa
from cryptography.x509.oid import NameOID

from baycard.web.certificate import ALARM_DAYS, DAY_MS, CertificateWatch, ends_at
from tests.support.server import free_port, furnish

NOW = datetime(2026, 11, 20, 9, 14, tzinfo=UTC)
START_S = 60.0
Key = ec.EllipticCurvePrivateKey | rsa.RSAPrivateKey


def certificate(key: Key, ends: datetime) -> bytes:
    """A certificate of 127.0.0.1, signed by itself, in PEM form."""
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Tern Street Garage")])
    begins = min(datetime.now(UTC), ends) - timedelta(days=400)
    made = x509.CertificateBuilder(name, name, key.public_key(), x509.random_serial_number(), begins, ends)
    made = made.add_extension(x509.SubjectAlternativeName([x509.IPAddress(IPv4Address("127.0.0.1"))]), critical=False)
    return made.sign(key, hashes.SHA256()).public_bytes(serialization.Encoding.PEM)


def new_key() -> ec.EllipticCurvePrivateKey:
    return ec.generate_private_key(ec.SECP256R1())


@pytest.mark.parametrize("year", [2026, 2049, 2050, 2071])
@pytest.mark.parametrize("kind", ["ec", "rsa"])
def test_the_end_of_a_certificate_is_read_from_its_file(tmp_path: Path, kind: str, year: int) -> None:
    key: Key = new_key() if kind == "ec" else rsa.generate_private_key(65_537, 2_048)
    ends = datetime(year, 12, 24, 18, 30, 15, tzinfo=UTC)
    (tmp_path / "cert.pem").write_bytes(b"Bag Attributes: none\n" + certificate(key, ends))
    assert ends_at(tmp_path / "cert.pem") == ends


def test_of_a_chain_the_first_to_run_out_counts(tmp_path: Path) -> None:
    chain = certificate(new_key(), NOW + timedelta(days=300)) + certificate(new_key(), NOW + timedelta(days=40))
    (tmp_path / "chain.pem").write_bytes(chain)
    assert ends_at(tmp_path / "chain.pem") == NOW + timedelta(days=40)


def test_a_file_that_holds_no_certificate_is_told_plainly(tmp_path: Path) -> None:
    pem = certificate(new_key(), NOW)
    for spoilt in (b"", b"\x00\xff", pem[: len(pem) // 2], pem.replace(b"MII", b"AAA", 1)):
        (tmp_path / "cert.pem").write_bytes(spoilt)
        with pytest.raises(ValueError, match="name a file in PEM form"):
            ends_at(tmp_path / "cert.pem")


def test_the_alarm_begins_thirty_days_before_and_is_logged_once_a_day(caplog: pytest.LogCaptureFixture) -> None:
    clock = {"ms": int(NOW.timestamp() * 1000)}
    watch = CertificateWatch(NOW + timedelta(days=ALARM_DAYS + 1), lambda: clock["ms"])
    assert (watch.alarm(), caplog.messages) == (None, [])
    clock["ms"] += 2 * DAY_MS
    assert [watch.alarm(), watch.alarm()] == [ALARM_DAYS - 1, ALARM_DAYS - 1]
    assert len(caplog.messages) == 1
    assert "2026-12-21 09:14 UTC" in caplog.messages[0]
    clock["ms"] += 40 * DAY_MS
    assert watch.alarm() == -11
    assert "ran out on 2026-12-21" in caplog.messages[1]
    assert CertificateWatch(None, lambda: clock["ms"]).alarm() is None


def test_a_server_whose_certificate_ends_soon_tells_the_log_at_its_start_and_whoever_asks(tmp_path: Path) -> None:
    key, ends = new_key(), datetime.now(UTC) + timedelta(days=12, hours=1)
    pem, private = tmp_path / "cert.pem", tmp_path / "key.pem"
    pem.write_bytes(certificate(key, ends))
    private.write_bytes(
        key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    )
    furnish(tmp_path)
    port, log = free_port(), tmp_path / "server.log"
    command = [sys.executable, "-m", "baycard", "serve", "--port", str(port), "--data", str(tmp_path)]
    command += ["--certificate", str(pem), "--key", str(private)]
    with log.open("wb") as out:
        server = subprocess.Popen(command, stdout=out, stderr=out, cwd=Path(__file__).parents[2], env=dict(os.environ))
    try:
        assert _ping(port, pem, server, log)["certificate_days"] == 12
        assert f"The certificate runs out on {ends:%Y-%m-%d %H:%M} UTC (days left: 12)." in log.read_text()
    finally:
        server.terminate()
        server.wait(timeout=20)


def _ping(port: int, trusted: Path, server: subprocess.Popen[bytes], log: Path) -> dict[str, object]:
    """What the server says to somebody who trusts its certificate, as soon as it answers."""
    deadline = time.monotonic() + START_S
    while True:
        context = ssl.create_default_context(cafile=str(trusted))
        try:
            with closing(http.client.HTTPSConnection("127.0.0.1", port, timeout=10, context=context)) as connection:
                connection.request("GET", "/api/ping")
                said: dict[str, object] = json.loads(connection.getresponse().read())
                return said
        except ConnectionError:
            assert server.poll() is None and time.monotonic() < deadline, log.read_text()
            time.sleep(0.05)
