"""units.yaml to the unit table of the book: exact fractions in text become the nearest floating-point numbers."""

from fractions import Fraction

from baycard.checklists.from_json import record_from_json
from baycard.checklists.problems import Spot
from baycard.checklists.rows import read_rows
from baycard.checklists.yaml_records import AtomRow, PrefixRow
from baycard.measure.book import Atom, UnitTable

BASE_UNITS = ("m", "kg", "s", "A", "K", "mol", "cd", "rad")


def read_units(top: Spot) -> UnitTable:
    """{"atoms": ..., "prefixes": ...} of docs/formats.md."""
    atoms = [(spot, record_from_json(AtomRow, row)) for spot, row in read_rows(AtomRow, top, "atoms", key="code")]
    rows = read_rows(PrefixRow, top, "prefixes", key="code")
    prefixes = [(spot, record_from_json(PrefixRow, row)) for spot, row in rows]
    return {
        "atoms": {row.code: _atom(row, spot) for spot, row in atoms},
        "prefixes": {row.code: _number(row.factor, spot.down("factor")) for spot, row in prefixes},
    }


def _atom(row: AtomRow, spot: Spot) -> Atom:
    for name in sorted(set(row.dim) - set(BASE_UNITS)):
        spot.down("dim", name).report(f"dimension {name} is not known", f"use {', '.join(BASE_UNITS)}")
    offset = _number(row.offset, spot.down("offset"))
    atom: Atom = {
        "factor": _number(row.factor, spot.down("factor")),
        "dim": [row.dim.get(name, 0) for name in BASE_UNITS],
        "says": row.says,
        "metric": row.metric,
    }
    if offset:
        atom["offset"] = offset
    return atom


def _number(text: str, spot: Spot) -> float:
    try:
        return float(Fraction(text))
    except (ValueError, ZeroDivisionError, OverflowError):
        spot.report(f"factor {text} is not a number or a fraction", 'write "0.001" or "1/1000" in quotes')
        return 1.0
