"""A real process that writes acts: it prints the id of each one once it is acknowledged.

Run as ``python -m tests.journal.child FOLDER MEMORY PREFIX COUNT FACTS SIZE [LIMIT]``.
"""

from __future__ import annotations

import random
import resource
import sys
import time
from pathlib import Path

from tests.journal.desk import AT, BUILD
from tracker.errors import NotSaved
from tracker.journal import Journal, Memory


def main() -> None:
    folder, memory, prefix, count, facts, size, *limit = sys.argv[1:]
    rng = random.SystemRandom()
    journal = Journal(
        Path(folder),
        BUILD,
        memory=Memory(Path(memory)),
        new_writer=lambda: prefix + "".join(rng.choices("abcdefgh234567", k=8 - len(prefix))),
    )
    say("ready")
    sys.stdin.readline()
    if limit:
        resource.setrlimit(resource.RLIMIT_FSIZE, (int(limit[0]), resource.RLIM_INFINITY))
    for number in range(int(count)):
        act = [
            {"f": "note.written", "text": f"{prefix}:{number}", "n": n, "pad": "x" * int(size)}
            for n in range(int(facts))
        ]
        now = time.time_ns() // 1_000_000
        say(f"begin {number}")
        try:
            with journal.writing(now) as pen:
                said = pen.append(act, at=AT, by=prefix, now_ms=now).id
        except NotSaved as error:
            say(f"refused {error}")
            resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY,) * 2)
            continue
        say(f"saved {number} {said}")


def say(line: str) -> None:
    print(line, flush=True)


if __name__ == "__main__":
    main()
