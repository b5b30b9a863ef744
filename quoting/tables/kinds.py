"""The kinds of files that are read, by their endings."""

BOOKS = frozenset((".xlsx", ".xlsm", ".xls", ".ods"))
TEXTS = frozenset((".csv", ".tsv", ".txt"))
PAGES = frozenset((".pdf",))
MAILS = frozenset((".eml", ".msg"))
