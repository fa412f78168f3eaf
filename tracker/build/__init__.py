"""What a build is: items, answers, hold points, stock, work. Pure: acts in, state out."""
