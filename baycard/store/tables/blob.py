"""Photos and sounds that are held in full; the bytes lie in the blob folder."""

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class BlobRow(Base):
    """A blob of a workshop under the hash it was sent by.

    `stored_sha256` differs from `sha256` when the photo was cleaned (position data removed) on arrival.
    """

    __tablename__ = "blobs"

    workshop: Mapped[str] = mapped_column(ForeignKey("workshops.id"), primary_key=True)
    sha256: Mapped[str] = mapped_column(primary_key=True)
    mime: Mapped[str]
    sent_bytes: Mapped[int]
    stored_bytes: Mapped[int]
    stored_sha256: Mapped[str]
    width: Mapped[int | None]
    height: Mapped[int | None]
    made_at: Mapped[str]
