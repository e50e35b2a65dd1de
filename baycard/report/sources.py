"""Where a limit comes from: what the checklist says of it, and what kind of source that is."""

from baycard.report.words import Words

DATA, PRACTICE, MEMORY = "maker's data", "common practice", "from memory"


def say_source(source: str, basis: str | None, words: Words) -> str:
    """The source as the checklist has it, with its kind unless it is a published document or says so itself."""
    kinds = {
        DATA: (words.say("maker's data"),),
        PRACTICE: (words.say("common practice"),),
        MEMORY: (words.say("from memory, not looked up"), words.say("from memory")),
    }
    names = kinds.get(basis or "", ())
    # A checklist older than the translations names its kind in English.
    says_so = any(name in source for name in (*names, str(basis)))
    return f"{source} ({names[0]})" if names and not says_so else source
