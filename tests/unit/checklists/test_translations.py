"""What checklists say in other languages: whole, with the same figures, and found whatever language it was kept in."""

import re
from collections import Counter

import pytest

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.translations import LANGUAGES, catalogue, catalogue_file, in_language, texts_in, texts_of, told
from baycard.checklists.types import Book

PLACES = re.compile(r"\b\d+(?:\.\d+){2,}(?:\([a-z]+\))*")  # as in 5.2.1(b)
FIGURE = re.compile(r"\d[\d.,\s\u00a0\u202f'’]*")


@pytest.fixture(scope="module")
def book() -> Book:
    return load_book(seed_folder())


def figures(text: str) -> Counter[str]:
    """The digits of each number, without its separators."""
    return Counter(re.sub(r"\D", "", found) for found in FIGURE.findall(text))


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_text_is_translated_and_nothing_else(book: Book, language: str) -> None:
    assert set(texts_of(book)) == set(texts_in(language))


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_translation_has_the_figures_of_the_original(language: str) -> None:
    other = {english: said for english, said in texts_in(language).items() if figures(english) != figures(said)}
    assert other == {}


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_catalogue_is_as_the_command_would_write_it(book: Book, language: str) -> None:
    assert catalogue_file(language).read_bytes() == catalogue(book, language)


def test_a_book_in_german_asks_in_german_and_keeps_its_ids_and_limits(book: Book) -> None:
    german = in_language(book, "de")
    before, after = book.checklists[0], german.checklists[0]
    assert [check.id for check in after.checks] == [check.id for check in before.checks]
    assert after.sha256 == before.sha256
    assert all(old.ask != new.ask for old, new in zip(before.checks, after.checks, strict=True))
    limits = [
        (old, new)
        for b, a in zip(before.checks, after.checks, strict=True)
        for old, new in zip(b.limits, a.limits, strict=True)
    ]
    assert limits
    assert all((old.above, old.below, old.basis) == (new.above, new.below, new.basis) for old, new in limits)
    assert in_language(book, "en") is book
    assert in_language(book, "eo") is book


def test_what_we_say_of_a_source_is_told_and_the_documents_place_in_it_stays(book: Book) -> None:
    pairs = [
        (old.source, new.source)
        for before, after in zip(book.checklists, in_language(book, "de").checklists, strict=True)
        for b, a in zip(before.checks, after.checks, strict=True)
        for old, new in zip(b.limits, a.limits, strict=True)
    ]
    assert ("maker's data for this vehicle", "Herstellerangaben für dieses Fahrzeug") in pairs
    assert ("49 CFR 570.7(b)", "49 CFR 570.7(b)") in pairs
    assert all(PLACES.findall(old) == PLACES.findall(new) for old, new in pairs)
    german = in_language(book, "de").methods.values()
    assert [method.source for method in german] == [method.source for method in book.methods.values()]


def test_a_kept_sentence_is_told_in_another_language_and_own_words_stay() -> None:
    english = "Covered - cannot be seen"
    german, french = texts_in("de")[english], texts_in("fr")[english]
    assert len({english, german, french}) == 3
    assert told(german, "fr") == french
    assert told(german, "en") == english
    assert told(english, "de") == german
    assert told("Rattles over cobbles", "de") == "Rattles over cobbles"
