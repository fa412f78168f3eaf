"""Facts about items and phases, in words."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.act import Fact
from tracker.app.views.words.counting import counted, ranges
from tracker.app.views.words.sizing import sized_words
from tracker.app.views.words.speaker import Speaker, why
from tracker.build.item import VEHICLE
from tracker.build.kinds import kinds

SEVERAL = {
    "box": "boxes",
    "duty": "duties",
    "no-fill cavity": "no-fill cavities",
    "person": "people",
    "tool on loan": "tools on loan",
}
"""What several are called where that is not the title of their kind and an s."""


def added(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What is new."""
    kind = group[0]["kind"]
    title = kinds()[kind].title if kind in kinds() else kind
    if kind == VEHICLE:
        said = speaker.values(kind, group[0]["fields"])
        return "began the build" + (f": {said}" if said else "")
    slugs = ranges([fact["slug"] for fact in group])
    if len(group) > 1:
        return f"added {len(group)} {SEVERAL.get(title, title + 's')}: {slugs}"
    if kind == "blocker":
        fields = dict(group[0]["fields"])
        text = fields.pop("title", "")
        said = speaker.values(kind, fields)
        return f"stuck, {slugs}: {text}" + (f" ({said})" if said else "")
    said = speaker.values(kind, group[0]["fields"])
    return f"added {title} {slugs}" + (f": {said}" if said else "")


def set_fields(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What is known of an item now."""
    fact = group[0]
    item = speaker.build.items.get(fact["id"])
    kind = item.kind if item is not None else ""
    values = dict(fact["set"])
    renamed = values.pop("slug", None)
    parts = [f"is called {renamed} now"] if renamed else []
    if kind == "blocker" and values.get("cleared"):
        parts.append(f"cleared on {values.pop('cleared')}")
    if kind == "holdpoint":
        for name in [name for name in values if name.split("@")[0] == "booked"]:
            parts.append(_booked(speaker, name, values.pop(name)))
    sized = sized_words(values.pop("sized", None))
    if values:
        parts.append(speaker.values(kind, values))
    if sized:
        parts.append(f"sized {sized}")
    reason = f" (because {fact['why']})" if fact.get("why") else ""
    return f"{speaker.name(fact['id'])}: {'; '.join(parts)}{reason}"


def _booked(speaker: Speaker, name: str, day: str | None) -> str:
    zone = name.partition("@")[2]
    where = f" in {speaker.name(zone)}" if zone else ""
    return f"booked{where} for {day}" if day else f"booking{where} dropped"


def removed(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What is no longer part of the build, and why."""
    return f"removed {speaker.known_as(fact['id'] for fact in group)}{why(group[0])}"


def renewed(speaker: Speaker, group: Sequence[Fact]) -> str:
    """What a newer template changed; its texts are long, so the fields alone are told."""
    fact = group[0]
    changed = ", ".join(str(name).replace("_", " ") for name in fact["set"])
    return f"{speaker.name(fact['id'])}: {changed} as the newer template has it"


def adopted(speaker: Speaker, group: Sequence[Fact]) -> str:
    """A phase taken up whole."""
    fact = group[0]
    found = {"task": 0, "check": 0, "holdpoint": 0}
    for row in fact["items"]:
        found[row["kind"]] = found.get(row["kind"], 0) + 1
    told = (("task", "task"), ("check", "check"), ("holdpoint", "hold point"))
    counts = ", ".join(counted(found[kind], noun) for kind, noun in told)
    return f"adopted the phase {fact['phase']['slug']}: {counts}"
