"""The store's door: opens the database, hands out transactions, and knows where the blobs lie."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Lock
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event

from baycard.store.blob_folder import BlobFolder

BUSY_TIMEOUT_MS = 15_000
CONNECTIONS_MAX = 48
DATABASE_FILE = "baycard.sqlite"

Tx = Connection
"""An open transaction: the first argument of every function of this room. Other rooms only pass it on."""


class Store:
    """A database and a blob folder.

    `read()` gives a steady view; `write()` is the only way to change anything: what was done inside it is
    on the disk when the block ends, and nothing of it is when the block raises.
    """

    def __init__(self, engine: Engine, blobs: BlobFolder) -> None:
        self.engine = engine
        self.blobs = blobs
        self._writer = engine.execution_options(baycard_write=True)
        self._turn = Lock() if engine.dialect.name == "sqlite" else None

    @contextmanager
    def read(self) -> Iterator[Tx]:
        """A read-only transaction."""
        with self.engine.connect() as tx, tx.begin():
            yield tx

    @contextmanager
    def write(self) -> Iterator[Tx]:
        """A transaction that holds the write lock from its first statement (SQLite) and commits at the end."""
        with self._in_turn(), self._writer.connect() as tx, tx.begin():
            yield tx

    @contextmanager
    def _in_turn(self) -> Iterator[None]:
        """Writers of this process wait here: SQLite's own wait sleeps longer and longer, past the moment it is free."""
        if self._turn is None:
            yield
            return
        mine = self._turn.acquire(timeout=BUSY_TIMEOUT_MS / 1000)  # if not, SQLite says that it is locked
        try:
            yield
        finally:
            if mine:
                self._turn.release()

    def close(self) -> None:
        """Close all connections."""
        self.engine.dispose()


def open_store(url: str, folder: Path) -> Store:
    """Open the store at a database address, with its blobs below `folder`.

    url: `sqlite:////path/file.sqlite` or `postgresql+psycopg://…`.
    """
    folder.mkdir(parents=True, exist_ok=True)
    return Store(_engine(url), BlobFolder(folder / "blobs"))


def sqlite_url(folder: Path) -> str:
    """The address of the SQLite database that lies in a data folder."""
    return f"sqlite:///{(folder / DATABASE_FILE).absolute()}"


def _engine(url: str) -> Engine:
    engine = create_engine(url, pool_size=CONNECTIONS_MAX, max_overflow=CONNECTIONS_MAX)
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _prepare_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
    return engine


def _prepare_sqlite(connection: Any, _record: object) -> None:  # noqa: ANN401  # the driver's own connection
    # The driver must not open transactions on its own: a read that later writes could not wait for the lock.
    connection.isolation_level = None
    for pragma in (
        "journal_mode=WAL",
        "synchronous=FULL",
        "foreign_keys=ON",
        f"busy_timeout={BUSY_TIMEOUT_MS}",
    ):
        connection.execute(f"PRAGMA {pragma}")


def _begin_sqlite(connection: Connection) -> None:
    write = connection.get_execution_options().get("baycard_write", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if write else "BEGIN")
