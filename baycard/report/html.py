"""The report as one HTML page: every text escaped, nothing fetched."""

import unicodedata
from base64 import b64encode
from collections.abc import Callable
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from baycard.checklists.types import Book
from baycard.report.frozen import FrozenCard
from baycard.report.language import words_for
from baycard.report.page import assemble
from baycard.report.shapes import Page
from baycard.report.words import Words

TEMPLATES = Path(__file__).parent / "templates"
LONGEST_TEXT = 3000


def render_html(frozen: FrozenCard, book: Book, words: Words | None = None) -> str:
    """The report as a page for the browser, its photos inside it."""

    def inside(sha256: str) -> str | None:
        data = frozen.blobs(sha256)
        return None if data is None else "data:image/jpeg;base64," + b64encode(data).decode()

    spoken = words or words_for(frozen)
    return page_html(assemble(frozen, book, spoken, inside), spoken)


def page_html(page: Page, words: Words) -> str:
    """The assembled report poured into the templates."""
    css = Markup((TEMPLATES / "report.css").read_text(encoding="utf-8"))  # noqa: S704  our own file, no outside text
    return _environment(words).get_template("report.html").render(page=page, css=css)


def mail_html(page: Page, words: Words) -> str:
    """Page one for a mail read on a phone: its style inside, nothing fetched."""
    return _environment(words).get_template("mail.html").render(page=page)


def _environment(words: Words) -> Environment:
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        extensions=["jinja2.ext.i18n"],
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    install: Callable[..., None] = environment.install_gettext_callables  # type: ignore[attr-defined]
    install(words.translations.gettext, words.translations.ngettext, newstyle=True)
    environment.filters.update(
        direction=direction,
        paragraphs=lambda text: paragraphs(text, words),
        short=lambda text, longest=LONGEST_TEXT: short(text, words, longest),
    )
    return environment


def direction(text: str) -> str:
    """`rtl` when the first letter with a direction runs right to left, else `ltr`; as dir=auto does in a browser."""
    for letter in text:
        bidirectional = unicodedata.bidirectional(letter)
        if bidirectional in ("R", "AL"):
            return "rtl"
        if bidirectional == "L":
            return "ltr"
    return "ltr"


def paragraphs(text: str, words: Words) -> list[str]:
    """The lines of a text that hold anything."""
    return [line for line in short(text, words).splitlines() if line.strip()]


def short(text: str, words: Words, longest: int = LONGEST_TEXT) -> str:
    """The text, cut where it would fill pages; the attached data hold it whole."""
    if len(text) <= longest:
        return text
    cut = words.say("(cut here; the attached data hold the whole text)")
    return f"{text[:longest]} … {cut}"
