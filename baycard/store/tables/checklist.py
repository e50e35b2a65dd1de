"""Every published version of every checklist, kept for ever: old cards are read with the version they pinned."""

from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class ChecklistRow(Base):
    """A published checklist; `content` is its compiled JSON."""

    __tablename__ = "checklists"

    id: Mapped[str] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    sha256: Mapped[str]
    content: Mapped[str]
