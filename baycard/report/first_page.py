"""Page one in words: may I drive it, what came of each complaint, what the report rests on."""

from collections.abc import Iterable, Sequence

from baycard.journal.entry import Entry
from baycard.journal.types import ComplaintState
from baycard.report.shapes import ComplaintView, Drive, OpenPoints, Vehicle
from baycard.report.telling import Telling
from baycard.report.units import with_unit
from baycard.report.words import Words


def vehicle(telling: Telling) -> Vehicle:
    """What vehicle it is, from the facts of the card."""
    say = telling.words.say
    name = " ".join(part for part in (_fact("vehicle/make", telling), _fact("vehicle/model", telling)) if part)
    facts = {
        say("Plate"): _fact("vehicle/plate", telling),
        say("Year"): _fact("vehicle/year", telling),
        say("Odometer"): _odometer(telling),
        say("VIN"): _fact("vehicle/vin", telling),
        say("Known changes"): _fact("vehicle/modifications", telling),
        say("Planned use"): _fact("card/planned-use", telling),
        say("For"): _fact("customer/name", telling),
    }
    return Vehicle(
        name=name or say("Vehicle"),
        plate=facts[say("Plate")],
        odometer=facts[say("Odometer")],
        vin=facts[say("VIN")],
        facts=tuple((key, value) for key, value in facts.items() if value),
    )


def _fact(slot: str, telling: Telling) -> str:
    fact = telling.state.facts.get(slot)
    return "" if fact is None else str(fact["value"])


def _odometer(telling: Telling) -> str:
    fact = telling.state.facts.get("vehicle/odometer")
    if fact is None or isinstance(fact["value"], str):
        return ""
    return with_unit(telling.words.number(float(fact["value"]), 0), str(fact.get("unit", "km")), telling.words)


def drive(signed_off: Entry, telling: Telling) -> Drive:
    """The answer of the one who signed to: may I drive it?"""
    say, body = telling.words.say, signed_off.body
    who = telling.name(signed_off.author)
    answer, meaning = {
        "yes": (
            say("Yes."),
            say("From what was looked at, %(who)s judges that you may drive it as planned.", who=who),
        ),
        "with-restrictions": (say("Yes, but only like this:"), ""),
        "no": (say("No."), say("Please do not drive it until the work below is done.")),
        "not-judged": (say("Not judged."), say("Nobody has judged whether you may drive it. Ask before you do.")),
    }[body["drive"]]
    return Drive(answer, meaning, str(body["restrictions"]), str(body["words"]), str(body["look_again"]))


def complaint_view(complaint: ComplaintState, titles: dict[str, str], telling: Telling) -> ComplaintView:
    """A complaint in the customer's words and what came of it; `titles` are those of the findings, by slot."""
    say = telling.words.say
    outcome = complaint.outcome
    named: Sequence[str]
    if outcome is None:
        named, said, detail = complaint.findings, say("Not answered yet."), ""
        if named:
            said = say("Being looked into.")
    else:
        named, detail = [*outcome.body["findings"], *complaint.findings], str(outcome.body["words"])
        said = {
            "cause-found": say("The cause was found."),
            "ruled-out": say("This was looked into and ruled out."),
            "not-traced": say("The cause could not be traced."),
        }[outcome.body["outcome"]]
    found = dict.fromkeys(titles[slot] for slot in named if slot in titles)
    return ComplaintView(complaint.words, said, detail, tuple(found))


def nothing_to_do(points: OpenPoints, unproved: int, telling: Telling) -> str:
    """What stands where no finding has to be dealt with now; work nobody checked and readings nobody judged are named.

    unproved: dangerous and major findings on which work was done, but whose check was not repeated.
    """
    undecided, words = len(points.undecided), telling.words
    if not recorded(telling):
        return words.say("Nothing was checked, so this report cannot say whether something has to be done.")
    said = []
    if unproved:
        said.append(
            words.count(
                "Work was done on %(num)s dangerous or major finding, but its check has not been repeated.",
                "Work was done on %(num)s dangerous or major findings, but their checks have not been repeated.",
                unproved,
            )
        )
    elif undecided:
        said.append(words.say("No finding says that something has to be done now."))
    if undecided:
        said.append(_undecided(undecided, words))
    return " ".join(said) or words.say("Nothing in this report has to be done now.")


def rests_on(readings: int, points: OpenPoints, telling: Telling) -> tuple[str, ...]:
    """How much was looked at, by whom and when, and how much is open."""
    words, state, made = telling.words, telling.state, recorded(telling)
    if not made:
        return (
            words.say("Nothing was checked: no reading, no photo and no finding is recorded."),
            words.say("The following pages show what this report is, and is not."),
        )
    lines = [
        words.say(
            "%(readings)s and %(photos)s, recorded by %(people)s, %(days)s.",
            readings=words.count("%(num)s reading", "%(num)s readings", readings),
            photos=words.count("%(num)s photo", "%(num)s photos", len(state.photos)),
            people=_people(made, telling),
            days=_days(made, telling),
        )
    ]
    lines += _open_points(points, words)
    lines.append(words.say("The following pages show each finding with its photos and limits, and every reading."))
    return tuple(lines)


def recorded(telling: Telling) -> list[Entry]:
    """What somebody saw, measured or could not check."""
    kinds = ("answer", "not-checked", "photo", "sound", "finding")
    return [entry for entry in telling.state.entries if entry.kind in kinds]


def _open_points(points: OpenPoints, words: Words) -> list[str]:
    close, undecided, torn = len(points.too_close), len(points.undecided), len(points.disagreements)
    count = words.count
    said = [
        (close, count("%(num)s reading is too close to call.", "%(num)s readings are too close to call.", close)),
        (undecided, _undecided(undecided, words)),
        (
            torn,
            count(
                "On %(num)s point two people recorded different things.",
                "On %(num)s points two people recorded different things.",
                torn,
            ),
        ),
    ]
    return missed_counts(points, words) + [text for number, text in said if number]


def missed_counts(points: OpenPoints, words: Words) -> list[str]:
    """How many points could not be checked and how many questions nobody answered, as far as there are any."""
    missed, left = len(points.not_checked), points.questions_left
    said = [
        (missed, words.count("%(num)s point could not be checked.", "%(num)s points could not be checked.", missed)),
        (left, left_open(left, words)),
    ]
    return [text for number, text in said if number]


def left_open(number: int, words: Words) -> str:
    """So many questions that nobody answered."""
    return words.count("%(num)s question was left open.", "%(num)s questions were left open.", number)


def _undecided(number: int, words: Words) -> str:
    return words.count(
        "%(num)s reading is beyond its limit and not judged yet.",
        "%(num)s readings are beyond their limits and not judged yet.",
        number,
    )


def _people(entries: Sequence[Entry], telling: Telling) -> str:
    names = list(dict.fromkeys(telling.name(entry.author) for entry in entries))
    if len(names) == 1:
        return names[0]
    return telling.words.say("%(some)s and %(last)s", some=", ".join(names[:-1]), last=names[-1])


def _days(entries: Iterable[Entry], telling: Telling) -> str:
    days = sorted({entry.made_at[:10] for entry in entries})
    first, last = telling.words.date(days[0]), telling.words.date(days[-1])
    return first if first == last else telling.words.say("%(first)s to %(last)s", first=first, last=last)
