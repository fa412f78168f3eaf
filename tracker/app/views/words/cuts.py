"""Cutting plans in words, the same on paper and on the screen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

Row = Mapping[str, Any]

COUNT = "'closein part count {part} 4.2m,3.1m --at PLACE' says its lengths ('4.2m,' a single one)"
HERE = ("to buy", "on order")


def bar_words(bar: Row) -> str:
    """One spool: what is cut from it, and what is over."""
    at = bar["place"] if bar["place"] in HERE else f"at {bar['place']}"
    doubt = "" if bar["measured"] else ", if it is one length"
    over = f"{bar['remnant_m']:g} m over" if bar["remnant_m"] else "nothing over"
    return f"{bar['length_m']:g} m {at}{doubt}: {pieces_words(bar['pieces'])}; {over}"


def pieces_words(pieces: Sequence[Row]) -> str:
    """Pieces with what each is for, such as ``L3 9.2 m, L7 8.4 m``."""
    return ", ".join(f"{each['for'] or 'a piece'} {each['length_m']:g} m" for each in pieces)


def plan_notes(row: Row) -> list[str]:
    """What is to be said of a part's plan beyond its spools: what is short, bought, not known."""
    part, notes = row["part"], []
    count = COUNT.format(part=part)
    if row["short_of_m"]:
        notes.append(short_words(row))
    notes += _sums(row, count)
    if row["said"]:
        told = " and ".join(
            f"{each['level']} at {each['place']}" if each["place"] else "never counted"
            for each in row["said"]
        )
        notes.append(f"{told}: what could be cut from that nobody can say; {count}")
    if row["buy"]:
        notes.append(
            f"to buy: {row['buy']} of {row['put_up_m']:g} m"
            + ("" if row["fewest"] else "; perhaps fewer would do")
        )
    if row["uncut"]:
        notes.append(f"not cut yet: {pieces_words(row['uncut'])}{_why_uncut(row)}")
    return notes


def _sums(row: Row, count: str) -> list[str]:
    """What is to be said of places of which only the sum is known."""
    pieces = [*row["uncut"], *(each for bar in row["cuts"] for each in bar["pieces"])]
    shortest = min((each["length_m"] for each in pieces), default=0.0)
    return [
        f"nobody measured what lies at {each['place']}; {count}"
        if each["quantity_m"] >= shortest
        else f"{each['quantity_m']:g} m at {each['place']} reaches for none of them"
        for each in row["summed"]
    ]


def short_words(row: Row) -> str:
    """That there are metres enough but no length that reaches."""
    lengths = [*row["on_hand_m"], *(each["quantity_m"] for each in row["summed"])]
    many = "1 length" if len(lengths) == 1 else f"{len(lengths)} remnants"
    return (
        f"{round(sum(lengths), 3):g} m on hand in {many}, but none reaches {row['short_of_m']:g} m"
    )


def _why_uncut(row: Row) -> str:
    longest = max(each["length_m"] for each in row["uncut"])
    if row["said"]:
        return ""
    if not row["known"]:
        return "; this build has no part for it: 'closein part add NAME unit=m gauge=...' adds one"
    if row["put_up_m"]:
        return f"; {longest:g} m is longer than the {row['put_up_m']:g} m it is sold in"
    return (
        f"; buy a length of {longest:g} m at least, or say in which length it is sold: "
        f"'closein item change {row['part']} pack=25m'"
    )
