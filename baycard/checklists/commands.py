"""The commands of this room: check and show a checklist, write the reference page, work a file of calculations out."""

# ruff: noqa: PLC0415

import argparse
import json
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from baycard.checklists.problems import BookError, Problem
from baycard.checklists.seed import seed_folder

if TYPE_CHECKING:
    from baycard.checklists.types import JsonValue

    Subparsers = argparse._SubParsersAction[argparse.ArgumentParser]

# The loader is imported by the command that needs it (hence the noqa): `baycard --help` should not wait for it.


def add_commands(subparsers: "Subparsers") -> None:
    """Adds `checklist check|show|reference|texts` and `work`; each sets `run`, from arguments to exit code."""
    checklist = subparsers.add_parser("checklist", help="check, show and list the shop's checklists")
    inner = checklist.add_subparsers(required=True, metavar="COMMAND")
    check = inner.add_parser("check", help="find every mistake in a checklist file, or in a folder of knowledge")
    check.add_argument("file", type=Path, nargs="?", help="a YAML file; the folder it lies in is read with it")
    check.set_defaults(run=run_check)
    show = inner.add_parser("show", help="print a checklist as a technician meets it")
    show.add_argument("file", type=Path, help="a file of the folder checklists/, or the id of a checklist")
    show.set_defaults(run=run_show)
    reference = inner.add_parser("reference", help="print the page of all methods and limits")
    reference.set_defaults(run=run_reference)
    texts = inner.add_parser("texts", help="print the catalogue of a language, brought up to date for its translator")
    texts.add_argument("language", help="such as de")
    texts.set_defaults(run=run_texts)
    worker = subparsers.add_parser("work", help="work a JSON list of calculations out, one JSON line for each")
    worker.add_argument("file", help="the file, or - for standard input")
    worker.set_defaults(run=run_work)


def run_check(arguments: argparse.Namespace) -> int:
    """Prints every mistake, one per line. 0 when there is none."""
    from baycard.checklists.load import read_book

    path: Path | None = arguments.file
    folder, name = _folder_of(path)
    book, problems = read_book(folder)
    mine = [one for one in problems if name is None or one.file in (name, f"checklists/{name}", f"methods/{name}")]
    _print_problems(mine)
    others = len(problems) - len(mine)
    if others:
        print(f"{others} more in other files of {folder}", file=sys.stderr)
    if not problems:
        print(f"in order: {len(book.checklists)} checklists, {len(book.methods)} methods")
    return 1 if problems else 0


def run_show(arguments: argparse.Namespace) -> int:
    """Prints the checklist. 2 when there is no such checklist or the folder has mistakes."""
    from baycard.checklists.load import load_book
    from baycard.checklists.show import show_checklist

    path: Path = arguments.file
    folder, _ = _folder_of(path if path.suffix else None)
    try:
        book = load_book(folder)
    except BookError as error:
        _print_problems(error.problems)
        return 2
    checklist = book.checklist(path.stem if path.suffix else str(path))
    if checklist is None:
        known = ", ".join(one.id for one in book.checklists)
        print(f"there is no checklist {path}; there are: {known}", file=sys.stderr)
        return 2
    print(show_checklist(checklist, book))
    return 0


def run_texts(arguments: argparse.Namespace) -> int:
    """Prints the gettext catalogue of the checklists in a language; what is not translated is empty there."""
    from baycard.checklists.load import load_book
    from baycard.checklists.translations import catalogue

    sys.stdout.write(catalogue(load_book(seed_folder()), arguments.language).decode())
    return 0


def run_reference(_: argparse.Namespace) -> int:
    """Prints the reference page of the knowledge that comes with Baycard."""
    from baycard.checklists.load import load_book
    from baycard.checklists.reference_page import reference_page

    print(reference_page(load_book(seed_folder())), end="")
    return 0


def run_work(arguments: argparse.Namespace) -> int:
    """Prints one JSON line per item. 0 when all worked, 1 when one did not, 2 when the file cannot be read."""
    from baycard.checklists.load import load_book
    from baycard.checklists.work_file import WorkFileError, read_items, work_items

    try:
        text = sys.stdin.read() if arguments.file == "-" else Path(arguments.file).read_text(encoding="utf-8")
        items = read_items(text)
    except (OSError, UnicodeDecodeError, WorkFileError) as error:
        print(f"{arguments.file}: {error}", file=sys.stderr)
        return 2
    failed = False
    for answer in work_items(items, load_book(seed_folder())):
        failed = failed or "error" in answer
        print(_line(answer))
    return 1 if failed else 0


def _line(answer: Mapping[str, "JsonValue"]) -> str:
    """JSON in plain letters; half of a surrogate pair, which no encoding can hold, is escaped as JSON does it."""
    return json.dumps(answer, ensure_ascii=False).encode("utf-8", "backslashreplace").decode("utf-8")


def _folder_of(path: Path | None) -> tuple[Path, str | None]:
    """The folder of knowledge a file belongs to (the nearest one above it with units.yaml) and the file's name."""
    if path is None:
        return seed_folder(), None
    if path.is_dir():
        return path, None
    above = [folder for folder in path.resolve().parents if (folder / "units.yaml").is_file()]
    return (above[0] if above else path.resolve().parent), path.name


def _print_problems(problems: Sequence[Problem]) -> None:
    for problem in problems:
        print(problem)
