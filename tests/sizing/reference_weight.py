"""Axle loads as truck makers and regulators give them."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing.axle import Loads, on_rear_kg
from tracker.sizing.mass import POUND_KG, mass_of
from tracker.sizing.weight import is_front_light, is_lopsided, weight

TABLES = ("weight",)

MAKER = "a truck maker's body builder manual, appendix B"
DICTIONARY = "an automotive dictionary, load distribution calculation"
NHTSA = "NHTSA interpretations aiam2229 and aiam0613"
MOTORHOME = "a motorhome maker's manual, four point weighing, invented readings"
FEDERAL = "federal limits, as given on a public page"
PRACTICE = "common practice, no source"
HAND = "own check by hand"
LB, INCH_M = POUND_KG, 0.0254


def _said(name: str, **inputs: float) -> str:
    base = {"wheelbase_m": 4.0, "front_kg": 1000.0, "rear_kg": 1000.0, **inputs}
    return next(said for key, said in weight(**base).others if name in key)  # type: ignore[arg-type]


def checks() -> list[Check]:
    """Every check."""
    payload = dict(
        wheelbase_m=214 * INCH_M, front_kg=1 * LB, rear_kg=1 * LB, item=("load 14500lb 156in",)
    )
    return [
        near("weight", "14,500 lb at 156 of 214 in: rear", MAKER,
             lambda: on_rear_kg(14500, 156, 214), 10570, absolute=0.5),
        near("weight", "14,500 lb at 156 of 214 in: front", MAKER,
             lambda: 14500 - on_rear_kg(14500, 156, 214), 3929.9, absolute=0.1),
        near("weight", "the same through the whole helper", MAKER,
             lambda: weight(**payload).number("now_front_kg") / LB - 1, 3929.9, absolute=0.1),
        near("weight", "100 lb at 133 of 214 in: rear (the front is misprinted there)", MAKER,
             lambda: on_rear_kg(100, 133, 214), 62.14, absolute=0.02),
        near("weight", "half way: half on each", MAKER,
             lambda: on_rear_kg(100, 107, 214), 50, relative=1e-9),
        near("weight", "front = load x load base / wheelbase, load base from the rear axle",
             DICTIONARY,
             lambda: 14500 - on_rear_kg(14500, 156, 214), 14500 * (214 - 156) / 214,
             relative=1e-9),
        near("weight", "a load behind the rear axle lifts the front", HAND,
             lambda: weight(4.0, front_kg=1000, rear_kg=1000, item=("rack 100kg 5m",))
             .number("now_front_kg"), 975, relative=1e-9),
        near("weight", "corners of 5000 and 4000 lb: 55.6 % on the left", MOTORHOME,
             lambda: weight(4.0, front_kg=9000 * LB, rear_kg=0, left_kg=5000 * LB)
             .number("now_left_percent"), 55.56, absolute=0.01),
        near("weight", "9000 lb leave 4000 of a 13,000 lb axle", MOTORHOME,
             lambda: weight(4.0, front_kg=9000 * LB, rear_kg=0, front_rating_kg=13000 * LB)
             .number("front_margin_kg") / LB, 4000, relative=1e-6),
        near("weight", "150 lb a seat", NHTSA,
             lambda: float(_said("a person in a seat").split()[0]) / LB, 150, absolute=0.1),
        equal("weight", "a GVWR above both GAWRs is not good practice", NHTSA,
              lambda: tuple(_said("GVWR", front_rating_kg=2000, rear_rating_kg=3000,
                                  gross_rating_kg=gross).startswith("above")
                            for gross in (4999.0, 5001.0)), (False, True)),
        equal("weight", "20,000 lb on a single axle", FEDERAL,
              lambda: tuple(_said("single axle", rear_kg=lb * LB).startswith("above")
                            for lb in (19900, 20100)), (False, True)),
        near("weight", "a gallon of water", "CoolProp 8.0.0, 4 C",
             lambda: mass_of("water 1gal 1m").mass_kg / LB, 8.3452, relative=1e-5),
        near("weight", "100 gallons of water", "8.34 lb/gal, common",
             lambda: mass_of("water 100gal 1m").mass_kg / LB, 834, relative=1e-3),
        near("weight", "0.5 m off the middle of a track of 2 m: three quarters", HAND,
             lambda: mass_of("stove 100kg 1m 0.5m left").left_kg(2.0), 75, relative=1e-9),
        equal("weight", "a fifth on the front axle is little", PRACTICE,
              lambda: (is_front_light(Loads(197, 803, 500)), is_front_light(Loads(203, 797, 500))),
              (True, False)),
        equal("weight", "more than 55 % on a side is much", PRACTICE,
              lambda: (is_lopsided(Loads(500, 500, 540)), is_lopsided(Loads(500, 500, 560)),
                       is_lopsided(Loads(500, 500, 440))), (False, True, True)),
    ]  # fmt: skip
