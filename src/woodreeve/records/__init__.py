"""Records: the one place where diary and holdings are kept, in a file of the owner's or in PostgreSQL."""
