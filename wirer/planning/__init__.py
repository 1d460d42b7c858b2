"""Planning: wiring that is worked out by itself."""
