"""Cards and their entries. Rows are only ever added."""

from sqlalchemy import BigInteger, ForeignKey, Index, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class CardRow(Base):
    """Which workshop a card belongs to: the workshop whose entry for it came first."""

    __tablename__ = "cards"

    id: Mapped[str] = mapped_column(primary_key=True)
    workshop: Mapped[str] = mapped_column(ForeignKey("workshops.id"))


class EntryRow(Base):
    """An entry. `body` and `replaces` are JSON text; `arrival` counts within the workshop."""

    __tablename__ = "entries"
    __table_args__ = (UniqueConstraint("workshop", "arrival"), Index("ix_entries_card_arrival", "card", "arrival"))

    id: Mapped[str] = mapped_column(primary_key=True)
    workshop: Mapped[str] = mapped_column(ForeignKey("workshops.id"))
    card: Mapped[str] = mapped_column(ForeignKey("cards.id"))
    slot: Mapped[str]
    kind: Mapped[str]
    body: Mapped[str]
    replaces: Mapped[str]
    author: Mapped[str]
    device: Mapped[str]
    made_at: Mapped[str]
    format: Mapped[int]
    clock_off_ms: Mapped[int | None] = mapped_column(BigInteger)
    arrival: Mapped[int]
