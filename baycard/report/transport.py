"""Ways out for a mail: a mail server, or a folder for trying things out."""

import re
import smtplib
import ssl
from dataclasses import dataclass
from email.message import EmailMessage
from pathlib import Path
from typing import Literal, Protocol

from baycard.report.mail import MailRefusal


class Transport(Protocol):
    """Takes a message to where it goes."""

    def carry(self, message: EmailMessage) -> MailRefusal | None:
        """None when the message was taken over, else why not."""


@dataclass(frozen=True, slots=True)
class Smtp:
    """A mail server. tls: `starttls` (usual, port 587), `tls` (port 465), or `none` for a relay on the same machine."""

    host: str
    port: int = 587
    tls: Literal["starttls", "tls", "none"] = "starttls"
    user: str = ""
    password: str = ""
    timeout_s: float = 20.0

    def carry(self, message: EmailMessage) -> MailRefusal | None:
        """Hand the message to the server; a failure of the wire or a refusal of the server comes back as a value."""
        try:
            with self._open() as server:
                if self.tls == "starttls":
                    server.starttls(context=ssl.create_default_context())
                if self.user:
                    server.login(self.user, self.password)
                server.send_message(message)
        except smtplib.SMTPRecipientsRefused:
            return MailRefusal("address-refused", "The mail server does not take this address.", "Check the address.")
        except smtplib.SMTPAuthenticationError:
            do = "Ask the owner to check user and password of the mail account."
            return MailRefusal("mail-sign-in", "The mail server refused the workshop's account.", do)
        except (smtplib.SMTPException, OSError) as error:
            do = "Try again in a few minutes; the report is kept and can also be downloaded."
            return MailRefusal("mail-server", f"The mail server could not be used ({type(error).__name__}).", do)
        return None

    def _open(self) -> smtplib.SMTP:
        if self.tls == "tls":
            context = ssl.create_default_context()
            return smtplib.SMTP_SSL(self.host, self.port, timeout=self.timeout_s, context=context)
        return smtplib.SMTP(self.host, self.port, timeout=self.timeout_s)


@dataclass(frozen=True, slots=True)
class MailFolder:
    """Writes each mail as an .eml file that a mail program opens; nothing leaves the machine."""

    path: Path

    def carry(self, message: EmailMessage) -> MailRefusal | None:
        """Write the message under its Message-ID."""
        self.path.mkdir(parents=True, exist_ok=True)
        name = re.sub(r"[^A-Za-z0-9-]+", "-", str(message["Message-ID"])).strip("-") or "mail"
        (self.path / f"{name}.eml").write_bytes(message.as_bytes())
        return None


def send_report(message: EmailMessage | MailRefusal, transport: Transport) -> MailRefusal | None:
    """Send a message to its one recipient; None when it was taken over."""
    return message if isinstance(message, MailRefusal) else transport.carry(message)
