"""Pictures of a circuit, painted with Qt: parts, wires, schematics, papers. No widgets."""
