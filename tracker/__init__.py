"""closein: a build log and checklist tracker keyed to the phases of a vehicle conversion.

The package imports nothing here, so that a command pays only for what it uses.
"""
