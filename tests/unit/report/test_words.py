"""Promises of the report's language and numbers."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from baycard.checklists.translations import LANGUAGES, in_language
from baycard.checklists.types import Book, Check, ChoiceAnswer, Limit, NumberAnswer
from baycard.measure.units import Units
from baycard.report.html import render_html
from baycard.report.numbers import Voice, say_answer, say_limit, say_number
from baycard.report.sources import say_source
from baycard.report.units import say_unit, with_unit
from baycard.report.words import CATALOGUES, Words
from tests.support.frozen_cards import pickup_signed, seed_book

CHECK = Check("play", "Play?", (), "", ("vehicle",), NumberAnswer("mm", 2, (0, 20)))
_ = "\N{NO-BREAK SPACE}"
FALL = f"from 20.00{_}kPa to 4.50{_}kPa in 120{_}s"


@pytest.fixture(scope="module")
def voice() -> Voice:
    return Voice(Words(), Units(seed_book().units))


def limit(**parts: object) -> Limit:
    base = {
        "id": "x",
        "of": "value",
        "unit": "mm",
        "grade": "major",
        "title": "",
        "plain": "",
        "source": "",
        "basis": "published",
    }
    return Limit(**{**base, "applies": "", **parts})  # type: ignore[arg-type]


def test_the_list_of_texts_is_up_to_date(tmp_path: Path) -> None:
    made = tmp_path / "report.pot"
    options = ["-q", "extract", "-F", "locale/babel.cfg", "-k", "say:1", "-k", "count:1,2"]
    options += ["--no-location", "--omit-header", "--sort-output", "-o", str(made), "."]
    command = [sys.executable, "-m", "babel.messages.frontend", *options]
    subprocess.run(command, check=True, cwd=CATALOGUES.parent, capture_output=True)
    assert made.read_text() == (CATALOGUES / "report.pot").read_text()


def test_a_catalogue_puts_the_whole_page_into_its_language(tmp_path: Path) -> None:
    folder = tmp_path / "de" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    (folder / "report.po").write_text(
        'msgid ""\nmsgstr "Content-Type: text/plain; charset=utf-8\\n"\n\n'
        'msgid "May I drive it?"\nmsgstr "Darf ich fahren?"\n\nmsgid "No."\nmsgstr "Nein."\n',
        encoding="utf-8",
    )
    page = render_html(pickup_signed(), seed_book(), Words("de", tmp_path))
    assert '<html lang="de">' in page
    assert "Darf ich fahren?" in page
    assert '<p class="answer">Nein.</p>' in page
    assert "20. November 2026" in page


def test_a_language_without_a_catalogue_stays_english_with_its_own_numbers() -> None:
    words = Words("nl")
    assert words.say("No.") == "No."
    assert words.number(1234.5, 1) == "1.234,5"


def test_a_number_says_how_far_off_it_may_be(voice: Voice) -> None:
    assert say_number(0.32, "mm", 0.0075, CHECK, voice) == f"0.32{_}mm, give or take 0.015{_}mm"
    assert say_number(0.32, "mm", None, CHECK, voice) == f"0.32{_}mm"


def test_a_mean_of_repeats_says_so(voice: Voice) -> None:
    body = {"is": "number", "value": 0.32, "unit": "mm", "repeats": [0.31, 0.33, 0.32]}
    assert say_answer(body, CHECK, voice) == f"0.32{_}mm (mean of 3 readings)"


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ({"is": "run", "samples": [[0, 20.0], [120, 4.5]], "unit": "kPa"}, FALL),
        ({"is": "run", "samples": [[0, 1], [158, 7]], "unit": "{drop}"}, f"7 drops in 158{_}s"),
        ({"is": "run", "samples": [[0, 1]], "unit": "{drop}"}, f"1 drop in 0{_}s"),
        ({"is": "run", "samples": [], "unit": "kPa"}, "no readings"),
        ({"is": "run", "samples": [[300, 40.0]], "unit": "mm"}, f"40.00{_}mm"),
        ({"is": "spread", "values": {"inner": 1.9, "outer": 4.8}, "unit": "mm"}, f"inner 1.90{_}mm, outer 4.80{_}mm"),
        ({"is": "codes", "codes": ["P0299", "P0100"]}, "P0299, P0100"),
        ({"is": "codes", "codes": []}, "no codes"),
        ({"is": "choice", "choice": "gone-from-the-book"}, "gone-from-the-book"),
        ({"is": "text", "words": "Sump gasket"}, "Sump gasket"),
    ],
)  # fmt: skip
def test_every_kind_of_answer_is_put_into_words(body: dict[str, object], said: str, voice: Voice) -> None:
    assert say_answer(body, CHECK, voice) == said


def test_a_limit_says_its_side_and_what_of(voice: Voice) -> None:
    assert say_limit(limit(above=0.1), 0.1, CHECK, "mm", voice) == f"limit: not more than 0.10{_}mm"
    assert (
        say_limit(limit(below=1.6, of="min"), 1.6, CHECK, "mm", voice)
        == f"limit for the lowest: not less than 1.60{_}mm"
    )


def test_a_limit_nobody_knows_is_not_made_up(voice: Voice) -> None:
    assert "not at hand" in say_limit(limit(), None, CHECK, "mm", voice)


def test_a_difference_of_temperatures_is_not_shifted_like_a_temperature(voice: Voice) -> None:
    difference = limit(above=20, unit="Cel", of="side-difference")
    assert f"36.00{_}°F" in say_limit(difference, 20, CHECK, "[degF]", voice)


def test_a_source_says_when_it_is_only_common_practice() -> None:
    words = Words()
    assert say_source("shop habit", "common practice", words) == "shop habit (common practice)"
    assert say_source("common practice", "common practice", words) == "common practice"
    assert say_source("Directive 2014/45/EU", "published", words) == "Directive 2014/45/EU"


@pytest.mark.parametrize(
    ("source", "basis"),
    [
        ("maker's data for this vehicle", "maker's data"),
        ("common practice, no published figure found", "common practice"),
        ("Directive 2014/45/EU, Annex I, 8.4.1 (from memory)", "from memory"),
    ],
)
def test_a_source_that_names_its_kind_does_not_say_it_twice(source: str, basis: str) -> None:
    assert say_source(source, basis, Words()) == source


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_kind_of_a_source_is_told_in_every_language_where_it_is_in_english(language: str) -> None:
    """So that no reader finds it twice, or not at all."""
    pairs = zip(_sources(seed_book()), _sources(in_language(seed_book(), language)), strict=True)
    added = [
        (say_source(*english, Words()) != english[0], say_source(*said, Words(language)) != said[0], said)
        for english, said in pairs
    ]
    assert len(added) > 200
    assert [said for in_english, here, said in added if in_english != here] == []


def test_the_kind_of_an_older_checklists_source_is_not_told_in_two_languages() -> None:
    source = "maker's data for this vehicle"
    assert say_source(source, "maker's data", Words("de")) == source


def _sources(book: Book) -> list[tuple[str, str | None]]:
    checks = [check for checklist in book.checklists for check in checklist.checks]
    options = [one for check in checks if isinstance(check.answer, ChoiceAnswer) for one in check.answer.options]
    limits = [(limit.source, limit.basis) for check in checks for limit in check.limits]
    return [*limits, *((one.source, one.basis) for one in options if one.source)]


def test_an_angle_carries_its_sign_without_a_space() -> None:
    assert with_unit("0.09", "deg", Words()) == "0.09°"
    assert with_unit("12", "[psi]", Words()) == f"12{_}psi"


def test_a_unit_made_of_words_is_in_the_customers_language() -> None:
    assert with_unit("2,66", "{drop}/min", Words("de")) == f"2,66{_}Tropfen/min"
    assert with_unit("0,08", "L/(1000.km)", Words("de")) == f"0,08{_}L/1.000{_}km"
    assert with_unit("0.4", "mm/(1000.km)", Words()) == f"0.4{_}mm/1,000{_}km"


def test_every_unit_of_the_checklists_is_written_as_people_write_it() -> None:
    book = seed_book()
    checks = [check for checklist in book.checklists for check in checklist.checks]
    units = {str(check.answer.unit) for check in checks if hasattr(check.answer, "unit")}
    units |= {limit.unit for check in checks for limit in check.limits}
    assert [code for code in units if set(say_unit(code, Words("de"))) & set("(){}[]")] == []


def test_a_french_sign_never_begins_a_line() -> None:
    french = (CATALOGUES / "fr" / "LC_MESSAGES" / "report.po").read_text(encoding="utf-8")
    said = [line for line in french.splitlines() if line.startswith("msgstr")]
    assert [line for line in said if re.search(" [:;!?»]|« ", line)] == []
