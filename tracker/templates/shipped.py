"""Where the phase templates that come with the program are, and what they are called."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).parent.parent


def folder(package: Path = PACKAGE) -> Path:
    """The folder of the templates; ``package`` as for :func:`carried`."""
    return carried("phases", package)


def carried(name: str, package: Path = PACKAGE) -> Path:
    """A folder that ships along: inside the package in a wheel, else at the checkout's root.

    Parameters
    ----------
    name: of the folder.
    package: the folder of the import package; another one only in tests.
    """
    inside = package / name
    return inside if inside.is_dir() else package.parent / name


def path_of(name: str) -> Path:
    """The file of a shipped template; it need not exist."""
    return folder() / f"{name}.toml"


def example() -> str:
    """The text of a worked example: a template with every key explained, which loads as it is."""
    return Path(__file__).with_name("example.toml").read_text("utf-8")
