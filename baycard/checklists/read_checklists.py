"""checklists/<id>.yaml to checklists: every check read alone, then held against all that it names."""

import hashlib
from pathlib import PurePath

import rfc8785

from baycard.checklists.check_check import check_check
from baycard.checklists.from_json import record_from_json, to_json
from baycard.checklists.known import Known
from baycard.checklists.problems import Spot
from baycard.checklists.rows import list_at, read_rows, written_id
from baycard.checklists.shape import read_record
from baycard.checklists.siblings import Siblings
from baycard.checklists.types import Check, Checklist, JsonValue
from baycard.checklists.yaml_records import ChecklistRow


def read_checklist(top: Spot, known: Known) -> Checklist | None:
    """The checklist of a file, or None when its head does not fit; what is wrong is reported."""
    data = read_record(ChecklistRow, top.document.value, top) if top.document.value is not None else None
    checks = _checks(top)
    if data is None:
        return None
    row = record_from_json(ChecklistRow, data)
    _check_head(row, top, known)
    siblings = Siblings(row.stations, [check for _, check in checks], _written_ids(top))
    for spot, check in checks:
        check_check(check, siblings, spot, known)
    content = {key: value for key, value in data.items() if key != "checks"}
    content["checks"] = [to_json(check) for _, check in checks]
    return record_from_json(Checklist, {**content, "sha256": checklist_sha256(content)})


def checklist_sha256(content: dict[str, JsonValue]) -> str:
    """SHA-256 hex over the RFC 8785 canonical JSON of the checklist without its `sha256`."""
    return hashlib.sha256(rfc8785.dumps({key: value for key, value in content.items() if key != "sha256"})).hexdigest()


def _written_ids(top: Spot) -> list[str]:
    value = top.document.value
    items = value.get("checks") if isinstance(value, dict) else None
    return [id for item in (items if isinstance(items, list) else []) if (id := written_id(item))]


def _checks(top: Spot) -> list[tuple[Spot, Check]]:
    if not isinstance(top.document.value, dict) or "checks" not in top.document.value:
        return []
    if not list_at(top, "checks"):
        top.down("checks").report("checklist has no checks")
    return [(spot, record_from_json(Check, row)) for spot, row in read_rows(Check, top, "checks")]


def _check_head(row: ChecklistRow, top: Spot, known: Known) -> None:
    name = PurePath(top.document.file).stem
    if row.id != name:
        top.down("id").report(f"id {row.id} is not the name of the file", f"call the file {row.id}.yaml")
    if row.version < 1:
        top.down("version").report("version must be 1 or more")
    for number, id in enumerate(row.cautions):
        known.check_name("caution", id, known.cautions, top.down("cautions", number))
    for number, id in enumerate(row.stations):
        known.check_name("station", id, known.stations, top.down("stations", number))
        if id in row.stations[:number]:
            top.down("stations", number).report(f"station {id} is written twice")
