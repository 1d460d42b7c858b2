"""What a builder takes along: the table and the findings as text, later the sheets."""
