"""What holds the package to its word. A package itself, so that no other one called `tests` is taken for it."""
