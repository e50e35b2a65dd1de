"""Mistakes somebody could make in the server's code, put around it on purpose: the simulator has to notice each."""

import dataclasses
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any
from unittest.mock import patch

from baycard.store.door import Store, Tx
from baycard.store.pages import Page, page
from baycard.store.values import SignedIn
from baycard.sync.accept import Outcome, accept
from baycard.sync.finish import Finished
from baycard.sync.upload import Partial, Piece, Uploaded, Uploads

if TYPE_CHECKING:
    from tests.sync.fleet import Fleet

Patch = tuple[str, Any]


class DryRun(Store):
    """A store that takes everything back at the end of each transaction."""

    def __init__(self, real: Store) -> None:
        super().__init__(real.engine, real.blobs)

    @contextmanager
    def write(self) -> Iterator[Tx]:
        """As the real one, without the commit."""
        with self.engine.connect() as tx:
            begun = tx.begin()
            yield tx
            begun.rollback()


def _answer_before_commit(fleet: "Fleet") -> Patch:
    def early(store: Store, who: SignedIn, raw: Sequence[object]) -> list[Outcome]:
        fleet.clock.after(2.0, lambda: (accept(store, who, raw), None)[1])
        return accept(DryRun(store), who, raw)

    return "baycard.web.sync.accept", early


def _cursor_one_too_far(_fleet: "Fleet") -> Patch:
    def further(tx: Tx, workshop: str, after: int, limit: int) -> Page:
        found = page(tx, workshop, after, limit)
        return dataclasses.replace(found, cursor=found.cursor + 1)

    return "baycard.web.sync.page", further


def _replaces_is_dropped(_fleet: "Fleet") -> Patch:
    def without(store: Store, who: SignedIn, raw: Sequence[object]) -> list[Outcome]:
        return accept(store, who, [{**entry, "replaces": []} for entry in raw if isinstance(entry, dict)])

    return "baycard.web.sync.accept", without


def _nothing_is_known_already(_fleet: "Fleet") -> Patch:
    return "baycard.sync.accept.kept_entries", lambda _tx, _ids: {}


def _part_of_a_photo_is_a_photo(_fleet: "Fleet") -> Patch:
    real = Uploads.append

    def hasty(self: Uploads, piece: Piece) -> Uploaded:
        done = real(self, piece)
        if not isinstance(done, Partial) or done.offset == 0:
            return done
        part = self._store.blobs.read_part(piece.workshop, piece.sha256)
        return self._keep(piece, Finished(part, "audio/wav"), part)

    return "baycard.sync.upload.Uploads.append", hasty


def _restored_in_secret(_fleet: "Fleet") -> Patch:
    # With numbers that go on: phones notice it when they have fallen.
    counts_on = "UPDATE workshops SET arrival = arrival + 10000"
    return "tests.sync.shop.begin_epoch", lambda tx, _epoch: (tx.exec_driver_sql(counts_on), None)[1]


BUGS: dict[str, Callable[["Fleet"], Patch]] = {
    "answer before the commit": _answer_before_commit,
    "cursor one too far": _cursor_one_too_far,
    "replaces is dropped": _replaces_is_dropped,
    "nothing is known already": _nothing_is_known_already,
    "part of a photo is a photo": _part_of_a_photo_is_a_photo,
    "restored in secret": _restored_in_secret,
}


@contextmanager
def server_bug(name: str, fleet: "Fleet") -> Iterator[None]:
    """Let the server make a mistake meanwhile."""
    if name == "none":
        yield
        return
    target, mistake = BUGS[name](fleet)
    with patch(target, mistake):
        yield
