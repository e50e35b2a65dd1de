"""Whatever arrives, the judge answers; and whatever it takes, the card can be computed."""

import copy
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from baycard.checklists.from_json import book_from_json
from baycard.journal.card import card_state
from baycard.journal.entry import entry_from_json
from baycard.journal.judge import judge
from baycard.journal.refusal import REFUSAL_CODES
from baycard.journal.slots import check_slot
from tests.unit.journal.vectors import vectors

BASES: dict[str, Any] = vectors("journal-judge")["bases"]
CARDS = vectors("journal-card")
BOOK = book_from_json(CARDS["book"])
SLOTS = [
    check_slot(checklist.id, check.id, place, round)
    for checklist in BOOK.checklists
    for check in checklist.checks
    for place in check.at
    for round in (1, 2)
]
LEAVES = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20)
JSON = st.recursive(
    LEAVES, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=9), inner, max_size=4)
)
NUMBERS = st.floats(-1e15, 1e15) | st.sampled_from([0, 0.1, 1.6, 100])
UNITS = st.sampled_from(["mm", "[in_i]", "kPa", "Cel", "s", "km", "not-a-unit", "kPa/min"])
INSTRUMENTS = st.sampled_from(["dial-0.01", "gauge-kpa", "inch-dial", "not-there"])
ANSWERS = st.one_of(
    st.fixed_dictionaries(
        {"is": st.just("number"), "value": NUMBERS, "unit": UNITS}, optional={"instrument": INSTRUMENTS}
    ),
    st.fixed_dictionaries(
        {
            "is": st.just("spread"),
            "values": st.dictionaries(st.sampled_from("abc"), NUMBERS, min_size=1),
            "unit": UNITS,
        },
        optional={"instrument": INSTRUMENTS},
    ),
    st.fixed_dictionaries(
        {
            "is": st.just("run"),
            "samples": st.lists(st.tuples(st.integers(0, 99), NUMBERS).map(list), min_size=1, max_size=5).map(sorted),
            "unit": UNITS,
        },
        optional={"instrument": INSTRUMENTS},
    ),
    st.fixed_dictionaries({"is": st.just("choice"), "choice": st.sampled_from(["strut", "cracked", "sine", "x"])}),
    st.fixed_dictionaries({"is": st.just("text"), "words": st.just("x")}),
)
FIGURES = st.fixed_dictionaries({"value": NUMBERS, "unit": UNITS})


@settings(max_examples=200)
@given(JSON)
def test_the_judge_answers_whatever_it_is_given(raw: Any) -> None:
    refusal = judge(raw)
    assert refusal is not None and refusal.code in REFUSAL_CODES


@settings(max_examples=300)
@given(st.sampled_from(sorted(BASES)), st.data())
def test_the_judge_answers_when_any_part_is_something_else(name: str, data: st.DataObject) -> None:
    raw = copy.deepcopy(BASES[name])
    holder = raw["body"] if data.draw(st.booleans()) and raw["body"] else raw
    holder[data.draw(st.sampled_from(sorted(holder)))] = data.draw(JSON)
    refusal = judge(raw)
    assert refusal is None or refusal.code in REFUSAL_CODES


def entry(number: int, kind: str, slot: str, body: Any) -> dict[str, Any]:
    return {**BASES["text"], "id": f"019ab300-0000-7000-8000-{number:012x}", "kind": kind, "slot": slot, "body": body}


@settings(max_examples=200)
@given(st.lists(st.tuples(st.sampled_from(SLOTS), ANSWERS), max_size=30), st.lists(FIGURES, max_size=4))
def test_every_card_of_entries_that_were_taken_can_be_computed(answers: list[Any], figures: list[Any]) -> None:
    chosen = [one["entries"][0] for one in CARDS["cases"][1:] if one["entries"][0]["kind"] == "checklist-chosen"]
    keys = ["tread-new", "tread-least", "rise-most", "odd-unit"]
    raw = [
        *({one["slot"]: one for one in chosen}.values()),
        *(entry(1000 + at, "answer", slot, body) for at, (slot, body) in enumerate(answers)),
        *(
            entry(2000 + at, "fact", f"vehicle/maker/{key}", body)
            for at, (key, body) in enumerate(zip(keys, figures, strict=False))
        ),
    ]
    assert [judge(one) for one in raw] == [None] * len(raw)
    state = card_state([entry_from_json(one) for one in raw], BOOK)
    for checklist in state.checklists:
        states = [one.rounds[0].state for one in checklist.steps if one.step.check.answer.kind != "worked-out"]
        assert checklist.open + checklist.done + states.count("not-asked") == len(states)
