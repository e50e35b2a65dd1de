"""When the server's certificate runs out: read from its file (X.509, RFC 5280 section 4.1) and told in good time."""

import binascii
import logging
import math
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

DAY_MS = 86_400_000
# Long enough to get another from somebody who does this once a year; one that renews itself does so about then too.
ALARM_DAYS = 30
PEM = re.compile(r"-----BEGIN CERTIFICATE-----([A-Za-z0-9+/=\s]+)-----END CERTIFICATE-----")
SEQUENCE, UTC_TIME, GENERAL_TIME, VERSION = 0x30, 0x17, 0x18, 0xA0
FORMS = {UTC_TIME: "%y%m%d%H%M%SZ", GENERAL_TIME: "%Y%m%d%H%M%SZ"}
TURN_OF_CENTURY = 2050  # two digits of a year mean 1950 to 2049

log = logging.getLogger("baycard")


def ends_at(path: Path) -> datetime:
    """When the first of the certificates in a PEM file runs out. Raises ValueError with a plain sentence."""
    try:
        blocks = PEM.findall(path.read_text(encoding="ascii", errors="replace"))
        return min(_ends_at(binascii.a2b_base64(block)) for block in blocks)
    except (ValueError, IndexError, StopIteration, KeyError) as error:
        raise ValueError(f"{path} holds no certificate that can be read: name a file in PEM form.") from error


def _ends_at(der: bytes) -> datetime:
    certificate = _inside(der, SEQUENCE)
    parts = _items(_inside(certificate, SEQUENCE))
    tag, _ = next(parts)
    for _ in range(4 if tag == VERSION else 3):  # serial number, signature, issuer, and the validity is next
        _, content = next(parts)
    _, (tag, text) = _items(content)
    moment = datetime.strptime(text.decode("ascii"), FORMS[tag]).replace(tzinfo=UTC)
    if tag == UTC_TIME and moment.year >= TURN_OF_CENTURY:
        return moment.replace(year=moment.year - 100)
    return moment


def _inside(der: bytes, wanted: int) -> bytes:
    tag, content = next(_items(der))
    if tag != wanted:
        raise ValueError(f"tag {wanted} expected")
    return content


def _items(der: bytes) -> Iterator[tuple[int, bytes]]:
    """Tag and content of each item in turn."""
    at = 0
    while at < len(der):
        tag, length, at = der[at], der[at + 1], at + 2
        if length & 0x80:
            size = length & 0x7F
            length, at = int.from_bytes(der[at : at + size], "big"), at + size
        if at + length > len(der):
            raise ValueError("cut short")
        yield tag, der[at : at + length]
        at += length


@dataclass(slots=True)
class CertificateWatch:
    """Knows when the certificate that is served runs out; says so in the server's log once a day from 30 days before.

    ends: of the certificate as it was when the server started, None without one. A new file takes a new start.
    """

    ends: datetime | None
    now_ms: Callable[[], int]
    _said_on: int | None = None

    def alarm(self) -> int | None:
        """Days left, rounded down, when they are at most 30; None when there is nothing to say yet."""
        if self.ends is None:
            return None
        now_ms = self.now_ms()
        days = math.floor((self.ends.timestamp() * 1000 - now_ms) / DAY_MS)
        if days > ALARM_DAYS:
            return None
        if self._said_on != now_ms // DAY_MS:
            self._said_on = now_ms // DAY_MS
            log.warning("%s", words(self.ends, days))
        return days


def words(ends: datetime, days: int) -> str:
    """What whoever runs the server is told."""
    when = f"runs out on {ends:%Y-%m-%d %H:%M} UTC (days left: {days})" if days >= 0 else f"ran out on {ends:%Y-%m-%d}"
    return (
        f"The certificate {when}. Without a valid one no phone sends anything: "
        "put a new one in its place and start the server again."
    )
