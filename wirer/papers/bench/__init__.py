"""What the papers for the bench say: lists, readings, the player's card, cautions; free of Qt."""
