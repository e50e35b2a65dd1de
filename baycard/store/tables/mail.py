"""The outbox of reports: one line per revision and address, so that asking twice does not mail twice."""

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class MailRow(Base):
    """A report mailed, or to be mailed. `state` is `waiting`, `sent` or `failed`."""

    __tablename__ = "mails"

    card: Mapped[str] = mapped_column(ForeignKey("cards.id"), primary_key=True)
    revision: Mapped[int] = mapped_column(primary_key=True)
    address: Mapped[str] = mapped_column(primary_key=True)
    workshop: Mapped[str] = mapped_column(ForeignKey("workshops.id"))
    state: Mapped[str]
    changed_at: Mapped[str]
