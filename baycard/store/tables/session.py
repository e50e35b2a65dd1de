"""Sessions: who is signed in on which device. Only a hash of the token is kept."""

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class SessionRow(Base):
    """A session, named by the SHA-256 of its token. Times are seconds since 1970."""

    __tablename__ = "sessions"

    token_hash: Mapped[str] = mapped_column(primary_key=True)
    person: Mapped[str] = mapped_column(ForeignKey("people.id"), index=True)
    device: Mapped[str] = mapped_column(ForeignKey("devices.id"), index=True)
    made_at: Mapped[int]
    ends_at: Mapped[int]
