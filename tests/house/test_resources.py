"""The templates and the demo are found however the program came onto the machine.

Each way is taken in full: a wheel built and installed into an empty environment, an editable
install into another, and a checkout that is merely on the path. Nothing is fetched.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tarfile
import venv
import zipfile
from pathlib import Path

import pytest

from tests.house.source import ROOT

SHIPPED = ("tracker", "phases", "demo", ".ci", "tests")
LOOK = """
import json, tracker
from tracker.templates.shipped import folder as phases
from tracker.app.demo import folder as demo
def files(folder):
    inside = (file.relative_to(folder) for file in folder.rglob("*") if file.is_file())
    return sorted(str(file) for file in inside if file.parts[0] != "pictures")
print(json.dumps({
    "package": tracker.__file__,
    "phases": files(phases()),
    "phases_at": str(phases()),
    "demo": files(demo()),
    "demo_at": str(demo()),
}))
"""
BUILD = "import sys; from hatchling import build; print(getattr(build, sys.argv[1])(sys.argv[2]))"


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A clean copy of the checkout, without what runs and tools left behind."""
    copy = tmp_path_factory.mktemp("checkout") / "closein"
    copy.mkdir()
    leftovers = shutil.ignore_patterns("__pycache__", "*.pyc", ".*_cache")
    for file in ROOT.iterdir():
        if file.is_file():
            shutil.copy(file, copy)
    for name in SHIPPED:
        shutil.copytree(ROOT / name, copy / name, ignore=leftovers)
    return copy


@pytest.fixture(scope="module")
def shipped_names(checkout: Path) -> dict[str, list[str]]:
    """The files that must be found: the checkout's, but for the pictures of the README."""
    return {
        name: sorted(
            str(file.relative_to(checkout / name))
            for file in (checkout / name).rglob("*")
            if file.is_file() and "pictures" not in file.parts
        )
        for name in ("phases", "demo")
    }


def _environment(**more: str) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    return {**kept, "PIP_DISABLE_PIP_VERSION_CHECK": "1", "PIP_NO_INDEX": "1", **more}


def _run(*command: str | Path, at: Path, **environment: str) -> str:
    """What a command says; the test fails with its words when it fails."""
    done = subprocess.run(
        [str(word) for word in command],
        cwd=at,
        env=_environment(**environment),
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def _built(kind: str, checkout: Path, into: Path) -> Path:
    """A wheel, an editable wheel or an sdist of a checkout."""
    said = _run(sys.executable, "-c", BUILD, f"build_{kind}", into, at=checkout)
    return into / said.splitlines()[-1]


def _python_with(wheel: Path, folder: Path) -> Path:
    """The Python of a new environment that holds one wheel and nothing else."""
    venv.create(folder, with_pip=False, symlinks=True)
    python = folder / "bin" / "python"
    pip = [sys.executable, "-m", "pip", "--python", python, "install", "-q"]
    _run(*pip, "--no-deps", "--no-index", wheel, at=folder)
    return python


def _looked(python: str | Path, at: Path, **environment: str) -> dict[str, object]:
    return json.loads(_run(python, "-c", LOOK, at=at, **environment))


def test_a_wheel_carries_templates_and_demo_inside_the_package(
    checkout: Path, shipped_names: dict[str, list[str]], tmp_path: Path
) -> None:
    wheel = _built("wheel", checkout, tmp_path)

    found = _looked(_python_with(wheel, tmp_path / "env"), tmp_path)

    inside = Path(str(found["package"])).parent
    assert inside.is_relative_to(tmp_path / "env")
    assert found["phases_at"] == str(inside / "phases")
    assert found["demo_at"] == str(inside / "demo")
    assert {key: found[key] for key in shipped_names} == shipped_names


def test_an_editable_install_finds_them_at_the_root_of_the_checkout(
    checkout: Path, shipped_names: dict[str, list[str]], tmp_path: Path
) -> None:
    wheel = _built("editable", checkout, tmp_path)

    found = _looked(_python_with(wheel, tmp_path / "env"), tmp_path)

    assert found["package"] == str(checkout / "tracker" / "__init__.py")
    assert found["phases_at"] == str(checkout / "phases")
    assert found["demo_at"] == str(checkout / "demo")
    assert {key: found[key] for key in shipped_names} == shipped_names


def test_a_plain_checkout_finds_them_at_its_root(
    checkout: Path, shipped_names: dict[str, list[str]], tmp_path: Path
) -> None:
    found = _looked(sys.executable, tmp_path, PYTHONPATH=str(checkout))

    assert found["package"] == str(checkout / "tracker" / "__init__.py")
    assert found["phases_at"] == str(checkout / "phases")
    assert found["demo_at"] == str(checkout / "demo")
    assert {key: found[key] for key in shipped_names} == shipped_names


def test_a_wheel_made_from_the_source_archive_is_the_same(checkout: Path, tmp_path: Path) -> None:
    archive = _built("sdist", checkout, tmp_path)
    with tarfile.open(archive) as packed:
        packed.extractall(tmp_path, filter="data")
    unpacked = tmp_path / archive.name.removesuffix(".tar.gz")
    (tmp_path / "straight").mkdir()

    again = _built("wheel", unpacked, tmp_path)
    straight = _built("wheel", checkout, tmp_path / "straight")

    assert (unpacked / "tests" / "conftest.py").is_file()
    assert zipfile.ZipFile(again).namelist() == zipfile.ZipFile(straight).namelist()


def test_a_wheel_holds_every_table_that_lies_beside_the_code(
    checkout: Path, tmp_path: Path
) -> None:
    names = set(zipfile.ZipFile(_built("wheel", checkout, tmp_path)).namelist())

    tables = {str(file.relative_to(ROOT)) for file in (ROOT / "tracker").rglob("*.toml")}
    assert tables
    assert tables <= names
    assert not any(name.startswith(("tests/", "phases/", "demo/")) for name in names)
