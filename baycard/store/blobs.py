"""What is known of the blobs that are held in full."""

from sqlalchemy import bindparam, insert, select, update

from baycard.store.door import Tx
from baycard.store.tables import BlobRow
from baycard.store.values import Blob

BLOB = (
    BlobRow.sha256,
    BlobRow.mime,
    BlobRow.sent_bytes,
    BlobRow.stored_bytes,
    BlobRow.stored_sha256,
    BlobRow.width,
    BlobRow.height,
)


# Put together once: every upload asks and adds.
_FOUND = select(*BLOB).where(BlobRow.workshop == bindparam("workshop"), BlobRow.sha256 == bindparam("sha256"))
_ADDED = insert(BlobRow)


def blob(tx: Tx, workshop: str, sha256: str) -> Blob | None:
    """A blob that a workshop holds in full."""
    row = tx.execute(_FOUND, {"workshop": workshop, "sha256": sha256}).first()
    return Blob(*row) if row else None


def held(tx: Tx, workshop: str, hashes: list[str]) -> set[str]:
    """Those of the hashes that a workshop holds in full."""
    rows = tx.execute(select(BlobRow.sha256).where(BlobRow.workshop == workshop, BlobRow.sha256.in_(hashes)))
    return {row.sha256 for row in rows}


def add_blob(tx: Tx, workshop: str, made: Blob, at: str) -> None:
    """Keep what is known of a blob; one whose file was lost and written anew may be stored as other bytes."""
    known = blob(tx, workshop, made.sha256)
    if known == made:
        return
    row = {name: getattr(made, name) for name in (column.key for column in BLOB)}
    if known is None:
        tx.execute(_ADDED, {"workshop": workshop, "made_at": at, **row})
    else:
        tx.execute(update(BlobRow).where(BlobRow.workshop == workshop, BlobRow.sha256 == made.sha256).values(row))


def all_blobs(tx: Tx) -> list[tuple[str, Blob]]:
    """Every blob with its workshop, for a check of the folder against the table."""
    rows = tx.execute(select(BlobRow.workshop, *BLOB).order_by(BlobRow.workshop, BlobRow.sha256))
    return [(row.workshop, Blob(*row[1:])) for row in rows]
