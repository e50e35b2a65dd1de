"""Reports: rendered once from what was signed, and mailed once to each address."""

import json
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from email import message_from_bytes
from email.policy import default
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from baycard.journal.digest import digest
from baycard.settings import settings_from
from baycard.store.revisions import Mailing, note_mail
from baycard.store.values import Workshop
from baycard.web.frozen_card import signed_card
from baycard.web.reports import Reports
from tests.support.builders import CardBuilder, Json
from tests.support.server import SMALL_BOOK, InProcess, World


@pytest.fixture
def signed(ines: InProcess, ruth: InProcess, world: World) -> Iterator[tuple[CardBuilder, list[Json]]]:
    """A card signed once."""
    card = ines.new_card()
    entries = [card.fact("TS 4711"), card.fact("Corvane", slot="vehicle/make")]
    ines.push(entries)
    entries.append(sign(ruth, card, entries))
    yield card, entries


def sign(ruth: InProcess, card: CardBuilder, entries: list[Json]) -> Json:
    ids = [entry["id"] for entry in entries]
    seen = {"count": len(ids), "digest": digest(ids), "drive": "not-judged"}
    answer = ruth.post(f"/api/desk/cards/{card.card}/sign-off", seen)
    assert answer.status == 200, answer.data
    made: Json = answer.json["entry"]
    return made


def address(card: CardBuilder, revision: int = 1) -> str:
    return f"/api/desk/cards/{card.card}/report/{revision}"


def mails(world: World) -> list[Path]:
    return sorted((world.settings.folder / "mail").glob("*.eml"))


def test_the_report_of_a_signed_card_is_a_pdf_that_names_the_vehicle(
    signed: tuple[CardBuilder, list[Json]], ines: InProcess
) -> None:
    answer = ines.get(f"{address(signed[0])}.pdf")
    assert (answer.status, answer.headers["Content-Type"]) == (200, "application/pdf")
    assert "TS 4711" in "".join(page.extract_text() for page in PdfReader(BytesIO(answer.data)).pages)


def test_a_late_entry_never_changes_a_report_that_was_signed(
    signed: tuple[CardBuilder, list[Json]], ines: InProcess, ruth: InProcess
) -> None:
    card, entries = signed
    before = ines.get(f"{address(card)}.pdf").data
    late = card.fact("TS 9999", replaces=[entries[0]["id"]])
    ines.push([late])
    assert ines.get(f"{address(card)}.pdf").data == before
    assert ines.get(f"{address(card, 2)}.pdf").json["code"] == "no-report"
    sign(ruth, card, [*entries, late])
    second = ines.get(f"{address(card, 2)}.pdf").data
    assert "TS 9999" in "".join(page.extract_text() for page in PdfReader(BytesIO(second)).pages)
    assert ines.get(f"{address(card)}.pdf").data == before


def test_asking_twice_mails_once_and_says_the_same(
    world: World, signed: tuple[CardBuilder, list[Json]], ruth: InProcess
) -> None:
    answers = [ruth.post(f"{address(signed[0])}/send", {"to": "bakery@example.org"}) for _ in range(2)]
    assert [answer.status for answer in answers] == [200, 200]
    assert answers[0].json == answers[1].json
    (mail,) = mails(world)
    message = message_from_bytes(mail.read_bytes(), policy=default)
    assert message["To"] == "bakery@example.org"
    assert [part.get_content_type() for part in message.iter_attachments()] == ["application/pdf"]
    ruth.post(f"{address(signed[0])}/send", {"to": "second@example.org"})
    assert len(mails(world)) == 2


@pytest.mark.parametrize("to", ["nobody", "a@example.org, b@example.org", "a@example.org\r\nBcc: b@example.org", ""])
def test_what_is_not_one_address_gets_no_mail(
    world: World, signed: tuple[CardBuilder, list[Json]], ruth: InProcess, to: str
) -> None:
    assert ruth.post(f"{address(signed[0])}/send", {"to": to}).status == 422
    assert mails(world) == []


def test_the_neighbours_get_neither_the_report_nor_a_mail(world: World, signed: tuple[CardBuilder, list[Json]]) -> None:
    fay = world.sign_in("Fay Gull")
    assert fay.get(f"{address(signed[0])}.pdf").json["code"] == "no-report"
    assert fay.post(f"{address(signed[0])}/send", {"to": "fay@example.org"}).json["code"] == "no-report"
    assert mails(world) == []


def test_settings_for_mail_that_do_not_fit_are_told_in_a_sentence() -> None:
    host = {"BAYCARD_SMTP_HOST": "mail.example.org"}
    for wrong in ({}, {"BAYCARD_MAIL_FROM": "x", "BAYCARD_SMTP_PORT": "y"}, {"BAYCARD_SMTP_SECURITY": "maybe"}):
        with pytest.raises(ValueError, match="set it to"):
            settings_from(host | wrong)
    made = settings_from(host | {"BAYCARD_MAIL_FROM": "desk@example.org"}).mail
    assert made is not None
    assert (made.port, made.security) == (587, "starttls")


def test_a_mail_that_failed_or_was_lost_in_a_crash_may_go_again_but_not_one_that_is_on_its_way(
    world: World, signed: tuple[CardBuilder, list[Json]], ines: InProcess
) -> None:
    found = signed_card(world.store, Workshop(ines.workshop, "Tern Street Garage", "metric"), signed[0].card, 1)
    assert found is not None
    reports = Reports(world.settings, world.store, json.dumps(SMALL_BOOK).encode())
    now = datetime(2026, 11, 20, 12, tzinfo=UTC)
    outcomes = []
    states: list[tuple[Mailing, int]] = [("waiting", 1), ("waiting", 11), ("failed", 1), ("sent", 1)]
    for state, age_min in states:
        with world.store.write() as tx:
            at = (now - timedelta(minutes=age_min)).isoformat()
            note_mail(tx, found.revision, "bakery@example.org", state, at)
        before = len(mails(world))
        outcome = reports.send(found, "bakery@example.org", now)
        outcomes.append((outcome, len(mails(world)) - before))
        for mail in mails(world):
            mail.unlink()
    assert outcomes == [("mail-underway", 0), ("sent", 1), ("sent", 1), ("sent", 0)]
