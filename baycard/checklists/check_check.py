"""One check held against what it names: places, cautions, the check it depends on; its answer, its limits."""

from baycard.checklists.check_answer import check_answer
from baycard.checklists.check_limit import check_limits
from baycard.checklists.known import Known, check_segment
from baycard.checklists.problems import Spot, nearest
from baycard.checklists.siblings import Siblings
from baycard.checklists.types import Check, ChoiceAnswer, OnlyIf


def check_check(check: Check, siblings: Siblings, spot: Spot, known: Known) -> None:
    """Reports everything in the check that does not fit the rest of the folder."""
    check_segment("id", check.id, spot.down("id"))
    _check_places(check, siblings, spot, known)
    for number, id in enumerate(check.cautions):
        known.check_name("caution", id, known.cautions, spot.down("cautions", number))
    if check.only_if:
        _check_only_if(check, check.only_if, siblings, spot.down("only_if"))
    check_answer(check, siblings, spot.down("answer"), known)
    check_limits(check, spot, known)


def _check_places(check: Check, siblings: Siblings, spot: Spot, known: Known) -> None:
    if not check.at:
        spot.down("at").report("check has no place", "name at least one place of places.yaml")
    for number, id in enumerate(check.at):
        at = spot.down("at", number)
        if id in check.at[:number]:
            at.report(f"place {id} is written twice")
        if known.check_name("place", id, known.places, at):
            station = known.places[id].station
            if station not in siblings.stations:
                at.report(
                    f"place {id} is at the station {station}, where this checklist does not go", "add it to stations"
                )


def _check_only_if(check: Check, condition: OnlyIf, siblings: Siblings, spot: Spot) -> None:
    at = spot.down("check")
    if condition.check not in siblings.written:
        at.report(f"check {condition.check} is not in this checklist", nearest(condition.check, siblings.written))
        return
    if not siblings.comes_before(condition.check, check.id):
        at.report(f"check {condition.check} comes later or is this one", "depend on an earlier check")
    other = siblings.find(condition.check)
    if other is None:
        return
    if not isinstance(other.answer, ChoiceAnswer):
        at.report(f"check {other.id} is not a choice", "depend on a check with options")
        return
    options = {option.id for option in other.answer.options}
    for number, id in enumerate(condition.is_):
        if id not in options:
            spot.down("is", number).report(f"option {id} is not one of the check {other.id}", nearest(id, options))
