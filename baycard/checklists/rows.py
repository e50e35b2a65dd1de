"""Lists of records in a file: each row read alone, and no two with the same id."""

from collections.abc import Iterator

from baycard.checklists.problems import Spot
from baycard.checklists.shape import read_record
from baycard.checklists.types import JsonValue


def list_at(top: Spot, name: str) -> list[tuple[Spot, object]]:
    """The items under the key `name` of a file, or of the file itself when it is a list."""
    value, spot = top.document.value, top
    if isinstance(value, dict):
        if name not in value:
            top.report(f"{name} is missing", "write a list under this key")
            return []
        value, spot = value[name], top.down(name)
    if not isinstance(value, list):
        if value is not None or spot is not top or not top.problems:
            spot.report("must be a list")
        return []
    return [(spot.down(number), item) for number, item in enumerate(value)]


def read_rows(kind: type, top: Spot, name: str, key: str = "id") -> Iterator[tuple[Spot, dict[str, JsonValue]]]:
    """Every sound row with its spot. Misfits and repeated ids are reported."""
    first_lines: dict[str, int] = {}
    for spot, item in list_at(top, name):
        row = read_record(kind, item, spot)
        id = item.get(key) if isinstance(item, dict) else None
        if isinstance(id, str) and id in first_lines:
            spot.down(key).report(f"{key} {id} is already used in line {first_lines[id]}", "choose another")
            continue
        if isinstance(id, str):
            first_lines[id] = spot.down(key).line
        if row is not None:
            yield spot, row


def written_id(item: object, key: str = "id") -> str | None:
    """The id that a row gives itself, even when the row is broken otherwise."""
    id = item.get(key) if isinstance(item, dict) else None
    return id if isinstance(id, str) else None
