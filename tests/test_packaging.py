"""What a wheel holds: labels and the demo's data travel inside it and are found from anywhere."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

import pytest

from seedbox import resources

CHECKOUT = Path(__file__).resolve().parent.parent


def test_the_checkout_finds_its_own_folders() -> None:
    assert resources.labels_dir() == CHECKOUT / "labels"
    assert resources.sample_data_dir() == CHECKOUT / "sample_data"


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A virtual environment that holds the built wheel and borrows this one's dependencies."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder / "dist")],
        cwd=CHECKOUT,
        check=True,
        capture_output=True,
    )
    (wheel,) = (folder / "dist").glob("*.whl")
    environment = folder / "venv"
    venv.create(environment, with_pip=True, symlinks=True)
    python = environment / "bin" / "python"
    subprocess.run(
        [python, "-m", "pip", "install", "-q", "--no-deps", "--no-index", str(wheel)], check=True
    )
    # A .pth file lends the dependencies without installing them again; the editable
    # checkout's own .pth is not followed from there, so `seedbox` can only be the wheel's.
    site = next((environment / "lib").glob("python3*")) / "site-packages"
    (site / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n")
    return environment


def _run(environment: Path, *args: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    clean = {key: value for key, value in os.environ.items() if not key.startswith("SEEDBOX")}
    return subprocess.run(
        [environment / "bin" / args[0], *args[1:]],
        cwd=cwd,
        env=clean,
        capture_output=True,
        text=True,
        check=False,
    )


def test_an_installed_wheel_carries_labels_and_sample_data(installed: Path, tmp_path: Path) -> None:
    where = (
        "import json, seedbox.resources as r;"
        "print(json.dumps([str(r.labels_dir()), str(r.sample_data_dir())]))"
    )
    done = _run(installed, "python", "-c", where, cwd=tmp_path)
    labels, samples = (Path(text) for text in json.loads(done.stdout))
    assert str(installed) in str(labels)
    assert list(labels.rglob("*.toml"))
    assert list(labels.rglob("*.ttf"))
    assert (samples / "packets.csv").is_file()


def test_the_demo_runs_from_an_installed_wheel_twice(installed: Path, tmp_path: Path) -> None:
    for _ in range(2):
        done = _run(installed, "seedbox", "demo", cwd=tmp_path)
        assert done.returncode == 0, done.stderr
    assert list((tmp_path / "seedbox-demo").glob("*.pdf"))
