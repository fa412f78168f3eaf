"""What to do: worked out from the state of a build. Pure."""
