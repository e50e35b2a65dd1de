"""What the checklists say in other languages: gettext catalogues beside them, looked up by the English text."""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, cast

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book, Caution, ChoiceAnswer, Limit, Option, WorkedOutAnswer

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

Record = TypeVar("Record")

LANGUAGES = ("de", "es", "fr")
"""Beside English, in which everything is written."""

TEXTS = frozenset(
    {
        *("title", "why", "not_instead_of", "tools"),
        *("ask", "how", "plain", "if_failed", "label", "applies"),
        *("says", "validity", "cautions"),
    }
)
"""The fields that people read; ids among `cautions` are in no catalogue."""

SOURCED = (Caution, Limit, Option)
"""What customers read the source of. What we say of it is translated; names and numbers of documents stay."""

UNSEEN = frozenset({"output", "examples"})


def catalogue_file(language: str) -> Path:
    """Where the catalogue of a language lies."""
    return seed_folder() / "translations" / f"{language}.po"


@cache
def texts_in(language: str) -> Mapping[str, str]:
    """English text -> the same in that language. Empty for English and for a language nobody translated to."""
    path = catalogue_file(language)
    if language not in LANGUAGES or not path.is_file():
        return {}
    with path.open("rb") as source:
        catalogue = read_po(source)
    return {str(message.id): str(message.string) for message in catalogue if message.id and message.string}


def in_language(record: Record, language: str) -> Record:
    """A book or a checklist with its texts in that language; what has no translation stays English."""
    texts = texts_in(language)
    return cast(Record, _told(record, texts, is_text=False)) if texts else record


def told(text: str, language: str) -> str:
    """A sentence of a checklist that was kept in any of the languages, in this one; other words stay as they are."""
    english = text if text in _every_english() else _english_of().get(text, text)
    return texts_in(language).get(english, english) if language != "en" else english


def laymans_sentences(book: Book) -> set[str]:
    """Every sentence that a finding may take from a check, in every language."""
    checks = [check for checklist in book.checklists for check in checklist.checks]
    english = {check.plain for check in checks} | {limit.plain for check in checks for limit in check.limits}
    choices = (check.answer for check in checks if isinstance(check.answer, ChoiceAnswer))
    english |= {option.plain for choice in choices for option in choice.options if option.plain}
    return {told(text, language) for text in english if text for language in ("en", *LANGUAGES)}


def texts_of(book: Book) -> dict[str, str]:
    """Every text that people read, each once in walking order -> where it is found first."""
    parts: list[tuple[str, Any]] = [("stations", book.stations), ("places", book.places)]
    parts += [("instruments", book.instruments), ("cautions", book.cautions)]
    parts += [(one.id, one) for one in book.checklists]
    parts += [(f"method {id}", book.methods[id]) for id in sorted(_methods_used(book))]
    found: dict[str, str] = {}
    for where, part in parts:
        for text in _texts(part, is_text=False):
            found.setdefault(text, where)
    ids = book.cautions.keys()
    return {text: where for text, where in found.items() if text not in ids and any(sign.isalpha() for sign in text)}


def catalogue(book: Book, language: str) -> bytes:
    """The catalogue of a language as it should be now: every text in walking order, with the translations there are."""
    known = texts_in(language)
    made = Catalog(locale=language, project="Baycard", charset="utf-8", fuzzy=False, header_comment="")
    for text, where in texts_of(book).items():
        made.add(text, known.get(text, ""), auto_comments=[where])
    written = BytesIO()
    write_po(written, made, width=0, omit_header=True)
    return written.getvalue()


def _methods_used(book: Book) -> set[str]:
    answers = (check.answer for checklist in book.checklists for check in checklist.checks)
    return {answer.method for answer in answers if isinstance(answer, WorkedOutAnswer)}


def _told(value: object, texts: Mapping[str, str], *, is_text: bool) -> object:
    if isinstance(value, str):
        return texts.get(value, value) if is_text else value
    if isinstance(value, tuple):
        return tuple(_told(one, texts, is_text=is_text) for one in value)
    if isinstance(value, Mapping):
        return {key: _told(one, texts, is_text=is_text) for key, one in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        read = {name: getattr(value, name) for name in _read_fields(value)}
        return replace(value, **{name: _told(one, texts, is_text=_is_read(value, name)) for name, one in read.items()})
    return value


def _texts(value: object, *, is_text: bool) -> Iterator[str]:
    if isinstance(value, str):
        if is_text and value:
            yield value
    elif isinstance(value, tuple):
        for one in value:
            yield from _texts(one, is_text=is_text)
    elif isinstance(value, Mapping):
        for one in value.values():
            yield from _texts(one, is_text=is_text)
    elif is_dataclass(value) and not isinstance(value, type):
        for name in _read_fields(value):
            yield from _texts(getattr(value, name), is_text=_is_read(value, name))


def _is_read(record: "DataclassInstance", name: str) -> bool:
    return name in TEXTS or (name == "source" and isinstance(record, SOURCED))


def _read_fields(record: "DataclassInstance") -> list[str]:
    """The fields that may hold something people read; what a method's output is called, nobody sees."""
    return [one.name for one in fields(record) if one.name not in UNSEEN]


@cache
def _every_english() -> frozenset[str]:
    return frozenset(text for language in LANGUAGES for text in texts_in(language))


@cache
def _english_of() -> Mapping[str, str]:
    return {said: english for language in LANGUAGES for english, said in texts_in(language).items()}
