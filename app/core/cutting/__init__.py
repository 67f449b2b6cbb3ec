"""From blanks and stock to a cutting plan."""
