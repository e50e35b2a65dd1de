"""A JSON file that holds one list of rows, with the line on which each row begins."""

import json
import re
from pathlib import Path

from baycard.checklists.problems import Document, Spot

LARGEST_FILE = 5_000_000
BETWEEN = re.compile(r"[\s,]*")


def read_json_rows(path: Path, shown_as: str, top: Spot) -> Spot:
    """The rows as a document, at its top; a file that is not a JSON list is reported and has none."""
    rows: list[object] = []
    document = Document(shown_as, rows)
    spot = Spot(document, top.problems)
    try:
        text = path.read_text(encoding="utf-8")
        if len(text) > LARGEST_FILE or not text.lstrip().startswith("["):
            raise ValueError("it must be one list of rows, below 5 MB")
        _read(text, rows, document)
    except (OSError, ValueError, RecursionError) as error:
        spot.report(f"file is not a JSON list: {error}")
    return spot


def _read(text: str, rows: list[object], document: Document) -> None:
    decoder = json.JSONDecoder(parse_constant=lambda word: f"{word} is not JSON")
    at, line = text.index("[") + 1, 1
    counted = 0
    while True:
        at = _after(text, at)
        if text.startswith("]", at):
            return
        line += text.count("\n", counted, at)
        counted = at
        document.lines[(len(rows),)] = line
        row, at = decoder.raw_decode(text, at)
        rows.append(row)


def _after(text: str, at: int) -> int:
    found = BETWEEN.match(text, at)
    return found.end() if found else at
