"""The window: a circuit to look at and to operate, with its table and findings beside it."""
