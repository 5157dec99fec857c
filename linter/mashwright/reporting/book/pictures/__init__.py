"""The pictures of the book: pure functions of plain values, each with its title and description."""
