"""The report as a PDF, made to PDF/A-3 with tags, with the card's own data attached."""

import json
from datetime import datetime
from typing import Any, Never

import rfc8785
from PIL import ImageFile
from weasyprint import HTML, Attachment
from weasyprint.urls import URLFetcher, URLFetcherResponse

from baycard.checklists.types import Book
from baycard.journal.entry import entry_to_json
from baycard.journal.freeze import PinnedChecklist, frozen_bytes
from baycard.report.frozen import Blobs, FrozenCard
from baycard.report.html import page_html
from baycard.report.language import words_for
from baycard.report.page import assemble
from baycard.report.words import Words

# The typesetter makes Pillow forgive cut-off pictures in the whole process; elsewhere they have to be noticed.
ImageFile.LOAD_TRUNCATED_IMAGES = False

VARIANT = "pdf/a-3a"
PHOTO = "photo:"
ATTACHED = "card.json"


class PhotoFetcher(URLFetcher):  # type: ignore[misc]
    """Serves the photos that the page itself names, from memory, and nothing else: no file, no network."""

    def __init__(self, blobs: Blobs, named: set[str]) -> None:
        super().__init__(allowed_protocols=())
        self.blobs = blobs
        self.named = named

    def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
        """The photo of that id. Raises ValueError for every other address."""
        sha256 = url.removeprefix(PHOTO)
        data = self.blobs(sha256) if url.startswith(PHOTO) and sha256 in self.named else None
        if data is None:
            raise ValueError("The report fetches nothing but its own photos.")
        return URLFetcherResponse(url, body=data, headers={"Content-Type": "image/jpeg"})


def render_pdf(frozen: FrozenCard, book: Book, words: Words | None = None) -> bytes:
    """The PDF of one revision. The same frozen card gives the same text, photos and attached data."""
    spoken = words or words_for(frozen)
    named: set[str] = set()

    def by_id(sha256: str) -> str | None:
        if frozen.blobs(sha256) is None:
            return None
        named.add(sha256)
        return PHOTO + sha256

    page = page_html(assemble(frozen, book, spoken, by_id), spoken)
    document = HTML(string=page, url_fetcher=PhotoFetcher(frozen.blobs, named), base_url=None)
    data: bytes = document.write_pdf(
        pdf_variant=VARIANT,
        pdf_tags=True,
        pdf_identifier=frozen.signed_off.body["sha256"].encode(),
        attachments=[_attachment(frozen)],
    )
    return data


def card_json(frozen: FrozenCard) -> bytes:
    """The data a report carries: the frozen set as it was hashed, the sign-off, the names and the checklists.

    `frozen` in canonical JSON (RFC 8785) has the SHA-256 that `signed_off.body.sha256` names.
    """
    document: dict[str, Any] = {
        "format": 1,
        "is": "baycard-report",
        "workshop": frozen.workshop,
        "revision": frozen.revision,
        "frozen": json.loads(frozen_bytes(frozen.card, _pinned(frozen), frozen.entries)),
        "signed_off": entry_to_json(frozen.signed_off),
        "names": dict(frozen.names),
    }
    return rfc8785.dumps(document)


def _pinned(frozen: FrozenCard) -> list[PinnedChecklist]:
    return [PinnedChecklist(one.id, one.version, one.sha256) for one in frozen.checklists]


def _attachment(frozen: FrozenCard) -> Attachment:
    signed = datetime.fromisoformat(frozen.signed_off.made_at)
    return Attachment(
        string=card_json(frozen).decode(),
        name=ATTACHED,
        description="The records behind this report",
        created=signed,
        modified=signed,
        relationship="Source",
        url_fetcher=_refuse,
    )


def _refuse(url: str) -> Never:
    raise ValueError(f"Attachments are handed in, never fetched: {url}")
