"""Foam as trade bodies, builders and plain arithmetic give it."""

from __future__ import annotations

from tests.sizing.checking import Check, equal, near
from tracker.sizing.foam import BOARD_FOOT_L, KG_PER_M3, RSI, foam
from tracker.sizing.result import Result

TABLES = ("foam",)

NRCAN = "Natural Resources Canada, Keeping the Heat In, table 3-1"
SPFA = "Spray Polyurethane Foam Alliance, questions and answers"
JLC = "a builders' journal, Troubleshooting spray foam"
HAND = "own check by hand"
PRACTICE = "common practice, no source"
WALLS_M2 = 2 * (4.0 + 1.8) * 1.9 + 4.0 * 1.8
INCH_M2 = 0.3048**2


def _inch(kind: str = "closed", inches: float = 1.0) -> Result:
    """A square foot of foam."""
    return foam((INCH_M2,), inches * 25.4, kind=kind)


def _said(result: Result, name: str) -> float:
    return float(dict(result.others)[name].split()[0])


def _asked(name: str, word: int) -> float:
    """A number in what is said beside a result, by its place among the words."""
    said = next(answer for key, answer in _inch().others if name in key)
    return float(said.split()[word])


def _r_per_in(kind: str) -> float:
    return _inch(kind).number("resistance_m2k_w") / RSI


def checks() -> list[Check]:
    """Every check."""
    return [
        near("foam", "a square foot an inch thick is a board foot", "a trade page on board feet",
             lambda: _inch().number("board_feet"), 1.0, relative=1e-6),
        near("foam", "a board foot is 2.360 l", "a trade page on board feet",
             lambda: BOARD_FOOT_L, 2.360, relative=2e-4),
        near("foam", "walls and roof of 4.0 x 1.8 x 1.9 m at 2 in", HAND,
             lambda: foam((WALLS_M2,), 50.8).number("board_feet"), 629.5, relative=2e-4),
        near("foam", "and 10 % more to buy", HAND,
             lambda: foam((WALLS_M2,), 50.8).number("buy_board_feet"), 692.4, relative=2e-4),
        equal("foam", "two kits of 600", HAND,
              lambda: foam((WALLS_M2,), 50.8, kit_l=600 * BOARD_FOOT_L)["kits"], 2),
        near("foam", "closed-cell, R at least", NRCAN, lambda: _r_per_in("closed"), 5.5,
             absolute=0.001),
        near("foam", "closed-cell, 5.5 is RSI 0.97", NRCAN,
             lambda: _inch().number("resistance_m2k_w"), 0.97, absolute=0.005),
        near("foam", "closed-cell, design RSI 1.06", NRCAN,
             lambda: _said(_inch(), "resistance by its design value"), 1.06, absolute=0.005),
        near("foam", "closed-cell, best RSI 1.14", NRCAN,
             lambda: _said(_inch(), "resistance at the best of its range"), 1.14, absolute=0.01),
        near("foam", "open-cell, R 3.6", NRCAN, lambda: _r_per_in("open"), 3.6, absolute=0.001),
        near("foam", "open-cell, design R 3.6", NRCAN,
             lambda: _said(_inch("open", 10), "resistance by its design value") / RSI / 10, 3.6,
             absolute=0.02),
        near("foam", "open-cell, best R 3.8", NRCAN,
             lambda: _said(_inch("open", 10), "resistance at the best of its range") / RSI / 10,
             3.8, absolute=0.02),
        near("foam", "closed-cell, 2.3 lb/ft3", SPFA,
             lambda: _inch(inches=12).number("mass_kg") / 0.45359237, 2.3, absolute=0.001),
        near("foam", "closed-cell, 1.8 lb/ft3", SPFA,
             lambda: _said(_inch(inches=12), "mass at the light end of its range") / 0.45359237,
             1.8, absolute=0.01),
        near("foam", "open-cell, 0.8 lb/ft3", SPFA,
             lambda: _inch("open", 12).number("mass_kg") / 0.45359237, 0.8, absolute=0.001),
        near("foam", "open-cell, 0.5 lb/ft3", SPFA,
             lambda: _said(_inch("open", 12), "mass at the light end of its range") / 0.45359237,
             0.5, absolute=0.005),
        equal("foam", "lifts of 1-1/2 in: one up to that", JLC,
              lambda: (_inch(inches=1.5)["lifts"], _inch(inches=1.51)["lifts"]), (1, 2)),
        equal("foam", "2 or 3 in in two or three lifts", JLC,
              lambda: (_inch(inches=2)["lifts"], _inch(inches=3)["lifts"]), (2, 2)),
        equal("foam", "open-cell in one shot", JLC, lambda: _inch("open", 6)["lifts"], 1),
        near("foam", "wait 15 min", JLC, lambda: _inch(inches=3).number("waiting_h"), 0.25,
             absolute=1e-6),
        near("foam", "or 10 min", JLC,
             lambda: _said(_inch(inches=3), "waiting at the short end"), 10, absolute=1e-6),
        equal("foam", "a pass above 2 in is warned of, one of 2 in is not",
              "Spray Foam Professional, Fall 2012, p. 35",
              lambda: tuple("scorch" in foam((1.0,), 60, lift_mm=lift).cautions[0]
                            for lift in (50.8, 51.5)), (False, True)),
        equal("foam", "below 60 F yield falls", "a foam supplier's answer",
              lambda: tuple(foam((1.0,), 50, surface_c=(f - 32) / 1.8)["loss_percent"] > 10
                            for f in (59.5, 60.5)), (True, False)),
        near("foam", "trimming takes a tenth", PRACTICE,
             lambda: foam((1.0,), 50).number("loss_percent"), 10, absolute=1e-6),
        near("foam", "a rough surface a tenth more", PRACTICE,
             lambda: foam((1.0,), 50, rough=True).number("loss_percent")
             - foam((1.0,), 50).number("loss_percent"), 10, absolute=1e-6),
        near("foam", "a cold one 15 % more", PRACTICE,
             lambda: foam((1.0,), 50, surface_c=5).number("loss_percent")
             - foam((1.0,), 50).number("loss_percent"), 15, absolute=1e-6),
        near("foam", "12 bays of 16 in by 6 ft with a tenth ribs", HAND,
             lambda: foam((12 * 16 * 72 * 0.0254**2,), 50.8, framing_percent=10)
             .number("board_feet"), 172.8, relative=1e-6),
        near("foam", "1/2 in of gypsum over foam", "IRC 2015 R316.4, as quoted on a forum",
             lambda: _asked("dwellings", 0), 0.5, absolute=1e-4),
        near("foam", "or 23/32 in of wood panel", "IRC 2015 R316.4, as quoted on a forum",
             lambda: _asked("dwellings", 5), 23 / 32, absolute=1e-4),
        near("foam", "burning at most 102 mm a minute", "49 CFR 571.302",
             lambda: _asked("vehicles ask", 2), 102, absolute=0.01),
        near("foam", "within 13 mm of the cabin's air", "49 CFR 571.302",
             lambda: _asked("vehicles ask", 7), 13, absolute=0.01),
        near("foam", "0.02 ppm of MDI", "NIOSH 101-68-8, OSHA ceiling",
             lambda: _asked("while spraying", 0), 0.02, absolute=1e-5),
        near("foam", "2 lb/ft3 is 32.04 kg/m3", "from memory, unverified",
             lambda: 2 * KG_PER_M3, 32.04, relative=1e-3),
    ]  # fmt: skip
