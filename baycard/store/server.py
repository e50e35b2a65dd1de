"""The server's instance id and epoch."""

from sqlalchemy import insert, select, update

from baycard.store.door import Tx
from baycard.store.tables import ServerRow
from baycard.store.values import Server


def server(tx: Tx) -> Server:
    """The server's name and epoch; raises when the database was never prepared."""
    row = tx.execute(select(ServerRow.instance, ServerRow.epoch)).one()
    return Server(row.instance, row.epoch)


def name_server(tx: Tx, instance: str) -> None:
    """Give a new database its name, unless it has one."""
    if tx.execute(select(ServerRow.id)).first() is None:
        tx.execute(insert(ServerRow).values(id=1, instance=instance, epoch=1))


def begin_epoch(tx: Tx, epoch: int) -> None:
    """Say that history was cut: phones will offer again what they sent since."""
    tx.execute(update(ServerRow).values(epoch=epoch))
