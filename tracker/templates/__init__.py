"""Phase templates: TOML files that people can read and write, loaded strictly."""
