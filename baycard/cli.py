"""The command line: serve, demo, people, plates, backup, restore, verify, and the commands about checklists."""

import argparse
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from baycard.checklists.problems import BookError

if TYPE_CHECKING:
    Commands = argparse._SubParsersAction[argparse.ArgumentParser]

# Rooms are imported by the command that needs them: the answer to `baycard --help` should not wait for all of them.


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit code is 0 when it did what was asked."""
    given = _parser().parse_args(arguments)
    try:
        code: int = given.run(given)
        sys.stdout.flush()
    except BrokenPipeError:
        code = _nobody_reads_on()
    except (ValueError, FileNotFoundError, BookError) as error:
        print(error, file=sys.stderr)
        code = 1
    return code


def _nobody_reads_on() -> int:
    """Whoever read the output has left (`| head`): end without complaint, at the end of the program too."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 1


def _parser() -> argparse.ArgumentParser:
    from baycard.checklists.commands import add_commands

    parser = argparse.ArgumentParser(prog="baycard", description="Vehicle findings, from the bay to the customer.")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    _add_server_commands(commands)
    _add_workshop_commands(commands)
    _add_backup_commands(commands)
    add_commands(commands)
    return parser


def _add_server_commands(commands: "Commands") -> None:
    serve = commands.add_parser("serve", help="serve the app")
    serve.set_defaults(run=_serve)
    demo = commands.add_parser("demo", help="serve a workshop filled with an example")
    demo.set_defaults(run=_demo)
    for parser in (serve, demo):
        parser.add_argument("--host", default="127.0.0.1")
        parser.add_argument("--port", type=int, default=8000)
        parser.add_argument("--certificate", type=Path, default=None, help="answer by https with this PEM file")
        parser.add_argument("--key", type=Path, default=None, help="the key of the certificate")
        _add_data(parser)


def _add_workshop_commands(commands: "Commands") -> None:
    person = commands.add_parser("add-person", help="enter a person, and the workshop if it is new")
    person.add_argument("--workshop", required=True)
    person.add_argument("--name", required=True)
    person.add_argument("--role", choices=("technician", "foreman", "owner"), required=True)
    person.add_argument("--units", choices=("metric", "us"), default="metric", help="for a new workshop")
    person.add_argument("--id", help="of somebody who was entered after the backup that was put back")
    _add_data(person)
    person.set_defaults(run=_add_person)
    secret = commands.add_parser("new-secret", help="give a person a new secret in place of a forgotten one")
    secret.add_argument("--workshop", required=True)
    secret.add_argument("--name", required=True)
    _add_data(secret)
    secret.set_defaults(run=_new_secret)
    plates = commands.add_parser("set-plates", help="say how plates look where a workshop is")
    plates.add_argument("--workshop", required=True)
    plates.add_argument(
        "--form", action="append", default=[], help="A letter, 9 digit, ? either, as in 'AA 99 AAA'; may be repeated"
    )
    _add_data(plates)
    plates.set_defaults(run=_set_plates)


def _add_backup_commands(commands: "Commands") -> None:
    backup = commands.add_parser("backup", help="copy everything into a new folder, while the server runs")
    backup.add_argument("to", type=Path)
    _add_data(backup)
    backup.set_defaults(run=_backup)
    restore = commands.add_parser("restore", help="put a backup into a new data folder")
    restore.add_argument("backup", type=Path)
    _add_data(restore)
    restore.set_defaults(run=_restore)
    restored = commands.add_parser("restored", help="say that the data was put back by other means than restore")
    _add_data(restored)
    restored.set_defaults(run=_restored)
    verify = commands.add_parser("verify", help="prove that a data folder or a backup is whole")
    _add_data(verify)
    verify.set_defaults(run=_verify)


def _add_data(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--data", type=Path, default=None, help="the data folder (BAYCARD_DATA, else baycard-data)")


def _serve(given: argparse.Namespace) -> int:
    from baycard.web.serve import Address, serve

    return serve(Address(given.host, given.port, given.certificate, given.key), given.data, os.environ)


def _demo(given: argparse.Namespace) -> int:
    from baycard.commands import demo

    return demo(given, os.environ)


def _add_person(given: argparse.Namespace) -> int:
    from baycard.commands import add_person

    return add_person(given, os.environ)


def _new_secret(given: argparse.Namespace) -> int:
    from baycard.commands import new_secret

    return new_secret(given, os.environ)


def _set_plates(given: argparse.Namespace) -> int:
    from baycard.commands import set_plates

    return set_plates(given, os.environ)


def _backup(given: argparse.Namespace) -> int:
    from baycard.commands import back_up

    return back_up(given, os.environ)


def _restored(given: argparse.Namespace) -> int:
    from baycard.commands import restored

    return restored(given, os.environ)


def _restore(given: argparse.Namespace) -> int:
    from baycard.commands import restore

    return restore(given, os.environ)


def _verify(given: argparse.Namespace) -> int:
    from baycard.commands import verify

    return verify(given, os.environ)


if __name__ == "__main__":
    sys.exit(main())
