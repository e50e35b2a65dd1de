"""Signs a card off: what the foreman saw is frozen, numbered and entered."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

from baycard.journal.digest import digest
from baycard.journal.entry import Entry, EntryContext, iso_time, new_entry
from baycard.journal.freeze import PinnedChecklist, freeze
from baycard.journal.standing import Standing, disagreements, standing
from baycard.store.blobs import held
from baycard.store.checklists import published
from baycard.store.door import Store, Tx
from baycard.store.entries import Arrived, KeptEntry, add_entries, body_text, entries_of_card
from baycard.store.revisions import add_revision, next_revision
from baycard.store.values import Revision, SignedIn
from baycard.store.workshops import hold_counter, move_counter

Drive = Literal["yes", "with-restrictions", "no", "not-judged"]
MISSING_NAMED = 500
DRIVES: tuple[Drive, ...] = ("yes", "with-restrictions", "no", "not-judged")


@dataclass(frozen=True, slots=True)
class Judgement:
    """What the foreman saw (count and digest of the entries) and what is signed.

    without_photos: why it is signed although photos or sounds have not arrived; empty = only with all of them.
    """

    count: int
    digest: str
    drive: Drive
    restrictions: str
    look_again: str
    words: str
    without_photos: str = ""


@dataclass(frozen=True, slots=True)
class Changed:
    """The server holds other entries than the foreman saw."""

    count: int
    digest: str


@dataclass(frozen=True, slots=True)
class Unsettled:
    """Slots in which entries disagree."""

    slots: list[str]


@dataclass(frozen=True, slots=True)
class PhotosMissing:
    """Slots of standing photos and sounds whose bytes the server does not hold."""

    slots: list[str]


@dataclass(frozen=True, slots=True)
class Hands:
    """Clock (ms since 1970 UTC) and random source."""

    now_ms: Callable[[], int]
    random_bytes: Callable[[int], bytes]


Objection = Changed | Unsettled | PhotosMissing | Literal["empty-card", "unknown-checklist"]
SignOff = Entry | Objection


def sign_off(store: Store, who: SignedIn, card: str, judgement: Judgement, hands: Hands) -> SignOff:
    """Freeze a card's entries as its next revision; the entry made for it is on the disk when this returns."""
    with store.write() as tx:
        arrival = hold_counter(tx, who.workshop.id)
        kept = entries_of_card(tx, who.workshop.id, card)
        objection = _objection(tx, kept, judgement)
        if objection is not None:
            return objection
        missing = missing_media(tx, who.workshop.id, standing(line.entry for line in kept))
        if missing and not judgement.without_photos.strip():
            return PhotosMissing(missing)
        entry, revision = _signed(tx, who, card, kept, judgement, missing, hands)
        move_counter(tx, who.workshop.id, arrival + 1)
        add_entries(tx, who.workshop.id, [Arrived(entry, body_text(dict(entry.body)), arrival + 1)])
        add_revision(tx, revision)
        return entry


def missing_media(tx: Tx, workshop: str, stand: Standing) -> list[str]:
    """Slots of the standing photos and sounds whose bytes have not arrived."""
    blobs = {
        slot: str(entry.body["blob"])
        for slot, entries in stand.items()
        for entry in entries
        if entry.kind in ("photo", "sound")
    }
    here = held(tx, workshop, list(blobs.values()))
    return sorted(slot for slot, sha256 in blobs.items() if sha256 not in here)


def pinned_checklists(stand: Standing) -> list[PinnedChecklist]:
    """The checklist versions a card has chosen."""
    chosen = [entry for entries in stand.values() for entry in entries if entry.kind == "checklist-chosen"]
    return [
        PinnedChecklist(entry.slot.rpartition("/")[2], int(entry.body["version"]), str(entry.body["sha256"]))
        for entry in chosen
    ]


def _objection(tx: Tx, kept: list[KeptEntry], judgement: Judgement) -> Objection | None:
    if not kept:
        return "empty-card"
    here = digest(line.entry.id for line in kept)
    if (len(kept), here) != (judgement.count, judgement.digest):
        return Changed(len(kept), here)
    stand = standing(line.entry for line in kept)
    torn = disagreements(stand)
    # Signing names every standing stage, which settles a disagreement about the stage itself.
    torn = [slot for slot in torn if slot != "stage"]
    if torn:
        return Unsettled(torn)
    return None if all(_is_published(tx, pin) for pin in pinned_checklists(stand)) else "unknown-checklist"


def _is_published(tx: Tx, pin: PinnedChecklist) -> bool:
    found = published(tx, pin.id, pin.version)
    return found is not None and found[0] == pin.sha256


def _signed(  # noqa: PLR0913, PLR0917  # the pieces of one transaction
    tx: Tx, who: SignedIn, card: str, kept: list[KeptEntry], judgement: Judgement, missing: list[str], hands: Hands
) -> tuple[Entry, Revision]:
    entries = [line.entry for line in kept]
    stand = standing(entries)
    number, arrival = next_revision(tx, card), kept[-1].arrival
    sha256 = freeze(card, pinned_checklists(stand), entries)
    body: dict[str, Any] = {
        "revision": number,
        "count": judgement.count,
        "digest": judgement.digest,
        "arrival": arrival,
        "sha256": sha256,
        "drive": judgement.drive,
        "restrictions": judgement.restrictions,
        "look_again": judgement.look_again,
        "words": judgement.words,
    }
    if missing:
        body["without_photos"] = {"why": judgement.without_photos.strip(), "missing": missing[:MISSING_NAMED]}
    context = EntryContext(card, who.person.id, who.device.id, hands.now_ms, hands.random_bytes)
    replaces = [entry.id for entry in stand.get("stage", ())]
    entry = new_entry("signed-off", "stage", body, replaces, context)
    revision = Revision(card, number, who.workshop.id, entry.id, arrival, sha256, iso_time(hands.now_ms()))
    return entry, revision
