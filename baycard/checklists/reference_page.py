"""The page of everything the book works out and judges by: each method and each limit with what it rests on."""

from collections.abc import Iterator, Mapping

from baycard.checklists.formula_text import formula_lines
from baycard.checklists.limit_text import limit_text, source_text
from baycard.checklists.types import (
    Amount,
    Book,
    Check,
    Checklist,
    ChoiceAnswer,
    Method,
    MethodInput,
    Option,
    WorkedExample,
)

HEAD = """\
# Reference: methods and limits

Written by `baycard checklist reference` from the files of `seed_checklists/`; change those, not this page.
Formulas are in the units of the inputs. The maker's data and local law come before everything here.
"""
MOST_LIST = 6


def reference_page(book: Book) -> str:
    """The page as Markdown."""
    lines = [HEAD, "## Methods", ""]
    for id in sorted(book.methods):
        lines += _method(book.methods[id])
    lines += ["## Limits", ""]
    for checklist in sorted(book.checklists, key=lambda one: one.id):
        lines += _limits(checklist)
    return "\n".join(lines).rstrip() + "\n"


def _method(method: Method) -> Iterator[str]:
    yield from (f"### {method.id}", "", method.says, "")
    yield from _formula(method)
    yield from ("| input | unit | from | to | if not given | what it is |", "|---|---|---|---|---|---|")
    yield from (_input(name, given) for name, given in method.inputs.items())
    yield from ("", f"Gives: {method.output.says}, in `{method.output.unit}`.", "")
    yield from (f"Source: {method.source} ({method.basis}).", "", f"Valid: {method.validity}", "")
    yield from (f"Caution: {caution}\n" for caution in method.cautions)
    yield from _examples(method)


def _formula(method: Method) -> Iterator[str]:
    if method.tree is None:
        yield from (f"Worked out by the function `{method.function}`.", "")
    else:
        yield from ("```", *(_short(line) for line in formula_lines(method.tree)), "```", "")


def _short(line: str) -> str:
    return line if len(line) <= 400 else line[:400] + " …"


def _input(name: str, given: MethodInput) -> str:
    low, high = (f"{end:g}" for end in given.range) if given.range else ("", "")
    default = "" if given.default is None else f"{given.default:g}"
    unit = ("list of " if given.list else "") + ("text" if given.text else f"`{given.unit}`")
    return _row(f"`{name}`", unit, low, high, default, given.says)


def _examples(method: Method) -> Iterator[str]:
    if method.examples:
        yield from ("| example | inputs | gives | within | source |", "|---|---|---|---|---|")
        yield from (_example(one) for one in method.examples)
        yield ""


def _example(example: WorkedExample) -> str:
    within = "exactly" if not example.rtol else f"{example.rtol:g}"
    source = f"{example.source} ({example.basis})"
    return _row(example.id, _amounts(example.inputs), _amount(example.expected), within, source)


def _amounts(amounts: Mapping[str, Amount]) -> str:
    return ", ".join(f"{name} = {_amount(amount)}" for name, amount in amounts.items())


def _amount(amount: Amount) -> str:
    value = amount.value
    text = f"{value:.10g}" if isinstance(value, int | float) and not isinstance(value, bool) else str(value)
    if isinstance(value, list):
        shown = ", ".join(str(item) for item in value[:MOST_LIST])
        text = f"[{shown}{', …' if len(value) > MOST_LIST else ''}]"
    return text if amount.unit in ("1", "{text}") else f"{text} {amount.unit}"


def _row(*cells: str) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"


def _limits(checklist: Checklist) -> Iterator[str]:
    yield from (f"### {checklist.title} ({checklist.id}, version {checklist.version})", "")
    yield from ("| check | finding | limit | source |", "|---|---|---|---|")
    for check in checklist.checks:
        yield from (_row(check.id, one.title, limit_text(one), source_text(one)) for one in check.limits)
        if isinstance(check.answer, ChoiceAnswer):
            yield from (_option(check, one) for one in check.answer.options if one.means == "beyond")
    yield ""


def _option(check: Check, option: Option) -> str:
    source = f"{option.source or 'no source given'} ({option.basis or 'no basis given'})"
    return _row(check.id, option.title or "", f"{option.grade}: {option.label}", source)
