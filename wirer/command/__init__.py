"""The command line: the face of the program that scripts and terminals see."""
