"""Devices that a workshop has signed in on."""

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from baycard.store.tables.base import Base


class DeviceRow(Base):
    """A phone or a desk computer; `revoked_at` is set when it was shut out."""

    __tablename__ = "devices"

    id: Mapped[str] = mapped_column(primary_key=True)
    workshop: Mapped[str] = mapped_column(ForeignKey("workshops.id"), index=True)
    name: Mapped[str]
    made_at: Mapped[str]
    revoked_at: Mapped[str | None]
