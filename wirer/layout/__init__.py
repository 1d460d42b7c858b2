"""Where a circuit lies: transforms, outlines, routes, labels and how well they are drawn."""
