"""Promises of the report's languages: which one is chosen, and that nothing of a catalogue is missing."""

import re
from dataclasses import replace

import pytest
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po

from baycard.checklists.translations import texts_in, told
from baycard.demo.pen import Pen, Writer, begin
from baycard.journal.entry import Entry
from baycard.report.frozen import FrozenCard
from baycard.report.html import render_html
from baycard.report.language import LANGUAGES, language_of
from baycard.report.mail import plain_summary
from baycard.report.page import assemble
from baycard.report.shapes import Page
from baycard.report.words import CATALOGUES, Words
from tests.support.frozen_cards import STAFF, pickup_repaired, pickup_signed, seed_book

TRANSLATED = [language for language in LANGUAGES if language != "en"]
NAMES = re.compile(r"%\(\w+\)s")


def catalogue(language: str) -> Catalog:
    with (CATALOGUES / language / "LC_MESSAGES" / "report.po").open("rb") as source:
        return read_po(source, locale=language)


def texts() -> list[Message]:
    with (CATALOGUES / "report.pot").open("rb") as source:
        return [message for message in read_po(source) if message.id]


def key(message: Message) -> str:
    return str(message.id if isinstance(message.id, str) else message.id[0])


def plural(message: Message) -> str:
    return str(message.id if isinstance(message.id, str) else message.id[1])


def forms(message: Message | None) -> list[str]:
    said = "" if message is None or message.string is None else message.string
    return [said] if isinstance(said, str) else [str(form) for form in said]


def speaking(*said: tuple[Writer, object]) -> FrozenCard:
    """The pickup's card with the customer's language written down by each of them, none having seen the other's."""
    card = pickup_signed()
    story = begin("languages", 1_795_165_200_000)
    for writer, value in said:
        Pen(story, writer).write("fact", "customer/language", {"value": value}, unseen=True)
    return replace(card, entries=(*card.entries, *(replace(entry, card=card.card) for entry in story.entries)))


@pytest.mark.parametrize("language", TRANSLATED)
def test_a_catalogue_has_every_text_of_the_report_with_its_names(language: str) -> None:
    made = catalogue(language)
    assert [key(text) for text in texts() if not all(forms(made.get(key(text))))] == []
    for text in texts():
        for form in forms(made.get(key(text))):
            assert set(NAMES.findall(form)) == set(NAMES.findall(plural(text))), form


@pytest.mark.parametrize("language", TRANSLATED)
def test_a_catalogue_has_no_text_that_the_report_lost(language: str) -> None:
    assert {key(one) for one in catalogue(language) if one.id} == {key(text) for text in texts()}


@pytest.mark.parametrize(
    ("value", "language"), [("de", "de"), ("fr-CA", "fr"), ("ES", "es"), ("en-GB", "en"), ("pl", "en"), (7, "en")]
)
def test_the_report_speaks_the_language_of_the_customer(value: object, language: str) -> None:
    assert language_of(speaking((STAFF.ines, value))) == language


def test_the_report_is_english_when_nobody_said_or_two_people_said_differently() -> None:
    assert language_of(pickup_signed()) == "en"
    assert language_of(speaking((STAFF.ines, "de"), (STAFF.tom, "fr"))) == "en"
    assert language_of(speaking((STAFF.ines, "de"), (STAFF.tom, "de"))) == "de"


def test_a_german_customer_reads_the_official_grades_and_german_dates() -> None:
    page = render_html(speaking((STAFF.ines, "de")), seed_book())
    assert '<html lang="de">' in page
    assert "Darf ich damit fahren?" in page
    assert "Erheblicher Mangel" in page
    assert "20. November 2026" in page
    assert "May I drive it?" not in page


@pytest.mark.parametrize(
    ("language", "graded"), [("de", "erheblicher Mangel"), ("es", "deficiencia grave"), ("fr", "défaillance majeure")]
)
def test_a_grade_inside_a_sentence_is_written_as_the_language_writes_it(language: str, graded: str) -> None:
    words = Words(language)
    text = plain_summary(assemble(pickup_repaired(), seed_book(), words, lambda sha256: None), words)
    assert f": {graded}" in text


@pytest.mark.parametrize("language", TRANSLATED)
def test_what_the_checklists_say_is_in_the_customers_language_too(language: str) -> None:
    english, other = page_of(pickup_repaired(), "en"), page_of(pickup_repaired(), language)
    said = texts_in(language)
    assert [one.plain for one in other.findings] == [said.get(one.plain, one.plain) for one in english.findings]
    assert [one.title for one in other.findings] != [one.title for one in english.findings]
    for before, after in zip(english.checklists, other.checklists, strict=True):
        assert (after.title, after.why) == (said[before.title], said[before.why])
    assert [one.slot for one in other.findings] == [one.slot for one in english.findings]


def test_findings_a_technician_kept_in_his_language_are_told_in_the_customers() -> None:
    card = pickup_repaired()
    in_spanish = replace(card, entries=tuple(kept_in("es", entry) for entry in card.entries))
    assert in_spanish.entries != card.entries
    assert page_of(in_spanish, "en").findings == page_of(card, "en").findings
    assert page_of(in_spanish, "fr").findings == page_of(card, "fr").findings


def page_of(card: FrozenCard, language: str) -> Page:
    return assemble(card, seed_book(), Words(language), lambda sha256: None)


def kept_in(language: str, entry: Entry) -> Entry:
    if entry.kind != "finding":
        return entry
    said = {name: told(entry.body[name], language) for name in ("title", "plain")}
    return replace(entry, body={**entry.body, **said})
