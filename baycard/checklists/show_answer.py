"""What a check takes as an answer, in words for the person who writes or reads a checklist."""

from collections.abc import Sequence

from baycard.checklists.types import (
    AnswerSpec,
    Book,
    ChoiceAnswer,
    NumberAnswer,
    Option,
    PhotoAnswer,
    RunAnswer,
    SoundAnswer,
    SpreadAnswer,
    WorkedOutAnswer,
)

SIGNS = {
    **{"1": "", "Cel": "°C", "[degF]": "°F", "Ohm": "Ω", "mOhm": "mΩ", "deg": "°", "N.m": "N·m", "A.h": "A·h"},
    **{"[in_i]": "in", "{drop}": "drops", "{drop}/min": "drops/min", "a": "years", "d": "days", "um": "µm"},
    **{"L/(1000.km)": "L/1,000 km", "mm/(1000.km)": "mm/1,000 km"},
}
SMALL, LARGE = 1e-3, 1e6
MEANS = {"in-order": "in order", "recorded": "noted"}


def answer_lines(answer: AnswerSpec, book: Book) -> list[str]:
    """One line, or one for each option of a choice."""
    match answer:
        case ChoiceAnswer():
            return ["Answer, one of:", *(f"  - {_option(one)}" for one in answer.options)]
        case NumberAnswer() | SpreadAnswer() | RunAnswer():
            return [f"Answer: {_reading(answer)}{_with(answer.instruments, book)}"]
        case WorkedOutAnswer():
            says = book.methods[answer.method].says.rstrip(".")
            return [f"Worked out{_in(answer.unit)} ({answer.method}): {says}"]
        case PhotoAnswer():
            return [f"Answer: photos, at least {answer.least}"]
        case SoundAnswer():
            return [f"Answer: a sound of {answer.seconds:g} s"]
    return [f"Answer: { {'codes': 'trouble codes', 'text': 'words'}[answer.kind] }"]


def number_text(value: float) -> str:
    """Four digits that count, or whole with thousands set apart."""
    if value and not SMALL <= abs(value) < LARGE:
        return f"{value:.4g}" if abs(value) < SMALL else f"{value:,.0f}"
    return f"{value:,.0f}" if value == int(value) else f"{value:.4g}"


def unit_text(code: str) -> str:
    """The unit as people write it, with a space before it where one belongs; nothing for a plain number."""
    sign = SIGNS.get(code, code)
    return sign if sign in ("", "°") else f" {sign}"


def _in(code: str) -> str:
    return f" in{unit_text(code)}" if SIGNS.get(code, code) else ""


def _option(one: Option) -> str:
    meaning = f"{one.grade}: {one.title}" if one.grade else MEANS.get(one.means, one.means)
    return f"{one.label} ({meaning})"


def _reading(answer: NumberAnswer | SpreadAnswer | RunAnswer) -> str:
    low, high = (number_text(end) for end in answer.range)
    between = f"{low} to {high}{unit_text(answer.unit)}"
    if isinstance(answer, SpreadAnswer):
        return f"readings from {between}, at {', '.join(point.label for point in answer.points)}"
    if isinstance(answer, RunAnswer):
        step = f" every {answer.every_s:g} s" if answer.every_s else ""
        return f"timed readings from {between}{step} over {answer.seconds:g} s"
    return f"a reading from {between}"


def _with(instruments: Sequence[str], book: Book) -> str:
    titles = [book.instruments[id].title for id in instruments]
    return f"; with {' or '.join(titles)}" if titles else ""
