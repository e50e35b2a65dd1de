"""Copies of everything, made while the server runs, and put back into an empty folder."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from baycard.store.door import DATABASE_FILE, Store, open_store, sqlite_url
from baycard.store.migrate import prepare
from baycard.store.server import begin_epoch, server

KEPT_FOLDERS = ("blobs", "reports")
AUDIT_FILE = "audit.log"
LEFT_OUT = shutil.ignore_patterns("parts", "*.draft")


class BackupError(ValueError):
    """A folder is not what it should be: empty to write into, or a backup to read from."""


def back_up(folder: Path, target: Path) -> None:
    """Copy a data folder into a new folder; the server may go on meanwhile. Raises BackupError."""
    _need_database(folder)
    _need_empty(target)
    target.mkdir(parents=True, exist_ok=True)
    # The database first: whatever it mentions lies in the folders already, as files come before their rows.
    with closing(sqlite3.connect(folder / DATABASE_FILE)) as live, closing(_new(target / DATABASE_FILE)) as copy:
        live.backup(copy)
    for name in KEPT_FOLDERS:
        if (folder / name).is_dir():
            shutil.copytree(folder / name, target / name, ignore=LEFT_OUT)
    if (folder / AUDIT_FILE).is_file():
        shutil.copy2(folder / AUDIT_FILE, target / AUDIT_FILE)


def restore(backup: Path, folder: Path, now_s: int) -> None:
    """Put a backup into a new data folder and begin a new epoch, so that phones offer again what they sent since.

    now_s: seconds since 1970; it names the epoch, so that two restores of one backup do not get the same.
    Raises BackupError.
    """
    _need_database(backup)
    _need_empty(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for name in KEPT_FOLDERS:
        if (backup / name).is_dir():
            shutil.copytree(backup / name, folder / name)
    with closing(sqlite3.connect(backup / DATABASE_FILE)) as kept, closing(_new(folder / DATABASE_FILE)) as copy:
        kept.backup(copy)
    store = open_store(sqlite_url(folder), folder)
    prepare(store)
    put_back(store, now_s)
    store.close()


def put_back(store: Store, now_s: int) -> None:
    """Begin a new epoch over a database that was put back by whatever means. now_s: seconds since 1970."""
    with store.write() as tx:
        begin_epoch(tx, max(server(tx).epoch + 1, now_s))


def _new(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA synchronous=FULL")
    return connection


def _need_database(folder: Path) -> None:
    if not (folder / DATABASE_FILE).is_file():
        raise BackupError(
            f"{folder} holds no {DATABASE_FILE}: name the folder that Baycard's data or a backup lies in."
        )


def _need_empty(folder: Path) -> None:
    if folder.exists() and any(folder.iterdir()):
        raise BackupError(f"{folder} is not empty: name a new folder, so that nothing is overwritten.")
