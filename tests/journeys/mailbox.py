"""The customer's mailbox: what the mail server on the loopback took in."""

from email import message_from_bytes, policy
from email.message import EmailMessage

from aiosmtpd.smtp import SMTP, Envelope, Session


class Mailbox:
    """Takes every message and keeps it, parsed."""

    def __init__(self) -> None:
        self.port = 0
        self.messages: list[EmailMessage] = []

    async def handle_DATA(self, server: SMTP, session: Session, envelope: Envelope) -> str:
        """One message has arrived."""
        content = envelope.content
        assert isinstance(content, bytes)
        parsed = message_from_bytes(content, policy=policy.default)
        assert isinstance(parsed, EmailMessage)
        self.messages.append(parsed)
        return "250 kept"

    def pdf_of(self, number: int) -> bytes:
        """The report attached to one message."""
        attachment = next(part for part in self.messages[number].iter_attachments())
        assert attachment.get_content_type() == "application/pdf"
        content = attachment.get_payload(decode=True)
        assert isinstance(content, bytes)
        return content
