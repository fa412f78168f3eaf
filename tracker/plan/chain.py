"""How the open tasks of a build hang together, and how much work hangs on each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tracker.build.coverage import Coverage
from tracker.build.item import Item
from tracker.build.work import NOT_BEGUN
from tracker.plan.usual import UNSTATED


class Chains:
    """The open tasks, what comes before and after each, and the work still in them.

    What a task needs from a phase that this build has not taken up holds nothing: it is not here.

    Parameters
    ----------
    cover: the build.
    """

    def __init__(self, cover: Coverage) -> None:
        build = cover.build
        self.cover = cover
        length = cover.vehicle.get("length_m") if cover.vehicle else None
        self.length_m = float(length or 0.0)
        self.tasks: dict[str, Item] = {
            task.id: task
            for task in cover.by_kind.get("task", [])
            if not build.work.get(task.id, NOT_BEGUN).done
        }
        self.before: dict[str, tuple[str, ...]] = {
            name: tuple(need for need in cover.needs(task) if need in self.tasks)
            for name, task in self.tasks.items()
        }
        self.after: dict[str, list[str]] = {name: [] for name in self.tasks}
        for name, needs in self.before.items():
            for need in needs:
                self.after[need].append(name)
        self.hours = {name: self._hours(task) for name, task in self.tasks.items()}
        self.crew = {name: max(1, int(task.get("crew", 1))) for name, task in self.tasks.items()}
        self.crew_hours = {name: self.hours[name] * self.crew[name] for name in self.tasks}
        self.order = self._in_order()

    def _hours(self, task: Item) -> float:
        """Elapsed hours likely still in a task, with its stated crew."""
        stated = task.get("hours")
        base, per_metre = stated["likely"] if stated else (UNSTATED.likely, 0.0)
        done = self.cover.build.work.get(task.id, NOT_BEGUN).fraction
        return float((base + per_metre * self.length_m) * (1.0 - done))

    def _in_order(self) -> list[str]:
        """The tasks so that each comes after what it needs; those in a circle are left out."""
        waits = {name: len(set(needs)) for name, needs in self.before.items()}
        ready = [name for name, count in waits.items() if not count]
        for name in ready:
            for follower in self.after[name]:
                waits[follower] -= 1
                if not waits[follower]:
                    ready.append(follower)
        return ready

    def behind(self, closing: str | None) -> set[str]:
        """The open tasks that come before one, however far, and itself."""
        return self._spread([closing] if closing in self.before else [], self.before)

    def downstream(self, names: Iterable[str]) -> set[str]:
        """Some tasks and all that wait for them, however far."""
        return self._spread([name for name in names if name in self.tasks], self.after)

    @staticmethod
    def _spread(start: Iterable[str | None], to: Mapping[str, Iterable[str]]) -> set[str]:
        found = {name for name in start if name is not None}
        queue = list(found)
        while queue:
            for name in to[queue.pop()]:
                if name not in found:
                    found.add(name)
                    queue.append(name)
        return found

    def chain(self, weight: Mapping[str, float], among: set[str] | None = None) -> dict[str, float]:
        """For each task the heaviest chain that begins with it.

        Parameters
        ----------
        weight: of each task, such as its crew-hours.
        among: only chains within these count; a task outside has 0.
        """
        heaviest: dict[str, float] = dict.fromkeys(self.tasks, 0.0)
        for name in reversed(self.order):
            if among is None or name in among:
                rest = max((heaviest[follower] for follower in self.after[name]), default=0.0)
                heaviest[name] = weight[name] + rest
        return heaviest

    def late_start(self) -> dict[str, float]:
        """When each task must begin at the latest, in hours from now, were hands no matter.

        The end is that of the longest chain. Cures count as hours: this ranks, it dates nothing.
        """
        weight = {
            name: self.hours[name] + float(task.get("cure_h", 0.0))
            for name, task in self.tasks.items()
        }
        tails = self.chain(weight)
        end = max(tails.values(), default=0.0)
        return {name: end - tail for name, tail in tails.items()}


class Reach:
    """How much work hangs on tasks, for many sets of them: each set of tasks is one number.

    A task is a bit; what waits for it, however far, are the bits of its mask. Work is counted in
    thousandths of a crew-hour, one mask for each binary digit of a task's figure.

    Parameters
    ----------
    chains: the open tasks.
    """

    def __init__(self, chains: Chains) -> None:
        self.bit = {name: 1 << number for number, name in enumerate(chains.tasks)}
        self.mask: dict[str, int] = {}
        for name in reversed(chains.order):
            found = self.bit[name]
            for follower in chains.after[name]:
                found |= self.mask.get(follower) or self.of(chains.downstream([follower]))
            self.mask[name] = found
        for name in chains.tasks:
            if name not in self.mask:  # in a circle, or behind one
                self.mask[name] = self.of(chains.downstream([name]))
        self.digits: list[int] = []
        for name, hours in chains.crew_hours.items():
            figure = round(hours * 1000)
            for place in range(figure.bit_length()):
                if place == len(self.digits):
                    self.digits.append(0)
                if figure >> place & 1:
                    self.digits[place] |= self.bit[name]

    def of(self, names: Iterable[str]) -> int:
        """A set of tasks as a number."""
        found = 0
        for name in names:
            found |= self.bit.get(name, 0)
        return found

    def behind(self, names: Iterable[str]) -> int:
        """Some tasks and all that wait for them, as a number."""
        found = 0
        for name in names:
            found |= self.mask.get(name, 0)
        return found

    def crew_hours(self, tasks: int) -> float:
        """What is still to do of a set of tasks [crew-hours]."""
        digits = enumerate(self.digits)
        return sum((tasks & mask).bit_count() << place for place, mask in digits) / 1000
