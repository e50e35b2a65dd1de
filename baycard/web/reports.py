"""Renders each signed revision once, keeps the PDF, and mails it so that asking again does not mail again."""

import hashlib
import json
from datetime import UTC, datetime, timedelta
from functools import cached_property
from threading import Lock
from typing import Literal

from baycard.checklists.from_json import book_from_json
from baycard.checklists.types import Book
from baycard.report.mail import MailRefusal, ReportMail, is_address, report_message
from baycard.report.transport import MailFolder, Smtp, Transport, send_report
from baycard.settings import Settings
from baycard.store.blob_folder import write_whole
from baycard.store.door import Store
from baycard.store.revisions import Mailing, mail_state, note_mail
from baycard.store.values import Revision
from baycard.web.frozen_card import Signed

RENDER_WAIT_S = 60.0
MAIL_LOST_AFTER = timedelta(minutes=10)
NO_SENDER = "baycard@localhost.localdomain"

Sent = Literal["sent", "no-mail", "bad-address", "mail-underway", "server-busy"] | MailRefusal


class Reports:
    """The reports of one server. One is rendered at a time: it takes a processor for a second or two."""

    def __init__(self, settings: Settings, store: Store, book_text: bytes) -> None:
        self._settings = settings
        self._store = store
        self._book_text = book_text
        self._rendering = Lock()

    @cached_property
    def _book(self) -> Book:
        return book_from_json(json.loads(self._book_text))

    def pdf(self, signed: Signed) -> bytes | None:
        """The PDF of a revision, rendered if nobody asked before; None when too many others wait."""
        made = signed.revision
        path = self._settings.folder / "reports" / made.workshop / made.card / f"{made.revision}.pdf"
        if path.is_file():
            return path.read_bytes()
        if not self._rendering.acquire(timeout=RENDER_WAIT_S):
            return None
        try:
            if not path.is_file():
                write_whole(path, self._render(signed))
        finally:
            self._rendering.release()
        return path.read_bytes()

    def send(self, signed: Signed, to: str, now: datetime) -> Sent:
        """Mail a revision to one address, unless it went there before."""
        transport = self._transport()
        if transport is None:
            return "no-mail"
        if not is_address(to):
            return "bad-address"
        pdf = self.pdf(signed)
        if pdf is None:
            return "server-busy"
        earlier = self._claim(signed.revision, to, now)
        if earlier is not None:
            return earlier
        message = report_message(self._mail(signed, to, pdf, now))
        refusal = send_report(message, transport)
        self._note(signed.revision, to, "failed" if refusal else "sent", now)
        return refusal or "sent"

    def _claim(self, made: Revision, to: str, now: datetime) -> Literal["sent", "mail-underway"] | None:
        with self._store.write() as tx:
            found = mail_state(tx, made, to)
            if found and found[0] == "sent":
                return "sent"
            # A line that waits longer was left by a server that was killed; its Message-ID tells a repeat.
            if found and found[0] == "waiting" and now - datetime.fromisoformat(found[1]) < MAIL_LOST_AFTER:
                return "mail-underway"
            note_mail(tx, made, to, "waiting", now.isoformat())
        return None

    def _note(self, made: Revision, to: str, state: Mailing, now: datetime) -> None:
        with self._store.write() as tx:
            note_mail(tx, made, to, state, now.isoformat())

    def _mail(self, signed: Signed, to: str, pdf: bytes, now: datetime) -> ReportMail:
        from baycard.report.language import words_for  # noqa: PLC0415  # loaded when the first report is wanted
        from baycard.report.page import assemble  # noqa: PLC0415  # the same

        made = signed.revision
        sender = self._settings.mail.sender if self._settings.mail else NO_SENDER
        name = hashlib.sha256(f"{made.card} {made.revision} {made.sha256} {to}".encode()).hexdigest()[:32]
        return ReportMail(
            sender=sender,
            sender_name=signed.card.workshop,
            to=to,
            page=assemble(signed.card, self._book, words_for(signed.card), lambda sha256: None),
            pdf=pdf,
            message_id=f"<{name}@{sender.rpartition('@')[2]}>",
            sent_at=now.astimezone(UTC),
        )

    def _transport(self) -> Transport | None:
        mail = self._settings.mail
        if self._settings.mail_folder is not None:
            return MailFolder(self._settings.mail_folder)
        return Smtp(mail.host, mail.port, mail.security, mail.user, mail.password) if mail else None

    def _render(self, signed: Signed) -> bytes:
        from baycard.report.pdf import render_pdf  # noqa: PLC0415  # the typesetter takes half a second to load

        return render_pdf(signed.card, self._book)
