"""The invented demo build."""
