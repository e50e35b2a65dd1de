"""What the commands do: each takes its arguments and the environment, and gives the exit code."""

import argparse
import os
import shutil
import sys
import time
from collections.abc import MutableMapping
from getpass import getpass
from pathlib import Path

from baycard.checklists.from_json import to_json
from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book
from baycard.desk.check_revisions import check_revisions
from baycard.people import admit
from baycard.people.secrets import weakness
from baycard.settings import Settings, settings_from
from baycard.store import backup
from baycard.store.door import DATABASE_FILE, Store, open_store, sqlite_url
from baycard.store.migrate import prepare
from baycard.store.verify import check_store
from baycard.store.workshops import workshops
from baycard.web.audit import NEW_SECRET, note_command
from baycard.web.published import publish_book

Environ = MutableMapping[str, str]

DEMO_FOLDER = Path("demo-data")
DEMO_SECRET = "tern-street"  # noqa: S105  # of invented people, on a server that only this machine reaches
DEMO_BOOK = "demo-book.sha256"


def add_person(given: argparse.Namespace, environ: Environ) -> int:
    """Enter a person, and the workshop if it is new."""
    secret = _secret()
    if problem := weakness(secret, given.name):
        raise ValueError(problem)
    store = _prepared(settings_from(environ, given.data))
    workshop = admit.workshop_named(store, given.workshop, given.units)
    made = admit.add_person(store, workshop.id, given.name, given.role, secret, given.id)
    store.close()
    if made == "id-taken":
        raise ValueError(f"{given.id} is taken, or not an id as phones write it.")
    if isinstance(made, str):
        raise ValueError(f"{given.workshop} has somebody named {given.name}: choose another name.")
    print(f"{made.name} may sign in as {made.role} of {given.workshop}.")
    return 0


def new_secret(given: argparse.Namespace, environ: Environ) -> int:
    """Give a person a new secret, for whoever forgot the old one and has no owner to ask."""
    secret, settings = _secret(), settings_from(environ, given.data)
    store = _prepared(settings)
    try:
        found = admit.give_secret_by_name(store, given.workshop, given.name, secret)
    finally:
        store.close()
    note_command(settings.folder, NEW_SECRET, changed=found.id)
    print(f"{found.name} has a new secret and signs in anew everywhere. What waits on a phone goes after that.")
    return 0


def set_plates(given: argparse.Namespace, environ: Environ) -> int:
    """Say how plates look where a workshop is."""
    store = _prepared(settings_from(environ, given.data))
    try:
        forms = admit.set_plate_forms(store, given.workshop, given.form)
    finally:
        store.close()
    print(
        f"Plates of {given.workshop}: {', '.join(forms) or 'any form'}. Phones learn it when they next meet the server."
    )
    return 0


def back_up(given: argparse.Namespace, environ: Environ) -> int:
    """Copy everything into a new folder and prove the copy."""
    settings = settings_from(environ, given.data)
    if not settings.database.startswith("sqlite"):
        raise ValueError(
            "The data lies in PostgreSQL: use pg_dump, then copy the folder of the blobs. "
            "After pg_restore run `baycard restored`."
        )
    backup.back_up(settings.folder, given.to)
    return _report(given.to)


def restore(given: argparse.Namespace, environ: Environ) -> int:
    """Prove a backup, then put it into a new data folder."""
    code = _report(given.backup)
    if code == 0:
        folder = settings_from(environ, given.data).folder
        backup.restore(given.backup, folder, int(time.time()))
        print(f"Restored into {folder}. Phones will offer again what they sent since the backup.")
    return code


def restored(given: argparse.Namespace, environ: Environ) -> int:
    """Say that the data was put back by other means, so that phones offer again what they sent since."""
    store = _prepared(settings_from(environ, given.data))
    backup.put_back(store, int(time.time()))
    store.close()
    print("Phones will offer again what they sent since. If the server runs, start it again now.")
    return 0


def verify(given: argparse.Namespace, environ: Environ) -> int:
    """Prove that a folder is whole."""
    return _report(settings_from(environ, given.data).folder)


def demo(given: argparse.Namespace, environ: Environ) -> int:
    """Fill a folder with the demo workshop, once, and serve it."""
    from baycard.web.serve import Address, serve  # noqa: PLC0415  # only serving needs the web

    folder = given.data or DEMO_FOLDER
    book = load_book(seed_folder())
    if given.data is None and folder.exists() and not _is_of(folder, book):
        shutil.rmtree(folder)  # made by this command, for a book that is no longer this one
    _fill_once(folder, book)
    environ.setdefault("BAYCARD_MAIL_FOLDER", str(folder / "mail"))
    address = Address(given.host, given.port, given.certificate, given.key)
    print(f"The bay, for a phone's screen:  {address.url}/bay")
    print(f"The desk, for a wide screen:    {address.url}/desk")
    print("Sign in as Ines Varga or Tom Abara (technicians), Ruth Okello (foreman) or Ola Tern (owner).")
    print(
        f"The secret of all four is {DEMO_SECRET}. Mails are written to {environ['BAYCARD_MAIL_FOLDER']}.", flush=True
    )
    return serve(address, folder, environ)


def _fill_once(folder: Path, book: Book) -> None:
    from baycard.demo.fill import fill  # noqa: PLC0415  # the demo draws pictures: nobody else needs that

    store = _prepared(Settings(folder, sqlite_url(folder)))
    with store.read() as tx:
        empty = not workshops(tx)
    if empty:
        publish_book(store, to_json(book))
        fill(store, book, time.time_ns() // 1_000_000, os.urandom, DEMO_SECRET)
        (folder / DEMO_BOOK).write_text(book.sha256)
    store.close()


def _is_of(folder: Path, book: Book) -> bool:
    mark = folder / DEMO_BOOK
    return mark.is_file() and mark.read_text() == book.sha256


def _prepared(settings: Settings) -> Store:
    store = open_store(settings.database, settings.folder)
    prepare(store)
    return store


def _report(folder: Path) -> int:
    """Say what is wrong with a data folder or a backup."""
    if not (folder / DATABASE_FILE).is_file():
        raise ValueError(f"{folder} holds no data of Baycard.")
    store = open_store(sqlite_url(folder), folder)
    faults = [*check_store(store), *check_revisions(store)]
    store.close()
    print("\n".join(faults) or f"{folder} is whole.")
    return 1 if faults else 0


def _secret() -> str:
    """The secret is typed, or read from the first line of the input: on the command line others could see it."""
    return getpass("Secret: ") if sys.stdin.isatty() else sys.stdin.readline().rstrip("\n")
