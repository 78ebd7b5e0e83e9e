"""What is shown to the cook and to others: pictures and pages, drawn by ourselves; nothing is decided here."""
