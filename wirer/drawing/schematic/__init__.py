"""Schematics by schemdraw's symbols, placed by the program and painted by Qt."""
