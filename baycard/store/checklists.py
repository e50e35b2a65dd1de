"""Published checklists: a version, once published, never changes."""

import json
from collections.abc import Iterator
from typing import Any

from sqlalchemy import insert, select

from baycard.store.door import Tx
from baycard.store.tables import ChecklistRow


def publish(tx: Tx, checklist: dict[str, Any]) -> bool:
    """Keep a compiled checklist. False when this version is already published with other content."""
    published = select(ChecklistRow.sha256).where(
        ChecklistRow.id == checklist["id"], ChecklistRow.version == checklist["version"]
    )
    row = tx.execute(published).first()
    if row is not None:
        return bool(row.sha256 == checklist["sha256"])
    tx.execute(
        insert(ChecklistRow).values(
            id=checklist["id"],
            version=checklist["version"],
            sha256=checklist["sha256"],
            content=json.dumps(checklist, ensure_ascii=False, separators=(",", ":")),
        )
    )
    return True


def every_published(tx: Tx) -> Iterator[dict[str, Any]]:
    """Every published version of every checklist."""
    for content in tx.execute(select(ChecklistRow.content)).scalars():
        yield json.loads(content)


def published(tx: Tx, id_: str, version: int) -> tuple[str, str] | None:
    """A published version as its sha256 and JSON text."""
    row = tx.execute(
        select(ChecklistRow.sha256, ChecklistRow.content).where(ChecklistRow.id == id_, ChecklistRow.version == version)
    ).first()
    return (row.sha256, row.content) if row else None
