"""The set-up installs what is missing as root, names it otherwise, and does nothing twice.

The script runs for real in a copy of the checkout; Python, ``id`` and ``apt-get`` are stand-ins on its PATH.
"""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
TOOLS = ["sh", "cat", "cut", "dirname", "sha256sum", "mkdir", "rm", "touch", "chmod", "cp"]

# A Python that knows its version, may lack ensurepip, and whose venv holds a copy of itself.
PYTHON = """\
#!/bin/sh
echo "python $*" >>"$LOG"
case "$*" in
*"import ensurepip"*) [ -e "$HAS_ENSUREPIP" ] ;;
*"sys.version_info < (3, 11)"*) exit 0 ;;
*"%d.%d"*) echo 3.11 ;;
--version) echo Python 3.11.2 ;;
"-m venv --clear .venv") mkdir -p .venv/bin && cp "$0" .venv/bin/python ;;
"-m pip install"*) [ ! -e "$PIP_FAILS" ] ;;
esac
"""
APT_GET = """\
#!/bin/sh
echo "apt-get $*" >>"$LOG"
[ ! -e "$APT_FAILS" ] || { echo "E: no network"; exit 100; }
case "$*" in
*venv*) touch "$HAS_ENSUREPIP" ;;
*chromium*) printf '#!/bin/sh\\n' >"$BIN/chromium"; chmod +x "$BIN/chromium" ;;
esac
"""


@dataclass(frozen=True)
class Machine:
    """A checkout, a PATH with stand-ins, and switches."""

    folder: Path

    def put(self, name: str, text: str) -> None:
        path = self.folder / "bin" / name
        path.write_text(text)
        path.chmod(0o755)

    def switch(self, name: str) -> None:
        (self.folder / name).touch()

    def user(self, number: int) -> None:
        self.put("id", f"#!/bin/sh\necho {number}\n")

    def setup(self, kind: str) -> subprocess.CompletedProcess[str]:
        names = {one: str(self.folder / one) for one in ("LOG", "HAS_ENSUREPIP", "PIP_FAILS", "APT_FAILS")}
        path = str(self.folder / "bin")
        return subprocess.run(
            ["sh", "scripts/setup.sh", kind],
            cwd=self.folder / "checkout",
            env={"PATH": path, "BIN": path, **names},
            capture_output=True,
            text=True,
            check=False,
            timeout=30,
        )

    @property
    def log(self) -> str:
        log = self.folder / "LOG"
        return log.read_text() if log.exists() else ""


@pytest.fixture
def machine(tmp_path: Path) -> Machine:
    """An ordinary user's machine with a Python that can make environments, and no Chromium."""
    made = Machine(tmp_path)
    (tmp_path / "bin").mkdir()
    for tool in TOOLS:
        (tmp_path / "bin" / tool).symlink_to(shutil.which(tool) or tool)
    made.put("python3", PYTHON)
    made.put("apt-get", APT_GET)
    made.user(1000)
    made.switch("HAS_ENSUREPIP")
    checkout = tmp_path / "checkout"
    shutil.copytree(ROOT / "requirements", checkout / "requirements")
    (checkout / "scripts").mkdir()
    shutil.copy(ROOT / "scripts" / "setup.sh", checkout / "scripts")
    shutil.copy(ROOT / "pyproject.toml", checkout)
    shutil.copy(ROOT / "setup.py", checkout)
    kernel = "src/doughwright/science/kernels"
    shutil.copytree(ROOT / kernel, checkout / kernel, ignore=shutil.ignore_patterns("*.so", "__pycache__"))
    return made


def test_the_second_set_up_does_nothing(machine: Machine) -> None:
    """The environment is made once, with every package held to its hash."""
    first = machine.setup("run")
    installs = machine.log.count("-m pip install")
    second = machine.setup("run")
    assert (first.returncode, second.returncode) == (0, 0)
    assert "--require-hashes -r requirements/build.txt -r requirements/run.txt" in machine.log
    assert (installs, machine.log.count("-m pip install")) == (2, 2)
    assert second.stdout == ""


def test_a_changed_lock_is_installed(machine: Machine) -> None:
    """The stamp belongs to the very files it was made from."""
    machine.setup("run")
    lock = machine.folder / "checkout" / "requirements" / "run.txt"
    lock.write_text(lock.read_text() + "# another line\n")
    machine.setup("run")
    assert machine.log.count("-m pip install") == 4
    assert machine.log.count("-m venv") == 1


def test_a_failed_install_is_tried_again(machine: Machine) -> None:
    """A set-up that broke off half-way does not pass for one that is done."""
    machine.switch("PIP_FAILS")
    failed = machine.setup("run")
    (machine.folder / "PIP_FAILS").unlink()
    assert failed.returncode == 1
    assert "could not install the packages" in failed.stderr
    assert machine.setup("run").returncode == 0


def test_root_gets_the_missing_packages_and_is_told(machine: Machine) -> None:
    """python3-venv and Chromium are installed, and named."""
    (machine.folder / "HAS_ENSUREPIP").unlink()
    machine.user(0)
    done = machine.setup("dev")
    assert done.returncode == 0
    assert "installed python3.11-venv" in done.stdout
    assert "installed chromium" in done.stdout
    assert "install -qq -y --no-install-recommends python3.11-venv" in machine.log


def test_a_user_is_told_which_package_is_missing(machine: Machine) -> None:
    """Without python3-venv there is nothing to run in: exit 1, and its name."""
    (machine.folder / "HAS_ENSUREPIP").unlink()
    done = machine.setup("run")
    assert done.returncode == 1
    assert "apt-get install python3.11-venv" in done.stderr
    assert "apt-get" not in machine.log


def test_a_user_without_chromium_goes_on(machine: Machine) -> None:
    """Everything that can run runs: the check itself fails for the browser tests, by name."""
    done = machine.setup("dev")
    assert done.returncode == 0
    assert "apt-get install chromium" in done.stderr
    assert "every other test runs, and the run ends as failed" in done.stdout


def test_an_apt_that_fails_is_named(machine: Machine) -> None:
    """What apt-get said is shown."""
    (machine.folder / "HAS_ENSUREPIP").unlink()
    machine.user(0)
    machine.switch("APT_FAILS")
    done = machine.setup("run")
    assert done.returncode == 1
    assert "E: no network" in done.stderr
    assert "could not install python3.11-venv" in done.stderr
