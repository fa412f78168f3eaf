"""What nobody has said yet names kinds and fields that there are, and falls due in time."""

from __future__ import annotations

from tests.build.making import Yard, added
from tracker.build.kinds import kinds
from tracker.build.unsaid import default_of, due_of, unknown_fields


def test_what_falls_due_before_the_close_in_and_is_not_known_is_unknown() -> None:
    yard = Yard(
        added("hole", "H1"),
        added("hole", "H2", through="rib", diameter_mm=20.0, bay=["bay:B1"]),
        added("hole", "H3", through="rib", diameter_mm=20.0, face="left"),
        added("teapot", "T1"),
    )

    unknown = {item.slug: unknown_fields(item) for item in yard.build.items.values()}

    assert unknown == {
        "H1": ["through", "diameter_mm", "face", "station_m"],
        "H2": [],
        "H3": ["station_m"],
        "T1": [],
    }


def test_every_field_that_falls_due_is_a_field_of_its_kind() -> None:
    wrong = {
        kind.name: set(due_of(kind.name)) - set(kind.fields)
        for kind in kinds().values()
        if not set(due_of(kind.name)) <= set(kind.fields)
    }

    assert wrong == {}
    assert due_of("run")


def test_a_default_is_what_its_field_may_hold() -> None:
    fields = [field for kind in kinds().values() for field in kind.fields.values()]
    stated = [field for field in fields if field.default is not None]

    assert stated
    assert [f.name for f in stated if f.of and f.default not in f.of] == []
    assert [f.name for f in stated if f.low is not None and f.default < f.low] == []


def test_what_no_kind_states_has_no_default_and_is_never_due() -> None:
    assert default_of("teapot", "lid") is None
    assert due_of("teapot") == ()
