"""One visit of one vehicle, from sign-in to the second report, with no network where the bay has none."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, expect

from baycard.checklists.types import Book
from tests.journeys import scenario
from tests.journeys.browsers import DESK, PHONE, browser, first_page
from tests.journeys.foreman import Foreman
from tests.journeys.mailbox import Mailbox
from tests.journeys.technician import Technician
from tests.support import photos
from tests.support.server import RealServer

pytestmark = pytest.mark.xdist_group("journeys")

GRADES = ("Dangerous", "Major", "Minor", "Advice")
SENT_MS = 180_000
NEWS_MS = 30_000


@dataclass
class Visit:
    """What the parts of the visit share."""

    playwright: Playwright
    server: RealServer
    mailbox: Mailbox
    book: Book
    folder: Path
    card: str = ""
    kept: str = ""

    @contextmanager
    def phone(self) -> Iterator[tuple[BrowserContext, Page, Technician]]:
        """Ines's phone; opening it again is the same phone."""
        pictures = {"turned": photos.phone_jpeg(6), "progressive": photos.phone_jpeg(1, progressive=True)}
        with browser(self.playwright, self.folder / "phone", PHONE, self.server.url) as context:
            page = first_page(context)
            yield context, page, Technician(page, self.book, pictures, self.folder)

    @contextmanager
    def desk(self) -> Iterator[Foreman]:
        """Ruth's desk."""
        with browser(self.playwright, self.folder / "desk", DESK, self.server.url) as context:
            yield Foreman(first_page(context))


@pytest.fixture
def visit(playwright: Playwright, server: RealServer, mailbox: Mailbox, book: Book, tmp_path: Path) -> Visit:
    """A visit that has not begun."""
    return Visit(playwright, server, mailbox, book, tmp_path)


def test_the_whole_job_once_with_no_network_in_the_bay(visit: Visit) -> None:
    walk_the_bay_with_network_and_server_gone(visit)
    with visit.phone() as (context, page, ines):
        everything_is_there_and_goes_out_when_the_server_is_back(visit, context, page)
        trace_and_hand_in(visit, ines)
        with visit.desk() as ruth:
            review_and_send_back(ruth)
            expect(page.get_by_text("Which side of the sump?").first).to_be_visible(timeout=NEWS_MS)
            ines.hands_in(visit.card, "Left side.")
            sign_and_mail_the_first_report(visit, ruth)
            repair_and_recheck_offline(visit, context, page, ines)
            sign_and_mail_the_second_report(visit, ruth)


def walk_the_bay_with_network_and_server_gone(visit: Visit) -> None:
    """Signed in once; then no network and no server; a card opened and four checklists walked; a reload in between."""
    with visit.phone() as (context, page, ines):
        ines.takes_time_in_hand()
        ines.signs_in("Ines Varga")
        ines.is_ready_for_no_network()
        context.set_offline(True)
        visit.server.kill()
        page.reload()
        expect(page.get_by_role("heading", name="Cards")).to_be_visible()
        visit.card = ines.opens_a_new_card(scenario.VAN, scenario.COMPLAINTS)
        expect(page.get_by_text("Check digit agrees.")).to_be_visible()
        ines.chooses("underbody", "fluid-leaks", "intake-pressure", "bearing-play")
        ines.walks(visit.card, "underbody", scenario.UNDERBODY)
        ines.walks(visit.card, "fluid-leaks", scenario.LEAKS)
        ines.walks(visit.card, "intake-pressure", scenario.PRESSURE)
        ines.walks(visit.card, "bearing-play", scenario.BEARINGS)
        ines.accepts_every_proposal(visit.card)
        visit.kept = page.get_by_text(re.compile(r"^Kept on this phone · \d+ to send$")).inner_text()
        page.reload()
        expect(page.get_by_text(visit.kept)).to_be_visible()


def everything_is_there_and_goes_out_when_the_server_is_back(visit: Visit, context: BrowserContext, page: Page) -> None:
    """The browser was closed; a new one over the same profile has it all, and sends it all, photos too."""
    context.set_offline(True)
    page.goto(f"/bay/{visit.card}")
    expect(page.get_by_text(visit.kept)).to_be_visible()
    visit.server.start()
    context.set_offline(False)
    expect(page.get_by_text("all sent")).to_be_visible(timeout=SENT_MS)


def trace_and_hand_in(visit: Visit, ines: Technician) -> None:
    """Each complaint gets an outcome; then the card goes to the desk."""
    ines.traces_complaint(visit.card, 1, "Cause found", finding="bearing")
    ines.traces_complaint(visit.card, 2, "Cause found", finding="intake")
    ines.traces_complaint(visit.card, 3, "Not traced", words="Two wet places; cleaned, to be seen again on Friday.")
    ines.hands_in(visit.card, "Rear left bearing is the hum.")


def review_and_send_back(ruth: Foreman) -> None:
    """The desk shows the worst first, photos full size, and what could not be checked; one question goes back."""
    ruth.signs_in("Ruth Okello")
    ruth.opens("TS 41 BKR")
    grades = ruth.grades_of_findings()
    assert grades == sorted(grades, key=GRADES.index)
    assert {"Dangerous", "Major", "Minor"} <= set(grades)
    assert ruth.looks_at_a_photo_full_size() == {"width": 1600, "height": 1200}
    expect(ruth.page.get_by_text("under-tray riveted on, not drilled today").first).to_be_visible()
    ruth.sends_back("Which side of the sump?")


def sign_and_mail_the_first_report(visit: Visit, ruth: Foreman) -> None:
    """Signed with a restriction; the customer's mail has every script in it."""
    expect(ruth.page.get_by_text("From the bay: Left side.")).to_be_visible(timeout=NEWS_MS)
    ruth.signs_off("No", "Not before the front left tyre is replaced.")
    ruth.mails_the_report()
    assert visit.mailbox.messages[0]["To"] == scenario.VAN["Customer's e-mail"]
    report = pdf_text(visit.mailbox.pdf_of(0))
    assert "Not before the front left tyre is replaced." in report
    assert "under-tray riveted on, not drilled today" in report
    for words in ("TS 41 BKR", "Гудит сзади", "面包店", "油渍"):
        assert words in report


def repair_and_recheck_offline(visit: Visit, context: BrowserContext, page: Page, ines: Technician) -> None:
    """The work is recorded and the same two tests are done again, with no network; then it all goes out."""
    context.set_offline(True)
    ines.records_work(visit.card, "Rear left hub and bearing replaced, hose clip renewed.", part="Hub with bearing")
    ines.takes_time_in_hand()
    ines.walks(visit.card, "bearing-play", scenario.BEARINGS_AFTER, round_=2)
    ines.walks(visit.card, "intake-pressure", scenario.PRESSURE_AFTER, round_=2)
    context.set_offline(False)
    page.reload()
    expect(page.get_by_text("all sent")).to_be_visible(timeout=SENT_MS)
    ines.hands_in(visit.card, "Repaired and rechecked.")


def sign_and_mail_the_second_report(visit: Visit, ruth: Foreman) -> None:
    """The second report shows as found beside after work; the first one has not changed by a byte."""
    ruth.opens("TS 41 BKR")
    expect(ruth.page.get_by_text("From the bay: Repaired and rechecked.")).to_be_visible(timeout=NEWS_MS)
    ruth.signs_off("Yes, with restrictions", "Front left tyre first.")
    ruth.mails_the_report()
    report = pdf_text(visit.mailbox.pdf_of(1))
    assert "Hub with bearing" in report
    assert re.search(r"As found Clear play · major .{0,200}After work No play felt · in order", report)
    assert re.search(r"rim move on the dial\? Rear left As found · 0\.62.{0,300}After work · 0\.04", report)
    again = ruth.page.request.get(f"/api/desk/cards/{visit.card}/report/1.pdf")
    assert again.body() == visit.mailbox.pdf_of(0)


def pdf_text(pdf: bytes) -> str:
    """All words of a report, white space folded."""
    reader = pypdf.PdfReader(BytesIO(pdf))
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in reader.pages))
