"""Fuse ratings, places and interrupt ratings, as published."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing import protection

TABLES = ("protection",)
BLADES = "two public lists of blade fuses"
NEC = "NEC 240.6(A), 2023, via callout.app; 1, 3, 6 and 10 A also via ecmweb.com"
CFR = "33 CFR 183.455, self-law.org"
MANUAL = "an inverter maker's manual, page 11, table 2"

BLADE_A = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80]
BOLTED_A = [100, 125, 150, 175, 200, 225, 250, 300, 400, 500]
NEC_A = [1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175,
         200, 225, 250, 300, 350, 400, 450, 500, 600]  # fmt: skip


def checks() -> list[Check]:
    """All of them."""
    found = [
        equal(
            "conductor",
            f"{rating:g} A is a blade rating",
            BLADES,
            lambda rating=rating: rating in protection.ratings_a("33cfr183"),
            True,
        )
        for rating in BLADE_A
    ]
    found += [
        equal(
            "conductor",
            f"{rating:g} A is a bolted rating",
            "from memory, unverified",
            lambda rating=rating: rating in protection.ratings_a("33cfr183"),
            True,
        )
        for rating in BOLTED_A
    ]
    found.append(
        equal("conductor", "standard ratings", NEC, lambda: protection.ratings_a("nec310"), NEC_A)
    )
    found += [
        near(
            "conductor",
            "14 AWG of 35 A below 50 V: at most 52.5 A",
            CFR,
            lambda: protection.most_below_50_v_a(35),
            52.5,
            absolute=0.01,
        ),
        equal(
            "conductor",
            "the bundle rule begins at 50 V",
            "33 CFR 183.435(b), codes.findlaw.com",
            protection.bundling_from_v,
            50.0,
        ),
        near("conductor", "7 in at the source", CFR, lambda: protection.within_mm("33cfr183"),
             177.8, absolute=0.1),
        near("conductor", "18 in where the supply connects", "NEC 552.10(E)(4), codebookcity.com",
             lambda: protection.within_mm("nec310"), 457.2, absolute=0.1),
        equal("conductor", "40 in sheathed", CFR,
              lambda: "40 in (1016 mm)" in protection.where_it_sits("33cfr183")[0], True),
        equal("conductor", "72 in from a battery post in a sheath", "boats.com on ABYC E-11",
              lambda: "72 in" in protection.where_it_sits("33cfr183")[0], True),
        near("conductor", "24 A continuous is 30 A", "a public question on NEC 210.20(A)",
             lambda: 24 * protection.continuous_factor(), 30.0, absolute=0.01),
        near("conductor", "a blade fuse breaks 1000 A", "ISO 8820-3:2015, scope",
             protection.blade_interrupt_a, 1000.0, absolute=0.1),
    ]  # fmt: skip
    for cranking, breaks in ((500, 1500), (650, 1500), (660, 3000), (1100, 3000), (1101, 5000)):
        found.append(
            equal(
                "conductor",
                f"interrupt rating for {cranking} A of cranking current",
                MANUAL,
                lambda cranking=cranking: protection.interrupt_a(cranking),
                float(breaks),
            )
        )
    return found
