"""Draft, check, predict and solder the wiring of electric guitars and basses."""

__version__ = "0.1.0"
