"""Tables as spreadsheet files."""
