"""Templates of one's own beside those shipped: which is in force, and what it may refer to."""

from __future__ import annotations

from pathlib import Path

import pytest

from tracker.errors import BadFile, UnknownName
from tracker.templates.library import Library
from tracker.templates.load import read, shipped
from tracker.templates.shipped import example, path_of


@pytest.fixture
def folders(tmp_path: Path) -> tuple[Path, Path]:
    """The folder of a build's templates and the user's own."""
    build, yours = tmp_path / "build", tmp_path / "yours"
    build.mkdir()
    yours.mkdir()
    return build, yours


def _deck(title: str) -> str:
    return path_of("deck").read_text("utf-8").replace('title = "', f'title = "{title} ', 1)


def test_without_folders_there_are_the_shipped_ones_in_their_order(tmp_path: Path) -> None:
    library = Library(tmp_path / "nowhere", None)

    assert library.names() == shipped()
    assert {source.origin for source in library.sources} == {"shipped"}
    assert library.read("deck") == read("deck")


def test_the_build_goes_before_the_user_and_the_user_before_what_is_shipped(
    folders: tuple[Path, Path],
) -> None:
    build, yours = folders
    (yours / "deck.toml").write_text(_deck("My"), "utf-8")
    (source,) = [each for each in Library(build, yours).sources if each.name == "deck"]
    assert (source.origin, source.hides) == ("yours", ("shipped",))

    (build / "deck.toml").write_text(_deck("Our"), "utf-8")
    library = Library(build, yours)

    (source,) = [each for each in library.sources if each.name == "deck"]
    assert (source.origin, source.hides) == ("this build", ("yours", "shipped"))
    assert library.read("deck").title.startswith("Our ")
    assert library.names() == shipped()


def test_a_phase_of_ones_own_stands_at_its_place_in_the_order(folders: tuple[Path, Path]) -> None:
    build, yours = folders
    (build / "sauna.toml").write_text(example(), "utf-8")

    names = Library(build, yours).names()

    assert names.index("insulation") < names.index("sauna") < names.index("cabinetry")


def test_own_templates_may_refer_to_each_other(folders: tuple[Path, Path]) -> None:
    build, yours = folders
    (yours / "sauna.toml").write_text(example(), "utf-8")
    other = example().replace('name = "sauna"', 'name = "porch"').replace('"sauna"', '"porch"')
    for key in ("pre-cedar", "foil-walls", "foil-joints", "stove-distance"):
        other = other.replace(f'key = "{key}"', f'key = "porch-{key}"')
    other = other.replace('needs = ["foil-walls"]', 'needs = ["sauna/board-walls"]')
    other = other.replace('key = "board-walls"', 'key = "porch-boards"')
    other = other.replace('closed_by = "board-walls"', 'closed_by = "porch-boards"')
    (build / "porch.toml").write_text(other, "utf-8")

    porch = Library(build, yours).read("porch")

    assert porch.tasks[1].needs == ("task:sauna/board-walls",)
    assert {check.before for check in porch.checks} == {"hold:sauna/pre-cedar"}


def test_one_that_can_t_be_read_is_listed_last_and_never_replaced_in_silence(
    folders: tuple[Path, Path],
) -> None:
    build, yours = folders
    (build / "deck.toml").write_text("[phase]\nname = 3\n", "utf-8")
    library = Library(build, yours)

    assert library.sources[-1].name == "deck"
    assert "deck.toml:" in (library.sources[-1].fault or "")
    assert "deck" not in library.names()[:-1]
    with pytest.raises(BadFile, match=r"deck\.toml:"):
        library.read("deck")
    assert library.read("insulation") == read("insulation")


def test_an_unknown_name_offers_own_ones_too(folders: tuple[Path, Path]) -> None:
    build, yours = folders
    (build / "sauna.toml").write_text(example(), "utf-8")

    with pytest.raises(UnknownName, match="mean sauna"):
        Library(build, yours).read("suana")


def test_a_hold_point_that_others_count_on_is_missed_aloud(folders: tuple[Path, Path]) -> None:
    build, yours = folders
    text = path_of("insulation").read_text("utf-8").replace('"pre-foam"', '"before-spray"')
    (build / "insulation.toml").write_text(text, "utf-8")
    library = Library(build, yours)

    missed = library.missed_in(library.read("insulation"))

    assert any(text.startswith("the checks of rough-in-wiring") for text in missed)
    assert all("pre-foam" in text for text in missed)
    assert library.missed_in(read("deck")) == []
