"""Takes in the work that a phone saved to a file: its entries as a push would, its photos and sounds as a PUT would."""

from collections.abc import Sequence
from dataclasses import dataclass

from baycard.store.door import Store, Tx
from baycard.store.entries import owners_of_cards
from baycard.store.people import device, people_among, people_of
from baycard.store.values import Role, Server, SignedIn
from baycard.sync.accept import Kept, Outcome, keep
from baycard.sync.finish import Unfit
from baycard.sync.read_entry import Read, Refused, read_entry
from baycard.sync.rescue_file import RescueFile, RescueFileError, SavedBlob
from baycard.sync.upload import Piece, Uploaded, Uploads, WrongOffset
from baycard.sync.whose import objection

TRIES = 4


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What became of each entry, in the order of the file, and of each photo or sound by its SHA-256."""

    entries: Sequence[Outcome]
    blobs: Sequence[tuple[str, Uploaded]]

    def count(self, *, again: bool) -> int:
        """How many entries were kept now, or were kept before."""
        return sum(isinstance(entry, Kept) and entry.again is again for entry in self.entries)


@dataclass(frozen=True, slots=True)
class Shop:
    """Where a file is taken in: the server, its store and uploads, and who is at the desk."""

    server: Server
    store: Store
    uploads: Uploads
    who: SignedIn


def take_in(shop: Shop, file: RescueFile) -> TakenIn:
    """Keep what can be kept: all entries in one transaction, then each photo and sound.

    Taking a file in again changes nothing. What a device recorded before it was shut out is taken too: who takes the
    file in decides that. Raises RescueFileError when the file is another workshop's.
    """
    _check_origin(shop, file)
    read = _read(shop, file.entries)
    entries = keep(shop.store, shop.who.workshop.id, read, brought_from=file.origin.device)
    naming = _naming(file)
    return TakenIn(
        entries, [(blob.sha256, _keep_ours(shop, file, blob, naming.get(blob.sha256))) for blob in file.blobs]
    )


def _check_origin(shop: Shop, file: RescueFile) -> None:
    """A phone that changed hands may hold work of both workshops; then each thing in its file is judged alone."""
    ours, origin = shop.who.workshop.id, file.origin
    with shop.store.read() as tx:
        known = device(tx, origin.device)
        theirs = (known is not None and known.workshop != ours) or origin.workshop not in {"", ours}
        foreign = theirs and not _holds_work_of(tx, ours, file)
    if foreign or origin.server not in {"", shop.server.instance}:
        raise RescueFileError("rescue-other-workshop")


def _holds_work_of(tx: Tx, workshop: str, file: RescueFile) -> bool:
    authors = {str(entry.get("author")) for entry in file.entries if isinstance(entry, dict)}
    cards = {blob.card for blob in file.blobs}
    return bool(people_among(tx, workshop, authors)) or workshop in owners_of_cards(tx, cards).values()


def _read(shop: Shop, raw_entries: Sequence[object]) -> list[Read | Refused]:
    """Judge each entry by the role of its author: a file in the foreman's hand makes nobody a foreman."""
    with shop.store.read() as tx:
        roles = {person.id: person.role for person in people_of(tx, shop.who.workshop.id)}
    return [read_entry(raw, _role(raw, roles)) for raw in raw_entries]


def _role(raw: object, roles: dict[str, Role]) -> Role:
    author = raw.get("author") if isinstance(raw, dict) else None
    return roles.get(author, "technician") if isinstance(author, str) else "technician"


def _naming(file: RescueFile) -> dict[str, tuple[str, str]]:
    """Card and author of the entry that mentions each photo or sound, as far as it is in the file."""
    found: dict[str, tuple[str, str]] = {}
    for entry in file.entries:
        if isinstance(entry, dict) and isinstance(entry.get("body"), dict):
            found[str(entry["body"].get("blob"))] = str(entry.get("card")), str(entry.get("author"))
    return found


def _keep_ours(shop: Shop, file: RescueFile, blob: SavedBlob, naming: tuple[str, str] | None) -> Uploaded:
    """Keep it unless it belongs to another workshop, whose people used the phone before.

    Where its entry is not in the file, the phone had sent that: then its card is known here, or nobody can tell.
    """
    card, author = naming or (blob.card, "")
    code = objection(shop.store, shop.who.workshop.id, card, author)
    if code is None or (naming is None and code == "unknown-author"):
        return _keep_blob(shop, file, blob)
    return Unfit(code)


def _keep_blob(shop: Shop, file: RescueFile, blob: SavedBlob) -> Uploaded:
    """Put it where the phone's own upload stands; bytes spoilt on that way are thrown away and it is sent anew."""
    put = _put(shop, file, blob, 0)
    for _ in range(TRIES):
        if isinstance(put, WrongOffset):
            put = _put(shop, file, blob, put.offset)
        elif isinstance(put, Unfit) and put.code == "hash-mismatch":
            put = _put(shop, file, blob, 0)
    return put


def _put(shop: Shop, file: RescueFile, blob: SavedBlob, offset: int) -> Uploaded:
    with file.open_blob(blob) as stream:
        stream.seek(offset)
        return shop.uploads.append(Piece(shop.who.workshop.id, blob.sha256, offset, blob.bytes, stream))
