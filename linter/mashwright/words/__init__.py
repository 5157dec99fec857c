"""What reads a brewer's free text: names, style, notes, source, and the words for when a thing goes in."""
