"""The reference tables, and looking a name up in them."""
