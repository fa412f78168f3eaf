"""Cutting plans: pieces from bars, spools and boards of whole lengths."""

from tracker.plan.cutting.plan import DEFAULT_EFFORT, cut_plan
from tracker.plan.cutting.result import Cut, CutPlan

__all__ = ["DEFAULT_EFFORT", "Cut", "CutPlan", "cut_plan"]
