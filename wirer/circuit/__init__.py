"""The circuit as a value: parts with lugs, and wires between lugs."""
