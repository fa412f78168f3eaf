"""Where something is, from few words."""

from __future__ import annotations

import pytest

from tracker.app.wants.placing import place_of
from tracker.errors import BadInput


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("ceiling,4.1m,right", {"face": "ceiling", "station_m": 4.1, "side": "right"}),
        ("right, ceiling", {"face": "ceiling", "side": "right"}),
        ("left,2m,height 1.2m", {"face": "left", "station_m": 2.0, "height_m": 1.2}),
        ("floor,centre", {"face": "floor", "side": "middle"}),
        ("Rear, depth 20mm", {"face": "rear", "depth_m": 0.02}),
    ],
)
def test_words_in_any_order_are_a_place(text: str, place: dict[str, object]) -> None:
    assert place_of(text) == pytest.approx(place)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("ceiling,floor", "the face twice"),
        ("left,right", "the face twice"),
        ("ceiling,left,right", "the side twice"),
        ("2m,3m", "the station twice"),
        ("middle,2m", "the middle"),
        ("ceiling,sideways", "sideways"),
        ("ceiling,4", "4"),
    ],
)
def test_what_is_no_place_is_said_so(text: str, said: str) -> None:
    with pytest.raises(BadInput, match=said):
        place_of(text)
