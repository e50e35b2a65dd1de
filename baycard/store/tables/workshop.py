"""Workshops, each with the counter that its arrival numbers come from."""

from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class WorkshopRow(Base):
    """A workshop; `arrival`, the last number given out, grows inside the transaction that inserts.

    `plate_forms` are lines as in `people.plate_forms`.
    """

    __tablename__ = "workshops"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    units: Mapped[str]
    arrival: Mapped[int]
    plate_forms: Mapped[str] = mapped_column(server_default="")
