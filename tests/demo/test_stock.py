"""The demo's wire and shopping: a plan that holds, and the formula of the buy list."""

from __future__ import annotations

from collections import Counter

from tracker.app.session import Session
from tracker.app.views.buying import buy_view
from tracker.app.views.cuts import cuts_view
from tracker.plan.demand import demand


def test_every_run_still_to_be_pulled_is_cut_once_or_said_not_to_be(demo: Session) -> None:
    rows = cuts_view(demo)

    named = Counter(
        piece["for"]
        for row in rows
        for piece in (*row["uncut"], *(each for bar in row["cuts"] for each in bar["pieces"]))
    )
    pieces = [line for line in demand(demo.cover) if line.piece]
    assert named == Counter(demo.names.name(line.subject) for line in pieces)
    assert any(row["cuts"] for row in rows)
    for row in rows:
        for bar in row["cuts"]:
            cut = sum(piece["length_m"] for piece in bar["pieces"])
            assert abs(bar["length_m"] - cut - bar["remnant_m"]) < 1e-6
        hand = Counter(bar["length_m"] for bar in row["cuts"] if bar["measured"])
        for bar in row["cuts"]:
            if bar["place"] in ("on order", "to buy"):
                hand[bar["length_m"]] -= 1
        assert +hand <= Counter(row["on_hand_m"])
        assert not row["said"] or not row["buy"]


def test_what_is_bought_makes_up_for_what_is_missing_in_whole_packs(demo: Session) -> None:
    view = buy_view(demo)
    rows = [row for group in view["suppliers"] for row in group["parts"]]

    assert rows
    for row in rows:
        missing = row["need"] + row["allowance"] - row["on_hand"] - row["on_order"]
        assert row["quantity"] >= missing - 0.01, row["part"]
        assert row["quantity"] < max(missing, 0.0) + max(row["pack"] or 0.0, 1.0), row["part"]
        assert row["packs"] is None or row["quantity"] == row["packs"] * row["pack"]
        assert not row["level"]
    bought = {row["part"] for row in rows}
    assert not bought & {row["part"] for row in view["count_first"]}
    days = [row["order_by"] or "9999" for group in view["suppliers"] for row in group["parts"][:1]]
    assert days == sorted(days)
    assert {row["part"] for row in view["order_today"]} == {
        row["part"] for row in rows if row["order_by"] and row["order_by"] <= view["date"]
    }
