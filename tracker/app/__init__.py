"""One session on one build: opens it, does what people want, shows it through view models."""
