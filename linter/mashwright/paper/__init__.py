"""From paper to recipe: a new recipe to fill in, and a page of plain text read into format 1."""
