"""Which common slips would give the lenses that were read, and what tells them apart."""
