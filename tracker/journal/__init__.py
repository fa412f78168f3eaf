"""Bytes and acts: one append-only file a writer, one act a line. Knows nothing of builds."""

from tracker.journal.disk import Disk, RealDisk
from tracker.journal.memory import Memory
from tracker.journal.pen import Pen
from tracker.journal.report import Fault, Reading
from tracker.journal.store import Journal, verify

__all__ = ["Disk", "Fault", "Journal", "Memory", "Pen", "Reading", "RealDisk", "verify"]
