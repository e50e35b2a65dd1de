"""The mail that carries a report: one recipient, page one as plain text and as HTML, the PDF attached."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from email.message import EmailMessage
from email.policy import SMTP

from baycard.report.html import mail_html
from baycard.report.shapes import FindingView, Missed, Page
from baycard.report.telling import grade_in_text
from baycard.report.words import Words

ADDRESS_MAX = 254
ADDRESS = re.compile(r"[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]{1,64}@[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)+")
ATTACHMENT_BYTES_MAX = 7_000_000
UNFIT_FOR_A_NAME = re.compile(r"[^\w.-]+")


@dataclass(frozen=True, slots=True)
class MailRefusal:
    """Why a mail is not made or was not taken, and what the person can do."""

    code: str
    title: str
    do: str


BAD_ADDRESS = MailRefusal(
    "bad-address", "This is not one e-mail address.", "Write a single address, such as name@example.org."
)
BAD_HEADER = MailRefusal(
    "bad-header", "A line break is hidden in the sender's or the vehicle's name.", "Take it out and send again."
)
TOO_LARGE = MailRefusal(
    "too-large",
    "The report is too large for most mailboxes.",
    "Hand over the PDF in another way; it can be downloaded.",
)


@dataclass(frozen=True, slots=True)
class ReportMail:
    """What a mail is made of. `message_id` stays the same when it is sent again, so that repeats can be told."""

    sender: str
    sender_name: str
    to: str
    page: Page
    pdf: bytes
    message_id: str
    sent_at: datetime


def is_address(text: str) -> bool:
    """Whether the text is exactly one plain e-mail address."""
    return len(text) <= ADDRESS_MAX and ADDRESS.fullmatch(text) is not None and ".." not in text


def report_message(mail: ReportMail, words: Words | None = None) -> EmailMessage | MailRefusal:
    """The message, or why it must not be made."""
    spoken = words or Words(mail.page.language)
    if not is_address(mail.to) or not is_address(mail.sender):
        return BAD_ADDRESS
    if len(mail.pdf) > ATTACHMENT_BYTES_MAX:
        return TOO_LARGE
    plate = mail.page.vehicle.plate
    if _breaks_a_line(mail.sender_name, plate, mail.message_id):
        return BAD_HEADER
    message = EmailMessage(policy=SMTP)
    message["From"] = f'"{_quoted(mail.sender_name)}" <{mail.sender}>'
    message["To"] = mail.to
    message["Subject"] = _subject(mail.page, spoken)
    message["Date"] = mail.sent_at
    message["Message-ID"] = mail.message_id
    message["Auto-Submitted"] = "auto-generated"
    message.set_content(plain_summary(mail.page, spoken))
    message.add_alternative(mail_html(mail.page, spoken), subtype="html")
    message.add_attachment(mail.pdf, maintype="application", subtype="pdf", filename=file_name(mail.page, spoken))
    return message


def _subject(page: Page, words: Words) -> str:
    """The plate and nobody's name; from the second revision on its number, so that two mails can be told apart."""
    said = words.say("Report on %(what)s", what=page.vehicle.plate or words.say("your vehicle"))
    return said if page.revision == 1 else f"{said}, {words.say('revision %(n)s', n=page.revision)}"


def _breaks_a_line(*parts: str) -> bool:
    return any(len(part.splitlines()) > 1 or part.endswith(("\r", "\n")) or "\0" in part for part in parts)


def _quoted(name: str) -> str:
    return name.replace("\\", "").replace('"', "'")


def file_name(page: Page, words: Words) -> str:
    """The name of the PDF: the plate and the revision, with nothing a file system would stumble over."""
    plate = UNFIT_FOR_A_NAME.sub("-", page.vehicle.plate).strip("-.") or words.say("vehicle")
    return words.say("report-%(plate)s-%(n)s.pdf", plate=plate, n=page.revision)


def plain_summary(page: Page, words: Words) -> str:
    """Page one as plain text."""
    say, drive = words.say, page.drive
    parts = [
        page.workshop,
        " · ".join(filter(None, (page.vehicle.name, page.vehicle.plate, page.vehicle.odometer, page.signed_on))),
        _section(
            say("May I drive it?"),
            drive.answer,
            drive.meaning,
            drive.restrictions,
            drive.words,
            _look_again(page, words),
        ),
        _section(say("What must be done"), *_lines(page.must, page.nothing_to_do, words)),
        _section(say("What can wait"), *_lines(page.can_wait, say("No minor finding and no advice is open."), words)),
    ]
    if page.done:
        parts.append(_section(say("What has been done"), *_lines(page.done, "", words)))
    if page.complaints:
        parts.append(_section(say("What you told us, and what came of it"), *_answers(page, words)))
    if page.missed:
        parts.append(_section(say("What was not checked, and why"), *_missed(page.missed, words)))
    parts += [
        _section(say("What this rests on"), *page.rests_on_in_short, _not_arrived(page, words)),
        say(
            "The attached PDF holds everything. It is not a statutory roadworthiness test; "
            "the maker's data and local law come first."
        ),
        page.signed,
    ]
    return "\n\n".join(parts) + "\n"


def _look_again(page: Page, words: Words) -> str:
    return f"{words.say('Look again:')} {page.drive.look_again}" if page.drive.look_again else ""


def _answers(page: Page, words: Words) -> Iterator[str]:
    """Each complaint as it was said, and below it what came of it."""
    for one in page.complaints:
        yield words.say("“%(words)s”", words=one.words)
        found = ", ".join(one.findings)
        see = f"{words.say('See:')} {found}." if found else ""
        yield " ".join(filter(None, (one.outcome, see, one.detail)))


def _missed(missed: Missed, words: Words) -> Iterator[str]:
    yield missed.said
    for one in missed.first:
        what = f"{one.what} ({one.where})" if one.where else one.what
        yield "- " + words.say("%(reason)s: %(detail)s", reason=what, detail=one.why)
    yield missed.more


def _not_arrived(page: Page, words: Words) -> str:
    missing = page.not_arrived
    return f"{missing.said} {words.say('Why:')} {missing.why}" if missing else ""


def _section(heading: str, *lines: str) -> str:
    return "\n".join([heading.upper(), *filter(None, lines)])


def _grade(finding: FindingView, words: Words) -> str:
    graded = grade_in_text(finding.mark, words)
    return words.say("as found: %(grade)s", grade=graded) if finding.settled else graded


def _lines(findings: tuple[FindingView, ...], none: str, words: Words) -> list[str]:
    said = []
    for finding in findings:
        plain = "" if finding.status == "done" else finding.plain
        status = "" if finding.status == "to-do" else finding.status_words
        tail = " ".join(filter(None, (plain, status, finding.agreed)))
        graded = ", ".join(filter(None, (_grade(finding, words), finding.place)))
        said.append(f"- {finding.title} ({graded}). {tail}")
    return said or [none]
