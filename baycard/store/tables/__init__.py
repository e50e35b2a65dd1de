"""The tables, one file per noun; importing this package fills the metadata."""

from baycard.store.tables.base import Base
from baycard.store.tables.blob import BlobRow
from baycard.store.tables.checklist import ChecklistRow
from baycard.store.tables.device import DeviceRow
from baycard.store.tables.entry import CardRow, EntryRow
from baycard.store.tables.mail import MailRow
from baycard.store.tables.person import PersonRow
from baycard.store.tables.revision import RevisionRow
from baycard.store.tables.server import ServerRow
from baycard.store.tables.session import SessionRow
from baycard.store.tables.workshop import WorkshopRow

__all__ = [
    "Base",
    "BlobRow",
    "CardRow",
    "ChecklistRow",
    "DeviceRow",
    "EntryRow",
    "MailRow",
    "PersonRow",
    "RevisionRow",
    "ServerRow",
    "SessionRow",
    "WorkshopRow",
]
