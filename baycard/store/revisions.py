"""Signed revisions and the reports mailed for them."""

from typing import Literal

from sqlalchemy import func, insert, select, update

from baycard.store.door import Tx
from baycard.store.tables import MailRow, RevisionRow
from baycard.store.values import Revision

Mailing = Literal["waiting", "sent", "failed"]

REVISION = (
    RevisionRow.card,
    RevisionRow.revision,
    RevisionRow.workshop,
    RevisionRow.entry,
    RevisionRow.arrival,
    RevisionRow.sha256,
    RevisionRow.made_at,
)


def next_revision(tx: Tx, card: str) -> int:
    """The number that the next signed revision of a card gets, from 1."""
    last = tx.execute(select(func.max(RevisionRow.revision)).where(RevisionRow.card == card)).scalar_one()
    return (last or 0) + 1


def add_revision(tx: Tx, made: Revision) -> None:
    """Keep a signed revision."""
    tx.execute(
        insert(RevisionRow).values(
            card=made.card,
            revision=made.revision,
            workshop=made.workshop,
            entry=made.entry,
            arrival=made.arrival,
            sha256=made.sha256,
            made_at=made.made_at,
        )
    )


def revision(tx: Tx, workshop: str, card: str, number: int) -> Revision | None:
    """A signed revision of a card of this workshop."""
    row = tx.execute(
        select(*REVISION).where(
            RevisionRow.workshop == workshop, RevisionRow.card == card, RevisionRow.revision == number
        )
    ).first()
    return Revision(*row) if row else None


def all_revisions(tx: Tx) -> list[Revision]:
    """Every signed revision of every workshop."""
    rows = tx.execute(select(*REVISION).order_by(RevisionRow.workshop, RevisionRow.card, RevisionRow.revision))
    return [Revision(*row) for row in rows]


def mail_state(tx: Tx, made: Revision, address: str) -> tuple[str, str] | None:
    """What became of a mail, and when."""
    row = tx.execute(
        select(MailRow.state, MailRow.changed_at).where(
            MailRow.card == made.card, MailRow.revision == made.revision, MailRow.address == address
        )
    ).first()
    return (row.state, row.changed_at) if row else None


def note_mail(tx: Tx, made: Revision, address: str, state: Mailing, at: str) -> None:
    """Say what became of a mail of this report to this address."""
    line = (MailRow.card == made.card, MailRow.revision == made.revision, MailRow.address == address)
    if tx.execute(update(MailRow).where(*line).values(state=state, changed_at=at)).rowcount == 0:
        tx.execute(
            insert(MailRow).values(
                card=made.card,
                revision=made.revision,
                address=address,
                workshop=made.workshop,
                state=state,
                changed_at=at,
            )
        )
