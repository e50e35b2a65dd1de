"""Where the trade knowledge that comes with Baycard lies: inside the installed package, or at the top of a checkout."""

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent


def seed_folder() -> Path:
    """The folder of the YAML. Raises FileNotFoundError when the installation lacks it."""
    for folder in (PACKAGE / "seed_checklists", PACKAGE.parent / "seed_checklists"):
        if (folder / "units.yaml").is_file():
            return folder
    raise FileNotFoundError("seed_checklists is missing from this installation; install Baycard again")
