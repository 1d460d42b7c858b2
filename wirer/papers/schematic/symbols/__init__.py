"""The symbols that a schematic is composed of: what each takes up, where its pins lead out."""
