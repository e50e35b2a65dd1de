"""A folder of YAML to the book: every file read, every mistake collected, and one error that carries them all."""

import dataclasses
import hashlib
from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path
from typing import TypeVar

import rfc8785

from baycard.checklists.from_json import record_from_json, to_json
from baycard.checklists.json_rows import read_json_rows
from baycard.checklists.known import Known
from baycard.checklists.problems import BookError, Document, Problem, Spot
from baycard.checklists.read_checklists import read_checklist
from baycard.checklists.read_methods import Examples, read_examples, read_methods
from baycard.checklists.read_units import read_units
from baycard.checklists.rows import list_at, read_rows, written_id
from baycard.checklists.types import Book, Caution, Checklist, Instrument, Place, Station, WorkedExample
from baycard.checklists.yaml_file import read_yaml
from baycard.measure.book import UnitTable
from baycard.measure.functions import FUNCTIONS
from baycard.measure.units import Units

FORMAT = 1
Row = TypeVar("Row")


def load_book(folder: Path) -> Book:
    """The book of a folder such as seed_checklists. Raises BookError with every mistake found."""
    book, problems = read_book(folder)
    if problems:
        raise BookError(problems)
    return book


def read_book(folder: Path) -> tuple[Book, Sequence[Problem]]:
    """What could be read of the folder, and every mistake found in it."""
    problems: list[Problem] = []
    reader = _Folder(folder, problems)
    known = _known(reader)
    read_methods(reader.all("methods", "*.yaml"), _examples(reader), known)
    checklists = [read_checklist(top, known) for top in reader.all("checklists", "*.yaml")]
    return _book(known, reader.units, [one for one in checklists if one]), sorted(set(problems))


class _Folder:
    """Opens the files of the folder."""

    def __init__(self, folder: Path, problems: list[Problem]) -> None:
        self._folder = folder
        self._top = Spot(Document(str(folder), None), problems)
        self.units = read_units(self.one("units.yaml"))

    def one(self, name: str) -> Spot:
        """A file of the folder, at its top."""
        return read_yaml(self._folder / name, name, self._top)

    def all(self, below: str, pattern: str) -> list[Spot]:
        """The files of a folder below, in the order of their names."""
        read = read_json_rows if pattern.endswith(".json") else read_yaml
        found = sorted((self._folder / below).glob(pattern))
        return [read(path, f"{below}/{path.name}", self._top) for path in found]


def _known(reader: _Folder) -> Known:
    places, broken = reader.one("places.yaml"), set[tuple[str, str]]()
    known = Known(
        units=Units(reader.units),
        functions=frozenset(FUNCTIONS),
        instruments=_by_id(Instrument, reader.one("instruments.yaml"), "instruments", broken),
        cautions=_by_id(Caution, reader.one("cautions.yaml"), "cautions", broken),
        stations=_by_id(Station, places, "stations", broken),
        places=_by_id(Place, places, "places", broken),
        broken=broken,
    )
    _check_places(known, places)
    for number, instrument in enumerate(known.instruments.values()):
        known.check_unit(instrument.unit, reader.one("instruments.yaml").down("instruments", number, "unit"))
    return known


def _by_id(kind: type[Row], top: Spot, name: str, broken: set[tuple[str, str]]) -> dict[str, Row]:
    """The sound rows of a list by id; the ids of the others are remembered as broken."""
    rows = {row["id"]: record_from_json(kind, row) for _, row in read_rows(kind, top, name)}
    ids = {written_id(item) for _, item in list_at(top, name)}
    broken.update((name.removesuffix("s"), id) for id in ids if id and id not in rows)
    return rows


def _check_places(known: Known, top: Spot) -> None:
    for spot, item in list_at(top, "places"):
        place = known.places.get(written_id(item) or "")
        if place is None:
            continue
        known.check_name("station", place.station, known.stations, spot.down("station"))
        pair = place.pair
        if (
            pair
            and known.check_name("place", pair, known.places, spot.down("pair"))
            and known.places[pair].pair != place.id
        ):
            spot.down("pair").report(
                f"place {pair} does not name {place.id} as its pair", "write the pair at both places"
            )


def _examples(reader: _Folder) -> Examples:
    by_method: dict[str, list[tuple[Spot, WorkedExample]]] = defaultdict(list)
    for top in reader.all("examples", "*.json"):
        for method, spot, example in read_examples(top):
            by_method[method].append((spot, example))
    return by_method


def _book(known: Known, units: UnitTable, checklists: Sequence[Checklist]) -> Book:
    book = Book(
        format=FORMAT,
        sha256="",
        units=units,
        instruments=known.instruments,
        cautions=known.cautions,
        stations=tuple(known.stations.values()),
        places=known.places,
        methods=known.methods,
        checklists=tuple(checklists),
    )
    return dataclasses.replace(book, sha256=book_sha256(book))


def book_sha256(book: Book) -> str:
    """SHA-256 hex over the RFC 8785 canonical JSON of the book without its `sha256`."""
    content = {key: value for key, value in to_json(book).items() if key != "sha256"}
    return hashlib.sha256(rfc8785.dumps(content)).hexdigest()
