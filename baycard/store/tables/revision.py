"""Signed revisions of a card: what was frozen, and when."""

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class RevisionRow(Base):
    """Revision n of a card: the entries up to `arrival`, whose freeze is `sha256`, signed by `entry`."""

    __tablename__ = "revisions"

    card: Mapped[str] = mapped_column(ForeignKey("cards.id"), primary_key=True)
    revision: Mapped[int] = mapped_column(primary_key=True)
    workshop: Mapped[str] = mapped_column(ForeignKey("workshops.id"))
    entry: Mapped[str] = mapped_column(ForeignKey("entries.id"))
    arrival: Mapped[int]
    sha256: Mapped[str]
    made_at: Mapped[str]
