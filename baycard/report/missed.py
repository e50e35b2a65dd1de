"""What was not checked, in short: for the mail, which names the first few and leaves the rest to the report."""

from collections.abc import Iterator

from baycard.report.first_page import left_open, missed_counts, recorded
from baycard.report.readings import unanswered_steps
from baycard.report.shapes import Missed, MissedPoint, OpenPoints
from baycard.report.telling import Telling

FIRST = 4


def missed(points: OpenPoints, telling: Telling) -> Missed | None:
    """How much was not checked and the first few with the reason; None where there was nothing to check."""
    words, lines = telling.words, list(_lines(points, telling))
    if not lines:
        all_done = telling.state.checklists and recorded(telling)
        said = words.say("Every question of the checklists in this report was answered.")
        return Missed(said, (), "", ()) if all_done else None
    total = sum(number for number, _ in lines)
    left = total - sum(number for number, _ in lines[:FIRST])
    count = words.count("%(num)s point was not checked.", "%(num)s points were not checked.", total)
    why = words.say("Not checked does not mean in order: nothing is known there.")
    rest = words.count("%(num)s more stands in the report.", "%(num)s more stand in the report.", left)
    shown = tuple(point for _, point in lines[:FIRST])
    return Missed(f"{count} {why}", shown, rest if left else "", tuple(missed_counts(points, words)))


def _lines(points: OpenPoints, telling: Telling) -> Iterator[tuple[int, MissedPoint]]:
    """How many points, and what they are: first what could not be checked, then the questions nobody answered."""
    unfitted = {one.entry.slot for one in telling.state.not_checked if one.entry.body["reason"] == "not-fitted"}
    for one in sorted(points.not_checked, key=lambda one: one.slot in unfitted):
        yield 1, MissedPoint(one.ask, one.place, one.value)
    numbers = [len(unanswered_steps(checklist)) for checklist in telling.state.checklists]
    for number, one in zip(filter(None, numbers), points.unanswered, strict=True):
        yield number, MissedPoint(one.ask, "", left_open(number, telling.words))
