"""What a field takes from what people type."""

from __future__ import annotations

import pytest

from tracker.act import Act
from tracker.build.fold import fold
from tracker.build.item import add
from tracker.build.kinds import kind_of, take
from tracker.build.names import Names
from tracker.errors import BadInput


def names_of(*rows: tuple[str, str]) -> Names:
    facts = tuple(add(kind, slug, {}, f"{kind}:{slug}") for kind, slug in rows)
    return Names(fold([Act("000000000001-aaaaaaaa-1", "2030-05-01T08:00:00+00:00", "Ida", facts)]))


def test_a_field_of_one_name_holds_that_items_id_and_no_list() -> None:
    names = names_of(("holdpoint", "pre-foam"), ("holdpoint", "pre-panel"))
    field = kind_of("check").field("before")

    assert take(field, "pre-foam", names) == "holdpoint:pre-foam"
    with pytest.raises(BadInput, match="one holdpoint, not 2"):
        take(field, "pre-foam,pre-panel", names)


def test_none_is_a_hold_point_that_buries_nothing_and_elsewhere_no_names_at_all() -> None:
    names = names_of(("run", "L1"))

    assert take(kind_of("run").field("covered_by"), "none", names) == "none"
    assert take(kind_of("hole").field("carries"), "none", names) == []


def test_a_plain_number_that_can_be_read_two_ways_is_refused() -> None:
    with pytest.raises(BadInput, match="two ways"):
        take(kind_of("part").field("needed"), "1,000", names_of())


def test_every_kind_of_item_can_have_a_title() -> None:
    assert take(kind_of("part").field("title"), "cable glands", names_of()) == "cable glands"
