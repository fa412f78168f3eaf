"""What a phase template may hold: its tables, their keys and what each takes."""

from __future__ import annotations

from collections.abc import Mapping

from tracker.build.kinds import Field as KindField
from tracker.build.kinds import kind_of, kinds
from tracker.quantity.units import TAKEN
from tracker.templates.reader import Field, Shape, Table

PHASES = (
    "strip-out",
    "shell",
    "subfloor",
    "framing",
    "deck",
    "rough-in-wiring",
    "rough-in-plumbing-gas",
    "insulation",
    "panelling",
    "cabinetry",
    "finish-electrical",
    "finish-plumbing-gas",
    "commissioning",
)
"""The phases of a whole build, in the trade's order; a template may name one that has no file."""

CLASSES = ("hold", "witness", "surveillance", "review")
LOOKED_AT = ("look", "photo")
"""The ways of showing that may be marked for a whole bay at once."""
ANSWERED_BY_NUMBER = ("measure", "continuity", "insulation", "water", "air")
HOWS = (*LOOKED_AT, *ANSWERED_BY_NUMBER, "function", "second person", "document")
UNITS = tuple(TAKEN)
"""The units a limit may be stated in; ``K`` is a difference of temperatures."""
PART_UNITS = ("each", "m", "m2", "l", "kg")
FUNCTIONS = ("lead_from_rib",)
"""What may give a limit from the subject: the lead wanted, measured from the bare rib."""
ENTRY_WORDS = ("ok", "good", "bad", "but", "na", "out", "bay", "waive")
"""Words the entry line keeps for itself, so that no check may be called by them."""


DUTIES = ("decision", "receipt", "duty", "weigh-slip", "loan")
"""Items of what the person sees to besides the work; a check may be asked of each of them."""


def placed_kinds() -> tuple[str, ...]:
    """The kinds that have a place in the vehicle, and so may be buried."""
    return tuple(name for name, kind in kinds().items() if "covered_by" in kind.fields)


def subjects() -> tuple[str, ...]:
    """What a check may be asked of each of; ``once`` is the vehicle."""
    return tuple(
        dict.fromkeys(("once", "zone", "bay", *placed_kinds(), "fixture", "appliance", *DUTIES))
    )


def fields_of(subject: str) -> Mapping[str, KindField]:
    """The fields that a subject of a check has, those of its place included."""
    return kind_of("vehicle" if subject == "once" else subject).fields


_TEXT = Field("text", required=True)
_SLUG = Field("slug", required=True)
_YESNO = Field("yesno")
_BAND = Field("numbers", required=True, min=0.0, max=10000.0)

PHASE = {
    "name": _SLUG,
    "title": _TEXT,
    "order": Field("whole", required=True, min=1, max=len(PHASES)),
    "edition": Field("whole", required=True, min=1, max=1e6),
    "after": Field("slugs"),
    "summary": _TEXT,
}

HOLDPOINT = {
    "key": _SLUG,
    "title": _TEXT,
    "text": _TEXT,
    "gates": _SLUG,
    "closed_by": _TEXT,
    "buries": Field("texts"),
    "valid_h": Field("number", min=1.0, max=8760.0),
    "dry": _YESNO,
    "min_surface_c": Field("number", min=-40.0, max=60.0),
    "min_margin_k": Field("number", min=0.0, max=30.0),
    "text_caution": Field("text"),
}

TASK = {
    "key": _SLUG,
    "title": _TEXT,
    "crew": Field("whole", required=True, min=1, max=50),
    "hours": Field("table", True, fields={"low": _BAND, "likely": _BAND, "high": _BAND}),
    "vehicle": Field("any"),
    "needs": Field("texts"),
    "cure_h": Field("number", min=0.0, max=8760.0),
    "dry": _YESNO,
    "daylight": _YESNO,
    "power": _YESNO,
    "hot_work": _YESNO,
    "level": _YESNO,
    "bay_clear": _YESNO,
    "min_c": Field("number", min=-40.0, max=60.0),
    "tools": Field("texts"),
    "skills": Field("texts"),
    "parts": Field(
        "tables",
        fields={
            "part": _SLUG,
            "per": _TEXT,
            "qty": Field("number", required=True, min=0.001, max=1e6),
            "unit": Field("text", required=True, one_of=PART_UNITS),
        },
    ),
    "buries": Field("texts"),
    "basis": Field("text"),
    "memory": _YESNO,
}

LIMIT = {
    "min": Field("number"),
    "max": Field("number"),
    "sign_min": Field("number"),
    "unit": Field("text", required=True, one_of=UNITS),
    "function": Field("text", one_of=FUNCTIONS),
    "max_field": Field("text"),
    "min_field": Field("text"),
    "max_profile": Field("text"),
    "min_profile": Field("text"),
}

BOUNDS = ("min", "max", "function", "max_field", "min_field", "max_profile", "min_profile")
"""The keys of a limit that give one of its ends."""

CHECK = {
    "key": _SLUG,
    "say": Field("slug"),
    "text": _TEXT,
    "class": Field("text", required=True, one_of=CLASSES),
    "each": _TEXT,
    "where": Field("any"),
    "vehicle": Field("any"),
    "before": _SLUG,
    "how": Field("text", required=True, one_of=HOWS),
    "limit": Field("table", fields=LIMIT),
    "watches": Field("texts"),
    "waive": _YESNO,
    "lapse": Field("text", one_of=("weather", "walk")),
    "missed": _TEXT,
    "basis": Field("text", required=True, one_of=("common practice", "standard")),
    "standard": Field("text"),
    "memory": _YESNO,
    "trade": Field("texts"),
    "caution": Field("text"),
}

TEMPLATE: Shape = {
    "phase": Table(PHASE, many=False, required=True),
    "holdpoint": Table(HOLDPOINT),
    "task": Table(TASK),
    "check": Table(CHECK),
}
