"""The science: pure functions on plain numbers. No files, no recipe, no rule."""
