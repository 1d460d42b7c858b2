"""What is wrong with a circuit: one function a rule, in files by family."""
