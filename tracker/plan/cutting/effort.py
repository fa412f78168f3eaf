"""Effort as a number of steps, so that the same pieces give the same plan on every machine."""

from __future__ import annotations


class Effort:
    """Steps that may still be taken.

    Parameters
    ----------
    steps: how many; 0 or less means none.
    """

    __slots__ = ("left",)

    def __init__(self, steps: int) -> None:
        self.left = steps

    def spend(self, steps: int) -> bool:
        """Take so many steps and say whether there were any to take."""
        if self.left <= 0:
            return False
        self.left -= steps
        return True

    def share(self, part: int, whole: int) -> Effort:
        """A purse of its own, ``part`` of ``whole`` of what is there; give it back when done."""
        purse = Effort(max(0, self.left) * part // whole)
        self.left -= purse.left
        return purse

    def give_back(self, purse: Effort) -> None:
        """Take back what a share did not need; what it overdrew is paid from here."""
        self.left += purse.left
        purse.left = 0
