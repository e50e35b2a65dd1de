"""How plates look where a workshop is: `AA 99 AAA` is two letters, two digits, three letters, with spaces between."""

import re

FORMS_MAX = 8
_FORM = re.compile(r"[A9?](?:[ .·-]?[A9?]){1,11}")


def checked_forms(forms: list[str]) -> tuple[str, ...]:
    """The forms as given, each once. Raises ValueError that says what a form may hold."""
    if len(forms) > FORMS_MAX:
        raise ValueError(
            f"At most {FORMS_MAX} forms of plates: leave the rare ones out; any plate can be typed anyway."
        )
    for form in forms:
        if not _FORM.fullmatch(form):
            raise ValueError(
                f"{form!r} is no form of a plate: write A for a letter, 9 for a digit, ? for either, "
                "2 to 12 of them, with single spaces, dashes or dots between, as in 'AA 99 AAA'."
            )
    return tuple(dict.fromkeys(forms))
