"""How big: one module a helper, its tables as TOML beside it, one result type, one input spec.

Everything here is a pure function of SI floats with the unit in the name. A helper refuses what
lies outside its sources' range, works by the strictest rule of the rule set asked for, shows what
other rule sets say beside it, and names every source. ``spec.HELPERS`` lists the helpers.
"""
