"""Promises of the mail that carries a report."""

import re
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from aiosmtpd.controller import Controller

from baycard.report.mail import (
    ATTACHMENT_BYTES_MAX,
    MailRefusal,
    ReportMail,
    file_name,
    is_address,
    plain_summary,
    report_message,
)
from baycard.report.page import assemble
from baycard.report.shapes import NotArrived, Page
from baycard.report.transport import MailFolder, Smtp, send_report
from baycard.report.words import Words
from tests.support.frozen_cards import pickup_repaired, seed_book

PDF = b"%PDF-1.7 a small one"


class Mailbox:
    """A mail server that keeps what it is given, and refuses one address."""

    def __init__(self) -> None:
        self.kept: list[tuple[str, list[str], bytes]] = []

    async def handle_RCPT(self, server: Any, session: Any, envelope: Any, address: str, options: Any) -> str:
        if address.startswith("nobody@"):
            return "550 no such mailbox"
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server: Any, session: Any, envelope: Any) -> str:
        self.kept.append((envelope.mail_from, envelope.rcpt_tos, envelope.content))
        return "250 OK"


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    return port


@contextmanager
def mail_server() -> Iterator[tuple[Mailbox, Smtp]]:
    box = Mailbox()
    port = free_port()
    controller = Controller(box, hostname="127.0.0.1", port=port)
    controller.start()
    try:
        yield box, Smtp("127.0.0.1", port, tls="none", timeout_s=5)
    finally:
        controller.stop()


@pytest.fixture(scope="module")
def page() -> Page:
    return assemble(pickup_repaired(), seed_book(), Words(), lambda sha256: None)


def mail(page: Page, **other: Any) -> ReportMail:
    sent_at = datetime(2026, 11, 20, 12, 0, tzinfo=UTC)
    made = ReportMail(
        "desk@tern.example", "Tern Street Garage", "ellis@mail.example", page, PDF, "<r1@tern.example>", sent_at
    )
    return replace(made, **other)


def message(page: Page, **other: Any) -> EmailMessage:
    made = report_message(mail(page, **other))
    assert isinstance(made, EmailMessage), made
    return made


def test_a_mail_arrives_with_page_one_as_text_and_the_pdf_attached(page: Page) -> None:
    with mail_server() as (box, smtp):
        assert send_report(message(page), smtp) is None
    (sender, to, content) = box.kept[0]
    arrived = message_from_bytes(content, policy=default)
    assert (sender, to) == ("desk@tern.example", ["ellis@mail.example"])
    assert arrived["Subject"] == "Report on RDG 5088, revision 2"
    text = arrived.get_body(("plain",)).get_content()  # type: ignore[union-attr]
    assert "Yes, but only like this:" in text
    assert "Not over 60 mph" in text
    (attached,) = arrived.iter_attachments()
    assert attached.get_filename() == "report-RDG-5088-2.pdf"
    assert attached.get_content() == PDF


def html_of(made: EmailMessage) -> str:
    body = made.get_body(("html",))
    assert body is not None
    text: str = body.get_content()
    return text


def test_the_html_part_says_what_page_one_says_and_fetches_nothing(page: Page) -> None:
    made = message(page)
    shown = html_of(made)
    words = " ".join(re.sub(r"<[^>]+>", " ", unescape(shown)).split())
    for line in [page.drive.answer, page.drive.restrictions, page.drive.look_again, page.signed]:
        assert line in words
    for finding in (*page.must, *page.can_wait, *page.done):
        assert finding.title in words
    for complaint in page.complaints:
        assert complaint.words in words
    assert not re.search(r"(?i)\bsrc=|href=|url\(|<script|<link|@import|https?:", shown)
    assert made.get_content_type() == "multipart/mixed"


def test_words_from_outside_are_text_in_the_html_part(page: Page) -> None:
    drive = replace(page.drive, words="<b onclick=x>press</b> & see")
    shown = html_of(message(replace(page, drive=drive)))
    assert "&lt;b onclick=x&gt;press&lt;/b&gt; &amp; see" in shown


def test_words_that_run_right_to_left_are_marked_so_in_the_html_part(page: Page) -> None:
    drive = replace(page.drive, words="لا تقد السيارة")
    assert '<span dir="rtl">لا تقد السيارة</span>' in html_of(message(replace(page, drive=drive)))


def test_photos_that_had_not_arrived_are_told_in_both_parts(page: Page) -> None:
    told = replace(page, not_arrived=NotArrived("2 photos or sounds had not arrived.", (), "The phone is lost."))
    assert "2 photos or sounds had not arrived. Why: The phone is lost." in plain_summary(told, Words())
    assert "The phone is lost." in html_of(message(told))


def test_the_subject_names_the_plate_and_nobody(page: Page) -> None:
    assert "Ellis" not in message(page)["Subject"]
    assert "Halden" not in message(page)["Subject"]
    assert message(replace(page, revision=1))["Subject"] == "Report on RDG 5088"


def test_an_address_the_server_does_not_know_comes_back_as_an_answer(page: Page) -> None:
    with mail_server() as (box, smtp):
        answer = send_report(message(page, to="nobody@mail.example"), smtp)
    assert isinstance(answer, MailRefusal)
    assert answer.code == "address-refused"
    assert box.kept == []


def test_a_server_that_is_gone_comes_back_as_an_answer(page: Page) -> None:
    with mail_server() as (_, smtp):
        gone = smtp
    answer = send_report(message(page), gone)
    assert isinstance(answer, MailRefusal)
    assert answer.code == "mail-server"
    assert "Try again" in answer.do


def test_a_server_without_encryption_is_not_sent_a_report_that_asked_for_it(page: Page) -> None:
    with mail_server() as (box, smtp):
        answer = send_report(message(page), replace(smtp, tls="starttls"))
    assert isinstance(answer, MailRefusal)
    assert box.kept == []


@pytest.mark.parametrize(
    "address",
    ["a@b.example\r\nBcc: x@y.example", "a@b.example, c@d.example", "two words@b.example", "a@b", "", "@b.example",
     "a" * 250 + "@b.example", "A <a@b.example>", "a@b..example", "a@b.example\n", "ä@b.example"],
)  # fmt: skip
def test_what_is_not_exactly_one_address_gets_no_mail(page: Page, address: str) -> None:
    assert not is_address(address)
    answer = report_message(mail(page, to=address))
    assert isinstance(answer, MailRefusal)
    assert answer.code == "bad-address"


@pytest.mark.parametrize("name", ["Tern\r\nBcc: x@y.example", "Tern\nStreet", "Tern\u2028Street", "Tern\0"])
def test_a_line_break_in_the_senders_name_makes_no_mail(page: Page, name: str) -> None:
    answer = report_message(mail(page, sender_name=name))
    assert isinstance(answer, MailRefusal)
    assert answer.code == "bad-header"


def test_a_line_break_in_the_plate_makes_no_mail(page: Page) -> None:
    torn = replace(page, vehicle=replace(page.vehicle, plate="X\r\nBcc: x@y.example"))
    assert isinstance(report_message(mail(torn)), MailRefusal)


def test_a_quote_in_the_senders_name_cannot_end_the_name(page: Page) -> None:
    made = message(page, sender_name='Tern" <evil@x.example>, "Y')
    (address,) = made["From"].addresses
    assert address.addr_spec == "desk@tern.example"


def test_a_report_too_large_for_mailboxes_is_not_mailed(page: Page) -> None:
    answer = report_message(mail(page, pdf=b"x" * (ATTACHMENT_BYTES_MAX + 1)))
    assert isinstance(answer, MailRefusal)
    assert answer.code == "too-large"


def test_a_foreign_plate_makes_a_readable_file_name(page: Page) -> None:
    foreign = replace(page, vehicle=replace(page.vehicle, plate="Жд 12/京 ../x"))
    name = file_name(foreign, Words())
    assert "/" not in name
    assert "Жд-12-京" in name
    content = message_from_bytes(message(foreign).as_bytes(), policy=default)
    (attached,) = content.iter_attachments()
    assert attached.get_filename() == name


def test_the_folder_gets_an_eml_that_reads_back(page: Page, tmp_path: Path) -> None:
    folder = MailFolder(tmp_path / "mails")
    assert send_report(message(page), folder) is None
    (written,) = (tmp_path / "mails").iterdir()
    assert written.suffix == ".eml"
    arrived = message_from_bytes(written.read_bytes(), policy=default)
    assert arrived["To"] == "ellis@mail.example"


def test_a_refused_message_is_sent_nowhere(page: Page, tmp_path: Path) -> None:
    folder = MailFolder(tmp_path / "mails")
    assert send_report(report_message(mail(page, to="nobody")), folder) is not None
    assert not (tmp_path / "mails").exists()


def test_the_plain_text_never_calls_a_vehicle_safe(page: Page) -> None:
    text = plain_summary(page, Words())
    assert "safe" not in text.lower()
    assert "not a statutory roadworthiness test" in text
