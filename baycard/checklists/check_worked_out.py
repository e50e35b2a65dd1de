"""A worked-out answer held against its method: every input has a source, of a kind and unit that fits."""

from dataclasses import dataclass

from baycard.checklists.known import Known
from baycard.checklists.problems import Spot, nearest
from baycard.checklists.siblings import Siblings
from baycard.checklists.types import (
    AnswerSpec,
    Check,
    CheckSource,
    FactSource,
    FixedSource,
    MakerSource,
    MethodInput,
    NumberAnswer,
    RunAnswer,
    Source,
    SpreadAnswer,
    WorkedOutAnswer,
)

TAKES = {
    "choice": {"choice"},
    "number": {"value", "samples", "range", "mean", "min", "max"},
    "worked-out": {"value"},
    "spread": {"min", "max", "mean", "range", "samples"},
    "run": {"value", "first", "last", "seconds", "min", "max", "mean", "range", "samples", "times"},
}

LISTS = ("samples", "times")

FACTS = (
    *("vehicle/vin", "vehicle/plate", "vehicle/make", "vehicle/model", "vehicle/year", "vehicle/fuel"),
    *("vehicle/odometer", "vehicle/modifications", "card/planned-use", "card/title", "card/opened"),
)
"""What the screens ask for, of vehicle and card (docs/formats.md); another fact would stay open for ever."""


def check_worked_out(check: Check, answer: WorkedOutAnswer, siblings: Siblings, spot: Spot, known: Known) -> None:
    """Reports everything in the answer that does not fit its method or the other checks."""
    known.check_unit(answer.unit, spot.down("unit"))
    if not known.check_name("method", answer.method, known.methods, spot.down("method")):
        return
    method = known.methods[answer.method]
    if not method.output.unit.startswith("{"):
        known.check_same_quantity(answer.unit, method.output.unit, f"the method {method.id}", spot.down("unit"))
    for name, given in method.inputs.items():
        if name not in answer.inputs and given.default is None:
            says = f"input {name} of the method {method.id} has no source"
            spot.down("inputs").report(says, "say where it comes from")
    for name, source in answer.inputs.items():
        at = spot.down("inputs", name)
        if known.check_name("input", name, method.inputs, at):
            _Asked(check, method.inputs[name], siblings, known).check_source(source, at)
    if _asks_itself(check, siblings):
        spot.down("inputs").report(f"check {check.id} needs its own answer to be worked out")


@dataclass(frozen=True, slots=True)
class _Asked:
    """One input of the method, asked for by a check."""

    check: Check
    given: MethodInput
    siblings: Siblings
    known: Known

    def check_source(self, source: Source, spot: Spot) -> None:
        """Reports a source that does not exist or does not fit."""
        if isinstance(source, FixedSource | MakerSource):
            self.known.check_same_quantity(source.unit, self.given.unit, "the method's input", spot.down("unit"))
            if isinstance(source, MakerSource):
                self.known.check_figure(source.maker, source.unit, spot.down("maker"), spot.down("unit"))
        elif isinstance(source, FactSource):
            _check_fact(source.fact, spot.down("fact"))
        elif source.check not in self.siblings.written:
            says = f"check {source.check} is not in this checklist"
            spot.down("check").report(says, nearest(source.check, self.siblings.written))
        else:
            other = self.siblings.find(source.check)
            if other is not None:
                self._check_take(source, other, spot)

    def _check_take(self, source: CheckSource, other: Check, spot: Spot) -> None:
        takes = _takes(other.answer, self.siblings)
        if source.take not in takes:
            says = f"{source.take} cannot be taken from the {other.answer.kind} answer of {other.id}"
            spot.down("take").report(says, nearest(source.take, takes))
            return
        self._check_place(source, other, spot)
        if self.given.text:
            return
        if (source.take in LISTS) != bool(self.given.list):
            needed = "a list" if self.given.list else "one number"
            spot.down("take").report(f"{source.take} does not fit an input that is {needed}")
        unit = _unit(source, other.answer)
        if unit:
            self.known.check_same_quantity(unit, self.given.unit, "the method's input", spot.down("check"))

    def _check_place(self, source: CheckSource, other: Check, spot: Spot) -> None:
        """Without `at` the source is asked at the same place, or else at its only one."""
        if source.at is not None:
            if source.at not in other.at:
                spot.down("at").report(f"check {other.id} is not asked at {source.at}", nearest(source.at, other.at))
        elif len(other.at) > 1 and not set(self.check.at) <= set(other.at):
            says = f"check {other.id} is asked at several places, not at all of those of {self.check.id}"
            spot.report(says, "say which one with `at:`")


def _check_fact(fact: str, spot: Spot) -> None:
    if not fact.startswith(("vehicle/", "card/", "customer/")):
        spot.report(f"fact {fact} is not a slot of a fact", "such as vehicle/odometer")
    elif fact not in FACTS:
        spot.report(f"fact {fact} is not asked for anywhere", nearest(fact, FACTS))


def _takes(answer: AnswerSpec, siblings: Siblings) -> set[str]:
    """All that can be taken from an answer."""
    takes = set(TAKES.get(answer.kind, set()))
    if isinstance(answer, SpreadAnswer):
        takes |= {f"point:{point.id}" for point in answer.points}
    if isinstance(answer, NumberAnswer | WorkedOutAnswer):
        takes |= {f"minus:{other.id}" for other in siblings.checks if other.answer.kind in ("number", "worked-out")}
    return takes


def _unit(source: CheckSource, answer: AnswerSpec) -> str | None:
    if source.take in ("seconds", "times"):
        return "s"
    return answer.unit if isinstance(answer, NumberAnswer | SpreadAnswer | RunAnswer | WorkedOutAnswer) else None


def _asks_itself(check: Check, siblings: Siblings) -> bool:
    seen: set[str] = set()
    waiting = [check]
    while waiting:
        answer = waiting.pop().answer
        if not isinstance(answer, WorkedOutAnswer):
            continue
        for source in answer.inputs.values():
            if isinstance(source, CheckSource) and source.check not in seen:
                seen.add(source.check)
                found = siblings.find(source.check)
                waiting += [found] if found else []
    return check.id in seen
