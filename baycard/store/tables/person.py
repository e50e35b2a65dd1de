"""People of a workshop: who records, who signs."""

from sqlalchemy import ForeignKey, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class PersonRow(Base):
    """A person. `name_key` is the name case-folded, so that nobody can take a colleague's name in capitals."""

    __tablename__ = "people"
    __table_args__ = (UniqueConstraint("workshop", "name_key"),)

    id: Mapped[str] = mapped_column(primary_key=True)
    workshop: Mapped[str] = mapped_column(ForeignKey("workshops.id"))
    name: Mapped[str]
    name_key: Mapped[str] = mapped_column(index=True)
    role: Mapped[str]
    secret_hash: Mapped[str]
    active: Mapped[bool]
    made_at: Mapped[str]
