"""What a circuit does: its nets, combinations, weights, hum, response and meter readings."""
