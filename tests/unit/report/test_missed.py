"""Promises of what the mail says about what was not checked."""

import re
from html import unescape

import pytest

from baycard.demo.pen import Pen
from baycard.report.frozen import FrozenCard
from baycard.report.html import mail_html
from baycard.report.language import LANGUAGES
from baycard.report.mail import plain_summary
from baycard.report.page import assemble
from baycard.report.shapes import Page
from baycard.report.words import Words
from tests.support.frozen_cards import answer_all, pickup_signed, seed_book, small_card

HEADING = "What was not checked, and why"


def page_of(card: FrozenCard, language: str = "en") -> Page:
    return assemble(card, seed_book(), Words(language), lambda sha256: None)


def html_text(page: Page) -> str:
    shown = mail_html(page, Words(page.language))
    return " ".join(re.sub(r"<[^>]+>", " ", unescape(shown)).split())


def section(page: Page) -> str:
    """The section of the plain text, heading and all."""
    parts = plain_summary(page, Words(page.language)).split("\n\n")
    return next((part for part in parts if part.startswith(Words(page.language).say(HEADING).upper())), "")


def missing(pen: Pen) -> None:
    """A checklist that was done, and of another four checks with a reason each and nothing else."""
    answer_all(pen, "cooling")
    pen.choose(seed_book(), "tyres-wheels")
    for place, reason in [
        ("front-left", "not-fitted"),
        ("front-right", "no-access"),
        ("rear-right", "no-tool"),
        ("rear-left", "no-time"),
    ]:
        pen.not_checked(f"tyres-wheels/pattern/{place}", reason)


def test_the_mail_says_how_much_was_not_checked_the_first_few_with_why_and_that_the_rest_is_in_the_report() -> None:
    page = page_of(small_card(missing))
    told = section(page)
    total = page.points.questions_left + 4
    assert f"{total} points were not checked." in told
    assert [line.rpartition(": ")[2] for line in told.splitlines() if line.startswith("- ")] == [
        "could not be reached",
        "the tool for it was not at hand",
        "there was no time for it",
        "this vehicle does not have it",
    ]
    assert told.endswith(f"{total - 4} more stand in the report.")


def test_both_parts_of_the_mail_say_the_same_of_it() -> None:
    page = page_of(pickup_signed())
    assert page.missed is not None
    shown, plain = html_text(page), plain_summary(page, Words())
    for line in (page.missed.said, *(one.what for one in page.missed.first), *(one.why for one in page.missed.first)):
        assert line.casefold() in shown.casefold() and line in plain


def test_the_points_named_for_each_checklist_add_up_to_the_questions_left_open() -> None:
    page = page_of(pickup_signed())
    numbers = [int(one.value.split()[0]) for one in page.points.unanswered]
    assert sum(numbers) == page.points.questions_left


def test_the_mail_tells_the_number_once_and_the_report_still_tells_it_on_page_one() -> None:
    page = page_of(pickup_signed())
    assert any("left open" in line for line in page.rests_on)
    number = f"{page.points.questions_left} questions were left open."
    assert number not in plain_summary(page, Words())
    assert number not in html_text(page)


def test_where_every_question_was_answered_the_mail_says_so_and_nothing_was_missed() -> None:
    told = section(page_of(small_card(lambda pen: answer_all(pen, "cooling"))))
    assert told.splitlines()[1:] == ["Every question of the checklists in this report was answered."]


def test_where_there_was_no_checklist_nothing_is_said_to_be_answered() -> None:
    finding = {"grade": "major", "title": "A crack", "plain": "It is cracked."}
    page = page_of(small_card(lambda pen: pen.finding(None, finding)))
    assert section(page) == ""
    assert HEADING not in html_text(page)


def test_a_card_on_which_nobody_checked_anything_is_not_said_to_be_complete() -> None:
    page = page_of(small_card(lambda pen: pen.choose(seed_book(), "cooling")))
    assert "points were not checked" in section(page)
    assert "answered" not in section(page)
    assert section(page_of(small_card(lambda pen: pen.facts({"vehicle/plate": "TS 1"})))) == ""


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_section_is_in_the_customers_language(language: str) -> None:
    told = section(page_of(small_card(missing), language))
    assert told.splitlines()[0] == Words(language).say(HEADING).upper()
    if language != "en":
        assert not re.search(r"not checked|in the report|could not", told)


def test_a_reason_in_words_stands_for_itself() -> None:
    said = plain_summary(page_of(pickup_signed()), Words())
    assert "(Engine oil): nobody knows" in said
    assert "other reason" not in said
