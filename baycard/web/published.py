"""Keeps every checklist version that was ever served, and refuses one that changed without a new number."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from typing import Any

from baycard.checklists.from_json import book_from_json, checklist_from_json, to_json
from baycard.checklists.translations import in_language, laymans_sentences
from baycard.store.checklists import every_published, publish
from baycard.store.door import Store

SENTENCE_DIGITS = 8


@dataclass(frozen=True, slots=True)
class PublishedBook:
    """The book as it is served: its hash and its JSON text."""

    sha256: str
    text: bytes

    def in_language(self, language: str) -> bytes:
        """The text with what people read in that language; `language` says which, in the book itself.

        Its `sentences` tell what a finding took from a check, in whichever language, from what a person wrote.
        """
        return _in_language(self.text, language)


@cache
def _in_language(text: bytes, language: str) -> bytes:
    book = book_from_json(json.loads(text))
    sentences = sorted({sha256(one.encode()).hexdigest()[:SENTENCE_DIGITS] for one in laymans_sentences(book)})
    translated = {**to_json(in_language(book, language)), "language": language, "sentences": sentences}
    return json.dumps(translated, ensure_ascii=False, separators=(",", ":")).encode()


def checklist_in_language(text: str, language: str) -> str:
    """The text of a published checklist with what people read in that language."""
    if language == "en":
        return text
    translated = to_json(in_language(checklist_from_json(json.loads(text)), language))
    return json.dumps(translated, ensure_ascii=False, separators=(",", ":"))


class BookChangedError(ValueError):
    """A published checklist has other content under the same version: most likely it was edited without a new one."""


def publish_book(store: Store, book: Mapping[str, Any]) -> PublishedBook:
    """Keep the checklists of a book for ever, and give the book as it is served."""
    with store.write() as tx:
        changed = [one for one in book["checklists"] if not publish(tx, one)]
        if changed:
            raise BookChangedError(" ".join(_sentence(one) for one in changed))
        methods = _needed(book["methods"], every_published(tx))
    text = json.dumps({**book, "methods": methods}, ensure_ascii=False, separators=(",", ":"))
    return PublishedBook(str(book["sha256"]), text.encode())


def _needed(methods: Mapping[str, Any], checklists: Iterable[Mapping[str, Any]]) -> dict[str, Any]:
    """The methods that a published checklist works with, without worked examples: a phone reads them at each start."""
    answers = (check["answer"] for checklist in checklists for check in checklist["checks"])
    named = {answer["method"] for answer in answers if answer["kind"] == "worked-out"}
    return {id: {**methods[id], "examples": []} for id in sorted(named & methods.keys())}


def _sentence(checklist: Mapping[str, Any]) -> str:
    id_, version = checklist["id"], checklist["version"]
    return f"Version {version} of checklist {id_} is published with other content: raise its version to {version + 1}."
