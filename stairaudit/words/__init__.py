"""Every word that a person reads, made once; the writers of documents only place them."""
