"""Proves that a data folder is whole: the database sound, every photo and sound there and unchanged."""

from sqlalchemy import text

from baycard.store.blob_folder import sha256_of
from baycard.store.blobs import all_blobs
from baycard.store.door import Store, Tx


def check_store(store: Store) -> list[str]:
    """What is wrong, one sentence each; an empty list when all is well."""
    with store.read() as tx:
        return [*_database_faults(tx), *_blob_faults(store, tx)]


def _database_faults(tx: Tx) -> list[str]:
    if tx.dialect.name != "sqlite":
        return []
    faults = [str(row[0]) for row in tx.execute(text("PRAGMA integrity_check"))]
    broken = tx.execute(text("PRAGMA foreign_key_check")).fetchall()
    return [f"The database is damaged: {fault}." for fault in faults if fault != "ok"] + [
        f"A row of {row[0]} points to a row of {row[2]} that is not there." for row in broken
    ]


def _blob_faults(store: Store, tx: Tx) -> list[str]:
    faults = []
    for workshop, blob in all_blobs(tx):
        path = store.blobs.path(workshop, blob.sha256)
        if not path.is_file():
            faults.append(f"{blob.mime} {blob.sha256} is missing.")
        elif sha256_of(path) != blob.stored_sha256:
            faults.append(f"{blob.mime} {blob.sha256} was changed.")
    return faults
