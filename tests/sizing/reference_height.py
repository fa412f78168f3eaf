"""Heights and exits as codes and lists give them."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing.height import FOOT_M, Opening, height, known_limit, width_limit
from tracker.sizing.tables import table

TABLES = ("height",)

LIST = "a freight broker's list of state limits"
CALIFORNIA = "California Vehicle Code 35250"
ROOF = "NHTSA interpretation 2509y of FMVSS 217"
DOOR = "NHTSA interpretation 001389Klasing of FMVSS 217"
BUS_ROOF = "FMVSS 217 S5.4.2.1(b), from memory, unverified"
WINDOW = "49 CFR 393.62(c)"
IRC = "IRC R310.1.1 to R310.1.3, as quoted by a window maker"
HAND = "own check by hand"
IN = 25.4
LIMITS = (
    ("us-east", LIST, 13.5 * FOOT_M), ("us-west", LIST, 14 * FOOT_M),
    ("nebraska-colorado", LIST, 14.5 * FOOT_M), ("alaska", LIST, 15 * FOOT_M),
    ("california", CALIFORNIA, 13.5 * FOOT_M),
    ("eu", "European Parliament, summary 1993/0486(SYN)", 4.0),
    ("canada", "a British Columbian column on the size of vehicles", 4.15),
    ("australia", "public answers on general access vehicles", 4.3),
    ("uk", "a trailer maker after the Design Manual for Roads and Bridges", 5.03),
)  # fmt: skip

WIDTHS = (
    ("us-west", "23 CFR 658.15", 102 * 0.0254),
    ("eu", "European Parliament, summary 1993/0486(SYN)", 2.55),
    ("canada", "a British Columbian column on the size of vehicles", 2.6),
    ("uk", "no limit seen; the narrowest of those known", 2.55),
)


def _edge(kind: str, wide_mm: float, high_mm: float) -> tuple[bool, bool, bool]:
    """Whether an opening passes as asked, a little narrower, and a little lower."""
    return (
        Opening(kind, wide_mm + 1, high_mm + 1).passes(),
        Opening(kind, wide_mm - 1, high_mm + 1).passes(),
        Opening(kind, wide_mm + 1, high_mm - 1).passes(),
    )


def _others(name: str) -> float:
    result = height(("x 3m",), exit=("bedroom 1m x 1m",))
    return next(float(said.split()[0]) for key, said in result.others if name in key)


def checks() -> list[Check]:
    """Every check."""
    just = (True, False, False)
    return [
        *(near("height", f"limit {where}", origin, lambda w=where: known_limit(w)[0], metres,
               absolute=1e-6)
          for where, origin, metres in LIMITS),
        near("height", "13 ft 6 in is 4.1148 m", HAND, lambda: known_limit("us-east")[0], 4.1148,
             absolute=1e-6),
        near("height", "14 ft on suitable highways", CALIFORNIA,
             lambda: 3000 + _others("California's 14 ft"), 14 * 304.8, absolute=0.6),
        near("height", "3.10 and 0.95 m leave 64.8 mm of 13 ft 6 in", HAND,
             lambda: height(("bus 3.1m", "deck 0.95m")).number("margin_mm"), 64.8, absolute=1e-3),
        equal("height", "of which 50 mm are kept", "common practice, no source",
              lambda: (height(("bus 4.0638m",))["passes"], height(("bus 4.0658m",))["passes"],
                       height(("bus 1m",))["spare_mm"]), (True, False, 50.0)),
        *(near("height", f"width {where}", origin, lambda w=where: width_limit(w)[0], metres,
               absolute=1e-6)
          for where, origin, metres in WIDTHS),
        near("height", "102 in is 2.6 m, near enough", "23 CFR 658.15",
             lambda: width_limit("us-east")[0], 2.6, absolute=0.01),
        equal("height", "20 by 13 in through the roof", ROOF,
              lambda: _edge("roof", 20 * IN, 13 * IN), just),
        equal("height", "41 by 41 cm through a school bus's roof", BUS_ROOF,
              lambda: _edge("roof-bus", 410, 410), just),
        equal("height", "45 by 33 cm through a window", WINDOW,
              lambda: _edge("window", 450, 330), just),
        equal("height", "or turned", WINDOW, lambda: Opening("window", 330, 450).passes(), True),
        equal("height", "61 by 114 cm through the rear door", DOOR,
              lambda: _edge("rear-door", 610, 1140), just),
        equal("height", "20 in wide in a bedroom", IRC,
              lambda: (Opening("bedroom", 509, 1100).passes(),
                       Opening("bedroom", 507, 1100).passes()), (True, False)),
        equal("height", "24 in high in a bedroom", IRC,
              lambda: [Opening("bedroom", 900, high).passes() for high in (610, 609)],
              [True, False]),
        equal("height", "5.7 ft2 (0.530 m2) in a bedroom", IRC,
              lambda: [Opening("bedroom", side, side).passes() for side in (728, 727)],
              [True, False]),
        equal("height", "20 by 24 in alone is 3.33 ft2, too little", HAND,
              lambda: Opening("bedroom", 20 * IN, 24 * IN).passes(), False),
        near("height", "sill at most 44 in", IRC, lambda: _others("sill") / IN, 44, absolute=0.01),
        near("height", "5.0 ft2 at grade", IRC, lambda: _others("at grade"), 5.0, absolute=1e-6),
        near("height", "44 in is 1118 mm", IRC,
             lambda: table("height")["exit"]["bedroom"]["sill_mm"], 1118, absolute=0.5),
    ]  # fmt: skip
