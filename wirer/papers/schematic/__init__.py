"""The whole schematic of a circuit: what is drawn and where, in steps of a grid, free of Qt."""
