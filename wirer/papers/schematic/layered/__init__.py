"""Laying out any graph in layers: it knows nodes with ports and nets, and nothing of circuits."""
