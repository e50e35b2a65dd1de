"""The server's own name: which installation this is, and how often it was restored from a backup."""

from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class ServerRow(Base):
    """One row, number 1."""

    __tablename__ = "server"

    id: Mapped[int] = mapped_column(primary_key=True)
    instance: Mapped[str]
    epoch: Mapped[int]
