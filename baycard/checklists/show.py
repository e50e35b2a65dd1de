"""A checklist as text, in the order in which a technician walks it, with sample verdicts for each limit."""

import textwrap
from collections.abc import Iterator, Sequence

from baycard.checklists.limit_text import limit_text, source_text
from baycard.checklists.show_answer import answer_lines, number_text, unit_text
from baycard.checklists.types import Book, Check, Checklist, Instrument, Limit, NumberAnswer, RunAnswer, SpreadAnswer
from baycard.measure.uncertainty import reading_uncertainty
from baycard.measure.units import Units
from baycard.measure.verdict import Bounds, verdict

WIDTH = 100
STATES = {
    "in-order": "in order",
    "beyond": "beyond the limit",
    "too-close": "too close to call",
    "recorded": "recorded",
}
LIFTS = {"down": "on its wheels", "half": "lift half up", "full": "lift fully up"}
INSIDE = 3.0
"""How many standard uncertainties inside or beyond a limit the clear samples lie; more than the coverage factor 2."""

Steps = list[tuple[Check, tuple[str, ...]]]


def show_checklist(checklist: Checklist, book: Book) -> str:
    """The whole checklist as text of at most 100 columns; a station that repeats an earlier one is named only."""
    lines = [f"{checklist.title}  ({checklist.id}, version {checklist.version})", ""]
    lines += _wrapped(f"Why: {checklist.why}") + _wrapped(f"Not instead of: {checklist.not_instead_of}")
    lines += _wrapped(f"Tools: {', '.join(checklist.tools) or 'none'}")
    lines += _cautions(checklist.cautions, book, "")
    told: dict[tuple[str, ...], str] = {}
    for id in checklist.stations:
        lines += _station(id, checklist, book, told)
    return "\n".join(lines)


def _station(id: str, checklist: Checklist, book: Book, told: dict[tuple[str, ...], str]) -> list[str]:
    """The checks of one station. told: what was shown at an earlier one of the same checks, which is added to."""
    station = next(one for one in book.stations if one.id == id)
    steps = _steps(id, checklist, book)
    if not steps:
        return []
    lines = ["", f"== {station.title} ({LIFTS.get(station.lift, station.lift)}) =="]
    ids = tuple(check.id for check, _ in steps)
    same = max((one for one in told if set(one) <= set(ids)), key=len, default=())
    if same:
        lines += _wrapped(
            f"The same {len(same)} checks as at {told[same]}{', and:' if len(same) < len(ids) else '.'}", "  "
        )
    for check, places in steps:
        lines += [] if check.id in same else _check(check, places, book)
    told.setdefault(ids, station.title)
    return lines


def _steps(station: str, checklist: Checklist, book: Book) -> Steps:
    steps = [(check, tuple(at for at in check.at if book.places[at].station == station)) for check in checklist.checks]
    return [(check, places) for check, places in steps if places]


def _check(check: Check, places: Sequence[str], book: Book) -> list[str]:
    where = ", ".join(book.places[id].title for id in places)
    lines = ["", *_wrapped(f"{check.ask}  [{check.id}: {where}]")]
    if check.only_if:
        lines += _wrapped(f"only if {check.only_if.check} is {' or '.join(check.only_if.is_)}", "  ")
    lines += _cautions(check.cautions, book, "  ")
    for number, step in enumerate(check.how, 1):
        lines += _wrapped(f"{number}. {step}", "  ")
    lines += _wrapped(f"For the customer: {check.plain}", "  ")
    for line in answer_lines(check.answer, book):
        lines += _wrapped(line, "  ")
    if check.photo:
        lines += [f"  Photo: {check.photo}"]
    for limit in check.limits:
        lines += _limit(limit, check, book)
    if check.if_failed:
        lines += _wrapped(f"If it fails: {check.if_failed}", "  ")
    return lines


def _limit(limit: Limit, check: Check, book: Book) -> list[str]:
    lines = _wrapped(f"Limit: {limit_text(limit)}. Finding: {limit.title}", "  ") + _wrapped(source_text(limit), "    ")
    return lines + [f"    {sample}" for sample in _samples(limit, check, book)]


def _samples(limit: Limit, check: Check, book: Book) -> Iterator[str]:
    """What the tool says of a reading well inside, at, and beyond each number of the limit."""
    u = _uncertainty(limit, check, book)
    for bound, beyond in ((limit.above, 1), (limit.below, -1)):
        if bound is None:
            continue
        step = INSIDE * u if u else max(abs(bound) / 10, 1e-3)
        for reading in (bound - beyond * step, bound, bound + beyond * step):
            state = verdict(reading, u, Bounds(above=limit.above, below=limit.below))
            sure = f" ± {2 * u:.2g}" if u else ""
            yield f"for example {number_text(reading)}{sure}{unit_text(limit.unit)}: {STATES[state]}"


def _uncertainty(limit: Limit, check: Check, book: Book) -> float:
    """Standard uncertainty of one reading with the first instrument named, in the limit's unit; 0 when none is."""
    answer = check.answer
    if not isinstance(answer, NumberAnswer | SpreadAnswer | RunAnswer) or not answer.instruments:
        return 0.0
    instrument: Instrument = book.instruments[answer.instruments[0]]
    u = reading_uncertainty([0.0], instrument)
    return Units(book.units).convert_difference(u, instrument.unit, limit.unit)


def _cautions(ids: Sequence[str], book: Book, indent: str) -> list[str]:
    cautions = [book.cautions[id] for id in ids]
    return [line for one in cautions for line in _wrapped(f"{one.level.upper()}: {one.title}. {one.says}", indent)]


def _wrapped(text: str, indent: str = "") -> list[str]:
    """The text in lines; spaces it begins with belong to the indent."""
    indent += text[: len(text) - len(text.lstrip())]
    return textwrap.wrap(text.lstrip(), WIDTH, initial_indent=indent, subsequent_indent=indent + "  ")
