"""What whoever runs the server may set, by environment variables that begin with BAYCARD_."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from baycard.store.door import sqlite_url

DEFAULT_FOLDER = "baycard-data"


Security = Literal["tls", "starttls", "none"]
SECURITIES: dict[str, Security] = {"tls": "tls", "starttls": "starttls", "none": "none"}


@dataclass(frozen=True, slots=True)
class Mail:
    """How reports are mailed. `security` is `tls` (from the start), `starttls` or `none`."""

    host: str
    port: int
    user: str
    password: str
    security: Security
    sender: str


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of one server.

    folder: where database and blobs lie (BAYCARD_DATA); database: its address (BAYCARD_DATABASE, SQLite in the
    folder by default); behind_proxy: trust the X-Forwarded headers of one proxy (BAYCARD_BEHIND_PROXY=1);
    mail_folder: write mails there instead of sending them (BAYCARD_MAIL_FOLDER); news_life_s: how long a listener
    for news is answered before it has to ask again; certificate: the PEM file whose end is watched, that of `serve`
    or of the proxy in front (BAYCARD_CERTIFICATE).
    """

    folder: Path
    database: str
    behind_proxy: bool = False
    mail: Mail | None = None
    mail_folder: Path | None = None
    news_life_s: float = 30.0
    certificate: Path | None = None


def settings_from(environ: Mapping[str, str], folder: Path | None = None) -> Settings:
    """Read the settings; `folder`, when given, goes before BAYCARD_DATA. Raises ValueError with a plain sentence."""
    where = folder or Path(environ.get("BAYCARD_DATA", DEFAULT_FOLDER))
    return Settings(
        folder=where,
        database=environ.get("BAYCARD_DATABASE") or sqlite_url(where),
        behind_proxy=environ.get("BAYCARD_BEHIND_PROXY") == "1",
        mail=_mail(environ),
        mail_folder=Path(environ["BAYCARD_MAIL_FOLDER"]) if environ.get("BAYCARD_MAIL_FOLDER") else None,
        certificate=Path(environ["BAYCARD_CERTIFICATE"]) if environ.get("BAYCARD_CERTIFICATE") else None,
    )


def _mail(environ: Mapping[str, str]) -> Mail | None:
    host = environ.get("BAYCARD_SMTP_HOST")
    if not host:
        return None
    wanted = environ.get("BAYCARD_SMTP_SECURITY", "starttls")
    security = SECURITIES.get(wanted)
    if security is None:
        raise ValueError(f"BAYCARD_SMTP_SECURITY is {wanted!r}; set it to tls, starttls or none.")
    port = environ.get("BAYCARD_SMTP_PORT", "465" if security == "tls" else "587")
    if not port.isdigit():
        raise ValueError(f"BAYCARD_SMTP_PORT is {port!r}; set it to a number, such as 587.")
    sender = environ.get("BAYCARD_MAIL_FROM")
    if not sender:
        raise ValueError("BAYCARD_MAIL_FROM is not set; set it to the address that reports come from.")
    return Mail(
        host,
        int(port),
        environ.get("BAYCARD_SMTP_USER", ""),
        environ.get("BAYCARD_SMTP_PASSWORD", ""),
        security,
        sender,
    )
