"""What acts say, in words: one file a group of nouns."""
