"""View models: plain values that the screen draws and ``--json`` prints, so they can't disagree."""
