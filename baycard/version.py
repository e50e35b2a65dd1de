"""The version of this installation."""

from importlib.metadata import PackageNotFoundError, version


def installed_version() -> str:
    """The version by which Baycard was installed; `source` when it runs from its folder."""
    try:
        return version("baycard")
    except PackageNotFoundError:
        return "source"
