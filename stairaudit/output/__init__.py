"""The writers of documents: they place the words of a view, and make none."""
