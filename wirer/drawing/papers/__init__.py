"""How the papers for the bench look: a small typesetting kit in mm, and a file for each sheet."""
